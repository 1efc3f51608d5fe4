"""One zone's planned week in; the rain that makes each of its waterings needless out.

"If it rains more than this tonight, skip tonight's watering." Each night stands by
itself: the clock runs all others as it is set, and no other rain falls. After a skip
the gauge reading goes into rain.csv, and the week is planned again.
"""

import datetime as dt
import math
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.root_zone.rain import agrilife_event_for_mm
from scheduler.trace import Trace, entered
from scheduler.units import MM_PER_INCH, System
from scheduler.watering.zone_week import ZoneWeek, ZoneWeekInput, most_waiting_mm

# What a gauge at the clock is read to (common practice, no source).
STEP_MM: dict[System, float] = {"metric": 1.0, "us": 0.05 * MM_PER_INCH}
ROUND_OFF = 1e-9


@dataclass(frozen=True, slots=True)
class RainSkip:
    """One night of the week and the rain above which it is skipped.

    Attributes
    ----------
    night : int
        The night, counted from 0.
    date : date or None
        The evening on which it begins.
    rain_mm : float
        Least rain of that night that makes its watering needless. [mm]
    trace : Trace
        How it was come by.
    """

    night: int
    date: dt.date | None
    rain_mm: float
    trace: Trace

    def at_gauge_mm(self, system: System) -> float:
        """The same, up to the next mark of a gauge: 1 mm or 0.05 in. [mm]."""
        step = STEP_MM[system]
        return math.ceil(self.rain_mm / step - ROUND_OFF) * step


def rain_skips(inputs: ZoneWeekInput, week: ZoneWeek) -> tuple[RainSkip, ...]:
    """Rain that makes each planned watering needless at the served position.

    Parameters
    ----------
    inputs : ZoneWeekInput
        What the week was planned on.
    week : ZoneWeek
        The planned week.

    Returns
    -------
    tuple of RainSkip
        One a watering, in order. A night is left out where no rain would do: under
        cover, beyond what the rain rule counts of one event, for fixed minutes; and
        where it waters nothing that is lacking.

    Notes
    -----
    With a balance: the depletion of that evening less the one with which the zone could
    wait for the next night on which the clock waters it, and no more than the depletion
    itself, for rain that fills the root zone does what the watering does. Without one:
    the night's part of the week's need. Then by the zone's rain rule back to rain in
    the gauge: over `rain_counted`, or the event rule backwards. Rain falls alike on all
    positions, so the served one, drier than the mean, decides.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8 (balance, allowed depletion).

    Examples
    --------
    >>> import numpy as np
    >>> from scheduler.root_zone.intake import intake_model
    >>> from scheduler.site import Plant, Zone
    >>> from scheduler.watering.zone_week import zone_week
    >>> yard = Zone(id="Z4", name="yard", area_m2=900.0, grown_in="pots",
    ...             plant=Plant(name="holly", kc=1.0, kc_area="bed"),
    ...             rule="average", rain_counted=0.5)
    >>> inputs = ZoneWeekInput(
    ...     yard, np.ones(24), 12.0, 1.0, 1.0, np.full(7, 4.0), np.zeros(7), None, 0.0,
    ...     np.ones(7, dtype=bool), intake_model(yard)[0], "nearest", None)
    >>> none = entered("any", 0.0)
    >>> week = zone_week(inputs, rate_trace=none, du_trace=none, etc_trace=none)
    >>> [one.rain_mm for one in rain_skips(inputs, week)][:2]
    [8.0, 8.0]
    """
    found = []
    for night, lacking in zip(week.day_index, week.night_need_mm, strict=False):
        waiting = most_waiting_mm(inputs, night, week.day_index)
        wanted = max(lacking - waiting, 0.0)
        rain = _in_the_gauge_mm(inputs, wanted)
        if wanted > 0 and math.isfinite(rain):
            date = inputs.dates[night] if inputs.dates else None
            trace = _trace(inputs, week, date or night + 1, (lacking, wanted, rain))
            found.append(RainSkip(night, date, rain, trace))
    return tuple(found)


def skips_trace(skips: tuple[RainSkip, ...]) -> Trace:
    """The night that needs the least rain, resting on all of them.

    Parameters
    ----------
    skips : tuple of RainSkip
        As `rain_skips` gives them.

    Returns
    -------
    Trace
        `skip_rain_mm`; its value is None where no rain makes a watering needless.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> skips_trace(()).value is None
    True
    """
    least = min((one.rain_mm for one in skips), default=None)
    return Trace(
        "skip_rain_mm",
        least,
        "least over the nights; each night by itself, the others run as planned",
        "definition",
        tuple(one.trace for one in skips),
        "" if skips else "no rain makes a planned watering needless",
    )


def skip_findings(
    inputs: ZoneWeekInput, skips: tuple[RainSkip, ...]
) -> tuple[Finding, ...]:
    """What the amounts take for granted.

    Parameters
    ----------
    inputs : ZoneWeekInput
        What the week was planned on.
    skips : tuple of RainSkip
        As `rain_skips` gives them.

    Returns
    -------
    tuple of Finding
        A note where nobody said which part of rain gets into pots.

    References
    ----------
    Source: common practice, no source: leaves of potted plants shed part of the rain.

    Examples
    --------
    >>> skip_findings(None, ())
    ()
    """
    if not skips or inputs.zone.grown_in != "pots":
        return ()
    if inputs.zone.rain_counted is not None or inputs.storage is None:
        return ()  # without a balance the event rule has been said already
    return (
        Finding(
            "note",
            f"{inputs.where}: rain_counted",
            "not entered: all rain is taken to get into the pots as watering does, in "
            "the balance and in the rain above which a watering is skipped",
            "compare a pot with the gauge after rain and enter the part that counts; "
            "leaves shed rain, and a pot catches by its own top",
        ),
    )


def _in_the_gauge_mm(inputs: ZoneWeekInput, at_roots_mm: float) -> float:
    """Rain of one night of which that much reaches the roots or the pot."""
    counted = inputs.zone.rain_counted
    if counted is None and inputs.storage is None:
        return float(agrilife_event_for_mm(at_roots_mm))
    share = 1.0 if counted is None else counted
    return at_roots_mm / share if share > 0 else math.inf


def _trace(
    inputs: ZoneWeekInput,
    week: ZoneWeek,
    night: dt.date | int,
    parts: tuple[float, float, float],
) -> Trace:
    lacking, wanted, rain = parts
    need, source = week.traces["need_mm"], "FAO-56 (1998) ch. 8"
    what = "depletion of that evening at the position that the rule serves"
    if inputs.storage is None:
        what, source = "the night's part of need_mm", "definition"
    below = [Trace(f"lacking_mm[{night}]", lacking, what, source, (need,))]
    formula = "lacking_mm"
    if wanted < lacking:
        until = "depletion with which it lasts until the clock waters again"
        waits = f"may_wait_mm[{night}]"
        below.append(Trace(waits, lacking - wanted, until, source, (need,)))
        formula = "lacking_mm - may_wait_mm"
    counted = inputs.zone.rain_counted
    if counted is not None:
        below.append(entered("rain_counted", counted, "zones.toml"))
        formula = f"({formula}) / rain_counted"
    elif inputs.storage is None:
        formula += " by the event rule of Texas A&M AgriLife, backwards"
    return Trace(f"skip_rain_mm[{night}]", rain, formula, source, tuple(below))
