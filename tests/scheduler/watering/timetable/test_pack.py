"""The laws of a timetable."""

import numpy as np
import pytest
from hypothesis import given, settings

from scheduler.errors import SchedulerError
from scheduler.watering.timetable import Grid, Job, Placed, pack, packed
from scheduler.watering.timetable.checker import broken_rules
from tests.scheduler.watering.timetable.made import eight_zones, night, weeks


@pytest.mark.parametrize(
    ("pump_gpm", "change_over_min", "n_lost"),
    [(200, 0, 0), (170, 0, 0), (170, 1, 0), (170, 2, 1)],
)
def test_the_worked_night_fits_as_printed(
    pump_gpm: float, change_over_min: int, n_lost: int
) -> None:
    grid = night(pump_gpm=pump_gpm, change_over_min=change_over_min)
    assert len(packed(eight_zones(), grid, rounds=400).unplaced) == n_lost


@settings(max_examples=60, deadline=None)
@given(weeks())
def test_no_timetable_breaks_a_rule(week: tuple[list[Job], Grid]) -> None:
    assert broken_rules(*week, packed(*week, rounds=15, bound_rounds=2)) == ()


@settings(max_examples=40, deadline=None)
@given(weeks())
def test_every_watering_is_placed_or_named(week: tuple[list[Job], Grid]) -> None:
    table = packed(*week, rounds=15, bound_rounds=0)
    asked = sum(len(one.must) + one.more for one in week[0])
    assert len(table.placed) + len(table.unplaced) == asked


@settings(max_examples=40, deadline=None)
@given(weeks())
def test_the_order_of_zones_does_not_matter(week: tuple[list[Job], Grid]) -> None:
    jobs, grid = week
    assert packed(jobs[::-1], grid, rounds=15) == packed(jobs, grid, rounds=15)


def test_an_unknown_flow_is_placed_by_time_only() -> None:
    jobs = [Job("A", 1, 60, 0, 100.0, must=(0,)), Job("B", 1, 60, must=(0,))]
    flat = np.ones((1, 1, 60))
    assert packed(jobs, Grid(flat > 0, flat, 100.0)).unplaced == ()


def test_the_calmer_night_is_taken() -> None:
    cost = np.repeat([[1.3], [1.1], [1.2]], 30, axis=1)[None]
    job = Job("A", 1, 20, 0, 50.0, may=(0, 1, 2), more=1)
    assert packed([job], Grid(cost > 0, cost)).placed == (Placed(1, (0,), "A"),)


def test_an_answer_that_breaks_a_rule_is_refused(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(pack, "broken_rules", lambda *_: ("zone 1 runs twice",))
    with pytest.raises(SchedulerError, match="breaks a rule: zone 1 runs twice"):
        packed(eight_zones(), night())


@pytest.mark.parametrize(("clocks", "starts"), [((0, 1), 0), ((0, 0), 30)])
def test_zones_of_two_clocks_run_together_where_one_clock_would_not(
    clocks: tuple[int, int], starts: int
) -> None:
    rising = np.arange(1.0, 61.0)[None, None]
    grid = Grid(rising > 0, rising, 100.0, 2, 0, (1, 1))
    both = [
        Job(zone, 1, 30, 0, 40.0, must=(0,), clock=clock)
        for zone, clock in zip(("Z1", "Z2"), clocks, strict=True)
    ]
    assert sorted(one.starts[0] for one in packed(both, grid).placed) == [0, starts]


def test_two_clocks_share_the_pump() -> None:
    rising = np.arange(1.0, 61.0)[None, None]
    grid = Grid(rising > 0, rising, 70.0, 2, 0, (1, 1))
    both = [Job(f"Z{i}", 1, 30, 0, 40.0, must=(0,), clock=i) for i in (0, 1)]
    assert sorted(one.starts[0] for one in packed(both, grid).placed) == [0, 30]
