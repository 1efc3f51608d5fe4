"""The checker finds every kind of broken rule."""

import numpy as np
import pytest

from scheduler.watering.timetable import Grid, Job, Placed, Timetable
from scheduler.watering.timetable.checker import broken_places, broken_rules

JOBS = [
    Job("A", 2, 10, 5, 60.0, must=(0,), not_with=("C",)),
    Job("B", 1, 10, 0, 50.0, must=(1,)),
    Job("C", 1, 10, 0, 10.0, may=(0, 1, 2), more=2, rest_nights=1),
]
OPEN = np.ones((1, 3, 60), dtype=bool)
OPEN[0, 2, 30:40] = False
GRID = Grid(OPEN, np.ones(OPEN.shape), 100.0, 2, 1)
HONEST = (
    Placed(0, (1, 16), "A"),
    Placed(0, (31,), "C"),
    Placed(1, (1,), "B"),
    Placed(2, (1,), "C"),
)


def _said(*placed: Placed, unplaced: tuple[str, ...] = ()) -> str:
    return "\n".join(broken_rules(JOBS, GRID, Timetable(placed, unplaced, 0.0)))


def test_an_honest_timetable_breaks_no_rule() -> None:
    assert _said(*HONEST) == ""


def test_a_soak_longer_than_the_longest_is_found() -> None:
    job = Job("A", 2, 10, 5, 60.0, must=(0,), most_soak_min=8)
    table = Timetable((Placed(0, (1, 21), "A"),), (), 0.0)
    assert "10 min of soak, 8 at most" in "\n".join(broken_rules([job], GRID, table))


def test_a_watering_may_be_said_to_have_no_room() -> None:
    assert _said(*HONEST[:3], unplaced=("C",)) == ""


@pytest.mark.parametrize(
    ("place", "new", "said"),
    [
        (0, Placed(0, (1, 15), "A"), "4 min of soak, 5 asked"),
        (0, Placed(0, (1,), "A"), "1 cycles, 2 asked for"),
        (0, Placed(1, (21, 40), "A"), "has to run on night 1"),
        (1, Placed(0, (24,), "C"), "zones A and C run together"),
        (1, Placed(1, (31,), "C"), "nights 2 and 3 are too close"),
        (2, Placed(1, (0,), "B"), "-1 to 10 is outside the night"),
        (2, Placed(1, (51,), "B"), "50 to 61 is outside the night"),
        (2, Placed(0, (5,), "B"), "110 L/min, the pump gives 100"),
        (2, Placed(2, (20,), "B"), "a night that is not allowed"),
        (3, Placed(2, (21,), "C"), "not all of it open"),
        (3, Placed(0, (31,), "C"), "zone C runs twice"),
        (3, Placed(2, (1,), "D"), "zone D was not asked for"),
    ],
)
def test_a_broken_rule_is_found(place: int, new: Placed, said: str) -> None:
    changed = list(HONEST)
    changed[place] = new
    assert said in _said(*changed)


def test_a_lost_watering_is_found() -> None:
    assert "1 placed and 0 not, 2 asked for" in _said(*HONEST[:3])


def test_too_many_valves_are_found() -> None:
    three = [Job(z, 1, 10, 0, 1.0, must=(0,)) for z in "ABC"]
    at_once = Timetable(tuple(Placed(0, (1,), z) for z in "ABC"), (), 0.0)
    assert "3 valves are open, 2 may be" in broken_rules(three, GRID, at_once)[0]


def test_the_change_over_counts_as_running() -> None:
    two = [Job(z, 1, 10, 0, 60.0, must=(0,)) for z in "AB"]
    close = Timetable((Placed(0, (1,), "A"), Placed(0, (11,), "B")), (), 0.0)
    assert "120 L/min" in broken_rules(two, GRID, close)[0]


def test_a_broken_rule_says_which_and_where() -> None:
    grid = Grid(np.ones((1, 1, 60), dtype=bool), np.ones((1, 1, 60)), 100.0)
    both = [Job(name, 1, 30, 0, 60.0, must=(0,)) for name in ("Z1", "Z2")]
    late = Timetable((Placed(0, (0,), "Z1"), Placed(0, (29,), "Z2")), (), 0.0)
    (one,) = broken_places(both, grid, late)
    assert (one.rule, one.minute, one.found, one.limit) == ("pump", 29, 120.0, 100.0)


def test_a_closed_minute_is_named() -> None:
    is_open = np.ones((1, 1, 60), dtype=bool)
    is_open[0, 0, 35] = False
    grid = Grid(is_open, np.ones((1, 1, 60)), 100.0)
    job = Job("Z1", 1, 30, 0, 60.0, must=(0,))
    (one,) = broken_places([job], grid, Timetable((Placed(0, (20,), "Z1"),), (), 0.0))
    assert (one.rule, one.minute) == ("closed", 35)


def test_each_clock_has_its_own_valves() -> None:
    both = [Job(f"Z{i}", 1, 30, 0, 1.0, must=(0,), clock=0) for i in (1, 2)]
    grid = Grid(OPEN[:, :1], np.ones((1, 1, 60)), None, 3, 0, (1, 2))
    table = Timetable((Placed(0, (0,), "Z1"), Placed(0, (20,), "Z2")), (), 0.0)
    assert broken_rules(both, grid, table) == (
        "night 1, minute 20: 2 valves of one clock are open, 1 may be",
    )
