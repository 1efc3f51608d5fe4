"""Programs in; the runs that a clock makes of them, and the starts that wait, out."""

import datetime as dt
from collections.abc import Sequence

from scheduler.site import WEEKDAYS
from scheduler.watering.clock_view.nouns import ClockRun, Program

DAY_MIN = 1440
WEEK_MIN = 7 * DAY_MIN


def expanded(
    programs: Sequence[Program],
    first: dt.date,
    *,
    anchor_min: int,
    delay_min: int = 0,
    may_overlap: bool = True,
) -> tuple[tuple[ClockRun, ...], tuple[tuple[str, int, int], ...]]:
    """What a clock runs in the seven nights from a day on.

    Parameters
    ----------
    programs : sequence of Program
        As keyed in.
    first : date
        Day on whose evening the first night begins.
    anchor_min : int
        Minute of that day from which on the week counts; it ends seven days later.
        [min]
    delay_min : int
        Between two stations of a program. [min]
    may_overlap : bool
        Whether two programs may run at once.

    Returns
    -------
    runs : tuple of ClockRun
        By start.
    waits : tuple of (str, int, int)
        Program, minute at which a start was due, and minute at which it began, of each
        start that had to wait because water was still running.

    Notes
    -----
    A start that falls due while its own program runs waits for the end of it
    (stacking); so does one of another program where programs must not overlap.

    References
    ----------
    Source: definition; stacking of starts: common practice, no source.

    Examples
    --------
    >>> from scheduler.watering.clock_view.nouns import Station
    >>> one = Program("A", ("mon",), (dt.time(22), dt.time(22, 5)),
    ...               (Station(1, "Z1", 20),))
    >>> runs, waits = expanded([one], dt.date(2026, 6, 8), anchor_min=1080)
    >>> [run.start_min for run in runs], waits
    ([1320, 1340], (('A', 1325, 1340),))
    """
    due = sorted(
        (minute, place)
        for place, one in enumerate(programs)
        for minute in _due(one, first, anchor_min)
    )
    free = [anchor_min] * len(programs)
    runs: list[ClockRun] = []
    waits = []
    for minute, place in due:
        one = programs[place]
        begin = max(minute, free[place] if may_overlap else max(free))
        if begin > minute:
            waits.append((one.name, minute, begin))
        at = begin
        for station in one.stations:
            runs.append(ClockRun(at, station.zone, station.minutes))
            at += station.minutes + delay_min
        free[place] = at - delay_min
    return tuple(sorted(runs)), tuple(waits)


def _due(one: Program, first: dt.date, anchor_min: int) -> list[int]:
    """Minutes at which a program is due within the week."""
    found = []
    for day in range(8):
        if WEEKDAYS[(first.weekday() + day) % 7] not in one.days:
            continue
        for start in one.starts:
            minute = day * DAY_MIN + start.hour * 60 + start.minute
            if anchor_min <= minute < anchor_min + WEEK_MIN:
                found.append(minute)
    return found
