"""A zone's water at any uniformity."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.field.guess import assumed
from scheduler.money.response import Response
from scheduler.site import RULES, Rule
from tests.scheduler.money.made import bay, season, small_site


def by_need() -> Response:
    zone = bay(assumed_du_lq=0.58, assumed_net_rate_mm_per_h=12.0)
    catch, _ = assumed(zone, None)
    assert catch is not None
    return Response(zone, catch, small_site(zone), None, catch.du_lq, need_mm=660.4)


def by_season() -> Response:
    one = season()
    assert one.catch is not None
    return Response(one.zone, one.catch, small_site(), one, one.catch.du_lq)


def test_a_need_as_entered_is_multiplied_with_the_factor() -> None:
    # 660.4 mm x 1 / 0.58 on 1000 m2
    assert by_need().volume_m3("low quarter", 0.58) == pytest.approx(1138.62, abs=0.01)


def test_the_water_of_now_is_that_of_the_season() -> None:
    one = season()
    assert one.catch is not None
    found = by_season().volume_m3(one.zone.chosen_rule, one.catch.du_lq)
    assert found == pytest.approx(one.volume_m3)


@given(st.floats(0.45, 0.95), st.sampled_from(RULES))
def test_between_the_grid_water_is_nearly_that_of_the_rule(
    du: float, rule: Rule
) -> None:
    response = by_need()
    found = response.volumes_m3(rule, np.array([du]))[0]
    assert found == pytest.approx(response.volume_m3(rule, du), rel=0.01)


def test_between_the_grid_water_is_nearly_that_of_the_season() -> None:
    response = by_season()
    for du in (0.55, 0.65, 0.75, 0.85):
        found = response.volumes_m3("low half", np.array([du]))[0]
        assert found == pytest.approx(response.volume_m3("low half", du), rel=0.01)


@given(st.floats(0.3, 0.9), st.floats(0.0, 0.1))
def test_more_uniform_never_takes_more_under_the_low_quarter(
    du: float, more: float
) -> None:
    low, high = by_need().volumes_m3("low quarter", np.array([du + more, du]))
    assert low <= high + 1e-9


def test_without_season_and_need_nothing_is_known() -> None:
    zone = bay(assumed_du_lq=0.58, assumed_net_rate_mm_per_h=12.0)
    catch, _ = assumed(zone, None)
    assert catch is not None
    assert not Response(zone, catch, small_site(zone), None, 0.58).is_known
