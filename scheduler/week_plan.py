"""What the rooms gave for one week in, the plan that every face reads out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from scheduler.errors import Finding, QuantityError
from scheduler.field.guess import ZoneCatch
from scheduler.need.outlook import Outlook
from scheduler.proof.zone_learning import ZoneLearned
from scheduler.site import Site, Zone
from scheduler.trace import Trace
from scheduler.watering.ahead import NeedRange
from scheduler.watering.allotment import ShortWater
from scheduler.watering.clock_view import ClockView
from scheduler.watering.course import Course
from scheduler.watering.group_outcomes import GroupOutcome
from scheduler.watering.leached import WeekLeaching
from scheduler.watering.night_plan import AtHours, NightPlan, hours_findings
from scheduler.watering.pot_water import PotWater
from scheduler.watering.reason import ZoneChange
from scheduler.watering.run_time import RuleOutcome
from scheduler.watering.skips import RainSkip, skips_trace
from scheduler.watering.zone_week import ZoneWeekInput

Status = Literal["planned", "fixed", "off", "blocked"]
# outside these years a date is a slip, and some calendars end
FIRST_YEAR, LAST_YEAR = 1900, 2200


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
    # uniformity and rate at the planned hours, which the minutes rest on; `evidence`
    # stays as the tests found it
    at_hours: AtHours | None = None
    # what has to be keyed in, and why
    changed: ZoneChange | None = None
    # what the week was planned on; None where no need is followed
    input: ZoneWeekInput | None = None

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
        if self.changed:
            found.append(self.changed.trace)
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
    # the nights as programs, one view a clock; empty where there is no timetable
    clocks: tuple[ClockView, ...] = ()

    @property
    def all_findings(self) -> tuple[Finding, ...]:
        """Findings of the site and of every zone, in the order of the zones."""
        return (*self.findings, *(f for one in self.zones for f in one.findings))

    @property
    def clock(self) -> ClockView | None:
        """View of the only clock; None where there are several, or no timetable."""
        is_one = len(self.clocks) == 1 and not self.site.more_controllers
        return self.clocks[0] if is_one else None


def refuse_years(*days: dt.date) -> None:
    """Refuse days that no week can be planned for.

    Parameters
    ----------
    *days : date
        Days.

    Raises
    ------
    QuantityError
        If one lies outside the years 1900 to 2200.

    References
    ----------
    Source: definition.
    """
    for day in days:
        if not FIRST_YEAR <= day.year <= LAST_YEAR:
            fix = f"give a day of {FIRST_YEAR} to {LAST_YEAR}"
            raise QuantityError(f"no week can be planned for {day}", fix)


def said_by(*parts: ShortWater | NightPlan | ClockView | None) -> tuple[Finding, ...]:
    """Findings of the parts of a week that there are.

    Parameters
    ----------
    *parts : ShortWater, NightPlan, ClockView or None
        What holds findings.

    Returns
    -------
    tuple of Finding
        In that order.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> said_by(None)
    ()
    """
    return tuple(one for part in parts if part for one in part.findings)


def blocked_plan(
    zone: Zone,
    dates: tuple[dt.date, ...],
    was: tuple[float | None, str],
    findings: Sequence[Finding],
) -> ZonePlan:
    """Plan of a zone that a stop finding blocks: the clock is left as it is.

    Parameters
    ----------
    zone : Zone
        The zone.
    dates : tuple of date
        The seven days.
    was : tuple of float or None and str
        Minutes that the clock holds, and how that is known. [min]
    findings : sequence of Finding
        What blocks it, and the rest.

    Returns
    -------
    ZonePlan
        Without minutes.

    References
    ----------
    Source: definition.
    """
    return ZonePlan(
        zone=zone,
        status="off" if zone.watered == "off" else "blocked",
        findings=tuple(findings),
        trace=Trace(
            "minutes_per_day", None, "blocked: see the findings", "not computed"
        ),
        dates=dates,
        was_minutes=was[0],
        was_from=was[1],
    )


def same_clock(some: Sequence[ZonePlan], others: Sequence[ZonePlan]) -> bool:
    """Whether two plans of the same zones ask the same of the clock.

    Parameters
    ----------
    some, others : sequence of ZonePlan
        The same zones in the same order.

    Returns
    -------
    bool
        True where nights, cycles, minutes and soaks agree.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> same_clock((), ())
    True
    """

    def asked(one: ZonePlan) -> tuple[object, ...]:
        return one.days, one.cycles, one.cycle_minutes, one.soak_minutes

    return all(asked(a) == asked(b) for a, b in zip(some, others, strict=True))


def said_of_hours(before: ZonePlan, now: ZonePlan, site: Site) -> ZonePlan:
    """A zone's plan with what the wind of its planned hours did to it.

    Parameters
    ----------
    before : ZonePlan
        With the uniformity and rate of its tests.
    now : ZonePlan
        With those at its hours, or as before.
    site : Site
        For its units.

    Returns
    -------
    ZonePlan
        With the minutes of before, and a note where they moved.

    References
    ----------
    Source: definition.
    """
    if now.at_hours is None:
        return now
    at = replace(now.at_hours, minutes_from_tests=before.minutes_exact)
    said = hours_findings(now.zone.id, at, now.minutes_exact, site.units)
    return replace(now, at_hours=at, findings=(*now.findings, *said))
