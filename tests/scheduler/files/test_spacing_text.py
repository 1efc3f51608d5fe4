"""Spacings read as people type them, or are refused with the option's name."""

import pytest

from scheduler.errors import QuantityError
from scheduler.files.spacing_text import parsed_length_m, parsed_spacing_m, swept_m


@pytest.mark.parametrize(
    "text", ["30 x 40 ft", "30x40 ft", "30 ft × 40 ft", "30 by 40 ft", "360 in * 40 ft"]
)
def test_two_numbers_may_be_parted_in_any_usual_way(text: str) -> None:
    assert parsed_spacing_m(text, option="--at") == pytest.approx((9.144, 12.192))


def test_one_number_leaves_the_row_spacing_open() -> None:
    assert parsed_spacing_m("9 m", option="--at") == (9.0, None)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("30 x 40", "--at: '30': has no unit"),
        ("30 x 40 gpm", "'gpm' is no length"),
        ("30 x 40 x 50 ft", "holds 3 numbers"),
        ("0 x 40 ft", "is not above 0"),
        ("-30 ft", "is not above 0"),
        ("wide", "is not a number; write it like 30 x 40 ft"),
        ("x 40 ft", "is not a number"),
    ],
)
def test_what_is_no_spacing_is_refused(text: str, message: str) -> None:
    with pytest.raises(QuantityError) as refused:
        parsed_spacing_m(text, option="--at")
    assert message in str(refused.value)


def test_a_length_names_its_option() -> None:
    with pytest.raises(QuantityError, match=r"^--step: '2': has no unit"):
        parsed_length_m("2", option="--step")


def test_the_last_spacing_is_included() -> None:
    foot = 0.3048
    swept = swept_m(20 * foot, 50 * foot, 2 * foot, with_m=30 * foot)
    assert len(swept) == 16
    assert swept[-1] == pytest.approx(50 * foot)


@pytest.mark.parametrize("asked", [9.144, 9.5, 3.0, 20.0])
def test_the_spacing_asked_about_is_on_the_map(asked: float) -> None:
    assert asked in swept_m(20 * 0.3048, 15.24, 2 * 0.3048, with_m=asked)


def test_a_map_the_wrong_way_round_is_refused() -> None:
    with pytest.raises(QuantityError, match="--to"):
        swept_m(9.0, 6.0, 1.0, with_m=7.0)


def test_too_fine_a_step_is_refused() -> None:
    with pytest.raises(QuantityError, match="901 spacings are too many"):
        swept_m(6.0, 15.0, 0.01, with_m=7.0)
