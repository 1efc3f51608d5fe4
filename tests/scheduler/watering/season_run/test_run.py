"""Few zones and many zones: the same season."""

import pytest

from scheduler.watering.season_run import season_run
from scheduler.watering.season_run.lanes import season_lanes
from scheduler.watering.season_run.loop import season_loop
from tests.scheduler.watering.season_run.made import season


def test_a_zone_alone_is_the_same_as_among_many() -> None:
    many = season(n_zones=4)
    alone = season_run(many.of_zones(1, 2))
    assert season_run(many).applied_mm[:, 1] == pytest.approx(alone.applied_mm[:, 0])


@pytest.mark.parametrize(("n_zones", "way"), [(1, season_loop), (5, season_lanes)])
def test_both_ways_are_taken(n_zones: int, way: object) -> None:
    one = season(n_zones=n_zones)
    assert callable(way)
    assert season_run(one).percolation_mm == pytest.approx(way(one).percolation_mm)
