"""What a season refuses, and how its parts are cut and joined."""

import numpy as np
import pytest

from scheduler.errors import SchedulerError
from scheduler.watering.season_run.inputs import joined
from scheduler.watering.season_run.lanes import season_lanes
from tests.scheduler.watering.season_run.made import even, season


def test_use_ahead_runs_to_the_next_open_night() -> None:
    is_open = np.array([[True], [False], [False], [True], [False]])
    one = even(5, etc_mm=3.0, is_open=is_open)
    assert one.use_ahead_mm[:, 0].tolist() == [9.0, 6.0, 3.0, 6.0, 3.0]


def test_zones_run_apart_and_joined_are_the_same() -> None:
    one = season(n_zones=5)
    parts = [season_lanes(one.of_zones(0, 2)), season_lanes(one.of_zones(2, 5))]
    assert joined(parts).applied_mm == pytest.approx(season_lanes(one).applied_mm)


@pytest.mark.parametrize("wrong", [-1.0, np.nan, np.inf])
def test_rain_that_cannot_be_is_refused(wrong: float) -> None:
    with pytest.raises(SchedulerError, match="rain_mm"):
        even(3, etc_mm=4.0, rain_mm=np.full((3, 1), wrong))


def test_a_start_above_what_the_zone_holds_is_refused() -> None:
    with pytest.raises(SchedulerError, match="start_mm"):
        even(3, etc_mm=4.0, start_mm=np.array([50.0]), total_mm=np.array([40.0]))
