"""Bars of what moves gain."""

import pytest

from tests.tui.widgets.test_meter_bars import INK
from tui.widgets.canvas import Canvas
from tui.widgets.move_bars import MoveBar, MoveBars

BARS = (
    MoveBar("0", 0.0, "0.00 %, 0.0 m³", "1"),
    MoveBar("4", 0.01, "1.00 %, 0.4 m³", "0.01"),
    MoveBar("30", 0.02, "2.00 %, 0.8 m³", "0"),
)


def chart(here: int = 1, stands: int = 0) -> MoveBars:
    made = MoveBars()
    made.bars, made.here, made.stands = BARS, here, stands
    return made


def drawn(width: int = 70, height: int = 12) -> list[str]:
    canvas = Canvas(width, height)
    chart().draw(canvas, INK)
    return [canvas.line(y).rstrip() for y in range(height)]


@pytest.mark.parametrize("bar", BARS)
def test_every_week_has_its_numbers_on_one_line(bar: MoveBar) -> None:
    (line,) = [one for one in drawn() if bar.gained_text in one]
    assert bar.moved in line.split()
    assert bar.worth in line.split()


def test_a_bar_is_as_long_as_its_gain() -> None:
    cells = [line.count("█") for line in drawn() if "%" in line]
    assert cells[0] == 0
    assert cells[2] == pytest.approx(2 * cells[1], abs=1)


def test_cursor_and_plan_are_marked() -> None:
    marks = [line[:2] for line in drawn() if "%" in line]
    assert marks == [" ●", "► ", "  "]


def test_the_words_say_the_same() -> None:
    assert chart().words()[1] == "►  4 moved gain 1.00 %, 0.4 m³ (move_worth 0.01)"


def test_without_weeks_it_says_why() -> None:
    made = MoveBars()
    made.nothing = "no earlier issued week"
    assert made.words() == ["no earlier issued week"]
