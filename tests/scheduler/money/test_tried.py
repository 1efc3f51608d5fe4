"""A uniformity that is only tried: a number without a range."""

from dataclasses import replace

from scheduler.money.gain import KnownDu
from scheduler.money.tried import apart_from_now, tried_now

TESTED = KnownDu(0.6, 0.5, 0.7, 0.9, 4, "its cans")
DIFFERENCE = replace(TESTED, is_difference=True)


def test_a_tried_uniformity_was_measured_on_no_day_and_has_no_range() -> None:
    found = tried_now(TESTED, 0.8)
    assert (found.du_lq, found.low, found.high, found.n_days) == (0.8, None, None, 0)
    assert "what-if" in found.source


def test_a_difference_to_now_stays_as_a_number_without_its_range() -> None:
    found = apart_from_now(DIFFERENCE)
    assert (found.du_lq, found.low, found.is_difference) == (0.6, None, False)


def test_what_was_tested_by_itself_stays_whole() -> None:
    assert apart_from_now(TESTED) is TESTED
