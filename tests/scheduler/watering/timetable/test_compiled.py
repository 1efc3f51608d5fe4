"""The compiled kernel, where numba is installed."""

import numpy as np
import pytest

from scheduler.watering.timetable import packed
from scheduler.watering.timetable.compiled import has_numba, search_compiled
from scheduler.watering.timetable.search import search
from scheduler.watering.timetable.task import task_of
from tests.scheduler.watering.timetable.made import eight_zones, night

needs_numba = pytest.mark.skipif(not has_numba(), reason="extra fast is not installed")


def test_no_zones_need_no_search() -> None:
    task = task_of([], night())
    assert search_compiled(task, rounds=5, seed=0, is_compiled=False).night.size == 0


@needs_numba
def test_the_compiled_kernel_answers_as_numpy_does() -> None:
    task = task_of(eight_zones(), night(pump_gpm=170))
    one = search(task, rounds=300, seed=1)
    two = search_compiled(task, rounds=300, seed=1)
    np.testing.assert_array_equal(one.night, two.night)
    np.testing.assert_array_equal(one.start, two.start)


def test_many_rounds_give_one_answer_with_or_without_the_kernel(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    from scheduler.watering.timetable import pack

    with_it = packed(eight_zones()[:3], night(), rounds=pack.MANY_ROUNDS)
    monkeypatch.setattr(pack, "has_numba", lambda: False)
    assert packed(eight_zones()[:3], night(), rounds=pack.MANY_ROUNDS) == with_it
