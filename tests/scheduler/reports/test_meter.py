"""Numbers of the meter's text and JSON are those of the comparison, formatted."""

from scheduler.proof.meter import plan_against_meter
from scheduler.reports.meter import NO_READINGS, meter_json, meter_text
from tests.scheduler.proof.made import dial, history, site, zone

BOTH = site(zone("Z1"), zone("Z2", heads=30))
SHORT = plan_against_meter(BOTH, history(dial(1, 100.0), dial(8, 107.0)))
FITS = plan_against_meter(BOTH, history(dial(1, 100.0), dial(8, 128.0)))


def test_the_table_has_meter_plan_and_what_is_left() -> None:
    line = next(
        one for one in meter_text(SHORT, "metric").splitlines() if "8 Jun" in one
    )
    assert line.split()[4:] == ["7.0", "28.0", "0.0", "0.0", "0.0", "−21.0", "−75%"]


def test_causes_are_listed_with_their_arithmetic() -> None:
    assert "1. a valve that stays shut: 21.0 m³ missing, Z2 was to get 21.0 m³" in (
        meter_text(SHORT, "metric").replace("\n   ", " ")
    )


def test_a_meter_that_fits_lists_no_cause() -> None:
    assert "1. " not in meter_text(FITS, "metric")


def test_without_two_readings_that_is_said() -> None:
    assert meter_text(plan_against_meter(BOTH, history()), "us") == NO_READINGS


def test_json_holds_every_interval_with_its_zones_and_chain() -> None:
    (one,) = meter_json(SHORT, SHORT.findings)["intervals"]
    assert [zone["ran_m3"] for zone in one["zones"]] == [7.0, 21.0]
    assert one["unexplained_m3"] == -21.0
    assert one["causes"][0]["cause"] == "a valve that stays shut"
    assert one["chain"][-1]["name"] == "unexplained_m3"


def test_lines_fit_a_terminal_of_eighty_columns() -> None:
    for text in (meter_text(SHORT, "us"), meter_text(SHORT, "metric")):
        assert max(map(len, text.splitlines())) <= 80
