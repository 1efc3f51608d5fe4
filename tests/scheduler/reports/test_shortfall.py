"""The table of a week with too little water."""

from scheduler.reports.shortfall import short_json, short_rows, short_title
from scheduler.trace import entered
from scheduler.watering.allotment import ShortWater, ZoneCut

CUT = ZoneCut("Z4", 33, 23, 82.7, 57.6, 1.01, 0.707, 2)
SHORT = ShortWater(
    412.0, 589.0, 411.4, "drought order", (CUT,), entered("most_m3", 412.0), ()
)


def test_the_title_says_what_there_is_of_what_was_asked() -> None:
    told = "Water is short (drought order): 412.0 m³ of 589.0 m³."
    assert short_title(SHORT, "metric").startswith(told)


def test_a_row_holds_before_and_now() -> None:
    assert short_rows(SHORT, "metric") == [
        ["Z4", "33", "23", "82.7 m³", "57.6 m³", "101 %", "71 %", "2"]
    ]


def test_the_json_holds_the_same_numbers() -> None:
    found = short_json(SHORT)
    assert found is not None
    assert found["allotted_m3"] == 411.4
    assert found["zones"][0]["driest_quarter"] == 0.707


def test_a_week_with_enough_water_has_none() -> None:
    assert short_json(None) is None
