"""An option in the night of all zones: before and after, and why not."""

import pytest

from scheduler.money.option_nights import OptionNights, option_nights
from tests.scheduler.money.made_week import HISTORY, around, cost, plan


def of(name: str) -> OptionNights:
    found = around().nights_of(name)
    assert found is not None
    return found


def test_before_is_the_plan_of_the_week() -> None:
    found, night = of("B").week_now, plan().night
    assert found is not None
    assert night is not None
    assert found.peak_flow_l_per_min == night.summary.peak_flow_l_per_min
    assert found.power.energy_kwh == pytest.approx(
        sum((run.flow_l_per_min or 0.0) * run.minutes for run in night.runs)
        / 1000.0 * 0.381370, rel=1e-5,
    )  # fmt: skip


def test_a_more_even_zone_lifts_less_water_in_the_same_nights() -> None:
    found = of("B")
    assert found.week_now is not None
    assert found.week_then is not None
    now, then = found.week_now.power, found.week_then.power
    assert now.energy_kwh is not None
    assert then.energy_kwh is not None
    assert then.energy_kwh < now.energy_kwh
    assert found.fits_then is True


def test_half_the_flow_needs_more_minutes_of_the_night() -> None:
    found, plain = of("G").week_then, of("B").week_then
    assert found is not None
    assert plain is not None
    assert found.longest_min > plain.longest_min


def test_three_times_the_flow_is_more_than_the_pump_gives() -> None:
    found = of("S")
    assert found.fits_then is False
    assert found.week_then is not None
    assert found.week_then.peak_flow_l_per_min > 450.0
    assert [one.where for one in found.week_then.stops] == ["zone Z4: flow"]


def test_without_a_uniformity_then_it_is_not_worked_out() -> None:
    found = of("N")
    assert (found.week_then, found.fits_then) == (None, None)
    assert "nothing tells the uniformity then of Z4" in found.why


def test_what_is_done_stands_in_the_plan_already() -> None:
    assert of("D").why.startswith("it was done on 1 Jun 2026: the week is planned")


def test_a_part_of_the_site_has_no_fullest_night() -> None:
    found = option_nights(plan(), HISTORY, cost(), is_whole=False)[0]
    assert found.full_then is None
    assert found.week_then is not None
    assert "is that of all zones together, and only some were asked for" in found.why
    assert found.why.endswith("ask for the whole site to see it")
