"""The kernel answers as the search does."""

import numpy as np
from hypothesis import given, settings

from scheduler.watering.timetable import Grid, Job
from scheduler.watering.timetable.compiled import search_compiled
from scheduler.watering.timetable.search import search
from scheduler.watering.timetable.task import task_of
from tests.scheduler.watering.timetable.made import weeks


@settings(max_examples=25, deadline=None)
@given(weeks())
def test_the_kernel_as_plain_python_answers_as_numpy_does(
    week: tuple[list[Job], Grid],
) -> None:
    task = task_of(*week)
    one = search(task, rounds=12, seed=5)
    two = search_compiled(task, rounds=12, seed=5, is_compiled=False)
    np.testing.assert_array_equal(one.night, two.night)
    placed = one.night >= 0
    np.testing.assert_array_equal(one.start[placed], two.start[placed])
    np.testing.assert_array_equal(one.flow_ml, two.flow_ml)
