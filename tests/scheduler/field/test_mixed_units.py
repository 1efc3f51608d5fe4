"""Two clusters a unit apart are found, and turned into one unit by exact factors."""

import numpy as np
import pytest

from scheduler.field.mixed_units import SmallUnit, in_one_unit, mixed_units

LARGE = [52.0, 47.0, 61.0, 55.0]
SMALL = [1.9, 1.7, 2.1, 1.6]


def test_the_small_readings_are_marked() -> None:
    found = mixed_units(np.array([LARGE, SMALL]), "ml")
    assert found is not None
    assert found.is_small.tolist() == [[False] * 4, [True] * 4]


# US fluid ounce 1/128 gallon of 231 cubic inches, imperial 1/160 of 4.54609 L, inch
# 25.4 mm: exact by definition, worked by hand here
@pytest.mark.parametrize(
    ("unit", "small", "first"),
    [("ml", "us_fl_oz", 56.18971), ("ml", "imp_fl_oz", 53.98482), ("mm", "in", 48.26)],
)
def test_small_readings_are_turned_by_the_exact_factor(
    unit: str, small: SmallUnit, first: float
) -> None:
    typed = np.array([*LARGE, *SMALL])
    found = mixed_units(typed, unit)
    assert found is not None
    made = in_one_unit(typed, found, small)
    assert made[4] == pytest.approx(first, abs=1e-5)
    assert made[:4].tolist() == LARGE


def test_a_place_without_a_reading_stays_one() -> None:
    typed = np.array([*LARGE, np.nan, *SMALL, 0.0])
    found = mixed_units(typed, "ml")
    assert found is not None
    made = in_one_unit(typed, found, "us_fl_oz")
    assert np.isnan(made[4])
    assert made[-1] == 0.0


@pytest.mark.parametrize(
    "typed",
    [[*LARGE, 44.0, 58.0, 49.0, 63.0], [*LARGE, 2.0, 2.0, 1.0, 2.0], LARGE, []],
    ids=["one unit", "a dry half in whole numbers", "four cans", "none"],
)
def test_readings_in_one_unit_are_left_alone(typed: list[float]) -> None:
    assert mixed_units(np.array(typed), "ml") is None
