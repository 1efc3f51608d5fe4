"""One zone and what all zones share in, its week through all the rooms out."""

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from scheduler import week_plan
from scheduler.arrays import DateArray, FloatArray
from scheduler.errors import Finding
from scheduler.field.drawn import tried_catch
from scheduler.field.evidence import zone_catch
from scheduler.field.guess import ZoneCatch
from scheduler.field.wind_during import SiteWind
from scheduler.need.ahead import WeekRange
from scheduler.need.groups import ruling_zone
from scheduler.need.outlook import Outlook
from scheduler.need.pot_moves import zone_on
from scheduler.need.zone_leaching import zone_leaching
from scheduler.need.zone_use import ZoneUse, zone_use
from scheduler.proof import zone_learning
from scheduler.record import CanTest, History
from scheduler.root_zone.intake import intake_model
from scheduler.root_zone.storage import Storage, zone_storage
from scheduler.short_water import (
    Allotment,
)
from scheduler.site import Site, Zone, open_nights
from scheduler.trace import entered
from scheduler.watering.ahead import need_range
from scheduler.watering.clock import was_minutes
from scheduler.watering.course import zone_course
from scheduler.watering.group_outcomes import group_outcomes
from scheduler.watering.night_plan import AtHours
from scheduler.watering.pot_water import pots_beside
from scheduler.watering.skips import rain_skips, skip_findings
from scheduler.watering.start import days_behind, rain_of_week, start_depletion
from scheduler.watering.wetted import zone_wetting
from scheduler.watering.zone_week import ZoneWeek, ZoneWeekInput, zone_week
from scheduler.week_plan import ZonePlan

DAYS_AHEAD = 7


@dataclass(frozen=True, slots=True, eq=False)
class Week:
    """What all zones of a week share."""

    site: Site
    history: History
    today: dt.date
    dates: DateArray
    ahead: Outlook | None
    spread: WeekRange | None
    behind: Outlook | None
    wind: SiteWind
    lessons: zone_learning.Lessons
    tests: dict[str, list[CanTest]] = field(default_factory=dict)
    tried_du: Mapping[str, float] = field(default_factory=dict)
    allotted: Allotment | None = None
    # zones whose hours are known: their catch in the wind of these
    fed: Mapping[str, AtHours] = field(default_factory=dict)
    # zones that somebody moved to other nights, and these
    chosen: Mapping[str, tuple[int, ...]] = field(default_factory=dict)

    @property
    def days(self) -> tuple[dt.date, ...]:
        """The seven days."""
        return tuple(self.dates.tolist())

    @property
    def demand(self) -> tuple[FloatArray, DateArray, FloatArray]:
        """ETo, days and rain of the week; zeros where ETo is not known."""
        if self.ahead is None:
            return np.zeros(DAYS_AHEAD), self.dates, np.zeros(DAYS_AHEAD)
        return self.ahead.eto_mm_per_day, self.dates, self.ahead.rain_mm


def zone_plan(zone: Zone, week: Week) -> ZonePlan:
    """Plan one zone as its pots stand, for the plants that rule in it.

    Parameters
    ----------
    zone : Zone
        As its file describes it.
    week : Week
        What all zones share.

    Returns
    -------
    ZonePlan
        Blocked by a stop finding where something that it needs is not known.

    References
    ----------
    Source: definition; each room names its own.
    """
    eto = week.ahead.eto_mm_per_day if week.ahead else np.zeros(week.dates.size)
    stands = zone_on(zone, week.days[0])
    air = week.history.weather
    stands, uses, said = ruling_zone(stands, week.dates, eto, weather=air)
    fed = week.fed.get(zone.id)
    plan = _ruling_plan(stands, week, fed)
    beside, about = group_outcomes(uses, plan.zone, plan.days)
    pots, about_pots = pots_beside(
        (zone, stands), week.days, plan.evidence, minutes=plan.minutes_per_day,
        trace=plan.trace, units=week.site.units,
    )  # fmt: skip
    findings = (*plan.findings, *said, *about, *about_pots)
    plan = replace(plan, groups=beside, pot_water=pots, findings=findings)
    return replace(plan, evidence=fed.from_tests, at_hours=fed) if fed else plan


def _ruling_plan(zone: Zone, week: Week, fed: AtHours | None) -> ZonePlan:
    """Plan one zone: dispatch on how it is watered."""
    if zone.watered == "off":
        trace = entered("minutes_per_day", None, "zones.toml: watered = 'off'")
        return ZonePlan(zone, "off", (), trace, week.days)
    tests = week.tests.get(zone.id.casefold(), [])
    package = week.site.package_of(zone)
    tested, said = zone_catch(zone, package, tests, week.today, site_wind=week.wind)
    evidence = fed.catch if fed else tried_catch(tested, week.tried_du.get(zone.id))
    if zone.watered == "fixed minutes":
        # fixed minutes do not rest on a test: only what is wrong with one is said
        return _computed(zone, week, evidence, list(said) if tests else [], None)
    if evidence is None or tested is None or not zone.plant or week.ahead is None:
        return _blocked(zone, week, said)
    air, nights = week.history.weather, zone_wetting(week.site, zone)
    use, about_use = zone_use(zone, week.dates, weather=air, wetting=nights)
    findings = [*said, *about_use]
    if use is None:
        return _blocked(zone, week, findings)
    use, learnt = zone_learning.learned_use(zone, use, tested, week.lessons)
    plan = _computed(zone, week, evidence, list(findings), use)
    # the nights of this first plan wet the ground, where it is counted by itself
    wet = use.watered_on(week.dates, plan.days)
    plan = plan if wet is use else _computed(zone, week, evidence, findings, wet)
    said = zone_learning.proof_findings(learnt, plan.minutes_per_day, len(plan.days))
    return replace(plan, learned=learnt, findings=(*plan.findings, *said))


def _computed(
    zone: Zone,
    week: Week,
    evidence: ZoneCatch | None,
    findings: list[Finding],
    need: ZoneUse | None,
) -> ZonePlan:
    """Run the zone's week and put its numbers and traces in the plan."""
    share = evidence.share if evidence else np.ones(4)
    etc = np.zeros(DAYS_AHEAD)
    etc_trace = entered("etc_mm", None, "fixed minutes do not follow ET")
    if need and week.ahead:
        etc = need.etc_mm_per_day(*week.demand)
        etc_trace = need.etc_trace(week.ahead.trace, *week.demand)
    mean_mm = float(etc.mean())
    held = zone_storage(zone, etc_mm_per_day=mean_mm) if need else (None, ())
    storage, about_storage = held
    intake, about_intake = intake_model(zone)
    leaching, about_salt = zone_leaching(zone, week.site.supply) if need else (None, ())
    findings += [*about_storage, *about_intake, *about_salt]
    if any(one.level == "stop" for one in about_salt):
        return _blocked(zone, week, findings)
    past = days_behind(
        week.site, week.history.issued, week.behind, catch=evidence, use=need
    )
    if past is not None:
        percent = week.site.controller_of(zone).percent_adjust
        past = replace(past, percent_adjust=percent)
    begun, start_trace, about_start = start_depletion(zone, storage, past)
    findings += about_start
    rain, rain_trace = np.zeros(DAYS_AHEAD), None
    if need and week.ahead:
        is_last = week.site.demand_from == "last week"
        rain, rain_trace, about_rain = rain_of_week(
            week.ahead, zone, storage, is_last_week=is_last
        )
        findings += about_rain
    inputs = ZoneWeekInput(
        zone=zone,
        share=share,
        net_rate_mm_per_h=evidence.net_rate_mm_per_h if evidence else float("nan"),
        du_lq=evidence.du_lq if evidence else float("nan"),
        du_lh=evidence.du_lh if evidence else float("nan"),
        etc_mm_per_day=etc,
        rain_mm=rain,
        storage=storage,
        start_depletion_mm=begun,
        allowed_day=open_nights(week.site, zone, week.dates),
        intake=intake,
        rounding=week.site.rounding,
        max_cycles=week.site.controller_of(zone).max_starts_per_day,
        dates=week.days,
        leaching=leaching,
        most_minutes=week.allotted.cut_of(zone.id) if week.allotted else None,
        chosen_nights=week.chosen.get(zone.id),
    )
    unknown = entered("net_rate_mm_per_h", None, "no test needed for fixed minutes")
    result = zone_week(
        inputs,
        rate_trace=evidence.rate_trace if evidence else unknown,
        du_trace=evidence.du_trace if evidence else unknown,
        etc_trace=etc_trace, start_trace=start_trace, rain_trace=rain_trace,
    )  # fmt: skip
    if need and any(one.level == "stop" for one in result.findings):
        said = [*findings, *result.findings]
        return _blocked(zone, week, said)
    plan = _as_plan(zone, week, evidence, findings, (need, etc, storage, result))
    if need is None:
        return plan
    plan = replace(plan, course=zone_course(inputs, result, past), input=inputs)
    return _with_ahead(plan, inputs, result, week, need)


def _with_ahead(
    plan: ZonePlan, inputs: ZoneWeekInput, result: ZoneWeek, week: Week, need: ZoneUse
) -> ZonePlan:
    """Add what a cool and a hot week would need, and the rain that saves a watering."""
    skips = rain_skips(inputs, result)
    findings = (*plan.findings, *skip_findings(inputs, skips))
    plan = replace(plan, skips=skips, findings=findings)
    spread = week.spread
    if spread is None:
        return plan
    _, dates, fell = week.demand
    cool = need.etc_mm_per_day(spread.cool_mm_per_day, dates, fell)
    hot = need.etc_mm_per_day(spread.hot_mm_per_day, dates, fell)
    ahead = need_range(
        inputs, result, cool=(cool, spread.cool), hot=(hot, spread.hot),
        n_years=spread.n_years,
    )  # fmt: skip
    return replace(plan, ahead=ahead)


def _as_plan(
    zone: Zone,
    week: Week,
    evidence: ZoneCatch | None,
    findings: list[Finding],
    parts: tuple[ZoneUse | None, FloatArray, Storage | None, ZoneWeek],
) -> ZonePlan:
    """Put the result of the rooms into the shape that every face reads."""
    need, etc, storage, result = parts
    was, was_from = was_minutes(zone, week.site, week.history.issued)
    eto = float(week.ahead.eto_mm_per_day.sum()) if week.ahead else None
    kc = float(need.kc(*week.demand).mean()) if need else None
    return ZonePlan(
        zone=zone,
        status="planned" if need else "fixed",
        findings=(*findings, *result.findings),
        trace=result.traces["minutes_per_day"],
        dates=week.days,
        evidence=evidence,
        eto_mm=eto,
        kc=kc,
        etc_mm=float(etc.sum()) if need else None,
        effective_rain_mm=result.effective_rain_mm if need else None,
        need_mm=result.need_mm if need else None,
        rule=result.rule if need else None,
        factor=result.factor if need else None,
        rules=result.rules if need else (),
        gross_depth_mm=result.gross_depth_mm if need else None,
        minutes_exact=result.minutes_exact,
        minutes_week=result.minutes_week,
        days=tuple(week.days[i] for i in result.day_index),
        minutes_per_day=result.minutes_per_day,
        cycles=result.split.cycles,
        cycle_minutes=result.split.cycle_minutes,
        soak_minutes=result.split.soak_minutes,
        was_minutes=was,
        was_from=was_from,
        realised_depth_mm=result.realised_depth_mm if evidence else None,
        realised_error=result.realised_error if need else None,
        quarters=result.quarters if need else (),
        served_depletion_mm=tuple(result.served_depletion_mm) if need else (),
        allowed_mm=storage.allowed_mm if storage else None,
        leaching=result.leaching,
    )


def _blocked(zone: Zone, week: Week, findings: Sequence[Finding]) -> ZonePlan:
    """Plan of a zone that a stop finding blocks: the clock is left as it is."""
    was = was_minutes(zone, week.site, week.history.issued)
    return week_plan.blocked_plan(zone, week.days, was, findings)
