"""Every night laid out, like nights alike."""

import numpy as np

from scheduler.watering.night_plan.jobs import WeekJobs
from scheduler.watering.night_plan.layout import laid_out
from scheduler.watering.timetable import Grid, Job, Placed
from scheduler.watering.timetable.checker import broken_rules
from tests.scheduler.watering.timetable.made import eight_zones, night


def _week(*nights: list[Job], grid: Grid) -> WeekJobs:
    flow = {job.zone: job.flow_l_per_min for some in nights for job in some}
    return WeekJobs(
        tuple(tuple(one) for one in nights), (grid,) * len(nights), flow, ()
    )


def test_nights_with_the_same_jobs_are_laid_out_alike() -> None:
    found = laid_out(_week(eight_zones(), eight_zones(), grid=night()), {})
    assert found[0].table == found[1].table


def test_a_night_with_fewer_zones_keeps_the_starts_of_the_fullest() -> None:
    found = laid_out(_week(eight_zones()[:5], eight_zones(), grid=night()), {})
    assert set(found[0].table.placed) < set(found[1].table.placed)


def test_a_night_without_jobs_is_left_out() -> None:
    found = laid_out(_week([], eight_zones(), grid=night()), {})
    assert [one.night for one in found] == [1]


def test_last_week_is_kept() -> None:
    last = [Placed(0, (200,), "1")]
    found = laid_out(_week(eight_zones()[:1], grid=night()), {0: last})
    assert list(found[0].table.placed) == last


def test_the_fullest_night_tells_both_lengths() -> None:
    found = laid_out(_week(eight_zones(), grid=night()), {})[0].length
    assert found is not None
    assert (found.free_min, found.pairs_min) == (310, 340)


def test_a_tight_night_is_laid_out_by_whoever_finds_it() -> None:
    grid = night(pump_gpm=170, change_over_min=1)
    found = laid_out(_week(eight_zones(), grid=grid), {})[0]
    assert found.table.unplaced == ()
    assert broken_rules(eight_zones(), grid, found.table) == ()


def test_a_night_that_is_too_long_says_why() -> None:
    grid = night(pump_gpm=170, change_over_min=2)
    found = laid_out(_week(eight_zones(), grid=grid), {})[0]
    assert found.overrun is not None
    assert found.overrun.length.short_min == 5


def test_layouts_are_the_same_each_time() -> None:
    week = _week(eight_zones()[:4], eight_zones(), grid=night(pump_gpm=170))
    one, two = laid_out(week, {}), laid_out(week, {})
    assert one == two
    assert np.array_equal([one.night for one in two], [0, 1])


def _soak(open_min: tuple[int, ...]) -> int:
    """Minutes between two cycles of a zone in a night of these open minutes."""
    far = Job("A", 2, 10, 5, 100.0, must=(0,), most_soak_min=20)
    is_open = np.zeros((1, 1, 80), dtype=bool)
    is_open[0, 0, list(open_min)] = True
    grid = Grid(is_open, np.ones(is_open.shape), 757.0)
    table = laid_out(_week([far], grid=grid), {})[0].table
    return table.placed[0].starts[1] - table.placed[0].starts[0] - 10


def test_cycles_stay_near_each_other_where_there_is_room() -> None:
    assert 5 <= _soak(tuple(range(80))) <= 20


def test_cycles_lie_far_apart_rather_than_not_at_all() -> None:
    # ten minutes at either end of the night
    assert _soak((*range(10), *range(70, 80))) == 60


def _kept(worth: float) -> bool:
    """Whether a watering stays at a dear place of last week."""
    cost = np.ones((1, 1, 60))
    cost[0, 0, :30] = 1.2  # a fifth dearer than the rest of the night
    grid = Grid(np.ones(cost.shape, dtype=bool), cost, 757.0)
    job = Job("A", 1, 10, 0, 100.0, must=(0,))
    last = [Placed(0, (10,), "A")]
    table = laid_out(_week([job], grid=grid), {0: last}, worth=worth)[0].table
    return list(table.placed) == last


def test_a_watering_moves_where_that_saves_more_than_a_move_is_worth() -> None:
    assert not _kept(0.1)


def test_a_watering_stays_where_a_move_is_worth_more_than_it_saves() -> None:
    assert _kept(0.5)
