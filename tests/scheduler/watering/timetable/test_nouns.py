"""Values of the timetable."""

import pytest

from scheduler.watering.timetable import Job, Timetable


def test_a_watering_lasts_with_its_soaks() -> None:
    assert Job("Z1", 3, 15, 23).elapsed_min == 91


def test_the_gap_is_cost_over_bound() -> None:
    assert Timetable((), (), 103.0, 100.0).gap == pytest.approx(0.03)


def test_without_a_bound_there_is_no_gap() -> None:
    assert Timetable((), ("Z1",), 103.0).gap is None
