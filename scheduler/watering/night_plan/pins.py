"""Nights as laid out and waterings moved by hand in; nights that keep them out.

A moved watering finds only its own minutes open, so the search, the bounds and the
checker treat it like any other; whatever else has a place stays there if it can.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from scheduler.arrays import BoolArray
from scheduler.errors import Finding
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.layout import NightLayout, laid_out_again
from scheduler.watering.night_plan.night_hours import NightHours
from scheduler.watering.night_plan.result import Pin
from scheduler.watering.timetable import Grid, Job, Placed, Timetable
from scheduler.watering.timetable.checker import broken_rules


@dataclass(frozen=True, slots=True, eq=False)
class PinnedWeek:
    """A week with its moved waterings.

    Attributes
    ----------
    week : WeekJobs
        Moved waterings on the nights they were moved to.
    layouts : tuple of NightLayout
        Every night that waters.
    pins : tuple of Pin
        Those that could be kept.
    findings : tuple of Finding
        What must be said of them.
    """

    week: WeekJobs
    layouts: tuple[NightLayout, ...]
    pins: tuple[Pin, ...]
    findings: tuple[Finding, ...]


def pinned(
    week: WeekJobs,
    layouts: Sequence[NightLayout],
    pins: Sequence[Pin],
    hours: NightHours,
    allowed: Mapping[str, BoolArray],
) -> PinnedWeek:
    """Keep waterings where somebody put them, and lay out their nights again.

    Parameters
    ----------
    week : WeekJobs
        Jobs and grids.
    layouts : sequence of NightLayout
        The nights without pins.
    pins : sequence of Pin
        Of one watering the last counts.
    hours : NightHours
        Minutes of the nights.
    allowed : mapping of str to array of shape (n_nights,)
        Nights on which a zone may be watered.

    Returns
    -------
    PinnedWeek
        A pin that no longer fits is let go, and said.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> from scheduler.watering.night_plan.layout import laid_out
    >>> grid = Grid(np.ones((1, 1, 60), dtype=bool), np.ones((1, 1, 60)), 100.0)
    >>> week = WeekJobs(((Job("Z1", 1, 30, 0, 60.0, must=(0,)),),), (grid,),
    ...                 {"Z1": 60.0}, ())
    >>> day = dt.date(2026, 6, 8)
    >>> hours = NightHours((day,), 1320, np.ones((1, 60), dtype=bool))
    >>> pin = Pin("Z1", day, day, (dt.datetime(2026, 6, 8, 22, 20),))
    >>> done = pinned(week, laid_out(week, {}), (pin,), hours,
    ...               {"Z1": np.ones(1, dtype=bool)})
    >>> done.layouts[0].table.placed[0].starts
    (20,)
    """
    jobs = [list(some) for some in week.jobs]
    held: dict[int, dict[str, tuple[Placed, Pin]]] = {}
    said: list[Finding] = []
    last = {(one.zone, one.night): one for one in pins}
    for pin in last.values():
        why = why_no_pin(jobs, pin, hours, allowed)
        if why:
            said.append(_let_go(pin, why))
            continue
        was, night = hours.dates.index(pin.night), hours.dates.index(pin.to_night)
        job = next(one for one in jobs[was] if one.zone == pin.zone)
        jobs[was].remove(job)
        jobs[night].append(job)
        starts = tuple(hours.minute(night, one) for one in pin.starts)
        held.setdefault(night, {})[pin.zone] = (Placed(0, starts, pin.zone), pin)
        if was != night:
            held.setdefault(was, {})
            said.append(_other_night(pin))
    moved = replace(
        week, jobs=tuple(tuple(sorted(some, key=lambda j: j.zone)) for some in jobs)
    )
    done = {one.night: one for one in layouts}
    kept: list[Pin] = []
    for night, some in held.items():
        one, stay = _with_pins(night, moved, done.pop(night, None), some)
        if one is not None:
            done[night] = one
        kept += stay
        said += [
            _let_go(pin, "its minutes are taken or closed now")
            for _, pin in some.values()
            if pin not in stay
        ]
    order = sorted(done.values(), key=lambda one: one.night)
    return PinnedWeek(moved, tuple(order), tuple(kept), tuple(said))


def why_no_pin(
    jobs: Sequence[Sequence[Job]],
    pin: Pin,
    hours: NightHours,
    allowed: Mapping[str, BoolArray],
) -> str:
    """Why a watering cannot be moved to a night, whatever else runs then.

    Parameters
    ----------
    jobs : sequence of sequence of Job
        Of each night.
    pin : Pin
        The move.
    hours : NightHours
        For the dates.
    allowed : mapping of str to array of shape (n_nights,)
        Nights on which a zone may be watered.

    Returns
    -------
    str
        Empty where nothing is in the way.

    References
    ----------
    Source: definition.
    """
    if pin.night not in hours.dates or pin.to_night not in hours.dates:
        return "it lies outside the week"
    was, night = hours.dates.index(pin.night), hours.dates.index(pin.to_night)
    job = next((one for one in jobs[was] if one.zone == pin.zone), None)
    if job is None:
        return f"{pin.zone} is not watered on {pin.night:%a} now"
    if len(pin.starts) != job.cycles:
        return f"it has {job.cycles} cycles now, {len(pin.starts)} were moved"
    if was != night and any(one.zone == pin.zone for one in jobs[night]):
        return f"{pin.zone} is watered on {pin.to_night:%a} already"
    if was != night and not allowed[pin.zone][night]:
        return f"{pin.zone} may not be watered on {pin.to_night:%a}"
    return ""


def _let_go(pin: Pin, why: str) -> Finding:
    where = f"zone {pin.zone}: moved watering"
    fix = "undo the move, or move it again"
    return Finding("warning", where, f"{pin} is let go: {why}", fix)


def _other_night(pin: Pin) -> Finding:
    what = (
        f"{pin}: the minutes and the balance of the week are those of "
        f"{pin.night:%a}, so on {pin.to_night:%a} the plants find more or less water"
    )
    fix = "to plan for other nights, change the days of the zone"
    return Finding("note", f"zone {pin.zone}: moved watering", what, fix)


def _with_pins(
    night: int,
    week: WeekJobs,
    before: NightLayout | None,
    some: Mapping[str, tuple[Placed, Pin]],
) -> tuple[NightLayout | None, list[Pin]]:
    """One night laid out again; None where it waters nothing now."""
    if not week.jobs[night]:
        return None, []
    places = {zone: place for zone, (place, _) in some.items()}
    others = before.table.placed if before else ()
    loose = _loosened(week.jobs[night], others)
    jobs, grid = _narrowed(loose, week.grids[night], places)
    asked = {job.zone for job in jobs}
    begin = [
        *places.values(),
        *(one for one in others if one.zone in asked - places.keys()),
    ]
    begin = _honest(jobs, grid, begin)
    if before and len(jobs) == len(begin) == len(before.table.placed):
        length = before.length  # the same waterings take as long as before
    else:
        length = None
    one = laid_out_again(night, jobs, grid, begin)
    placed = set(one.table.placed)
    stay = [pin for place, pin in some.values() if place in placed]
    return replace(one, length=one.length or length), stay


def _loosened(jobs: Sequence[Job], placed: Sequence[Placed]) -> tuple[Job, ...]:
    """Jobs whose cycles lie far apart already may keep them so."""
    starts = {one.zone: one.starts for one in placed}

    def is_far(job: Job) -> bool:
        most, own = job.most_soak_min, starts.get(job.zone, ())
        return most is not None and any(
            b - a - job.cycle_min > most for a, b in pairwise(own)
        )

    return tuple(
        replace(job, most_soak_min=None) if is_far(job) else job for job in jobs
    )


def _narrowed(
    jobs: Sequence[Job], grid: Grid, places: Mapping[str, Placed]
) -> tuple[tuple[Job, ...], Grid]:
    """Jobs and grid in which a moved watering finds its own minutes open only."""
    opens, costs, done = [*grid.is_open], [*grid.cost], []
    for job in jobs:
        place = places.get(job.zone)
        if place is None:
            done.append(job)
            continue
        own = np.zeros_like(grid.is_open[job.kind])
        for start in place.starts:
            own[0, max(start - grid.change_over_min, 0) : start + job.cycle_min] = True
        done.append(replace(job, kind=len(opens), most_soak_min=None))
        opens.append(own & grid.is_open[job.kind])
        costs.append(grid.cost[job.kind])
    return tuple(done), replace(grid, is_open=np.array(opens), cost=np.array(costs))


def _honest(jobs: Sequence[Job], grid: Grid, places: Sequence[Placed]) -> list[Placed]:
    """Places that break no rule; of two that clash the earlier in the list."""

    def breaks(some: Sequence[Placed]) -> bool:
        zones = {one.zone for one in some}
        asked = [job for job in jobs if job.zone in zones]
        return bool(broken_rules(asked, grid, Timetable(tuple(some), (), 0.0)))

    if not breaks(places):
        return list(places)
    good: list[Placed] = []
    for one in places:
        if not breaks([*good, one]):
            good.append(one)
    return good
