"""What is said of a clock that cannot hold a week."""

import datetime as dt

from scheduler.site import Controller
from scheduler.watering.clock_view.nouns import ClockRun, MovedRun, Nearest, Program
from scheduler.watering.clock_view.said import clock_view_findings, not_given_back

TWO = [Program(name, ("mon",), (dt.time(22),), ()) for name in "AB"]
MONDAY = dt.date(2026, 6, 8)
HALF_PAST_TEN = dt.datetime.combine(MONDAY, dt.time(22, 30))
MOVED = (MovedRun("Z2", MONDAY, HALF_PAST_TEN, -10),)


def said(clock: Controller, **given: object) -> list[tuple[str, str, str]]:
    overlaps = given.get("overlaps", ())
    found = clock_view_findings(clock, TWO, overlaps, given.get("nearest"))  # type: ignore[arg-type]
    return [(one.level, one.what, one.fix) for one in found]


def test_a_clock_without_limits_has_nothing_said() -> None:
    assert said(Controller()) == []


def test_a_clock_with_enough_programs_has_nothing_said() -> None:
    assert said(Controller(programs=2)) == []


def test_too_few_programs_name_both_numbers_and_the_starts() -> None:
    ((level, what, _),) = said(Controller(programs=1, starts_per_program=3))
    assert (level, what) == (
        "warning",
        "holds 1 program, the week needs 2 of at most 3 starts",
    )


def test_the_nearest_week_is_the_way_out() -> None:
    ((_, _, fix),) = said(Controller(programs=1), nearest=Nearest((TWO[0],), MOVED))
    assert fix == (
        "key in the nearest week that it holds: it moves Z2 by at most 10 min, and no "
        "minute of water differs"
    )


def test_without_a_nearest_week_that_is_said() -> None:
    ((_, _, fix),) = said(Controller(programs=1))
    assert "no nearer week was found" in fix


def test_overlaps_of_a_clock_nobody_described_are_asked_about() -> None:
    ((level, what, fix),) = said(Controller(), overlaps=(("A", "B"),))
    assert (level, what) == ("note", "programs A and B run at the same time")
    assert "programs_overlap" in fix


def test_overlaps_are_no_matter_where_the_clock_has_them() -> None:
    assert said(Controller(programs_overlap=True), overlaps=(("A", "B"),)) == []


def test_overlaps_of_a_clock_that_waits_are_a_warning() -> None:
    ((level, what, fix),) = said(
        Controller(programs_overlap=False), overlaps=(("A", "B"),)
    )
    assert level == "warning"
    assert "lets the later one wait" in what
    assert "max_valves_at_once" in fix


def test_a_wait_that_keeps_the_night_is_said_with_its_minutes() -> None:
    ((_, _, fix),) = said(
        Controller(programs_overlap=False),
        overlaps=(("A", "B"),),
        nearest=Nearest(tuple(TWO), MOVED),
    )
    assert "still keeps the night: it moves Z2 by at most 10 min" in fix


def test_many_overlaps_are_counted() -> None:
    pairs = tuple(("A", f"B{i}") for i in range(6))
    ((_, what, _),) = said(Controller(), overlaps=pairs)
    assert "and 2 more pairs" in what


def test_a_week_that_is_not_given_back_is_a_stop_with_its_zones() -> None:
    wanted, given = [ClockRun(1320, "Z1", 20)], [ClockRun(1321, "Z1", 20)]
    found = not_given_back(wanted, given)
    assert found is not None
    assert (found.level, "zones Z1" in found.what) == ("stop", True)


def test_the_order_of_runs_is_no_difference() -> None:
    runs = [ClockRun(1320, "Z1", 20), ClockRun(1320, "Z2", 20)]
    assert not_given_back(runs, runs[::-1]) is None
