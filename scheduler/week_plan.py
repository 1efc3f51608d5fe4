"""What the rooms gave for one week in, the plan that every face reads out."""

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from scheduler.errors import Finding
from scheduler.field.guess import ZoneCatch
from scheduler.need.outlook import Outlook
from scheduler.proof.zone_learning import ZoneLearned
from scheduler.site import Site, Zone
from scheduler.trace import Trace
from scheduler.watering.ahead import NeedRange
from scheduler.watering.allotment import ShortWater
from scheduler.watering.course import Course
from scheduler.watering.group_outcomes import GroupOutcome
from scheduler.watering.leached import WeekLeaching
from scheduler.watering.night_plan import NightPlan
from scheduler.watering.pot_water import PotWater
from scheduler.watering.run_time import RuleOutcome
from scheduler.watering.skips import RainSkip, skips_trace

Status = Literal["planned", "fixed", "off", "blocked"]


@dataclass(frozen=True, slots=True, eq=False)
class ZonePlan:
    """One zone's week: what the clock gets and where each number came from.

    Numbers are None where a zone is off, blocked by a stop finding, or has fixed
    minutes and so no need. `trace.chain()` reaches from the cans to the minutes.
    """

    zone: Zone
    status: Status
    findings: tuple[Finding, ...]
    trace: Trace
    dates: tuple[dt.date, ...]
    evidence: ZoneCatch | None = None
    eto_mm: float | None = None
    kc: float | None = None
    etc_mm: float | None = None
    effective_rain_mm: float | None = None
    need_mm: float | None = None
    rule: str | None = None
    factor: float | None = None
    rules: tuple[RuleOutcome, ...] = ()
    gross_depth_mm: float | None = None
    minutes_exact: float | None = None
    minutes_week: int | None = None
    days: tuple[dt.date, ...] = ()
    minutes_per_day: int | None = None
    cycles: int | None = None
    cycle_minutes: int | None = None
    soak_minutes: int | None = None
    was_minutes: float | None = None
    was_from: str = ""
    realised_depth_mm: float | None = None
    realised_error: float | None = None
    quarters: tuple[float, ...] = ()
    served_depletion_mm: tuple[float, ...] = ()
    allowed_mm: float | None = None
    leaching: WeekLeaching | None = None
    pot_water: PotWater | None = None
    groups: tuple[GroupOutcome, ...] = ()
    ahead: NeedRange | None = None
    skips: tuple[RainSkip, ...] = ()
    learned: ZoneLearned | None = None
    course: Course | None = None

    @property
    def chains(self) -> tuple[Trace, ...]:
        """Every number that can be explained, the minutes first."""
        found = [self.trace]
        found += [one.trace for one in self.groups]
        found += [one.trace for one in (self.leaching, self.pot_water) if one]
        if self.learned:
            found += self.learned.traces
        if self.ahead:
            found += [self.ahead.low, self.ahead.high]
        if self.need_mm is not None:
            found.append(skips_trace(self.skips))
        return tuple(found)


@dataclass(frozen=True, slots=True, eq=False)
class WeekPlan:
    """One week of a site: every zone's plan and what must be said of it."""

    site: Site
    today: dt.date
    start: dt.date
    zones: tuple[ZonePlan, ...]
    findings: tuple[Finding, ...] = ()
    tests_due: tuple[Finding, ...] = ()
    weather: Outlook | None = None
    short: ShortWater | None = None
    # seven nights by the clock; None where no zone is watered
    night: NightPlan | None = None
    behind: Outlook | None = None

    @property
    def all_findings(self) -> tuple[Finding, ...]:
        """Findings of the site and of every zone, in the order of the zones."""
        return (*self.findings, *(f for one in self.zones for f in one.findings))
