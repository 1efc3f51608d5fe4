"""One week's input and a factor in, the nights that water and their need out."""

import math
from dataclasses import dataclass, field

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.root_zone.balance import balance_day
from scheduler.root_zone.rain import agrilife_event_rain_mm
from scheduler.root_zone.storage import Storage
from scheduler.watering.zone_week.inputs import ZoneWeekInput, depth_text

# Further ahead than this nobody can tell (common practice, no source).
FAR_DAYS = 60


@dataclass(frozen=True, slots=True)
class Demand:
    """Which nights water, and the depth that they must store together."""

    nights: tuple[int, ...]
    need_mm: float
    rain_mm: float | None = None  # None: the balance says what rain was stored
    rain_formula: str = "rain that found room at the mean position of the balance"
    rain_source: str = "FAO-56 (1998) ch. 8"
    # what each night stores at the served position, in the order of the nights
    depth_mm: tuple[float, ...] = ()
    findings: list[Finding] = field(default_factory=list)


def no_factor(inputs: ZoneWeekInput) -> Demand:
    """No night at all, because the served positions caught nothing."""
    rule = inputs.zone.chosen_rule
    said = Finding(
        "stop",
        f"{inputs.where}: rule",
        f"the positions that the rule {rule!r} serves caught nothing: no number of "
        "minutes is enough",
        "repair the dry part and test again, or choose another rule",
    )
    return Demand((), 0.0, 0.0, findings=[said])


def replaced_use(inputs: ZoneWeekInput) -> Demand:
    """Week's use less counted rain, spread over all allowed nights."""
    said: list[Finding] = []
    if inputs.zone.rain_counted is not None:
        rain = float(inputs.rain_at_roots_mm.sum())
        formula, source = (
            f"rain x {inputs.zone.rain_counted:g}",
            "rain_counted, entered",
        )
    else:
        rain = float(agrilife_event_rain_mm(inputs.rain_mm).sum())
        formula = "each day: first 0.1 in lost, then all to 1 in, two thirds to 2 in"
        source = "Texas A&M AgriLife event rule"
        if inputs.rain_mm.sum() > 0:
            said.append(_rain_note(inputs))
    use = float(inputs.etc_mm_per_day.sum())
    rain = min(rain, use)
    nights = inputs.allowed_nights if use > rain else ()
    if use > rain and not nights:
        said.append(no_night(inputs))
    each = ((use - rain) / len(nights),) * len(nights) if nights else ()
    return Demand(nights, use - rain, rain, formula, source, each, said)


def _rain_note(inputs: ZoneWeekInput) -> Finding:
    return Finding(
        "note",
        f"{inputs.where}: rain_counted",
        "not entered: rain is counted by the event rule of Texas A&M AgriLife",
        "enter the part of rain that counts, 0 under cover; leaves of potted plants "
        "shed part of it",
    )


def no_night(inputs: ZoneWeekInput) -> Finding:
    """Say that the zone's days and the windows share no night."""
    return Finding(
        "stop",
        f"{inputs.where}: days",
        "no night is allowed: the zone's days and the windows share none",
        "allow at least one of the window's days in zones.toml",
    )


def refills(inputs: ZoneWeekInput, storage: Storage, factor: float) -> Demand:
    """Nights that are due at the served position, each filling it."""
    rain = inputs.rain_at_roots_mm
    depletion, watered = inputs.start_at_mm(1 / factor), 0.0
    nights, need = [], 0.0
    stored = np.zeros(inputs.etc_mm_per_day.size)
    for d in range(inputs.etc_mm_per_day.size):
        depletion = _next_depletion(
            depletion, inputs.etc_mm_per_day[d], rain[d], watered, storage
        )
        watered = 0.0
        if _waters(inputs, rain, depletion, d):
            watered = stored[d] = depletion
            nights.append(d)
            need += depletion
    if inputs.zone.watered == "every allowed day" and need > 0:
        nights = list(inputs.allowed_nights)
    demand = Demand(tuple(nights), need, depth_mm=tuple(stored[nights].tolist()))
    if not inputs.allowed_day.any():
        demand.findings.append(no_night(inputs))
    elif not nights:
        demand.findings.append(_not_due(inputs, storage, depletion))
    return demand


def _next_depletion(
    depletion: float, etc_mm: float, rain_mm: float, watering_mm: float, store: Storage
) -> float:
    day = balance_day(
        depletion,
        etc_mm=etc_mm,
        rain_mm=rain_mm,
        watering_mm=watering_mm,
        storage=store,
    )
    return float(day.depletion_mm)


def _waters(inputs: ZoneWeekInput, rain: FloatArray, depletion: float, d: int) -> bool:
    """Whether a night waters: one that was chosen, else one that is due."""
    if inputs.chosen_nights is not None:
        return d in inputs.chosen_nights
    is_open = bool(inputs.allowed_day[d]) and depletion > 0
    return is_open and _is_due(inputs, rain, depletion, d)


def _is_due(inputs: ZoneWeekInput, rain: FloatArray, depletion: float, d: int) -> bool:
    """Whether waiting for the next allowed night would pass the allowed depletion."""
    if inputs.zone.watered == "every allowed day":
        return True
    assert inputs.storage is not None, "the caller keeps a balance"
    etc = inputs.etc_mm_per_day
    n_days, use = etc.size, float(etc.mean())
    for ahead in range(d + 1, _next_allowed(inputs, d) + 1):
        is_known = ahead < n_days
        used = float(etc[ahead]) if is_known else use
        fell = float(rain[ahead]) if is_known else 0.0
        depletion = _next_depletion(depletion, used, fell, 0.0, inputs.storage)
        if depletion > inputs.storage.allowed_mm:
            return True
    return False


def most_waiting_mm(inputs: ZoneWeekInput, d: int, nights: tuple[int, ...]) -> float:
    """Largest depletion on the evening of night d with which that night can be skipped.

    Parameters
    ----------
    inputs : ZoneWeekInput
        What the week was planned on.
    d : int
        A night that waters, counted from 0.
    nights : tuple of int
        All nights that the clock is told to water.

    Returns
    -------
    float
        Without water on that night, the allowed depletion is not passed before the
        next night that the clock waters, or the first one allowed next week. 0 where
        only a full root zone lasts so long, and where every allowed night waters. [mm]

    Notes
    -----
    `_is_due` backwards, for the clock as it is set: it waters no sooner because a night
    was skipped. Below the allowed depletion there is no stress.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8.
    """
    if inputs.storage is None or inputs.zone.watered == "every allowed day":
        return 0.0
    etc, allowed = inputs.etc_mm_per_day, inputs.storage.allowed_mm
    rain, n_days = inputs.rain_at_roots_mm, inputs.etc_mm_per_day.size
    next_week = n_days + inputs.allowed_nights[0]
    until = next((night for night in nights if night > d), next_week)
    most = allowed
    for day in range(until, d, -1):
        is_known = day < n_days
        early = min(most, allowed) - float(etc[day] if is_known else etc.mean())
        if early < 0:
            return 0.0
        most = early + (float(rain[day]) if is_known else 0.0)
    return most


def _next_allowed(inputs: ZoneWeekInput, d: int) -> int:
    """The allowed night after d; within a week there is one, d itself is allowed."""
    n_days = inputs.etc_mm_per_day.size
    return next(
        n for n in range(d + 1, d + n_days + 1) if inputs.allowed_day[n % n_days]
    )


def _not_due(inputs: ZoneWeekInput, storage: Storage, depletion: float) -> Finding:
    left, use = storage.allowed_mm - depletion, float(inputs.etc_mm_per_day.mean())
    when = ""
    if use * FAR_DAYS > left:
        days = max(math.floor(left / use), 0)
        when = f"; without rain, about {days} days after it at this week's use"
    return Finding(
        "note",
        f"{inputs.where}: nights",
        f"not due this week: {depth_text(depletion)} of the allowed "
        f"{depth_text(storage.allowed_mm)} are used when it ends{when}",
        "nothing to do; to water anyway, set watered = 'every allowed day'",
    )
