"""Nights and packages in wind in; DU and rate at the planned hours out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.field.drawn import EVEN, drawn_catch
from scheduler.field.guess import ZoneCatch
from scheduler.field.package_wind import PackageWind
from scheduler.said import signed
from scheduler.trace import Trace
from scheduler.unit_table import M_PER_S_PER_MPH
from scheduler.units import System, shown
from scheduler.watering.night_plan.in_wind import zone_in_wind
from scheduler.watering.night_plan.result import NightPlan, NightWind, WateredZone

# a change of the minutes that is worth a line (common practice, no source)
NOTED_CHANGE = 0.03


@dataclass(frozen=True, slots=True, eq=False)
class AtHours:
    """A zone's uniformity and rate at the hours that were planned for it.

    Attributes
    ----------
    wind_m_per_s, tests_wind_m_per_s : float
        Usual wind of the planned minutes, and of the runs that feed the week. [m/s]
    catch : ZoneCatch
        The tests' catch, brought to the wind of the hours.
    from_tests : ZoneCatch
        The same as the tests gave it.
    minutes_from_tests : float or None
        Minutes of the week with the tests' catch, before rounding. [min]
    """

    wind_m_per_s: float
    tests_wind_m_per_s: float
    catch: ZoneCatch
    from_tests: ZoneCatch
    minutes_from_tests: float | None = None


def at_planned_hours(
    night: NightPlan | None,
    zones: Sequence[WateredZone],
    lines: Mapping[str, PackageWind],
) -> dict[str, AtHours]:
    """DU and rate of the zones at their planned hours.

    Parameters
    ----------
    night : NightPlan or None
        The hours and their wind.
    zones : sequence of WateredZone
        With the catch of their tests.
    lines : mapping of str to PackageWind
        By package id.

    Returns
    -------
    dict of str to AtHours
        Zones whose minutes follow a test of known wind, of a package whose line is
        known. The correction is from the wind of these runs to that of the hours, so a
        zone that was tested in the wind of its hours has nearly none.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> at_planned_hours(None, (), {})
    {}
    """
    wind = night.wind if night else None
    if night is None or wind is None or wind.by_minute_m_per_s is None:
        return {}
    found = {}
    for one in zones:
        line = lines.get(one.zone.package or "")
        catch = one.evidence
        if line is None or catch is None or one.status != "planned":
            continue
        if catch.wind_m_per_s is None or 1.0 - catch.du_lq < EVEN:
            continue
        speed = _planned_wind(one.zone.id, night, wind)
        if speed.size:
            found[one.zone.id] = _at_hours(one, line, speed, wind)
    return found


def _planned_wind(zone: str, night: NightPlan, wind: NightWind) -> FloatArray:
    """Wind of every minute that waters the zone."""
    assert wind.by_minute_m_per_s is not None, "the caller has looked"
    minutes: list[int] = []
    for run in night.runs:
        if run.zone == zone:
            begin = dt.datetime.combine(run.night, dt.time())
            begin += dt.timedelta(minutes=wind.first_min)
            first, last = (
                round((when - begin).total_seconds() / 60)
                for when in (run.start, run.end)
            )
            minutes += range(first, last)
    return np.asarray(wind.by_minute_m_per_s[minutes])


def _at_hours(
    one: WateredZone, line: PackageWind, speed: FloatArray, wind: NightWind
) -> AtHours:
    catch = one.evidence
    assert catch is not None, "the caller has looked"
    in_wind = zone_in_wind(one, line, float(speed.mean()))
    drawn = drawn_catch(catch, float(in_wind.du_at(speed).mean()))
    rate = catch.net_rate_mm_per_h * float(in_wind.rate_over(speed).mean())
    at, ref = float(speed.mean()), in_wind.ref_m_per_s
    winds = (
        Trace(
            "wind_at_planned_hours_m_per_s",
            at,
            "mean over the planned minutes of the usual wind of their hours, at 2 m",
            "definition",
            (),
            wind.source,
        ),
        Trace(
            "wind_of_tests_m_per_s",
            ref,
            "mean wind of the runs that feed the week, at 2 m",
            "definition",
        ),
    )
    du_trace = Trace(
        "du_at_planned_hours",
        drawn.du_lq,
        "DU of the tests + slope x (wind of the planned hours - wind of the tests), "
        "winds kept within those tested; the map of the cans is drawn to it",
        "definition",
        (catch.du_trace, *winds),
        _slope_words(line),
    )
    rate_trace = Trace(
        "rate_at_planned_hours_mm_per_h",
        rate,
        "net rate of the tests x rate of the line in the wind of the planned hours / "
        "that in the wind of the tests",
        "definition",
        (catch.rate_trace, *winds),
        _rate_words(line),
    )
    drawn = replace(
        drawn, net_rate_mm_per_h=rate, du_trace=du_trace, rate_trace=rate_trace
    )
    return AtHours(at, ref, drawn, catch)


def _slope_words(line: PackageWind) -> str:
    slope = line.du_per_m_per_s
    return (
        f"slope of package {line.package}: {signed(slope, '.3f')} for each m/s "
        f"({signed(slope * M_PER_S_PER_MPH, '.3f')} for each mph), "
        f"{line.n_runs} runs on {line.n_days} days"
    )


def _rate_words(line: PackageWind) -> str:
    slope = line.rate_per_m_per_s
    if slope == 0:
        return f"the tests of package {line.package} do not tell that wind takes water"
    return (
        f"package {line.package}: {signed(slope, '.1%')} of the rate in calm for each "
        f"m/s ({signed(slope * M_PER_S_PER_MPH, '.1%')} for each mph)"
    )


def hours_findings(
    zone: str, at: AtHours, minutes_exact: float | None, units: System
) -> tuple[Finding, ...]:
    """A note where the wind of the planned hours moves the minutes.

    Parameters
    ----------
    zone : str
        Its id.
    at : AtHours
        With the minutes before.
    minutes_exact : float or None
        Minutes of the week with it. [min]
    units : str
        Of the site.

    Returns
    -------
    tuple of Finding
        Empty below three in a hundred.

    References
    ----------
    Source: definition.
    """
    before = at.minutes_from_tests
    if not before or minutes_exact is None:
        return ()
    change = minutes_exact / before - 1.0
    if abs(change) < NOTED_CHANGE:
        return ()
    old, new = at.from_tests, at.catch
    what = (
        f"the planned hours have {shown(at.wind_m_per_s, 'm_per_s', units)} of wind, "
        f"the tests had {shown(at.tests_wind_m_per_s, 'm_per_s', units)}: DU "
        f"{old.du_lq:.2f} is expected as {new.du_lq:.2f} and "
        f"{shown(old.net_rate_mm_per_h, 'mm_per_h', units)} as "
        f"{shown(new.net_rate_mm_per_h, 'mm_per_h', units)}, which moves the minutes "
        f"by {signed(change, '.0%')}"
    )
    fix = "test at the hours you water, and it is measured"
    return (Finding("note", f"zone {zone}: planned hours", what, fix),)
