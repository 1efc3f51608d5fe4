"""Nights in which the clocks change in, what must be said of them out."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from scheduler.arrays import BoolArray
from scheduler.errors import Finding
from scheduler.said import day_text
from scheduler.watering.night_plan.clock_change import ChangedNight
from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.layout import NightLayout
from scheduler.watering.night_plan.night_hours import NightHours


def change_findings(
    week: WeekJobs, layouts: Sequence[NightLayout], hours: NightHours
) -> Iterator[Finding]:
    """What must be said of nights with an hour more or less.

    Parameters
    ----------
    week : WeekJobs
        For minutes and soaks.
    layouts : sequence of NightLayout
        The nights.
    hours : NightHours
        For the changes of the clocks.

    Yields
    ------
    Finding
        One a changed night that waters.

    References
    ----------
    Source: definition.
    """
    for one in layouts:
        change = hours.changes.get(one.night)
        if change is None:
            continue
        name = day_text(hours.dates[one.night], "%a %d %b")
        if change.skipped.any():
            said = _skipped(one, week, hours, change)
        else:
            said = _repeated(one, hours, change)
        what = f"the night of {name} is one of {change.hours:g} hours: {said}"
        fix = (
            "starts are by the wall clock; look that the clock changes by itself, and "
            "at what it runs that night"
        )
        yield Finding("note", "night plan: clock change", what, fix)


def _span(minutes: BoolArray, night: int, hours: NightHours) -> str:
    at = np.flatnonzero(minutes)
    first, last = hours.clock(night, int(at[0])), hours.clock(night, int(at[-1]) + 1)
    return f"{first:%H:%M} to {last:%H:%M}"


def _skipped(
    one: NightLayout, week: WeekJobs, hours: NightHours, change: ChangedNight
) -> str:
    said = (
        f"{_span(change.skipped, one.night, hours)} is skipped, and nothing is planned "
        "in it"
    )
    jobs = {job.zone: job for job in week.jobs[one.night]}
    short = []
    for placed in one.table.placed:
        job = jobs[placed.zone]
        for start, following in pairwise(placed.starts):
            end = start + job.cycle_min
            real = int((~change.skipped[end:following]).sum())
            if real < job.soak_min:
                short.append(f"{job.zone} soaks {real} min instead of {job.soak_min}")
    return "; ".join([said, *short])


def _repeated(one: NightLayout, hours: NightHours, change: ChangedNight) -> str:
    said = f"{_span(change.repeated, one.night, hours)} comes twice"
    twice = sorted(
        placed.zone
        for placed in one.table.placed
        if any(change.repeated[start] for start in placed.starts)
    )
    if not twice:
        return f"{said}, and no zone starts in it"
    return (
        f"{said}; {', '.join(twice)} start in it and are meant the first time: a clock "
        "that goes by the hour shown may water them again"
    )
