"""What a litre costs in the wind of its minute."""

import numpy as np
import pytest

from scheduler.errors import SchedulerError
from scheduler.watering.timetable.minute_cost import extra_water, litre_cost


def test_the_reference_wind_costs_nothing_extra() -> None:
    extra = extra_water(
        np.array([1.4]), np.array([12.0]), ref_factor=1.4, ref_rate_mm_per_h=12.0
    )
    assert extra.tolist() == [0.0]


def test_a_lower_rate_and_a_higher_factor_multiply() -> None:
    # 1.2 times the factor at 0.8 of the rate: half as much again
    extra = extra_water(
        np.array([1.2]), np.array([8.0]), ref_factor=1.0, ref_rate_mm_per_h=10.0
    )
    assert extra == pytest.approx([0.5])


def test_under_average_only_the_rate_counts() -> None:
    extra = extra_water(
        np.ones(1), np.array([9.0]), ref_factor=1.0, ref_rate_mm_per_h=10.0
    )
    assert extra == pytest.approx([1 / 9])


def test_the_tariff_multiplies_the_water() -> None:
    cost = litre_cost(np.array([0.1, 0.1]), np.array([1.0, 3.0]))
    assert cost == pytest.approx([1.1, 3.3])


def test_a_rate_of_nothing_is_refused() -> None:
    with pytest.raises(SchedulerError, match="a factor or a rate is 0"):
        extra_water(np.ones(1), np.zeros(1), ref_factor=1.0, ref_rate_mm_per_h=10.0)
