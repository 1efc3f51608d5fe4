"""One manner of dates and signs."""

import datetime as dt

import pytest

from scheduler.said import date_text, day_text, signed, true_minus
from scheduler.units import number, shown


def test_a_date_has_no_leading_zero() -> None:
    assert day_text(dt.date(2026, 6, 8)) == "8 Jun"
    assert date_text(dt.date(2026, 6, 8)) == "8 Jun 2026"


def test_the_time_of_a_date_keeps_its_zeros() -> None:
    at = dt.datetime.combine(dt.date(2026, 6, 8), dt.time(4, 5))
    assert day_text(at, "%a %d %b %H:%M") == "Mon 8 Jun 04:05"


@pytest.mark.parametrize(
    ("value", "form", "text"),
    [
        (-0.531, ".2f", "−0.53"),
        (0.09, ".2f", "+0.09"),
        (-0.12, ".0%", "−12%"),
        (-0.001, ".0%", "0%"),
        (0.0, ".2f", "0.00"),
        (-0.042, ".0%", "−4%"),
        (float("-inf"), ".2f", "−inf"),
    ],
)
def test_a_change_has_its_sign_unless_it_is_nothing(
    value: float, form: str, text: str
) -> None:
    assert signed(value, form) == text


def test_a_face_shows_a_true_minus() -> None:
    assert shown(-0.5, "mm", "metric") == "−0.5 mm"
    assert shown(-1234.0, "m3", "metric", with_unit=False).startswith("−1,23")


def test_a_number_is_read_as_it_was_shown() -> None:
    assert number(true_minus("-12.5"))[0] == -12.5
