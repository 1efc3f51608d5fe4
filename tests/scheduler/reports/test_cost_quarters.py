"""Quarters of an option's zones in words."""

from scheduler.money.zone_quarters import ZoneQuarters
from scheduler.reports.cost_quarters import quarters_json, quarters_words

ONE = ZoneQuarters("Z4", (100.0, 200.0, 300.0, 400.0), (254.0,) * 4, "its own map")


def test_depths_stand_driest_first_now_and_then_with_their_map() -> None:
    assert quarters_words(ONE, "metric") == (
        "Quarters of Z4 get in a year, driest first: 100 200 300 400 mm now, "
        "254 254 254 254 mm then (by its own map)."
    )


def test_inches_have_one_digit() -> None:
    assert "10.0 10.0 10.0 10.0 in then" in quarters_words(ONE, "us")


def test_machines_get_millimetres() -> None:
    assert quarters_json(ONE)["now_mm"] == [100.0, 200.0, 300.0, 400.0]
