"""Units: factors that are exact by definition, and texts that people type."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import QuantityError
from scheduler.units import (
    UNITS,
    alternatives,
    converted,
    face_suffix,
    number,
    parsed_quantity,
    shown,
    spelled_unit,
    split_suffix,
    unit_label,
)

# Exact by definition: the international inch and pound, the US gallon of 231 in3.
EXACT = [
    ("in", "mm", 25.4),
    ("ft", "m", 0.3048),
    ("acre", "m2", 4046.8564224),
    ("gal", "l", 3.785411784),
    ("fl_oz", "ml", 29.5735295625),
    ("psi", "kpa", 6.894757293168361),
    ("mph", "m_per_s", 0.44704),
    ("kn", "km_per_h", 1.852),
    ("gpm", "l_per_min", 3.785411784),
]


@pytest.mark.parametrize(("source", "to", "expected"), EXACT)
def test_factors_are_the_exact_ones(source: str, to: str, expected: float) -> None:
    assert converted(1.0, source, to=to) == pytest.approx(expected, rel=1e-12)


def test_gross_rate_constant_of_the_trade_follows_from_the_factors() -> None:
    # 96.25 in/h per gpm/ft2 = 231 x 60 / 144, exact; handbooks print 96.3
    depth_mm_per_h = converted(1.0, "gpm", to="l_per_min") * 60
    per_ft2 = depth_mm_per_h / converted(1.0, "ft2", to="m2")
    assert converted(per_ft2, "mm_per_h", to="in_per_h") == pytest.approx(96.25)


def test_an_inch_on_an_acre_is_27154_gallons() -> None:
    # Alabama Extension, auditing overhead irrigation: 27,154 gal
    litres = converted(1.0, "in", to="mm") * converted(1.0, "acre", to="m2")
    assert converted(litres, "l", to="gal") == pytest.approx(27154, abs=1)


def test_freezing_point_is_32_degrees_fahrenheit() -> None:
    assert converted(32.0, "degf", to="degc") == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize("name", UNITS)
@given(value=st.floats(-1e6, 1e6))
def test_a_conversion_and_its_way_back_return_the_value(
    name: str, value: float
) -> None:
    for other in alternatives(name):
        there = converted(value, name, to=other)
        assert converted(there, other, to=name) == pytest.approx(value, abs=1e-6)


def test_another_dimension_is_refused_with_the_units_that_would_do() -> None:
    with pytest.raises(QuantityError, match="use one of kpa, bar, psi"):
        converted(1.0, "mm", to="kpa")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("4.25 in", 107.95),
        ("4 1/4 in", 107.95),
        ("4¼in", 107.95),
        ('4.25"', 107.95),
        ("108 mm", 108.0),
        ("10.8cm", 108.0),
    ],
)
def test_a_can_mouth_is_read_as_people_write_it(text: str, expected: float) -> None:
    assert parsed_quantity(text, to="mm") == pytest.approx(expected)


@pytest.mark.parametrize("text", ["4.25", "4.25 psi", "4.25 ells"])
def test_a_quantity_without_a_fitting_unit_is_refused(text: str) -> None:
    with pytest.raises(QuantityError):
        parsed_quantity(text, to="mm")


def test_a_text_without_a_number_is_refused_with_its_words() -> None:
    with pytest.raises(QuantityError, match="'about four' is not a number"):
        number("about four")


def test_the_longest_suffix_wins() -> None:
    assert split_suffix("net_rate_mm_per_h") == ("net_rate", "mm_per_h")


def test_spelling_of_a_fluid_ounce_is_free() -> None:
    assert {spelled_unit(t) for t in ("fl oz", "fl. oz.", "FL OZ")} == {"fl_oz"}


@pytest.mark.parametrize(
    ("value", "suffix", "expected"),
    [
        (12.2, "mm_per_h", "0.48 in/h"),
        (23.4, "mm", "0.92 in"),
        (None, "mm", "–"),
        (float("nan"), "mm", "–"),
        (0.724, "", "0.72"),
        (55.8, "ml", "56 mL"),
    ],
)
def test_numbers_are_shown_as_a_us_face_reads_them(
    value: float | None, suffix: str, expected: str
) -> None:
    assert shown(value, suffix, "us") == expected


def test_millilitres_stay_millilitres_on_both_faces() -> None:
    assert face_suffix("ml", "us") == face_suffix("ml", "metric") == "ml"


def test_a_bare_number_has_no_label() -> None:
    assert unit_label("", "us") == ""


def test_a_decimal_comma_is_named_and_not_taken_for_a_unit() -> None:
    with pytest.raises(QuantityError, match=r"has a comma; write '4\.25 in'"):
        parsed_quantity("4,25 in", to="mm")


@pytest.mark.parametrize("text", ["900 µS/cm", "900 μS/cm", "0.9 mS/cm", "0.9 dS/m",
                                  "900 umhos/cm"])  # fmt: skip
def test_conductivity_is_read_in_every_spelling_of_its_meters(text: str) -> None:
    # micro sign and Greek mu; 1 mmho = 1 mS by definition
    assert parsed_quantity(text, to="ds_per_m") == pytest.approx(0.9)
