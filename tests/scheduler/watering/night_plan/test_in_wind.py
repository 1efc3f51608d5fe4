"""A zone at any wind."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.field.drawn import drawn_catch
from scheduler.watering.night_plan.in_wind import ZoneInWind, zone_in_wind
from scheduler.watering.run_time import rule_factor
from tests.scheduler.watering.night_plan.made import Watered, caught, line, zone


def _zone(rule: str, du_lq: float = 0.7, rate: float = 0.0) -> ZoneInWind:
    one = Watered(zone("1", rule=rule), evidence=caught(du_lq, 2.0))
    return zone_in_wind(one, line(-0.05, rate), 5.0)


def _at(speed: float) -> FloatArray:
    return np.array([speed])


def test_in_the_wind_of_its_tests_a_zone_asks_for_nothing_more() -> None:
    assert _zone("low quarter").extra(_at(2.0)) == pytest.approx(0.0)


def test_low_quarter_in_more_wind_asks_for_what_du_lost() -> None:
    # 0.7 at 2 m/s is 0.6 at 4 m/s
    assert _zone("low quarter").extra(_at(4.0)) == pytest.approx(0.7 / 0.6 - 1)


def test_lost_rate_is_asked_for_on_top() -> None:
    # rates of 0.96 and 0.92 of that in calm
    extra = _zone("low quarter", rate=-0.02).extra(_at(4.0))
    assert extra == pytest.approx(0.7 / 0.6 * 0.96 / 0.92 - 1)


@pytest.mark.parametrize("rule", ["low half", "share served"])
@given(st.floats(0.0, 5.0))
def test_the_factor_is_that_of_the_map_drawn_to_that_wind(
    rule: str, speed: float
) -> None:
    one = _zone(rule)
    drawn = drawn_catch(caught(), float(one.du_at(speed)))
    factor = rule_factor(rule, drawn.share)  # type: ignore[arg-type]
    before = rule_factor(rule, caught().share)  # type: ignore[arg-type]
    assert one.extra(_at(speed)) == pytest.approx(factor / before - 1, abs=1e-6)


def test_a_zone_that_its_leaching_target_rules_loses_nothing_by_du() -> None:
    one = Watered(
        zone("1", rule="low quarter"), evidence=caught(), rule="leaching target"
    )
    found = zone_in_wind(one, line(), 2.0).extra(_at(4.0))
    assert found == pytest.approx(0.0)


def test_tests_of_unknown_wind_are_taken_in_the_usual_one() -> None:
    one = Watered(zone("1"), evidence=caught(0.7, None))
    assert zone_in_wind(one, line(), 3.0).ref_m_per_s == 3.0


def test_without_a_catch_the_line_tells_the_du() -> None:
    found = zone_in_wind(Watered(zone("1")), line(-0.1), 2.0)
    assert found.du_lq == pytest.approx(0.7)


def test_without_a_catch_a_share_served_is_taken_as_the_low_quarter() -> None:
    found = zone_in_wind(Watered(zone("1", rule="share served")), line(-0.1), 2.0)
    assert found.served == pytest.approx(0.7)
