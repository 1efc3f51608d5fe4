"""The curve of moves in words and JSON: its numbers, formatted."""

from scheduler.reports.moves import moves_json, moves_text
from scheduler.watering.night_plan.moves import MoveCurve, MovePoint

NONE = MovePoint(0, 1.0, 0.0, 0.0, None, 0)
TWO = MovePoint(2, 0.005, 0.0123, 1.4, None, 0)
CURVE = MoveCurve((NONE, TWO), 9)


def test_each_point_is_a_line() -> None:
    lines = moves_text(CURVE, "metric").splitlines()
    assert lines[-3].split() == ["2", "1.23%", "0.005", "1.4", "m³"]
    assert "write its move_worth under [controller]" in lines[-1]


def test_money_is_shown_with_its_currency() -> None:
    point = MovePoint(2, 0.005, 0.01, None, 3.456, 0)
    text = moves_text(MoveCurve((NONE, point), 9, "", "money"), "us", "USD")
    assert "3.46 USD" in text


def test_why_there_is_no_curve_is_said() -> None:
    assert moves_text(MoveCurve((), 0, "no zone is watered"), "us").endswith(
        "no zone is watered"
    )


def test_a_week_that_gains_nothing_by_moves_says_so() -> None:
    assert "No further move" in moves_text(MoveCurve((NONE,), 9), "us")


def test_the_json_holds_every_point() -> None:
    found = moves_json(CURVE)
    assert found["format"] == 1
    assert found["points"][1] == {
        "moved": 2, "gained": 0.0123, "gained_m3": 1.4, "gained_money": None,
        "cost_of_a_move": 0.005, "unplaced": 0,
    }  # fmt: skip
