"""A site, its history and two spans in; before and after out."""

import datetime as dt
from dataclasses import replace

from scheduler.errors import Finding, QuantityError
from scheduler.field.evaluation import evaluated_site
from scheduler.log import Repair
from scheduler.proof.meter import MeterInterval, plan_against_meter
from scheduler.proof.meter_water import zones_of
from scheduler.proof.period import Period, parsed_span, period
from scheduler.proof.saving import Saving, saving
from scheduler.proof.uniformity_change import uniformity_changes
from scheduler.record import History
from scheduler.site import Site

Areas = tuple[float | None, float | None]


def site_saving(
    site: Site,
    history: History,
    spans: tuple[str, str],
    today: dt.date,
    *,
    areas_m2: Areas = (None, None),
) -> tuple[Saving, tuple[Finding, ...]]:
    """Before and after of a site, from its log, weather and tests.

    Parameters
    ----------
    site : Site
        The site as it is now.
    history : History
        Log, weather, rain, tests, issued weeks.
    spans : tuple of str
        Before and after: a year, or two days.
    today : date
        The day to count from.
    areas_m2 : tuple of float or None
        Ground that was watered before and after. [m2]

    Returns
    -------
    saving : Saving
        Its steps, and what of it is proven.
    findings : tuple of Finding
        Of the meters, the periods and the comparison, each once.

    Raises
    ------
    QuantityError
        If a span is none, the second begins before the first ends, or only one area is
        given, or one is not above 0.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site = Site(name="Tern Hollow", units="us", place=place)
    >>> found, _ = site_saving(site, History(), ("2025", "2026"), dt.date(2026, 6, 8))
    >>> found.why_not
    'the water of 2025 is not known'
    """
    first, second = (parsed_span(one) for one in spans)
    if second.start < first.stop:
        what = f"{second.name} begins before {first.name} ends"
        raise QuantityError(what, "name two periods, the earlier one first")
    _check_areas(areas_m2)
    metered = plan_against_meter(site, history)
    intervals = metered.intervals
    before, about_before = period(site, history, intervals, first, today)
    after, about_after = period(site, history, intervals, second, today)
    changes = uniformity_changes(
        site, evaluated_site(site, history), second.start, min(today, second.stop)
    )
    result = saving(
        replace(before, area_m2=areas_m2[0]),
        replace(after, area_m2=areas_m2[1]),
        changes=changes,
        zone_m3=_zone_m3(before, intervals),
        supply=site.supply,
    )
    result = replace(result, work=_work(history, before, after))
    said = (
        *about_before,
        *about_after,
        *_other_zones(site, before, after),
        *result.findings,
    )
    return result, tuple(dict.fromkeys(said))


def _work(history: History, before: Period, after: Period) -> tuple[Repair, ...]:
    """Repairs and changes within the two periods and between them."""
    return tuple(
        one for one in history.log.of(Repair) if before.start <= one.date < after.stop
    )


def _other_zones(site: Site, before: Period, after: Period) -> tuple[Finding, ...]:
    """A warning where the meters of the periods do not serve the same zones."""
    old, new = (
        {zone.id for dial in one.dials for zone in zones_of(site, dial.stop)}
        for one in (before, after)
    )
    if not old or not new or old == new:
        return ()
    what = (
        f"the meters of {before.name} serve {' '.join(sorted(old))}, those of "
        f"{after.name} {' '.join(sorted(new))}"
    )
    fix = "name periods of the same meters, or give both areas"
    return (Finding("warning", "log.csv", what, fix),)


def _check_areas(areas_m2: Areas) -> None:
    given = [one for one in areas_m2 if one is not None]
    if len(given) == 1:
        fix = "give --area-before and --area-after"
        raise QuantityError("the ground of one period alone tells nothing", fix)
    if any(one <= 0 for one in given):
        raise QuantityError("ground must be above 0", "write it like 3.2 acre")


def _zone_m3(before: Period, intervals: tuple[MeterInterval, ...]) -> dict[str, float]:
    """Expected water of each zone in the period before."""
    found: dict[str, float] = {}
    for one in intervals:
        if before.start <= one.dial.start.date and one.dial.stop.date <= before.stop:
            for zone in one.zones:
                found[zone.zone] = found.get(zone.zone, 0.0) + (zone.ran_m3 or 0.0)
    return found
