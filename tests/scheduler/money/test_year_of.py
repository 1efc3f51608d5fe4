"""A year now and a year then of the zones of an option."""

import pytest

from scheduler.money.year_of import YearOf
from tests.scheduler.money.made import kgal, nothing, option, yard_cost


def years(**given: object) -> tuple[YearOf, ...]:
    cost = yard_cost(nothing(), option(**given))
    return cost.options[0].years


def test_the_difference_is_the_saving_of_the_own_rule() -> None:
    now, then = years()
    assert round(kgal(now.water_m3 - then.water_m3)) == 468


def test_pumping_is_the_lift_times_the_water() -> None:
    # 9806.65 x 70.4088 / 0.55 / 3.6e6 kWh for a cubic metre
    for one in years():
        assert one.energy_kwh == pytest.approx(0.34872 * one.water_m3, rel=1e-4)


def test_hours_by_hand_that_nobody_counted_are_not_zero() -> None:
    assert [one.labour_hours for one in years()] == [None, None]


def test_hours_that_are_saved_of_an_unknown_number_stay_unknown() -> None:
    assert years(labour_saved_hours_a_year=10.0)[1].labour_hours is None


def test_an_option_of_which_nothing_is_known_has_no_years() -> None:
    assert years(du_lq=None, du_lq_low=None, du_lq_high=None) == ()
