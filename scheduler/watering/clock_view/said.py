"""Programs and what the clock has in; what cannot be held, with the nearest, out."""

from collections.abc import Iterator, Sequence

from scheduler.errors import Finding
from scheduler.site import Controller
from scheduler.watering.clock_view.nearest import MOST_PROGRAMS
from scheduler.watering.clock_view.nouns import ClockRun, MovedRun, Program

WHERE = "site.toml: controller"
Overlap = tuple[tuple[str, str], ...]


def clock_view_findings(
    controller: Controller,
    programs: Sequence[Program],
    overlaps: Overlap,
    nearest: tuple[tuple[Program, ...], tuple[MovedRun, ...]] | None,
) -> Iterator[Finding]:
    """What the clock cannot hold, and what must be looked at on it.

    Parameters
    ----------
    controller : Controller
        What it has.
    programs : sequence of Program
        What the week needs.
    overlaps : tuple of (str, str)
        Programs that run at the same time.
    nearest : tuple of programs and moved runs, or None
        The nearest week that it holds.

    Yields
    ------
    Finding
        With the remedy.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> found = clock_view_findings(Controller(programs=1), [
    ...     Program("A", ("mon",), (dt.time(22),), ()),
    ...     Program("B", ("tue",), (dt.time(22),), ())], (), None)
    >>> [one.what for one in found]
    ['holds 1 program, the week needs 2']
    """
    most = controller.programs
    if most is not None and len(programs) > most:
        held = "program" if most == 1 else "programs"
        starts = controller.starts_per_program
        of = f" of at most {starts} starts" if starts else ""
        what = f"holds {most} {held}, the week needs {len(programs)}{of}"
        yield Finding("warning", WHERE, what, _way_out(nearest))
    if overlaps and controller.programs_overlap is not True:
        pairs = ", ".join(f"{a} and {b}" for a, b in overlaps[:4])
        more = f" and {len(overlaps) - 4} more pairs" if len(overlaps) > 4 else ""
        if controller.programs_overlap is None:
            what = f"programs {pairs}{more} run at the same time"
            fix = (
                "look whether the clock lets two programs run at once, and enter "
                "programs_overlap = true or false: on many the later one waits"
            )
            yield Finding("note", WHERE, what, fix)
        else:
            what = (
                f"programs {pairs}{more} are meant to run at the same time, and this "
                "clock lets the later one wait"
            )
            fix = _one_after_the_other(nearest)
            yield Finding("warning", WHERE, what, fix)


def not_given_back(
    wanted: Sequence[ClockRun], given: Sequence[ClockRun]
) -> Finding | None:
    """Whether the programs give the timetable back, minute for minute.

    Parameters
    ----------
    wanted, given : sequence of ClockRun
        The timetable, and what the programs make.

    Returns
    -------
    Finding or None
        A stop where they differ: a fault of this program, and nothing to key in.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> not_given_back([ClockRun(1320, "Z1", 5)], [ClockRun(1320, "Z1", 5)])
    >>> not_given_back([ClockRun(1320, "Z1", 5)], []).level
    'stop'
    """
    if sorted(wanted) == sorted(given):
        return None
    odd = sorted({one.zone for one in {*wanted} ^ {*given}})
    what = f"the programs do not give the timetable back (zones {', '.join(odd)})"
    fix = "key in by the timetable, and report this as a fault"
    return Finding("stop", "clock", what, fix)


def _way_out(
    nearest: tuple[tuple[Program, ...], tuple[MovedRun, ...]] | None,
) -> str:
    if nearest is None:
        return (
            f"no nearer week was found (searched up to {MOST_PROGRAMS} programs): "
            "water zones on the same nights, allow more time, or use a second clock"
        )
    return f"key in the nearest week that it holds: {_moves(nearest[1])}"


def _one_after_the_other(
    nearest: tuple[tuple[Program, ...], tuple[MovedRun, ...]] | None,
) -> str:
    if nearest is None:
        return "set max_valves_at_once to 1, and plan again"
    return f"as keyed in it waits, and still keeps the night: {_moves(nearest[1])}"


def _moves(moved: Sequence[MovedRun]) -> str:
    if not moved:
        return "it moves nothing"
    zones = sorted({one.zone for one in moved})
    most = max(abs(one.minutes) for one in moved)
    return f"it moves {', '.join(zones)} by at most {most} min"
