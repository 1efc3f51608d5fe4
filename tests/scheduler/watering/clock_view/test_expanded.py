"""What a clock makes of its programs."""

import datetime as dt

from scheduler.watering.clock_view.expanded import expanded
from scheduler.watering.clock_view.nouns import ClockRun, Program, Station

MONDAY = dt.date(2026, 6, 8)
EVENING = 18 * 60


def program(
    name: str, days: str, *starts: tuple[int, int], minutes: int = 20
) -> Program:
    station = (Station(1, f"Z{name}", minutes),)
    return Program(
        name, tuple(days.split()), tuple(dt.time(*s) for s in starts), station
    )


def starts(*programs: Program, may_overlap: bool = True) -> list[int]:
    runs, _ = expanded(programs, MONDAY, anchor_min=EVENING, may_overlap=may_overlap)
    return [run.start_min for run in runs]


def test_a_second_start_repeats_all_stations() -> None:
    both = (Station(1, "Z1", 20), Station(2, "Z2", 15))
    one = Program("A", ("mon",), (dt.time(22), dt.time(23)), both)
    runs, _ = expanded([one], MONDAY, anchor_min=EVENING)
    assert [(run.zone, run.start_min) for run in runs] == [
        ("Z1", 1320), ("Z2", 1340), ("Z1", 1380), ("Z2", 1400),
    ]  # fmt: skip


def test_a_start_after_midnight_is_of_the_calendar_day() -> None:
    # Tuesday 00:30 belongs to the night that begins on Monday's evening
    assert starts(program("A", "tue", (0, 30))) == [1470]


def test_the_small_hours_of_the_first_day_come_at_the_end_of_the_week() -> None:
    assert starts(program("A", "mon", (0, 30))) == [7 * 1440 + 30]


def test_a_start_within_its_own_run_waits() -> None:
    one = program("A", "mon", (22, 0), (22, 5))
    runs, waits = expanded([one], MONDAY, anchor_min=EVENING)
    assert [run.start_min for run in runs] == [1320, 1340]
    assert waits == (("A", 1325, 1340),)


def test_two_programs_run_at_once_where_the_clock_lets_them() -> None:
    both = program("A", "mon", (22, 0)), program("B", "mon", (22, 10))
    assert starts(*both) == [1320, 1330]


def test_the_later_program_waits_where_they_must_not_overlap() -> None:
    both = program("A", "mon", (22, 0)), program("B", "mon", (22, 10))
    assert starts(*both, may_overlap=False) == [1320, 1340]


def test_a_delay_lies_between_stations_and_not_behind_the_last() -> None:
    both = (Station(1, "Z1", 20), Station(2, "Z2", 15))
    one = Program("A", ("mon",), (dt.time(22), dt.time(22, 36)), both)
    runs, waits = expanded([one], MONDAY, anchor_min=EVENING, delay_min=1)
    assert waits == ()
    assert runs[1] == ClockRun(1341, "Z2", 15)
