"""Scales: round marks that hold every number, places in proportion."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.reports.charts.axis import across, round_marks, scale, upward
from scheduler.reports.charts.svg import Drawing

NUMBERS = st.floats(-1e6, 1e6)


@pytest.mark.parametrize(
    ("low", "high", "marks"),
    [
        (0.0, 71.0, (0.0, 20.0, 40.0, 60.0, 80.0)),
        (0.61, 0.84, (0.6, 0.65, 0.7, 0.75, 0.8, 0.85)),
        (-400.0, 1200.0, (-500.0, 0.0, 500.0, 1000.0, 1500.0)),
    ],
)
def test_marks_are_round_and_embrace_the_numbers(
    low: float, high: float, marks: tuple[float, ...]
) -> None:
    assert round_marks(low, high) == pytest.approx(marks)


@given(st.lists(NUMBERS, min_size=1, max_size=9), st.booleans())
def test_every_number_has_its_place_between_the_ends(
    values: list[float], from_zero: bool
) -> None:
    made = scale(values, (10.0, 110.0), from_zero=from_zero)
    assert all(9.999 <= made(one) <= 110.001 for one in values)


@given(NUMBERS, NUMBERS)
def test_marks_are_few_and_evenly_spaced(one: float, other: float) -> None:
    marks = round_marks(min(one, other), max(one, other))
    steps = [b - a for a, b in itertools.pairwise(marks)]
    assert 2 <= len(marks) <= 9
    assert max(steps) - min(steps) <= 1e-6 * max(steps)


def test_numbers_that_are_not_finite_are_left_out() -> None:
    made = scale([math.nan, 2.0, math.inf], (0.0, 1.0), from_zero=True)
    assert (made.low, made.high) == (0.0, 2.0)


def test_marks_have_as_many_digits_as_their_step() -> None:
    made = scale([0.6, 0.85], (0.0, 1.0), most=5)
    assert made.label(0.65) == "0.65"
    assert scale([0.0, 8000.0], (0.0, 1.0)).label(2000.0) == "2,000"


def test_both_axes_carry_every_mark_and_their_name() -> None:
    drawing, made = Drawing(100), scale([0.0, 4.0], (80.0, 10.0))
    across(drawing, scale([0.0, 4.0], (40.0, 500.0)), 80.0, "wind, mph")
    upward(drawing, made, 40.0, "DU")
    svg = drawing.svg("a", "b")
    assert svg.count("<text") == 2 * len(made.marks) + 2
    assert ">wind, mph<" in svg
