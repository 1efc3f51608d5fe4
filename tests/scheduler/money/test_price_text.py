"""Prices of water as people type them."""

import pytest

from scheduler.errors import QuantityError
from scheduler.money.price_text import parsed_assumption, parsed_price
from scheduler.units import converted


@pytest.mark.parametrize("text", ["0.40/kgal", "$0.40 / kgal", "0.40 per kgal"])
def test_a_price_of_a_thousand_gallons(text: str) -> None:
    assert parsed_price(text) == pytest.approx(0.40 / 3.785411784)


def test_a_price_of_a_cubic_metre_stays() -> None:
    assert parsed_price("€0.80/m³") == pytest.approx(0.80)


def test_a_price_of_an_acre_foot() -> None:
    size = converted(1.0, "acre_ft", to="m3")
    assert parsed_price("350/acre-ft") == pytest.approx(350 / size)


@pytest.mark.parametrize("text", ["0.40", "0.40/kWh", "2.60 USD"])
def test_a_price_without_a_volume_is_refused(text: str) -> None:
    with pytest.raises(QuantityError, match="names no volume"):
        parsed_price(text)


def test_a_price_below_nothing_is_refused() -> None:
    with pytest.raises(QuantityError, match="below 0"):
        parsed_price("-1/kgal")


@pytest.mark.parametrize(
    ("what", "text", "value"),
    [
        ("energy price", "$0.12/kWh", 0.12),
        ("interest", "6", 0.06),
        ("interest", "4.5 %", 0.045),
        ("life", "12 years", 12.0),
        ("water price", "0.8/m3", 0.8),
    ],
)
def test_assumptions_are_read_as_people_write_them(
    what: str, text: str, value: float
) -> None:
    assert parsed_assumption(what, text, system="us") == pytest.approx(value)


def test_a_price_without_a_volume_is_one_of_the_system() -> None:
    assert parsed_assumption("water price", "3.785411784", system="us") == (
        pytest.approx(1.0)
    )
    assert parsed_assumption("water price", "2", system="metric") == 2.0


def test_words_of_something_else_are_refused() -> None:
    with pytest.raises(QuantityError, match="no interest; write it in percent"):
        parsed_assumption("interest", "6 years", system="us")


@pytest.mark.parametrize(
    ("what", "text"),
    [("water price", "-1"), ("energy price", "-0.1"), ("interest", "-3 %")],
)
def test_what_is_below_nothing_is_refused_as_typed(what: str, text: str) -> None:
    with pytest.raises(QuantityError, match=f"'{text}' is below 0; write"):
        parsed_assumption(what, text, system="us")


def test_an_interest_that_may_be_a_part_of_one_is_asked_about() -> None:
    with pytest.raises(QuantityError, match=r"may be 0\.06 % or 6 %; write"):
        parsed_assumption("interest", "0.06", system="us")


def test_with_the_sign_a_small_interest_is_taken_as_typed() -> None:
    assert parsed_assumption("interest", "0.4 %", system="us") == pytest.approx(0.004)


@pytest.mark.parametrize(
    ("what", "text", "why"),
    [
        ("water price", "1000000000/m3", "above any price in use"),
        ("water price", "1000000000", "above any price in use"),
        ("energy price", "1000000000", "above any price in use"),
        ("interest", "10000 %", "above 50 % a year, .*; write it in percent a year, 0"),
        ("life", "0", "no life; write years above 0"),
        ("life", "900 years", "above 100 years, .*; write years above 0 and at most"),
    ],
)
def test_what_a_file_may_not_say_is_refused_as_typed(
    what: str, text: str, why: str
) -> None:
    with pytest.raises(QuantityError, match=f"^'{text}' is {why}"):
        parsed_assumption(what, text, system="us")


@pytest.mark.parametrize(
    ("what", "text", "value"),
    [
        ("water price", "15000000/m3", 15e6),  # the weakest currencies
        ("interest", "50 %", 0.5),
        ("life", "100", 100.0),
        ("life", "0.5", 0.5),
    ],
)
def test_the_farthest_that_is_lawful_is_taken(
    what: str, text: str, value: float
) -> None:
    assert parsed_assumption(what, text, system="us") == pytest.approx(value)
