"""The clock as found and the days before in, depletion on the first morning out."""

import datetime as dt
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding
from scheduler.root_zone.balance import run_balance
from scheduler.root_zone.storage import Storage
from scheduler.site import WEEKDAYS, AsFound, Zone
from scheduler.trace import Trace, entered


@dataclass(frozen=True, slots=True, eq=False)
class DaysBehind:
    """What came before the week.

    Attributes
    ----------
    dates : tuple of date
        Days before the first one, ascending.
    etc_mm_per_day, rain_mm : array of shape (n_days,)
        Unstressed use on the bed, and rain. [mm]
    share : array of shape (n_positions,)
        Catch at each position over the mean catch. [-]
    """

    dates: tuple[dt.date, ...]
    etc_mm_per_day: FloatArray
    rain_mm: FloatArray
    share: FloatArray
    net_rate_mm_per_h: float


def start_depletion(
    zone: Zone, storage: Storage | None, behind: DaysBehind | None
) -> tuple[FloatArray, Trace, tuple[Finding, ...]]:
    """Depletion on the morning of the first day, and how it was come by.

    Parameters
    ----------
    zone : Zone
        For what was entered, and for the clock as found.
    storage : Storage or None
        What the root zone holds; None keeps no balance.
    behind : DaysBehind or None
        The days before, where weather and catch are known.

    Returns
    -------
    depletion_mm : array of shape (n_positions,) or (1,)
        Depletion at each position, after the night before. [mm]
    trace : Trace
        Mean depletion and its origin.
    findings : tuple of Finding
        A note when it is assumed.

    Notes
    -----
    As entered; else the balance of the days before, watered as the clock was found and
    starting full; else half of the allowed depletion, said so.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8.

    Examples
    --------
    >>> from scheduler.site import Plant
    >>> zone = Zone(id="Z1", name="bay", area_m2=100.0, grown_in="soil",
    ...             plant=Plant(name="oaks", kc=0.8, kc_area="bed"))
    >>> store = Storage(40.0, 18.0, entered("allowed_depletion_mm", 18.0))
    >>> start_depletion(zone, store, None)[0].tolist()
    [9.0]
    """
    if storage is None:
        return frozen([0.0]), entered("start_depletion_mm", None, "no balance"), ()
    if zone.start_depletion_mm is not None:
        given = min(zone.start_depletion_mm, storage.total_mm)
        trace = entered("start_depletion_mm", given, "zones.toml")
        return frozen([given]), trace, ()
    if zone.as_found is None or behind is None:
        return _half(zone, storage)
    counted = 1.0 if zone.rain_counted is None else zone.rain_counted
    depletion = _as_found(zone.as_found, behind, storage, counted)
    trace = Trace(
        "start_depletion_mm",
        float(depletion.mean()),
        f"balance of the {len(behind.dates)} days before, watered as the clock was "
        "found",
        "FAO-56 (1998) ch. 8",
        (entered("as_found_min", zone.as_found.minutes, "zones.toml"),),
        "mean over the catch positions",
    )
    return depletion, trace, ()


def _half(
    zone: Zone, storage: Storage
) -> tuple[FloatArray, Trace, tuple[Finding, ...]]:
    half = storage.allowed_mm / 2
    note = "no watering record: it starts at half of the allowed depletion"
    fix = "give [zone.as_found], or start_depletion_in, in zones.toml"
    said = Finding("note", f"zone {zone.id}: start_depletion", note, fix)
    trace = Trace("start_depletion_mm", half, note, "assumed", (), fix)
    return frozen([half]), trace, (said,)


def _as_found(
    clock: AsFound, behind: DaysBehind, storage: Storage, rain_share: float
) -> FloatArray:
    """Depletion by position after the days behind under the clock's old setting."""
    gross = behind.net_rate_mm_per_h * clock.minutes * clock.cycles / 60
    nights = np.array([WEEKDAYS[day.weekday()] in clock.days for day in behind.dates])
    watering = np.outer(nights, behind.share * gross)
    full = np.zeros(behind.share.size)
    run = run_balance(
        full,
        etc_mm_per_day=behind.etc_mm_per_day,
        rain_mm=behind.rain_mm * rain_share,
        # night d waters the morning of day d + 1
        watering_mm=np.vstack([full, watering[:-1]]),
        storage=storage,
    )
    return frozen(np.maximum(run.depletion_mm[-1] - watering[-1], 0.0))
