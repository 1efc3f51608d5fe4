"""A planned week in; the words that all its papers share out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from scheduler import said
from scheduler.noun import WEEKDAYS
from scheduler.reports.paper import plain
from scheduler.stations import clock_names, walk_order
from scheduler.units import System, shown
from scheduler.watering.clock import newest_issued

if TYPE_CHECKING:
    from scheduler.record import IssuedWeek
    from scheduler.site import Site, Zone
    from scheduler.watering.night_plan import PlannedRun
    from scheduler.week_plan import WeekPlan, ZonePlan

MOST_WORDS = 8
# from so many days in a row on, they are written as from - to
RUN_OF_DAYS = 3
AFTER_MIDNIGHT = "†"
UNKNOWN = "–"


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of a week beside its plan.

    Attributes
    ----------
    issued : tuple of IssuedWeek
        What the clock was told before.
    reasons : mapping of str to str
        Why a zone's setting changes, by its id.
    programs : mapping of str to str
        Program of the clock, by zone.
    name : str
        Name of the issued week; empty before it is issued.
    """

    issued: tuple[IssuedWeek, ...] = ()
    reasons: Mapping[str, str] = field(default_factory=dict)
    programs: Mapping[str, str] = field(default_factory=dict)
    name: str = ""


@dataclass(frozen=True, slots=True)
class Walk:
    """The walk from clock to clock, station by station.

    Attributes
    ----------
    names : tuple of str
        Name of each clock.
    order : mapping of str to (int, int)
        Place of the clock and station of each zone.
    """

    names: tuple[str, ...]
    order: Mapping[str, tuple[int, int]]

    @classmethod
    def of(cls, site: Site) -> Walk:
        """The walk over a site."""
        return cls(clock_names(site), walk_order(site))

    @property
    def is_many(self) -> bool:
        """Whether there are several clocks."""
        return len(self.names) > 1

    def clock_of(self, zone: str) -> str:
        """Clock of a zone; empty where there is one clock only."""
        return self.names[self.order[zone][0]] if self.is_many else ""

    def station_of(self, zone: Zone) -> str:
        """Station of a zone; empty where one clock goes by the valves."""
        is_told = self.is_many or zone.station is not None
        return f"{self.order[zone.id][1]}" if is_told else ""


def day_text(day: dt.date) -> str:
    """A day as papers name it.

    Examples
    --------
    >>> day_text(dt.date(2026, 6, 8))
    'Mon 8 Jun'
    """
    return said.day_text(day, "%a %d %b")


def days_text(days: Iterable[dt.date]) -> str:
    """Days in order, three or more in a row as from - to.

    Examples
    --------
    >>> week = [dt.date(2026, 6, 8) + dt.timedelta(days=i) for i in (0, 1, 2, 4)]
    >>> days_text(week)
    'Mon 8–Wed 10, Fri 12'
    """
    parts: list[list[dt.date]] = []
    for day in sorted(days):
        if parts and (day - parts[-1][-1]).days == 1:
            parts[-1].append(day)
        else:
            parts.append([day])
    said = []
    for part in parts:
        each = [f"{day:%a} {day.day}" for day in part]
        said += [f"{each[0]}–{each[-1]}"] if len(part) >= RUN_OF_DAYS else each
    return ", ".join(said)


def week_name(plan: WeekPlan) -> str:
    """The nights that the week holds."""
    last = plan.zones[0].dates[-1] if plan.zones else plan.start
    return f"nights of {day_text(plan.start)} to {day_text(last)} {last.year}"


def zone_runs(plan: WeekPlan, zone: str) -> tuple[PlannedRun, ...]:
    """A zone's runs of the week, by start."""
    runs = plan.night.runs if plan.night else ()
    return tuple(one for one in runs if one.zone == zone)


def starts_text(runs: Iterable[PlannedRun]) -> tuple[str, ...]:
    """Starts with the dates on which the clock makes them, one line for like dates.

    A start after midnight is marked and stands with the date that the calendar then
    has, which is the day that a clock goes by.
    """
    days: dict[tuple[dt.time, bool], list[dt.date]] = {}
    for one in runs:
        key = (one.start.time(), one.start.date() > one.night)
        days.setdefault(key, []).append(one.start.date())
    lines: dict[tuple[bool, str], list[str]] = {}
    for (time, is_next), dates in sorted(days.items(), key=lambda one: one[0][::-1]):
        lines.setdefault((is_next, days_text(dates)), []).append(
            f"{time:%H:%M}{AFTER_MIDNIGHT if is_next else ''}"
        )
    return tuple(
        f"{' '.join(times)} on {dates}" for (is_next, dates), times in lines.items()
    )


def few_words(text: str, most: int = MOST_WORDS) -> str:
    """The first words of a text; an ellipsis says that there are more.

    Examples
    --------
    >>> few_words("one two three", 2)
    'one two…'
    """
    words = plain(text).split()
    return " ".join(words[:most]) + ("…" if len(words) > most else "")


def why_text(plan: ZonePlan, units: System, known: Known) -> str:
    """Why the zone gets these minutes, in at most eight words."""
    given = known.reasons.get(plan.zone.id)
    if given:
        return few_words(given)
    if plan.status == "off":
        return "switched off"
    if plan.status == "fixed":
        return few_words(
            plan.zone.fixed_reason or "fixed minutes, whatever the weather"
        )
    if not plan.minutes_per_day:
        return "not due this week"
    need = f"need {shown(plan.need_mm, 'mm', units)} this week"
    evidence = plan.evidence
    du = f", DU {shown(evidence.du_lq, '', units)}" if evidence else ""
    return few_words(need + du)


def blocked_why(plan: ZonePlan, week: WeekPlan) -> str:
    """What blocks a zone: its own stop finding, or one that all zones rest on."""
    stops = [one for one in (*plan.findings, *week.findings) if one.level == "stop"]
    return plain(stops[0].what) if stops else "its inputs do not fit together"


@dataclass(frozen=True, slots=True)
class Setting:
    """What the clock holds of a zone; None where it was not written down."""

    minutes: float
    cycles: int
    days: frozenset[int]
    starts: frozenset[dt.time] | None


def setting_before(plan: ZonePlan, known: Known) -> Setting | None:
    """The setting that an issued week told last; None where none told it."""
    zone = plan.zone
    newest = newest_issued(zone, known.issued)
    if newest is not None:
        week, told = newest
        starts = frozenset(one.start.time() for one in week.runs if one.zone == zone.id)
        days = frozenset(day.weekday() for day in told.days)
        return Setting(told.minutes_per_day, told.cycles, days, starts or None)
    return None


def changes(plan: ZonePlan, week: WeekPlan, known: Known) -> tuple[str, ...]:
    """What of the clock's setting is another one now; `new` where none was known."""
    if plan.was_minutes is None:
        return ("new",)
    now = plan.minutes_per_day or 0
    found = ["minutes"] if plan.was_minutes != now else []
    before = setting_before(plan, known)
    if before is None:
        return (*found, *_as_found_changes(plan)) if now else tuple(found)
    if not now:
        return tuple(found)
    if before.cycles != (plan.cycles or 1):
        found.append("cycles")
    if before.days != {day.weekday() for day in plan.days}:
        found.append("nights")
    starts = {one.start.time() for one in zone_runs(week, plan.zone.id)}
    if before.starts is not None and starts and before.starts != starts:
        found.append("starts")
    return tuple(found)


def _as_found_changes(plan: ZonePlan) -> list[str]:
    """Cycles and nights against the clock as found, whose starts nobody wrote down."""
    as_found = plan.zone.as_found
    if as_found is None:
        return []
    found = ["cycles"] if as_found.cycles != (plan.cycles or 1) else []
    if set(as_found.days) != {WEEKDAYS[day.weekday()] for day in plan.days}:
        found.append("nights")
    return found
