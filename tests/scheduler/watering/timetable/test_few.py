"""A handful of waterings: no way of placing them is better."""

import itertools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.watering.timetable import Grid, Job, Placed, Timetable, packed
from scheduler.watering.timetable.checker import broken_rules
from scheduler.watering.timetable.few import best_of_few
from scheduler.watering.timetable.pack import as_timetable
from scheduler.watering.timetable.search import search
from scheduler.watering.timetable.task import task_of

MINUTES = 16


@st.composite
def nights(draw: st.DrawFn) -> tuple[list[Job], Grid]:
    """Two or three very unlike zones in a quarter of an hour of whole prices."""
    jobs = [
        Job(
            f"Z{i}",
            cycles=draw(st.integers(1, 2)),
            cycle_min=draw(st.integers(1, 6)),
            soak_min=draw(st.integers(0, 4)),
            flow_l_per_min=draw(st.sampled_from([10.0, 40.0, 70.0])),
            must=(0,),
            most_soak_min=draw(st.integers(4, 9)),
        )
        for i in range(draw(st.integers(2, 3)))
    ]
    prices = draw(st.lists(st.integers(1, 9), min_size=MINUTES, max_size=MINUTES))
    cost = np.array(prices, dtype=float)[None, None]
    return jobs, Grid(cost > 0, cost, 80.0)


def places(job: Job) -> list[tuple[int, ...]]:
    """Every place of a zone alone, by counting."""
    step = job.cycle_min + job.soak_min
    most = job.cycle_min + max(job.most_soak_min or 0, job.soak_min)
    starts = range(MINUTES - job.cycle_min + 1)
    if job.cycles == 1:
        return [(s,) for s in starts]
    return [(a, b) for a in starts for b in starts if step <= b - a <= most]


def counted_out(jobs: list[Job], grid: Grid) -> tuple[int, float]:
    """Fewest waterings without a place, and the least cost, of all ways there are."""
    price = np.concatenate([[0.0], grid.cost[0, 0].cumsum()])
    best = (len(jobs), 0.0)
    for way in itertools.product(*([(), *places(job)] for job in jobs)):
        flow = np.zeros(MINUTES)
        cost = 0.0
        for job, starts in zip(jobs, way, strict=True):
            for s in starts:
                flow[s : s + job.cycle_min] += job.flow_l_per_min or 0.0
                litres = price[s + job.cycle_min] - price[s]
                cost += litres * (job.flow_l_per_min or 0.0)
        if flow.max() <= 80.0:
            best = min(best, (sum(not starts for starts in way), round(cost, 6)))
    return best


@given(nights())
@settings(max_examples=25)
def test_it_equals_counting_out(night: tuple[list[Job], Grid]) -> None:
    jobs, grid = night
    task = task_of(jobs, grid)
    found = best_of_few(task, search(task, rounds=1, seed=0), most_places=10**6)
    table = as_timetable(task, found)
    lost, cost = counted_out(jobs, grid)
    # prices are whole steps of a millionth of the dearest
    assert len(table.unplaced) == lost
    assert table.cost == pytest.approx(cost, rel=1e-4)


# 20 min at 40 L/min and twice 10 min with just 20 min between, in 60 min: one way only
UNLIKE = [
    Job("long", 1, 20, 0, 40.0, must=(0,)),
    Job("pulse", 2, 10, 20, 50.0, must=(0,), most_soak_min=20),
]


def valley() -> Grid:
    """Cheapest in the middle, where the long zone would stand in the way."""
    cost = np.abs(np.arange(40.0) - 19.5)[None, None] + 1.0
    return Grid(cost > 0, cost, 80.0)


def test_the_only_way_to_fit_two_unlike_zones_is_found() -> None:
    found = packed(UNLIKE, valley(), rounds=0)
    assert found.unplaced == ()
    assert {one.zone: one.starts for one in found.placed} == {
        "long": (10,),
        "pulse": (0, 30),
    }


def test_nothing_is_returned_dearer_than_it_came() -> None:
    task = task_of(UNLIKE, valley())
    known = search(task, rounds=5, seed=0)
    assert best_of_few(task, known, most_places=0) is known


@pytest.mark.parametrize("n", [1, 5])
def test_one_watering_and_many_are_left_to_the_search(n: int) -> None:
    jobs = [Job(f"Z{i}", 1, 10, 0, 40.0, must=(0,)) for i in range(n)]
    task = task_of(jobs, valley())
    known = search(task, rounds=0, seed=0)
    assert best_of_few(task, known) is known


def test_what_it_finds_breaks_no_rule() -> None:
    found = packed(UNLIKE, valley(), rounds=0)
    table = Timetable(found.placed, (), 0.0)
    assert broken_rules(UNLIKE, valley(), table) == ()
    assert isinstance(found.placed[0], Placed)
