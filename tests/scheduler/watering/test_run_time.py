"""The four rules: worked numbers, what each quarter gets, laws."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.field.bell import normal_shares
from scheduler.site import RULES
from scheduler.watering.run_time import RuleOutcome, rule_factor, rule_outcomes
from tests.scheduler.field.made import FIRST_VISIT_ML
from tests.strategies import shares

CANS = np.ravel(FIRST_VISIT_ML).astype(float)
SHARE = CANS / CANS.mean()


def outcomes(
    share: FloatArray = SHARE, need_mm: float = 0.921 * 25.4, rate: float = 12.197
) -> dict[str, RuleOutcome]:
    found = rule_outcomes(
        need_mm=need_mm,
        share=share,
        net_rate_mm_per_h=rate,
        n_events=6,
        share_served=0.9,
        du_lq=None,
        du_lh=None,
    )
    return {one.rule: one for one in found}


@pytest.mark.parametrize(
    ("rule", "minutes"), [("average", 19.2), ("low half", 23.1), ("low quarter", 26.8)]
)
def test_the_first_visit_gets_its_worked_minutes(rule: str, minutes: float) -> None:
    assert outcomes()[rule].minutes_per_day == pytest.approx(minutes, abs=0.06)


def test_factors_at_a_uniformity_of_60_are_the_worked_ones() -> None:
    # 1.00, 1.32 by 1/(0.4 + 0.6 DU), 1.67; the trade form is used only without cans
    assert rule_factor("average") == 1.0
    assert rule_factor("low half", du_lq=0.6) == pytest.approx(1.32, abs=0.005)
    assert rule_factor("low quarter", du_lq=0.6) == pytest.approx(1.67, abs=0.005)


def test_quarters_of_the_first_visit_under_the_low_half() -> None:
    # worked: 86, 113, 131 and 150 % of need at about 1.2 times
    found = [round(100 * one) for one in outcomes()["low half"].quarters]
    assert found == pytest.approx([86, 113, 131, 150], abs=1)


def test_quarters_of_the_first_visit_under_the_low_quarter() -> None:
    # worked: 100, 132, 153 and 175 % of need at about 1.4 times
    found = [round(100 * one) for one in outcomes()["low quarter"].quarters]
    assert found == pytest.approx([100, 132, 153, 175], abs=1)


@pytest.mark.parametrize(
    ("rule", "percent"), [("average", 9), ("low half", 20), ("low quarter", 29)]
)
def test_water_above_need_is_the_worked_part(rule: str, percent: int) -> None:
    assert 100 * outcomes()[rule].above_need == pytest.approx(percent, abs=1)


def test_share_served_leaves_no_more_than_its_part_short() -> None:
    found = outcomes()["share served"]
    assert found.short_share <= 0.1 + 1 / SHARE.size


def test_one_over_low_quarter_serves_nine_tenths_of_a_bell() -> None:
    # normal theory: 1/DUlq serves 89.8 % of the area
    share = normal_shares(1 - 1.2711 * 0.2, n=4000)
    assert 1 - outcomes(share)["low quarter"].short_share == pytest.approx(
        0.898, abs=0.003
    )


def test_measured_cans_win_over_the_formula() -> None:
    measured = rule_factor("low half", SHARE)
    assert measured == pytest.approx(1 / 0.828, abs=0.002)


@pytest.mark.parametrize("rule", RULES)
@given(share=shares(), need=st.floats(0.5, 60), rate=st.floats(1, 60))
def test_minutes_times_rate_return_the_gross_depth(
    rule: str, share: FloatArray, need: float, rate: float
) -> None:
    found = outcomes(share, need, rate)[rule]
    if math.isfinite(found.factor):
        assert found.minutes_exact * rate / 60 == pytest.approx(found.gross_depth_mm)


@given(share=shares(min_cans=8), by=st.floats(0, 1))
def test_catches_closer_to_their_mean_never_need_longer(
    share: FloatArray, by: float
) -> None:
    closer = 1 + by * (share - 1)
    for rule in RULES:
        assert rule_factor(rule, closer) <= rule_factor(rule, share) + 1e-9


@given(share=shares())
def test_no_rule_is_below_the_average(share: FloatArray) -> None:
    assert rule_factor("low quarter", share) >= rule_factor("low half", share) - 1e-9
    assert rule_factor("low half", share) >= 1.0 - 1e-9


@given(share=shares(min_cans=8))
def test_quarters_average_to_the_factor(share: FloatArray) -> None:
    for one in outcomes(share).values():
        if math.isfinite(one.factor):
            assert np.mean(one.quarters) == pytest.approx(one.factor)


def test_a_rate_of_zero_is_refused() -> None:
    with pytest.raises(SchedulerError, match="rate"):
        outcomes(rate=0.0)
