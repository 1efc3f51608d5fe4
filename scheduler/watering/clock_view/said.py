"""Programs and what the clock has in; what cannot be held, with the nearest, out."""

from collections.abc import Iterator, Sequence

from scheduler.errors import Finding
from scheduler.site import Controller
from scheduler.units import System, shown
from scheduler.watering.clock_view.nearest import MOST_PROGRAMS
from scheduler.watering.clock_view.nouns import (
    ClockRun,
    MovedRun,
    Nearest,
    OtherWater,
    Program,
)

WHERE = "site.toml: controller"
Overlap = tuple[tuple[str, str], ...]


def clock_view_findings(
    controller: Controller,
    programs: Sequence[Program],
    overlaps: Overlap,
    nearest: Nearest | None,
    *,
    where: str = WHERE,
    units: System = "metric",
) -> Iterator[Finding]:
    """What the clock cannot hold, and what must be looked at on it.

    Parameters
    ----------
    controller : Controller
        What it has.
    programs : sequence of Program
        What the week needs.
    overlaps : tuple of (str, str)
        Programs that run at the same time; where nobody entered whether they may,
        those of the nearest week, if there is one.
    nearest : Nearest or None
        The nearest week that it holds.
    where : str
        Place of the clock.
    units : str
        How depths are written.

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
        yield Finding("warning", where, what, _way_out(nearest, units))
    is_settled = most is not None and len(programs) > most and nearest is not None
    is_settled = is_settled and controller.programs_overlap is False
    if overlaps and controller.programs_overlap is not True and not is_settled:
        pairs = ", ".join(f"{a} and {b}" for a, b in overlaps[:4])
        more = f" and {len(overlaps) - 4} more pairs" if len(overlaps) > 4 else ""
        if controller.programs_overlap is None:
            what = f"programs {pairs}{more} run at the same time"
            fix = (
                "look whether the clock lets two programs run at once, and enter "
                "programs_overlap = true or false: on many the later one waits"
            )
            yield Finding("note", where, what, fix)
        else:
            what = (
                f"programs {pairs}{more} are meant to run at the same time, and this "
                "clock lets the later one wait"
            )
            fix = _one_after_the_other(nearest)
            yield Finding("warning", where, what, fix)


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


def water_text(one: OtherWater, units: System) -> str:
    """What the nearest week does to a zone's water.

    Parameters
    ----------
    one : OtherWater
        The zone.
    units : str
        How depths are written.

    Returns
    -------
    str
        In words.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> water_text(OtherWater("Z1", 120, 119, -0.2, 7, 2), "metric")
    'Z1 7 nights (2), 119 min a week (1 less, 0.2 mm)'
    """
    more = one.now_minutes - one.was_minutes
    word = "more" if more > 0 else "less"
    depth = "" if one.mm is None else f", {shown(abs(one.mm), 'mm', units)}"
    said = f"{abs(more)} {word}{depth}" if more else "as planned"
    nights = ""
    if one.nights != one.was_nights:
        many = "night" if one.nights == 1 else "nights"
        nights = f"{one.nights} {many} ({one.was_nights}), "
    return f"{one.zone} {nights}{one.now_minutes} min a week ({said})"


def _way_out(nearest: Nearest | None, units: System) -> str:
    if nearest is None:
        return (
            f"no nearer week was found (searched up to {MOST_PROGRAMS} programs): "
            "water zones on the same nights, allow more time, or use a second clock"
        )
    said = f"key in the nearest week that it holds: {_moves(nearest.moved)}"
    if not nearest.other:
        said += ", and no minute of water differs"
    else:
        minutes = sum(abs(one.now_minutes - one.was_minutes) for one in nearest.other)
        water = "; ".join(water_text(one, units) for one in nearest.other)
        said += f"; {minutes} min of water differ in the week: {water}"
    return said


def _one_after_the_other(nearest: Nearest | None) -> str:
    if nearest is None:
        return "set max_valves_at_once to 1, and plan again"
    return f"as keyed in it waits, and still keeps the night: {_moves(nearest.moved)}"


def _moves(moved: Sequence[MovedRun]) -> str:
    if not moved:
        return "it moves nothing"
    zones = sorted({one.zone for one in moved})
    most = max(abs(one.minutes) for one in moved)
    return f"it moves {', '.join(zones)} by at most {most} min"
