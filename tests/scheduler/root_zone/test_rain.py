"""Rain rules, each against the publication that its name says."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.root_zone import rain
from scheduler.units import MM_PER_INCH

RULES: dict[str, Callable[..., FloatArray]] = {
    "event": rain.agrilife_event_rain_mm,
    "scs": lambda p: rain.scs_month_rain_mm(p, month_etc_mm=150.0, storage_mm=75.0),
    "scs simplified": rain.scs_simplified_month_rain_mm,
    "fao manual 3": rain.fao_manual_3_month_rain_mm,
    "dependable": rain.dependable_month_rain_mm,
    "counted": lambda p: rain.counted_rain_mm(p, 0.5),
}


def test_a_share_of_one_counts_all_rain() -> None:
    assert rain.counted_rain_mm([3.0, 0.0], 1.0).tolist() == [3.0, 0.0]


def test_under_cover_no_rain_counts() -> None:
    assert rain.counted_rain_mm([3.0, 9.0], 0.0).tolist() == [0.0, 0.0]


# Texas A&M AgriLife Extension, page on effective rainfall: the rule's own corners
@pytest.mark.parametrize(
    ("rain_in", "counts_in"),
    [(0.05, 0.0), (0.5, 0.4), (1.0, 0.9), (1.5, 1.2333), (2.0, 1.5667), (3.0, 1.5667)],
)
def test_the_event_rule_of_texas_comes_out(rain_in: float, counts_in: float) -> None:
    counted = rain.agrilife_event_rain_mm(rain_in * MM_PER_INCH) / MM_PER_INCH
    assert float(counted) == pytest.approx(counts_in, abs=5e-5)


@given(st.floats(0.01, 1.56))
def test_the_event_rule_backwards_gives_the_rain_that_counts_so_much(
    wanted_in: float,
) -> None:
    event = rain.agrilife_event_for_mm(wanted_in * MM_PER_INCH)
    counted = float(rain.agrilife_event_rain_mm(event)) / MM_PER_INCH
    assert counted == pytest.approx(wanted_in)


def test_no_event_brings_what_the_rule_never_counts() -> None:
    assert np.isinf(rain.agrilife_event_for_mm(1.6 * MM_PER_INCH))


def test_nothing_asked_takes_no_rain() -> None:
    assert float(rain.agrilife_event_for_mm(0.0)) == 0.0


# USDA-NRCS NEH 623 ch. 2, eq. 2-84 and 2-85; coefficients from secondary text
@pytest.mark.parametrize(
    ("rain_in", "etc_in", "storage_in", "counts_in"),
    [(4, 6, 3, 2.9486), (6, 8, 2, 4.308), (3, 4, 1.5, 1.7565)],
)
def test_the_full_monthly_rule_of_usda_comes_out(
    rain_in: float, etc_in: float, storage_in: float, counts_in: float
) -> None:
    counted = rain.scs_month_rain_mm(
        rain_in * MM_PER_INCH,
        month_etc_mm=etc_in * MM_PER_INCH,
        storage_mm=storage_in * MM_PER_INCH,
    )
    assert float(counted) / MM_PER_INCH == pytest.approx(counts_in, abs=5e-4)


def test_the_monthly_rule_never_counts_more_than_is_used() -> None:
    counted = rain.scs_month_rain_mm(300.0, month_etc_mm=20.0, storage_mm=75.0)
    assert float(counted) == 20.0


# FAO / USDA-SCS simplified monthly formula, as reprinted
@pytest.mark.parametrize(
    ("month", "counts"), [(50, 46), (100, 84), (250, 150), (300, 155)]
)
def test_the_simplified_monthly_rule_comes_out(month: float, counts: float) -> None:
    assert float(rain.scs_simplified_month_rain_mm(month)) == pytest.approx(counts)


# Brouwer and Heibloem 1986, FAO Training Manual 3
@pytest.mark.parametrize(("month", "counts"), [(10, 0), (50, 20), (75, 35), (100, 55)])
def test_fao_training_manual_3_comes_out(month: float, counts: float) -> None:
    assert float(rain.fao_manual_3_month_rain_mm(month)) == pytest.approx(counts)


# FAO/AGLW dependable rainfall rule, as reprinted
@pytest.mark.parametrize(("month", "counts"), [(50, 20), (70, 32), (100, 56)])
def test_the_dependable_rain_rule_comes_out(month: float, counts: float) -> None:
    assert float(rain.dependable_month_rain_mm(month)) == pytest.approx(counts)


@pytest.mark.parametrize("name", RULES)
@given(mm=st.floats(0.0, 400.0))
def test_a_rule_never_counts_more_than_fell(name: str, mm: float) -> None:
    assert 0.0 <= float(RULES[name](mm)) <= mm + 1e-9


@pytest.mark.parametrize("name", RULES)
@given(mm=st.floats(0.0, 400.0), more_mm=st.floats(0.0, 100.0))
def test_more_rain_never_counts_less(name: str, mm: float, more_mm: float) -> None:
    assert float(RULES[name](mm + more_mm)) >= float(RULES[name](mm)) - 1e-9


@pytest.mark.parametrize("name", RULES)
def test_rules_take_whole_arrays(name: str) -> None:
    days = np.array([[0.0, 20.0], [60.0, 90.0]])
    one_by_one = [[float(RULES[name](mm)) for mm in row] for row in days]
    np.testing.assert_allclose(RULES[name](days), one_by_one)


@pytest.mark.parametrize("name", RULES)
@pytest.mark.parametrize("wrong", [-1.0, float("nan")])
def test_rain_that_cannot_be_is_refused(name: str, wrong: float) -> None:
    with pytest.raises(SchedulerError, match="rain of"):
        RULES[name]([5.0, wrong])


@pytest.mark.parametrize("share", [-0.1, 1.1])
def test_a_share_outside_0_to_1_is_refused(share: float) -> None:
    with pytest.raises(SchedulerError, match="give 0 to 1"):
        rain.counted_rain_mm([1.0], share)
