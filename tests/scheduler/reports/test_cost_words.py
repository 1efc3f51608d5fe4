"""Money and volumes as people read them out."""

import pytest

from scheduler.reports.cost_words import EMPTY, count, money, volume


def test_money_is_whole_with_thousands_apart() -> None:
    assert money(-3345.4) == "−3,345"


@pytest.mark.parametrize("value", [-0.4, -0.0, 0.0, 0.4])
def test_what_rounds_to_nothing_has_no_sign(value: float) -> None:
    assert {money(value), count(value), volume(value, "metric")} == {"0"}


def test_what_is_not_known_stays_empty() -> None:
    assert {money(None), count(None), volume(None, "us")} == {EMPTY}


def test_a_volume_is_in_thousands_of_gallons() -> None:
    assert volume(3785.411784, "us") == "1,000"
