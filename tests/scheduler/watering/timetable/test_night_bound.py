"""Minutes that no order of a night can beat."""

import numpy as np
import pytest
from hypothesis import given, settings

from scheduler.watering.timetable import Grid, Job, shortest_night
from scheduler.watering.timetable.night_bound import least_minutes
from tests.scheduler.watering.timetable.made import eight_zones, night, weeks


@pytest.mark.parametrize(
    ("pump_gpm", "change_over_min", "minutes"),
    [
        # no three of them fit under 200 gpm: 620 min, two at a time
        (200, 0, 310),
        # under 170 gpm no two of zones 1 to 4 and 6 fit: 95 + 60 + 105 + 70 + 55
        (170, 0, 385),
        (170, 1, 390),
        (170, 2, 395),
    ],
)
def test_the_worked_night_has_its_least_minutes(
    pump_gpm: float, change_over_min: int, minutes: int
) -> None:
    grid = night(pump_gpm=pump_gpm, change_over_min=change_over_min)
    assert least_minutes(eight_zones(), grid) == minutes


def test_soaks_lengthen_the_longest_zone() -> None:
    assert least_minutes([Job("A", 3, 15, 23)], night()) == 91


def test_no_zones_take_no_time() -> None:
    assert least_minutes([], night()) == 0


@settings(max_examples=60, deadline=None)
@given(weeks())
def test_no_night_is_shorter_than_its_bound(week: tuple[list[Job], Grid]) -> None:
    jobs, grid = week
    flows = [
        one for one in jobs if (one.flow_l_per_min or 0) <= (grid.pump_l_per_min or 99)
    ]
    whole = Grid(
        np.ones((1, 1, 20), dtype=bool), np.ones((1, 1, 20)), grid.pump_l_per_min,
        grid.max_valves, grid.change_over_min, grid.clock_valves,
    )  # fmt: skip
    found = shortest_night(flows, whole, tries=10)
    assert found.least_min <= found.free_min
