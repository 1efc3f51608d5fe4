"""Shares drawn together, and the factor of every rule."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.field.guess import assumed
from scheduler.money.factors import (
    at_evenness,
    evenness,
    roots_du,
    rules_of,
    zone_factor,
)
from scheduler.site import Supply
from tests.scheduler.money.made import bay, season, small_site


def guessed(du_lq: float) -> object:
    zone = bay(assumed_du_lq=du_lq, assumed_net_rate_mm_per_h=12.0)
    return assumed(zone, None)[0]


@given(st.floats(0.3, 0.98))
def test_a_map_takes_the_uniformity_that_is_asked_for(du_lq: float) -> None:
    one = season()
    assert one.catch is not None
    even = evenness(one.catch, du_lq)
    if even.share.min() > 0:  # where none is cut off at nothing
        assert even.du_lq == pytest.approx(du_lq)


def test_as_it_is_nothing_is_drawn() -> None:
    one = season()
    assert one.catch is not None
    assert np.array_equal(evenness(one.catch).share, one.catch.share)


def test_without_cans_the_low_half_is_a_formula() -> None:
    # Mecham, 2010: 0.4 + 0.6 x 0.78
    zone = bay(assumed_du_lq=0.58, assumed_net_rate_mm_per_h=12.0)
    catch, _ = assumed(zone, None)
    assert catch is not None
    even = evenness(catch, 0.78)
    assert zone_factor(zone, small_site(zone), "low half", even) == pytest.approx(
        1 / 0.868
    )
    assert zone_factor(zone, small_site(zone), "low quarter", even) == pytest.approx(
        1 / 0.78
    )


def test_a_leaching_target_rules_only_under_the_zones_own_rule() -> None:
    zone = bay(
        grown_in="pots", soil=None, rule="low quarter",
        pots={"top_diameter_mm": 266.0, "leaching_target": 0.5},
    )  # fmt: skip
    one = season()
    assert one.catch is not None
    even = evenness(one.catch, 0.9)
    site = small_site(zone, supply=Supply(source="well"))
    assert zone_factor(zone, site, "low quarter", even) == pytest.approx(2.0)
    assert zone_factor(zone, site, "low half", even) < 1.1


def test_the_leached_rule_of_a_zone_stands_beside_the_four() -> None:
    assert rules_of(bay(rule="low quarter, leached"))[-1] == "low quarter, leached"
    assert len(rules_of(bay())) == 4


def test_a_season_as_it_is_keeps_its_shares() -> None:
    one = season()
    assert one.catch is not None
    assert one.input is not None
    assert one.factor is not None
    same = at_evenness(one.input, evenness(one.catch), one.factor)
    assert np.allclose(same.share, one.input.share)
    assert np.allclose(same.served_share, one.input.served_share)


@given(st.floats(0.2, 1.0), st.floats(0.2, 0.95))
def test_roots_that_share_nothing_feel_what_the_cans_caught(
    du: float, cans: float
) -> None:
    assert roots_du(du, of_cans=cans, of_roots=cans) == pytest.approx(du)
