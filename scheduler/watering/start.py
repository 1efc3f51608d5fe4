"""What the clock holds and the days before in, depletion on the first morning out."""

import datetime as dt
from collections import Counter
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding
from scheduler.field.guess import ZoneCatch
from scheduler.issued import IssuedWeek
from scheduler.need.outlook import GAUGE, MEASURED, STATION, UNKNOWN, Outlook
from scheduler.need.zone_use import ZoneUse
from scheduler.root_zone.balance import run_balance
from scheduler.root_zone.storage import Storage
from scheduler.site import WEEKDAYS, Site, Zone
from scheduler.trace import Trace, entered
from scheduler.watering.clock import FULL_PERCENT, as_found_min, newest_issued

# of rain that is not known the week itself speaks, once for all zones
MEASURED_OR_SAID = (GAUGE, STATION, UNKNOWN)


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
    percent_adjust : int
        What the clock makes of the minutes it was found with. [percent]
    issued : tuple of IssuedWeek
        What the clock was told since.
    weather : Outlook or None
        Where the use and the rain came from.
    """

    dates: tuple[dt.date, ...]
    etc_mm_per_day: FloatArray
    rain_mm: FloatArray
    share: FloatArray
    net_rate_mm_per_h: float
    percent_adjust: int = FULL_PERCENT
    issued: tuple[IssuedWeek, ...] = ()
    weather: Outlook | None = None


@dataclass(frozen=True, slots=True, eq=False)
class CourseBehind:
    """What the days behind did at every position.

    Attributes
    ----------
    depletion_mm : array of shape (n_days, n_positions)
        Each evening, before the night's watering. [mm]
    watering_mm : array of shape (n_days, n_positions)
        Of the night that begins on that evening. [mm]
    minutes : array of shape (n_days,)
        What the clock ran. [min]
    told : tuple of str
        Who had set it.
    """

    depletion_mm: FloatArray
    watering_mm: FloatArray
    minutes: FloatArray
    told: tuple[str, ...]


def days_behind(
    site: Site,
    issued: tuple[IssuedWeek, ...],
    weather: Outlook | None,
    *,
    catch: ZoneCatch | None,
    use: ZoneUse | None,
) -> DaysBehind | None:
    """What came before the week, where weather, catch and plants are known.

    Parameters
    ----------
    site : Site
        For what the clock makes of its minutes.
    issued : tuple of IssuedWeek
        What the clock was told.
    weather : Outlook or None
        The days before the week.
    catch : ZoneCatch or None
        Rate and shares of the zone.
    use : ZoneUse or None
        How the zone turns ETo into a depth on its bed.

    Returns
    -------
    DaysBehind or None
        None where one of them is not known.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="UTC")
    >>> days_behind(Site(name="bay", units="us", place=here), (), None, catch=None,
    ...             use=None) is None
    True
    """
    if weather is None or catch is None or use is None:
        return None
    return DaysBehind(
        dates=tuple(weather.date.tolist()),
        etc_mm_per_day=use.etc_mm_per_day(
            weather.eto_mm_per_day, weather.date, weather.rain_mm
        ),
        rain_mm=weather.rain_mm,
        share=catch.share,
        net_rate_mm_per_h=catch.net_rate_mm_per_h,
        percent_adjust=site.controller.percent_adjust,
        issued=issued,
        weather=weather,
    )


def course_behind(
    zone: Zone, storage: Storage, behind: DaysBehind
) -> CourseBehind | None:
    """Depletion of the days behind, starting full, under the clock's settings.

    Parameters
    ----------
    zone : Zone
        For the clock as found.
    storage : Storage
        What the root zone holds.
    behind : DaysBehind
        The days before.

    Returns
    -------
    CourseBehind or None
        None where the setting of some night is not known.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8.

    Examples
    --------
    >>> from scheduler.site import AsFound, Plant
    >>> zone = Zone(id="Z1", name="bay", area_m2=100.0, grown_in="soil",
    ...             plant=Plant(name="oaks", kc=0.8, kc_area="bed"),
    ...             as_found=AsFound(minutes=10.0))
    >>> store = Storage(40.0, 18.0, entered("allowed_depletion_mm", 18.0))
    >>> days = DaysBehind((dt.date(2026, 6, 7),), np.array([4.0]), np.zeros(1),
    ...                   np.ones(2), 12.0)
    >>> course_behind(zone, store, days).depletion_mm.tolist()
    [[4.0, 4.0]]
    """
    minutes, told = _night_minutes(zone, behind)
    if np.isnan(minutes).any():
        return None
    counted = 1.0 if zone.rain_counted is None else zone.rain_counted
    watering = np.outer(minutes, behind.share * behind.net_rate_mm_per_h / 60)
    full = np.zeros(behind.share.size)
    run = run_balance(
        full,
        etc_mm_per_day=behind.etc_mm_per_day,
        rain_mm=behind.rain_mm * counted,
        # night d waters the morning of day d + 1
        watering_mm=np.vstack([full, watering[:-1]]),
        storage=storage,
    )
    return CourseBehind(run.depletion_mm, watering, minutes, told)


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
        What is assumed, and weather that was not measured.

    Notes
    -----
    As entered; else the balance of the days before, starting full, watered as the
    newest issued week told the clock, before that as the clock was found; else half of
    the allowed depletion, said so.

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
    if behind is None:
        fix = "add those days to the weather file, or give start_depletion_in"
        return _half(zone, storage, "the weather of the days before is not known", fix)
    nights = course_behind(zone, storage, behind)
    if nights is None:
        fix = "give [zone.as_found], or start_depletion_in, in zones.toml"
        return _half(zone, storage, "no watering record", fix)
    depletion = frozen(
        np.maximum(nights.depletion_mm[-1] - nights.watering_mm[-1], 0.0)
    )
    trace = Trace(
        "start_depletion_mm",
        float(depletion.mean()),
        f"balance of the {len(behind.dates)} days before, watered as the clock was "
        f"{' and '.join(nights.told)}",
        "FAO-56 (1998) ch. 8",
        (_minutes_trace(nights.minutes, zone, behind), *_weather_traces(behind)),
        "mean over the catch positions",
    )
    return depletion, trace, _not_measured(zone, behind)


def _half(
    zone: Zone, storage: Storage, why: str, fix: str
) -> tuple[FloatArray, Trace, tuple[Finding, ...]]:
    half = storage.allowed_mm / 2
    note = f"{why}: it starts at half of the allowed depletion"
    said = Finding("note", f"zone {zone.id}: start_depletion", note, fix)
    trace = Trace("start_depletion_mm", half, note, "assumed", (), fix)
    return frozen([half]), trace, (said,)


def _night_minutes(
    zone: Zone, behind: DaysBehind
) -> tuple[FloatArray, tuple[str, ...]]:
    """Minutes of each night behind, NaN where no setting is known, and who set them."""
    minutes, told = np.full(len(behind.dates), np.nan), {}
    for i, day in enumerate(behind.dates):
        before = [week for week in behind.issued if week.start <= day]
        newest = newest_issued(zone, before)
        if newest is not None:
            days = {one.weekday() for one in newest[1].days}
            runs, setting = day.weekday() in days, newest[1].minutes_per_day
            told[f"told by {newest[0].name}"] = True
        elif zone.as_found is not None:
            runs = WEEKDAYS[day.weekday()] in zone.as_found.days
            setting = as_found_min(zone, behind.percent_adjust)
            told["found"] = True
        else:
            continue
        minutes[i] = setting if runs else 0.0
    return minutes, tuple(told)


def _minutes_trace(minutes: FloatArray, zone: Zone, behind: DaysBehind) -> Trace:
    below: list[Trace] = []
    if zone.as_found is not None:
        below.append(entered("as_found_min", zone.as_found.minutes, "zones.toml"))
        below.append(entered("as_found_cycles", zone.as_found.cycles, "zones.toml"))
    if behind.percent_adjust != FULL_PERCENT:
        percent = behind.percent_adjust / FULL_PERCENT
        below.append(entered("percent_adjust", percent, "site.toml: controller"))
    return Trace(
        "minutes_before_min",
        float(minutes.sum()),
        f"sum over the {np.count_nonzero(minutes)} nights that ran, of the days before",
        "definition",
        tuple(below),
    )


def _weather_traces(behind: DaysBehind) -> tuple[Trace, ...]:
    """ETo and rain of the days before, under names of their own in the chain."""
    if behind.weather is None:
        return ()
    return (
        replace(behind.weather.trace, name="eto_before_mm"),
        replace(behind.weather.rain_trace, name="rain_before_mm"),
    )


def _not_measured(zone: Zone, behind: DaysBehind) -> tuple[Finding, ...]:
    """Say which weather of the days before is a stand-in."""
    if behind.weather is None:
        return ()
    eto = Counter(one for one in behind.weather.eto_basis if one != MEASURED)
    rain = Counter(
        one for one in behind.weather.rain_basis if one not in MEASURED_OR_SAID
    )
    if not eto and not rain:
        return ()
    parts = [f"ETo from {one} ({n} days)" for one, n in eto.items()]
    parts += [f"rain {one} ({n} days)" for one, n in rain.items()]
    return (
        Finding(
            "note",
            f"zone {zone.id}: start_depletion",
            f"the {len(behind.dates)} days before the week were not all measured: "
            f"{'; '.join(parts)}",
            "add those days to the weather file and to rain.csv, or enter "
            "start_depletion_in",
        ),
    )


def rain_of_week(
    ahead: Outlook, zone: Zone, storage: Storage | None, *, is_last_week: bool
) -> tuple[FloatArray, Trace, tuple[Finding, ...]]:
    """Rain that the week may count: never what the start holds already.

    Parameters
    ----------
    ahead : Outlook
        Weather that stands for the week.
    zone : Zone
        For the finding.
    storage : Storage or None
        None keeps no balance.
    is_last_week : bool
        Whether the outlook is the week before, not the planned one.

    Returns
    -------
    rain_mm : array of shape (n_days,)
        Rain before any rule. [mm]
    trace : Trace
        Its sum.
    findings : tuple of Finding
        A note where the rain of last week is left to the starting depletion.

    Notes
    -----
    With a balance, the rain of last week has wet the ground before the first morning;
    counted in the week as well, one storm would be taken off twice.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.need.outlook import outlook
    >>> from scheduler.need.reference_et import ReferenceET
    >>> days = np.arange("2026-06-01", "2026-06-08", dtype="datetime64[D]")
    >>> county = ReferenceET("county", False, days, np.full(7, 5.0),
    ...                      ("stated",) * 7, np.full(7, 2.0), "")
    >>> week, _ = outlook([county], None, dates=days, today=dt.date(2026, 6, 8))
    >>> bay = Zone(id="Z1", name="bay", area_m2=1.0, grown_in="soil", watered="off")
    >>> float(rain_of_week(week, bay, None, is_last_week=True)[0].sum())
    14.0
    """
    rained = replace(ahead.rain_trace, name="rain_mm")
    if storage is None or not is_last_week or not ahead.rain_mm.any():
        return ahead.rain_mm, rained, ()
    none = "0: the rain of last week is in start_depletion_mm already"
    said = Finding(
        "note",
        f"zone {zone.id}: rain",
        "the rain of last week is in the starting depletion; none is counted again",
        "nothing to do; after new rain, write the gauge reading and plan again",
    )
    return (
        frozen(np.zeros(ahead.rain_mm.size)),
        Trace("rain_mm", 0.0, none, "definition"),
        (said,),
    )
