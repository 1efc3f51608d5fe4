"""A site and its history in, one season of every catch position out.

The waterings follow the zone's own rules: nights, whole minutes, cycles. Each watering
draws one of the tested runs, so that several together are more even than one.
"""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding
from scheduler.field.at_roots import at_the_roots
from scheduler.field.drawn import tried_catch
from scheduler.field.evidence import zone_catch
from scheduler.field.guess import ZoneCatch
from scheduler.field.irrigation_wind import site_wind
from scheduler.field.uniformity import quarters_in_order
from scheduler.field.wind_during import SiteWind
from scheduler.need.groups import ruling_zone
from scheduler.need.pot_moves import zone_on
from scheduler.need.season_days import SeasonDays, season_days
from scheduler.need.stations import stations_et
from scheduler.need.zone_leaching import zone_leaching
from scheduler.need.zone_use import zone_use
from scheduler.record import History
from scheduler.root_zone.storage import Storage, zone_storage
from scheduler.site import Site, Zone
from scheduler.trace import Trace, entered
from scheduler.watering.season_run import SeasonInput, SeasonResult, season_run
from scheduler.watering.wetted import zone_wetting
from scheduler.watering.zone_season import season_etc, season_input


@dataclass(frozen=True, slots=True)
class QuarterSeason:
    """What one quarter of a zone got, driest first.

    Attributes
    ----------
    share : float
        Mean catch over the mean of the zone. [-]
    applied_mm, deep_percolation_mm, used_mm : float
        Water put on, drained below the roots, and used. [mm]
    stress_days : float
        Days on which plants used less than they asked for. [days]
    """

    share: float
    applied_mm: float
    deep_percolation_mm: float
    used_mm: float
    stress_days: float


# others keep what they work out of a season for as long as there is that season
@dataclass(frozen=True, slots=True, eq=False, weakref_slot=True)
class ZoneSeason:
    """One zone's season.

    Attributes
    ----------
    input : SeasonInput or None
        What it was run on; None where it could not be run.
    is_upper_bound : bool
        Whether a single run stands for every watering: real seasons are more even.
    depletion_mm : array of shape (n_days, 4)
        Mean depletion of each quarter at the end of each day, driest first. [mm]
    watering_mm : array of shape (n_days,)
        Mean depth of the night before each day. [mm]
    """

    zone: Zone
    findings: tuple[Finding, ...]
    input: SeasonInput | None = None
    catch: ZoneCatch | None = None
    factor: float | None = None
    is_upper_bound: bool = True
    applied_mm: float = 0.0
    rain_mm: float = 0.0
    etc_mm: float = 0.0
    used_mm: float = 0.0
    deep_percolation_mm: float = 0.0
    stress_days: float = 0.0
    waterings: int = 0
    minutes: int = 0
    volume_m3: float = 0.0
    allowed_mm: float = 0.0
    closure_error_mm: float = 0.0
    quarters: tuple[QuarterSeason, ...] = ()
    depletion_mm: FloatArray | None = None
    watering_mm: FloatArray | None = None
    trace: Trace | None = None
    results: tuple[Trace, ...] = ()

    @property
    def chains(self) -> tuple[Trace, ...]:
        """Every number that can be explained, the water put on first."""
        return self.results if self.trace is None else (self.trace, *self.results)


@dataclass(frozen=True, slots=True, eq=False)
class SeasonPlan:
    """One season of a site: every zone's, and what must be said of all."""

    site: Site
    days: SeasonDays | None
    zones: tuple[ZoneSeason, ...]
    findings: tuple[Finding, ...] = ()

    @property
    def all_findings(self) -> tuple[Finding, ...]:
        """Findings of the site and of every zone, in the order of the zones."""
        return (*self.findings, *(f for one in self.zones for f in one.findings))


def run_season(
    site: Site,
    history: History,
    today: dt.date,
    *,
    year: int | None = None,
    zone_ids: Sequence[str] = (),
    tried_du: Mapping[str, float] | None = None,
) -> SeasonPlan:
    """Run one season of a site, position by position.

    Parameters
    ----------
    site : Site
        The site.
    history : History
        Its tests, weather and rain.
    today : date
        Tests of later days are left out.
    year : int, optional
        The year; the last full one with weather, else the typical year, if not given.
    zone_ids : sequence of str, optional
        Only these zones.
    tried_du : mapping of str to float, optional
        DU low quarter to try instead of what was tested, by zone. [-]

    Returns
    -------
    SeasonPlan
        One season a zone; zones that cannot be run say why.

    Notes
    -----
    The root zone starts full. The plan of a night knows the use until the next allowed
    night and no rain. Rain reaches every position alike. No runoff is taken off:
    cycles are cut so that there is none.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapter 8, in the order of example 38.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> empty = Site(name="Tern Hollow", units="us", place=place)
    >>> run_season(empty, History(), dt.date(2026, 6, 8)).zones
    ()
    """
    if not site.zones:
        return SeasonPlan(site, None, ())
    series, findings = stations_et(history.weather, site.place)
    days, said = season_days(series, history.rain, year=year)
    wanted = {one.casefold() for one in zone_ids}
    chosen = [one for one in site.zones if not wanted or one.id.casefold() in wanted]
    if days is None:
        return SeasonPlan(site, None, (), (*findings, *said))
    # a season takes its runs as a week does
    asked = _Asked(site, history, today, site_wind(site, history.wind), tried_du or {})
    zones = tuple(_ruling_season(one, asked, days) for one in chosen)
    return SeasonPlan(site, days, zones, (*findings, *said))


@dataclass(frozen=True, slots=True, eq=False)
class _Asked:
    """What all zones share."""

    site: Site
    history: History
    today: dt.date
    wind: SiteWind
    tried_du: Mapping[str, float] = field(default_factory=dict)


def _ruling_season(zone: Zone, asked: _Asked, days: SeasonDays) -> ZoneSeason:
    """The season of the plants that rule, with the pots as they stand today."""
    stands = zone_on(zone, asked.today)
    ruling, _, said = ruling_zone(
        stands, days.date, days.eto_mm_per_day, weather=asked.history.weather
    )
    if zone.pots is not None and zone.pots.moved:
        what = f"pots stand all season as on {asked.today}: moves are not followed"
        fix = "nothing to do; the week follows them"
        said += (Finding("note", f"zone {zone.id}: season", what, fix),)
    made = _zone_season(ruling, asked, days)
    return replace(made, findings=(*made.findings, *said)) if said else made


def _zone_season(zone: Zone, asked: _Asked, days: SeasonDays) -> ZoneSeason:
    site, history = asked.site, asked.history
    if zone.watered == "off":
        what, fix = "is off: no season is run", "set watered to run one"
        return ZoneSeason(zone, (Finding("note", f"zone {zone.id}", what, fix),))
    if zone.watered == "fixed minutes" and zone.plant is None:
        what, fix = "has fixed minutes and no plant: no season is run", "add a plant"
        return ZoneSeason(zone, (Finding("note", f"zone {zone.id}", what, fix),))
    tests = [one for one in history.tests if one.zone.casefold() == zone.id.casefold()]
    package = site.package_of(zone)
    catch, said = zone_catch(zone, package, tests, asked.today, site_wind=asked.wind)
    catch = tried_catch(catch, asked.tried_du.get(zone.id))
    use, about_use = zone_use(
        zone, days.date, weather=history.weather, wetting=zone_wetting(site, zone)
    )
    mean = None if use is None else float(season_etc(use, days).mean())
    storage, about_storage = zone_storage(zone, etc_mm_per_day=mean)
    _, about_salt = zone_leaching(zone, site.supply)
    findings = [*said, *about_use, *about_storage, *about_salt]
    is_stopped = any(one.level == "stop" for one in about_salt)
    if catch is None or use is None or storage is None or is_stopped:
        what = "no season can be run: rate, plant or the water it holds is not known"
        fix = "see the other findings of the zone"
        findings.append(Finding("warning", f"zone {zone.id}: season", what, fix))
        return ZoneSeason(zone, tuple(findings))
    smooth, about_roots = at_the_roots(zone, catch, tests)
    findings += about_roots
    made, factor = season_input(zone, site, days, (smooth, use, storage))
    result = season_run(made, with_trace=True)
    if use.ground is not None:  # the nights of this first run wet the ground
        nights = days.date - np.timedelta64(1, "D")
        watered = nights[result.watering_mm[:, 0] > 0].tolist()
        use = use.watered_on(nights, watered)
        made, factor = season_input(zone, site, days, (smooth, use, storage))
        result = season_run(made, with_trace=True)
    if catch.n_runs < 2:
        what = "one tested run stands for every watering: the unevenness is an upper "
        what += "bound, because nights differ"
        fix = "repeat the test on other nights, on the same grid"
        findings.append(Finding("note", f"zone {zone.id}: season", what, fix))
    eto = entered("eto_mm", float(days.eto_mm_per_day.sum()), "the season's days")
    etc = use.etc_trace(eto, days.eto_mm_per_day, days.date, days.rain_mm)
    parts = (smooth, storage, factor, made, etc)
    return _as_season(zone, tuple(findings), parts, result)


_Parts = tuple[ZoneCatch, Storage, float, SeasonInput, Trace]


def _as_season(
    zone: Zone,
    findings: tuple[Finding, ...],
    parts: _Parts,
    result: SeasonResult,
) -> ZoneSeason:
    catch, storage, factor, made, _ = parts
    order = np.argsort(catch.share, kind="stable")
    sums = [catch.share, result.applied_mm[:, 0], result.percolation_mm[:, 0],
            result.used_mm[:, 0], result.stress_days[:, 0]]  # fmt: skip
    by_quarter = [quarters_in_order(one[order]) for one in sums]
    quarters = tuple(QuarterSeason(*(float(v) for v in row))
                     for row in zip(*by_quarter, strict=True))  # fmt: skip
    depletion = quarters_in_order(result.depletion_mm[:, order, 0].T).T
    applied = float(result.watering_mm.sum())
    trace = _trace(applied, result, parts)
    return ZoneSeason(
        zone=zone,
        findings=findings,
        input=made,
        catch=catch,
        factor=factor,
        is_upper_bound=catch.n_runs < 2,
        applied_mm=applied,
        rain_mm=float(made.rain_mm.sum()),
        etc_mm=float(made.etc_mm_per_day.sum()),
        used_mm=float(result.used_mm.mean()),
        deep_percolation_mm=float(result.percolation_mm.mean()),
        stress_days=float(result.stress_days.mean()),
        waterings=int(result.waterings[0]),
        minutes=int(result.minutes[0]),
        volume_m3=applied * zone.area_m2 / 1000.0,
        allowed_mm=storage.allowed_mm,
        closure_error_mm=result.closure_error_mm,
        quarters=quarters,
        depletion_mm=frozen(depletion),
        watering_mm=frozen(result.watering_mm[:, 0]),
        trace=trace,
        results=_results(zone, trace, result, quarters),
    )


def _trace(
    applied_mm: float,
    result: SeasonResult,
    parts: _Parts,
) -> Trace:
    catch, storage, factor, made, etc = parts
    rule = Trace(
        "factor", factor, "of the zone's rule", "definition", (catch.du_trace,)
    )
    balance = Trace(
        "deep_percolation_mm",
        float(result.percolation_mm.mean()),
        "water early, drain, then use, at every catch position",
        "FAO-56 (1998) ch. 8, example 38",
        (etc, entered("rain_mm", float(made.rain_mm.sum()), "the season's days")),
    )
    return Trace(
        "applied_mm",
        applied_mm,
        "nights that are due, each filling the served position in whole minutes",
        "definition",
        (rule, catch.rate_trace, storage.trace, balance),
        f"{int(result.waterings[0])} waterings",
    )


# what is said of a zone and of each of its quarters, and how it was summed
SUMS = {
    "applied_mm": "mean of its catch positions: share x depth of each watering",
    "deep_percolation_mm": "mean of its catch positions: water that found no room",
    "used_mm": "mean of its catch positions: ks x etc, day by day",
    "stress_days": "mean of its catch positions: days on which ks is below 1",
}
PLACES = ("driest", "second", "third", "wettest")


def _results(
    zone: Zone,
    water: Trace,
    result: SeasonResult,
    quarters: tuple[QuarterSeason, ...],
) -> tuple[Trace, ...]:
    """Traces of what the water did, for the zone and for each of its quarters."""
    area = entered("area_m2", zone.area_m2, "zones.toml")
    applied_mm = float(result.watering_mm.sum())
    whole = "the zone: " + SUMS["used_mm"]
    found = [
        Trace("volume_m3", applied_mm * zone.area_m2 / 1000.0,
              "applied_mm x area_m2 / 1000",
              "definition", (water, area)),
        Trace("season_min", float(result.minutes[0]), "whole minutes, all waterings",
              "definition", (water,)),
        Trace("used_mm", float(result.used_mm.mean()), whole,
              "FAO-56 (1998) eq. 81 and 84", (water,)),
        Trace("stress_days", float(result.stress_days.mean()),
              "the zone: " + SUMS["stress_days"], "FAO-56 (1998) eq. 84", (water,)),
    ]  # fmt: skip
    for place, quarter in zip(PLACES, quarters, strict=True):
        for name, formula in SUMS.items():
            size = float(getattr(quarter, name))
            found.append(
                Trace(f"{name}[{place}]", size, formula, "definition", (water,))
            )
    return tuple(found)
