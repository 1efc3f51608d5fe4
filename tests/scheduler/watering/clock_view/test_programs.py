"""A timetable becomes programs, and the programs give it back."""

import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from scheduler.watering.clock_view.expanded import expanded
from scheduler.watering.clock_view.nouns import ClockRun, Program, Station
from scheduler.watering.clock_view.programs import named, week_programs

MONDAY = dt.date(2026, 6, 8)
EVENING = 18 * 60
ZONES = [f"Z{i}" for i in range(1, 7)]
NUMBERS = {zone: i for i, zone in enumerate(ZONES, 1)}


def nightly(
    zone: str, start: int, minutes: int, nights: range = range(7)
) -> list[ClockRun]:
    return [ClockRun(night * 1440 + start, zone, minutes) for night in nights]


def made(runs: list[ClockRun], **how: int) -> list[tuple[str, str, str]]:
    return [
        (
            " ".join(one.days) if len(one.days) < 7 else "daily",
            " ".join(f"{start:%H:%M}" for start in one.starts),
            " ".join(f"{two.zone}:{two.minutes}" for two in one.stations),
        )
        for one in week_programs(runs, NUMBERS, MONDAY, **how)
    ]


def test_zones_that_follow_one_another_share_a_start() -> None:
    runs = nightly("Z1", 1320, 20) + nightly("Z2", 1340, 15)
    assert made(runs) == [("daily", "22:00", "Z1:20 Z2:15")]


def test_stations_run_by_number_so_the_other_order_takes_two_programs() -> None:
    runs = nightly("Z2", 1320, 20) + nightly("Z1", 1340, 15)
    assert len(made(runs)) == 2


def test_cycles_are_starts_of_one_program() -> None:
    runs = nightly("Z1", 1320, 8) + nightly("Z1", 1347, 8) + nightly("Z1", 1374, 8)
    assert made(runs) == [("daily", "22:00 22:27 22:54", "Z1:8")]


def test_cycles_of_two_zones_in_turn_are_one_program() -> None:
    runs = [
        run
        for start in (1320, 1380)
        for run in nightly("Z1", start, 20) + nightly("Z2", start + 20, 15)
    ]
    assert made(runs) == [("daily", "22:00 23:00", "Z1:20 Z2:15")]


def test_a_start_after_midnight_stands_under_the_next_day() -> None:
    assert made(nightly("Z1", 1440 + 30, 20, range(0, 1))) == [
        ("tue", "00:30", "Z1:20")
    ]


def test_cycles_on_both_sides_of_midnight_need_two_programs() -> None:
    nights = range(0, 1)
    runs = nightly("Z1", 1430, 8, nights) + nightly("Z1", 1450, 8, nights)
    assert made(runs) == [("mon", "23:50", "Z1:8"), ("tue", "00:10", "Z1:8")]


def test_a_chain_may_run_past_midnight() -> None:
    nights = range(0, 1)
    runs = nightly("Z1", 1430, 20, nights) + nightly("Z2", 1450, 8, nights)
    assert made(runs) == [("mon", "23:50", "Z1:20 Z2:8")]


def test_a_start_that_would_fall_into_its_own_run_gets_a_program_of_its_own() -> None:
    # Z1 begins again while Z2 still runs: one program would stack
    runs = [
        run
        for start in (1320, 1345)
        for run in nightly("Z1", start, 20) + nightly("Z2", start + 20, 15)
    ]
    found = week_programs(runs, NUMBERS, MONDAY)
    given_back, waits = expanded(found, MONDAY, anchor_min=EVENING)
    assert (list(given_back), waits) == (sorted(runs), ())


def test_more_starts_than_a_program_holds_take_another_program() -> None:
    runs = [run for k in range(5) for run in nightly("Z1", 1320 + 30 * k, 8)]
    assert [len(one[1].split()) for one in made(runs, most_starts=3)] == [3, 2]


def test_the_delay_of_a_change_over_is_the_stations_delay() -> None:
    runs = nightly("Z1", 1320, 20) + nightly("Z2", 1342, 15)
    assert made(runs, delay_min=2) == [("daily", "22:00", "Z1:20 Z2:15")]


def test_letters_go_on_behind_z() -> None:
    one = Program("", ("mon",), (dt.time(22),), (Station(1, "Z1", 5),))
    assert [one.name for one in named([one] * 28)][24:] == ["Y", "Z", "A2", "B2"]


@st.composite
def weeks(draw: st.DrawFn) -> list[ClockRun]:
    """Zones with cycles on some nights, alike from night to night or not."""
    runs: set[ClockRun] = set()
    for zone in draw(st.lists(st.sampled_from(ZONES), min_size=1, unique=True)):
        minutes = draw(st.integers(1, 60))
        nights = draw(st.lists(st.integers(0, 6), min_size=1, unique=True))
        start = draw(st.integers(EVENING, EVENING + 400))
        cycles = draw(st.integers(1, 4))
        gap = draw(st.integers(0, 60))
        for night in nights:
            shift = draw(st.sampled_from([0, 0, 0, 7]))
            for cycle in range(cycles):
                at = night * 1440 + start + shift + cycle * (minutes + gap)
                runs.add(ClockRun(at, zone, minutes))
    return sorted(runs)


@given(weeks(), st.integers(0, 3), st.sampled_from([None, 1, 2, 4]))
def test_programs_give_the_timetable_back(
    runs: list[ClockRun], delay: int, most_starts: int | None
) -> None:
    programs = week_programs(
        runs, NUMBERS, MONDAY, delay_min=delay, most_starts=most_starts
    )
    given_back, waits = expanded(programs, MONDAY, anchor_min=EVENING, delay_min=delay)
    assert (list(given_back), waits) == (runs, ())


@given(weeks(), st.sampled_from([1, 2, 4]))
def test_no_program_has_more_starts_than_it_holds(
    runs: list[ClockRun], most_starts: int
) -> None:
    programs = week_programs(runs, NUMBERS, MONDAY, most_starts=most_starts)
    assert max(len(one.starts) for one in programs) <= most_starts
