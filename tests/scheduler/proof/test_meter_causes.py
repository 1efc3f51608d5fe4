"""Causes of a difference, each found from the difference it makes."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.proof.meter_causes import Gap, likely_causes

ZONES = {"Z1": 20.0, "Z2": 35.0, "Z3": 45.0}
FLOWS = {"Z1": 100.0, "Z2": 200.0, "Z3": 300.0}


def gap(meter_m3: float, **given: object) -> Gap:
    base = Gap(meter_m3, 100.0, 90.0, 115.0, 7.0, 7, ZONES, FLOWS)
    return replace(base, **given)  # type: ignore[arg-type]


def first(one: Gap) -> str:
    return likely_causes(one, "metric")[0].name


def names(one: Gap) -> list[str]:
    return [cause.name for cause in likely_causes(one, "metric")]


def test_nothing_is_named_within_ten_percent() -> None:
    assert likely_causes(gap(109.0), "metric") == ()


def test_a_zone_whose_share_is_missing_has_a_shut_valve() -> None:
    (cause, *_) = likely_causes(gap(65.0), "metric")
    assert cause.name == "a valve that stays shut"
    assert cause.arithmetic == "35.0 m³ missing, Z2 was to get 35.0 m³"


def test_twice_the_water_is_a_second_start() -> None:
    assert first(gap(198.0)) == "the program runs twice"


def test_one_zone_too_much_is_that_zone_twice() -> None:
    assert first(gap(145.0)) == "a zone that runs twice"


def test_ten_times_the_water_is_the_multiplier() -> None:
    assert first(gap(1010.0)) == "the meter's multiplier"


def test_a_tenth_of_the_water_is_the_multiplier() -> None:
    assert "the meter's multiplier" in names(gap(10.0))


def test_a_known_percent_adjust_stands_first() -> None:
    assert first(gap(130.0, percent_adjust=130)) == "percent adjust"


def test_a_tenth_more_may_be_worn_nozzles() -> None:
    assert first(gap(112.0)) == "worn nozzles"


def test_a_dial_that_stood_still_is_no_shut_valve() -> None:
    assert first(gap(0.0)) == "nothing passed the meter"


def test_two_sevenths_missing_are_two_nights() -> None:
    found = likely_causes(gap(500.0 / 7.0, zone_m3={"Z1": 100.0}), "metric")
    assert found[0].name == "nights that did not run"
    assert "2 of 7 nights" in found[0].arithmetic


def test_an_extra_that_goes_with_the_days_is_a_leak() -> None:
    beside = ((7.0, 18.0, 100.0), (7.0, 18.0, 30.0), (14.0, 36.0, 60.0))
    assert first(gap(118.0, beside=beside)) == "a leak"


def test_an_extra_that_goes_with_the_watering_is_rather_no_leak() -> None:
    beside = ((7.0, 14.0, 100.0), (7.0, 4.2, 30.0), (14.0, 8.4, 60.0))
    assert first(gap(114.0, beside=beside)) == "worn nozzles"


def test_a_leak_is_told_as_a_flow() -> None:
    text = next(
        one.arithmetic
        for one in likely_causes(gap(118.0), "metric")
        if one.name == "a leak"
    )
    assert text == "18.0 m³ too much in 7 days is 1.8 L/min all the time"


def test_other_water_is_named_on_a_shared_meter_only() -> None:
    assert "other water" in names(gap(118.0, is_shared=True))
    assert "other water" not in names(gap(118.0))


def test_water_that_nobody_planned_is_a_leak_or_an_open_valve() -> None:
    nothing = gap(5.0, expected_m3=0.0, zone_m3={}, nights=0)
    assert names(nothing) == ["a leak", *["a valve that stays open"] * 3]


@given(expected=st.floats(1.0, 1e5))
def test_no_difference_has_no_cause(expected: float) -> None:
    assert likely_causes(gap(expected, expected_m3=expected), "us") == ()


@given(meter=st.floats(0.0, 3000.0))
def test_a_named_cause_explains_three_quarters_of_the_difference(meter: float) -> None:
    one = gap(meter)
    for cause in likely_causes(one, "us"):
        assert abs(cause.left_m3) <= 0.25 * abs(one.difference_m3) + 1e-9


@given(
    meter=st.floats(0.0, 3000.0, allow_subnormal=False),
    times=st.sampled_from([0.5, 4.0]),
)
def test_causes_do_not_depend_on_the_size_of_the_site(
    meter: float, times: float
) -> None:
    larger = Gap(
        meter * times, 100.0 * times, 90.0 * times, 115.0 * times, 7.0, 7,
        {k: v * times for k, v in ZONES.items()},
        {k: v * times for k, v in FLOWS.items()},
    )  # fmt: skip
    assert names(larger) == names(gap(meter))


def test_the_best_explanation_stands_first() -> None:
    scores = [one.score for one in likely_causes(gap(65.0), "metric")]
    assert scores == sorted(scores)
    assert scores[0] == pytest.approx(0.05)
