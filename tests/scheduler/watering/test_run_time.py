"""Four rules, one factor each, and what every quarter then gets."""

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.field.bell import normal_shares
from scheduler.field.uniformity import low_half_uniformity, low_quarter_uniformity
from scheduler.site import RULES, Rule
from scheduler.units import L_PER_US_GALLON, MM_PER_INCH
from scheduler.watering.run_time import (
    RuleOutcome,
    rule_factor,
    rule_outcomes,
    served_share,
)
from tests.scheduler.watering.made import EVEN, FIRST_SHARE
from tests.strategies import shares

WITHOUT_CANS: tuple[Rule, ...] = ("average", "low half", "low quarter")
# DU low quarter of a bell-shaped catch: 1 - 1.2711 CV, normal theory
NORMAL_SLOPE = 1.271106


def outcomes(
    share: FloatArray = FIRST_SHARE, need_mm: float = 20.0, **given: Any
) -> dict[str, RuleOutcome]:
    base: dict[str, Any] = {
        "net_rate_mm_per_h": 12.0,
        "n_events": 5,
        "share_served": 0.9,
        "du_lq": float(low_quarter_uniformity(share)),
        "du_lh": float(low_half_uniformity(share)),
    }
    made = rule_outcomes(need_mm=need_mm, share=share, **(base | given))
    return {one.rule: one for one in made}


# --- small cases ----------------------------------------------------------------


def test_even_cans_need_no_factor_under_any_rule() -> None:
    assert [rule_factor(rule, EVEN) for rule in RULES] == pytest.approx([1.0] * 4)


def test_low_half_comes_from_the_cans_when_there_are_cans() -> None:
    share = np.array([0.5, 0.7, 1.3, 1.5])
    assert rule_factor("low half", share, du_lq=0.9) == pytest.approx(1 / 0.6)


def test_low_half_falls_back_on_the_formula_without_cans() -> None:
    assert rule_factor("low half", du_lq=0.5) == pytest.approx(1 / 0.7)


def test_share_served_leaves_at_most_the_rest_short() -> None:
    # 20 positions, nine tenths served: two may fall short, the third driest is met
    share = np.linspace(0.5, 1.5, 20)
    factor = rule_factor("share served", share, share_served=0.9)
    assert factor == pytest.approx(1 / np.sort(share)[2])
    assert np.mean(factor * share < 1 - 1e-9) == pytest.approx(0.1)


def test_share_served_rounds_the_positions_in_favour_of_the_plants() -> None:
    factor = rule_factor("share served", FIRST_SHARE, share_served=0.9)
    assert np.mean(factor * FIRST_SHARE >= 1 - 1e-9) >= 0.9


def test_the_served_share_is_one_over_the_factor() -> None:
    for rule in RULES:
        product = rule_factor(rule, FIRST_SHARE) * served_share(rule, FIRST_SHARE)
        assert product == pytest.approx(1.0)


# --- the worked example and published values -----------------------------------------


@pytest.mark.parametrize(
    ("rule", "factor"), [("average", 1.00), ("low half", 1.32), ("low quarter", 1.67)]
)
def test_factors_at_du_060_are_the_printed_ones(rule: Rule, factor: float) -> None:
    assert rule_factor(rule, du_lq=0.6) == pytest.approx(factor, abs=0.005)


# Run time multiplier 1/(0.4 + 0.6 DU): Irrigation Association scheduling manual 2005,
# formula from memory; low-half basis: Mecham 2010, ASABE IRR10-10040, abstract
@pytest.mark.parametrize("du_lq", [0.5, 0.6, 0.7, 0.75, 0.8, 0.85])
def test_the_run_time_multiplier_is_the_trade_formula(du_lq: float) -> None:
    assert rule_factor("low half", du_lq=du_lq) == pytest.approx(
        1 / (0.4 + 0.6 * du_lq), abs=1e-6
    )


def test_measured_low_half_of_a_published_pattern_beats_the_formula() -> None:
    # von Bernuth and Mecham, Defining the Run Time Multiplier: DUlq 0.772, DUlh 0.81
    measured = rule_factor("low half", du_lq=0.772, du_lh=0.81)
    formula = rule_factor("low half", du_lq=0.772)
    assert measured == pytest.approx(1.2346, abs=1e-4)
    assert formula == pytest.approx(1.159, abs=1e-3)


# what the quarters of the worked catch (DU 0.72) get, in per cent of the need
@pytest.mark.parametrize(
    ("factor", "percents"),
    [(1.2, (86, 113, 131, 150)), (1.4, (100, 132, 153, 175))],
)
def test_quarters_of_the_worked_catch_get_their_printed_shares(
    factor: float, percents: tuple[int, ...]
) -> None:
    quarters = outcomes(du_lq=1 / factor)["low quarter"].quarters
    assert tuple(round(100 * one) for one in quarters) == percents


@pytest.mark.parametrize(("factor", "percent"), [(1.0, 9), (1.2, 20), (1.4, 29)])
def test_water_above_need_of_the_worked_catch_is_as_printed(
    factor: float, percent: int
) -> None:
    above = outcomes(du_lq=1 / factor)["low quarter"].above_need
    assert round(100 * above) == percent


@pytest.mark.parametrize(
    ("rule", "minutes"), [("average", 19.2), ("low half", 23.1), ("low quarter", 26.8)]
)
def test_minutes_a_day_of_the_worked_week_are_as_printed(
    rule: str, minutes: float
) -> None:
    # ETo 1.26 in, Kc 0.85, rain 0.30 in counted half; cans mean 55.8 mL in a 4.25 in
    # mouth over 30 min; 6 days
    need_mm = (1.26 * 0.85 - 0.15) * MM_PER_INCH
    rate = 55.833 / (math.pi * (4.25 * 2.54) ** 2 / 4) * 10 * 2
    made = outcomes(need_mm=need_mm, net_rate_mm_per_h=rate, n_events=6)
    assert made[rule].minutes_per_day == pytest.approx(minutes, abs=0.05)


def test_positions_of_a_bell_shaped_catch_agree_with_the_theory() -> None:
    share = normal_shares(1 - NORMAL_SLOPE * 0.2, n=4000)
    served = 1 - outcomes(share)["low quarter"].short_share
    assert served == pytest.approx(0.898, abs=0.003)


# Gallons per 1000 ft2 and inch of need that DU 0.60 costs over 0.75; definition
@pytest.mark.parametrize(
    ("rule", "gallons"), [("low half", 86.84813638), ("low quarter", 207.7922078)]
)
def test_the_price_of_poor_uniformity_in_gallons(rule: Rule, gallons: float) -> None:
    extra = rule_factor(rule, du_lq=0.60) - rule_factor(rule, du_lq=0.75)
    area_m2 = 1000 * 0.09290304
    litres = extra * MM_PER_INCH * area_m2
    assert litres / L_PER_US_GALLON == pytest.approx(gallons, abs=0.01)


# --- laws ---------------------------------------------------------------------------


@given(share=shares(), need=st.floats(0.1, 200.0), rate=st.floats(1.0, 60.0))
def test_minutes_times_rate_give_the_gross_depth_back(
    share: FloatArray, need: float, rate: float
) -> None:
    for one in outcomes(share, need, net_rate_mm_per_h=rate).values():
        if math.isfinite(one.factor):
            assert one.minutes_exact * rate / 60 == pytest.approx(one.gross_depth_mm)
            assert one.gross_depth_mm == pytest.approx(need * one.factor)


@given(share=shares())
def test_the_mean_of_the_quarters_is_the_factor(share: FloatArray) -> None:
    for one in outcomes(share).values():
        if math.isfinite(one.factor):
            assert np.mean(one.quarters) == pytest.approx(one.factor)


@given(share=shares(), squeeze=st.floats(0.0, 1.0))
@pytest.mark.parametrize("rule", WITHOUT_CANS)
def test_worse_uniformity_never_shortens(
    rule: Rule, share: FloatArray, squeeze: float
) -> None:
    # the same mean, every can pulled towards it: that is never less even
    evener = 1 + squeeze * (share - 1)
    assert rule_factor(rule, evener) <= rule_factor(rule, share) + 1e-9


@given(share=shares(), served=st.floats(0.5, 0.98))
def test_share_served_serves_its_share(share: FloatArray, served: float) -> None:
    factor = rule_factor("share served", share, share_served=served)
    if math.isfinite(factor):
        assert np.mean(factor * share >= 1 - 1e-9) >= served - 1e-9


@given(share=shares())
def test_low_quarter_never_asks_for_less_than_low_half(share: FloatArray) -> None:
    assert rule_factor("low quarter", share) >= rule_factor("low half", share) - 1e-9
    assert rule_factor("low half", share) >= 1 - 1e-9


@given(share=shares())
def test_water_above_need_is_a_part_of_the_water(share: FloatArray) -> None:
    for one in outcomes(share).values():
        if math.isfinite(one.factor):
            assert 0 <= one.above_need < 1
            assert 0 <= one.short_share <= 1


# --- nothing to water, nothing that helps, and refusals ------------------------------


def test_no_need_asks_for_no_minutes() -> None:
    assert outcomes(need_mm=0.0)["low quarter"].minutes_exact == 0.0


def test_no_nights_ask_for_no_minutes_a_night() -> None:
    assert outcomes(n_events=0)["average"].minutes_per_day == 0.0


def test_a_dry_quarter_has_no_factor() -> None:
    share = np.array([0.0, 1.0, 1.0, 2.0])
    assert rule_factor("low quarter", share) == math.inf
    dry = outcomes(share)["low quarter"]
    assert dry.quarters[0] == 0.0
    assert math.isnan(dry.above_need)


@pytest.mark.parametrize("rule", ["low half", "low quarter", "share served"])
def test_a_rule_without_any_catch_is_refused(rule: Rule) -> None:
    with pytest.raises(SchedulerError, match=f"rule '{rule}' needs the catch"):
        rule_factor(rule)


def test_the_leached_rule_is_the_low_quarter_over_what_stays() -> None:
    # FAO-29: 1 / (DU (1 - LR)), DU 0.8 and LR 0.2
    factor = rule_factor("low quarter, leached", du_lq=0.8, leaching=0.2)
    assert factor == pytest.approx(1 / 0.64)


@pytest.mark.parametrize("leaching", [None, 1.0, -0.1, float("nan")])
def test_the_leached_rule_without_a_requirement_is_refused(
    leaching: float | None,
) -> None:
    with pytest.raises(SchedulerError, match="'low quarter, leached' got"):
        rule_factor("low quarter, leached", du_lq=0.8, leaching=leaching)


@pytest.mark.parametrize("rate", [0.0, -1.0, float("nan")])
def test_a_rate_that_waters_nothing_is_refused(rate: float) -> None:
    with pytest.raises(SchedulerError, match="net rate is"):
        outcomes(net_rate_mm_per_h=rate)
