"""A folder as it was read and its planned week in; the week frozen in weeks/ out."""

import dataclasses
from collections.abc import Sequence
from typing import Any

from scheduler.errors import Finding, IssueError, SaveError
from scheduler.files.issued_json import (
    Json,
    file_stem,
    issued_week_of,
    revision_of,
    sealed_text,
)
from scheduler.files.issued_weeks import FOLDER
from scheduler.files.save import refuse_changed, save_new_text, trouble
from scheduler.files.site_folder import SiteFolder
from scheduler.issued import IssuedWeek, week_name
from scheduler.record import History
from scheduler.site import FORMAT
from scheduler.stations import wired
from scheduler.watering.clock_view import ClockView, Program
from scheduler.week_changes import key_numbers
from scheduler.week_plan import WeekPlan, ZonePlan


def stops_in_the_way(found: SiteFolder, plan: WeekPlan) -> tuple[Finding, ...]:
    """Stop findings that stand against issuing a week.

    Parameters
    ----------
    found : SiteFolder
        The folder as read.
    plan : WeekPlan
        Its week.

    Returns
    -------
    tuple of Finding
        Of the folder first; each once.
    """
    every = (*found.findings, *plan.all_findings)
    return tuple(dict.fromkeys(one for one in every if one.level == "stop"))


def refuse_stops(found: SiteFolder, plan: WeekPlan, forced: str) -> None:
    """Refuse a week with stop findings, unless somebody says why they shall pass.

    Parameters
    ----------
    found : SiteFolder
        The folder as read.
    plan : WeekPlan
        Its week.
    forced : str
        Why; empty refuses.

    Raises
    ------
    IssueError
        If a stop finding stands and no reason is given, or no zone has minutes.
    """
    stops = stops_in_the_way(found, plan)
    where = f"week {week_name(plan.start)}"
    if stops and not forced.strip():
        more = f" (and {len(stops) - 1} more stop findings)" if stops[1:] else ""
        raise IssueError(
            f"is not issued: {stops[0].where}: {stops[0].what}{more}",
            'settle it, or say why it shall pass: --force "why"',
            where,
        )
    if all(one.minutes_per_day is None for one in plan.zones):
        what, fix = "is not issued: no zone has minutes", "settle the findings first"
        raise IssueError(what, fix, where)


def issue_week(
    found: SiteFolder, plan: WeekPlan, *, issued_at: str, forced: str = ""
) -> IssuedWeek:
    """Freeze a week in `weeks/`, as its next revision where it is a correction.

    Parameters
    ----------
    found : SiteFolder
        The folder as it was read for the plan.
    plan : WeekPlan
        The week.
    issued_at : str
        The moment, UTC.
    forced : str
        Why it is issued in spite of stop findings; empty refuses.

    Returns
    -------
    IssuedWeek
        As it was written.

    Raises
    ------
    IssueError
        If a stop finding stands and no reason is given, or no zone has minutes.
    SaveError
        If somebody issued the same revision meanwhile, a file that the plan rests on
        was changed since it was read, or the disk refuses. Nothing was written.

    Notes
    -----
    A reason lets every stop pass, and changes nothing about what it blocks: a blocked
    zone is written without minutes, so the clock keeps what it has, and waterings
    without room stay out of the timetable. Files of earlier revisions are never
    touched. The number of the revision goes by the folder as it was read, so that two
    people who issue at once want the same name, and one of them is told.
    """
    refuse_stops(found, plan, forced)
    stops = stops_in_the_way(found, plan)
    name = file_stem(week_name(plan.start), next_revision(found, plan))
    data = _data(found, plan, issued_at, stops)
    data["forced"] = forced.strip() if stops else ""
    data["revision"] = revision_of(name)
    for place, digest in found.digests.items():
        refuse_changed(found.folder / place, digest)
    folder = found.folder / FOLDER
    try:
        folder.mkdir(exist_ok=True)
    except OSError as problem:
        raise SaveError(*trouble(problem), str(folder)) from problem
    _save(found, name, sealed_text(data))
    return issued_week_of(name, data)


def _save(found: SiteFolder, name: str, text: str) -> None:
    path = found.folder / FOLDER / f"{name}.json"
    try:
        save_new_text(path, text)
    except SaveError as problem:
        if "is there already" not in problem.what:
            raise
        what = "was issued by somebody else meanwhile"
        fix = "look at it, then run the command again for a correction"
        raise SaveError(what, fix, str(path)) from problem


def next_revision(found: SiteFolder, plan: WeekPlan) -> int:
    """Revision that a week gets: one above those in the folder as it was read.

    Parameters
    ----------
    found : SiteFolder
        The folder; a file that cannot be read keeps its number.
    plan : WeekPlan
        The week.

    Returns
    -------
    int
        1 for a week that was not issued.
    """
    week = week_name(plan.start)
    stems = (name.removesuffix(".json") for name in found.week_files)
    taken = [revision_of(one) for one in stems if one.split(".r")[0] == week]
    return max(taken, default=0) + 1


def issued_before(history: History, plan: WeekPlan) -> IssuedWeek | None:
    """Newest revision of the very week of a plan.

    Parameters
    ----------
    history : History
        Issued weeks.
    plan : WeekPlan
        The week.

    Returns
    -------
    IssuedWeek or None
        None where it was not issued.
    """
    week = week_name(plan.start)
    same = (one for one in history.issued if week_name(one.start) == week)
    return max(same, key=lambda one: one.order, default=None)


def is_issued_alike(history: History, plan: WeekPlan) -> bool:
    """Whether the newest revision of the week tells the clock the same already.

    Parameters
    ----------
    history : History
        Issued weeks.
    plan : WeekPlan
        The week.

    Returns
    -------
    bool
        Minutes, cycles, soaks, nights, stations and timetable are the same; stations
        of weeks that did not tell them count as the same.
    """
    before = issued_before(history, plan)
    if before is None or before.start != plan.start:
        return False
    told = [
        (one.zone, one.minutes_per_day, one.cycles, one.soak_minutes, one.days)
        for one in before.zones
    ]
    now = [
        (one.zone.id, one.minutes_per_day, one.cycles or 1, one.soak_minutes, one.days)
        for one in plan.zones
        if one.minutes_per_day is not None
    ]
    hangs = _stations(plan)
    if any(
        one.station is not None and hangs.get(one.zone) != (one.controller, one.station)
        for one in before.zones
    ):
        return False
    runs = [(one.zone, one.start, one.end) for one in before.runs]
    night = plan.night.runs if plan.night else ()
    return told == now and runs == [(one.zone, one.start, one.end) for one in night]


def _data(
    found: SiteFolder, plan: WeekPlan, issued_at: str, stops: Sequence[Finding]
) -> Json:
    night = plan.night
    return {
        "format": FORMAT,
        "week": week_name(plan.start),
        "revision": 1,
        "site": plan.site.name,
        "start": plan.start.isoformat(),
        "today": plan.today.isoformat(),
        "issued_at": issued_at,
        "forced": "",
        "stops": [str(one) for one in stops],
        "zones": [_zone(one, plan, _stations(plan)) for one in plan.zones],
        "timetable": [
            {
                "zone": one.zone,
                "night": one.night.isoformat(),
                "start": one.start.isoformat(timespec="minutes"),
                "end": one.end.isoformat(timespec="minutes"),
                "flow_l_per_min": one.flow_l_per_min,
            }
            for one in (night.runs if night else ())
        ],
        "unplaced": [
            {"zone": zone, "night": day.isoformat()}
            for zone, day in (night.unplaced if night else ())
        ],
        "programs": [_program(one, by) for one in plan.clocks for by in one.programs],
        "inputs": dict(sorted(found.digests.items())),
    }


def _stations(plan: WeekPlan) -> dict[str, tuple[str, int]]:
    """Clock and station of each zone."""
    return {
        zone: (one.controller.id, number)
        for one in wired(plan.site)
        for zone, number in one.numbers.items()
    }


def _zone(plan: ZonePlan, week: WeekPlan, stations: dict[str, tuple[str, int]]) -> Json:
    changed, numbers = plan.changed, key_numbers(plan, week.short)
    told: dict[str, Any] = {
        "zone": plan.zone.id,
        "name": plan.zone.name,
        "valve": plan.zone.valve,
        "controller": stations[plan.zone.id][0],
        "station": stations[plan.zone.id][1],
        "status": plan.status,
        "minutes_per_day": plan.minutes_per_day,
        "cycles": plan.cycles,
        "cycle_minutes": plan.cycle_minutes,
        "soak_minutes": plan.soak_minutes,
        "days": [day.isoformat() for day in plan.days],
        "was_minutes": plan.was_minutes,
        "was_from": plan.was_from,
        "change": changed.change if changed else None,
        "reason": changed.reason if changed else "",
        "effects": [dataclasses.asdict(one) for one in changed.shares]
        if changed
        else [],
        "overrides": [
            {**dataclasses.asdict(one), "date": one.date.isoformat()}
            for one in (changed.overrides if changed else ())
        ],
        "numbers": None,
    }
    if numbers is not None:
        told["numbers"] = {
            **dataclasses.asdict(numbers),
            "factors": dict(numbers.factors),
        }
    return told


def _program(clock: ClockView, one: Program) -> Json:
    return {
        "controller": clock.id,
        "name": one.name,
        "days": list(one.days),
        "starts": [start.strftime("%H:%M") for start in one.starts],
        "stations": [dataclasses.asdict(station) for station in one.stations],
    }
