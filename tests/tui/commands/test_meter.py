"""`lowquarter meter` and `lowquarter saving` on the demo, and what is due in others."""

import json
from typing import Any

from click.testing import CliRunner, Result

from tui.cli import main

DEMO = "demo_sites/tern_hollow"
SPRING = ("--before", "2026-04-06..2026-05-18", "--after", "2026-05-18..2026-06-08")


def run(*args: str) -> Result:
    return CliRunner().invoke(main, list(args))


def as_json(*args: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run(*args, "--json").stdout)
    return found


def test_the_demo_meter_fits_its_clock_in_every_week() -> None:
    weeks = as_json("meter", DEMO)["intervals"]
    assert len(weeks) == 9
    assert max(abs(one["off"]) for one in weeks) < 0.05
    assert not any(one["causes"] for one in weeks)


def test_the_frost_night_of_the_demo_stands_apart() -> None:
    first = as_json("meter", DEMO)["intervals"][0]
    # 5.5 h at the 200 gpm of the pump
    assert round(first["frost_m3"] / 3.785411784e-3) == 66000


def test_skips_and_the_override_of_the_demo_are_counted() -> None:
    last = as_json("meter", DEMO)["intervals"][-1]
    assert last["logged_m3"] < 0
    assert abs(last["off"]) < 0.01


def test_a_meter_that_is_not_there_is_refused_with_those_that_are() -> None:
    wrong = run("meter", DEMO, "--meter", "well")
    assert wrong.exit_code == 2
    assert "the meters are pump house" in wrong.output


def test_one_meter_can_be_asked_for() -> None:
    assert run("meter", DEMO, "--meter", "pump house").exit_code == 0


def test_the_demo_claims_nothing_without_measured_weather() -> None:
    found = as_json("saving", DEMO, *SPRING)
    assert found["actual"]["change"] is None
    assert "was not measured" in found["actual"]["why_not"]


def test_the_tuned_zone_of_the_demo_has_its_uniformity_before_and_after() -> None:
    (one,) = as_json("saving", DEMO, *SPRING)["uniformity"]
    assert (one["zone"], one["is_same_band"]) == ("Z5", True)
    assert one["after"]["du_lq"] > one["before"]["du_lq"]


def test_what_was_done_between_is_listed_with_both_dials() -> None:
    text = run("saving", DEMO, *SPRING).stdout
    assert "done 18 May 2026, Z5: new nozzles" in text
    assert "before, pump house: 958120 gal x 10 (log.csv:7) to 62400 gal" in text


def test_a_year_without_a_meter_is_said_to_be_estimated() -> None:
    shown = run("saving", DEMO, "--before", "2025", "--after", "2026")
    assert "Actual: nothing is claimed" in shown.stdout
    assert "no meter tells the water of 2025" in shown.stdout


def test_a_span_that_is_none_is_refused() -> None:
    wrong = run("saving", DEMO, "--before", "spring", "--after", "2026")
    assert wrong.exit_code == 2
    assert "write a year such as 2025" in wrong.output


def test_an_area_without_a_unit_is_refused() -> None:
    wrong = run(
        "saving", DEMO, *SPRING, "--area-before", "3.2", "--area-after", "3 acre"
    )
    assert wrong.exit_code == 2
    assert "has no unit" in wrong.output


def test_lines_fit_a_terminal_of_eighty_columns() -> None:
    for args in (("meter", DEMO), ("saving", DEMO, *SPRING)):
        for units in ("us", "metric"):
            text = run(*args, "--units", units).stdout
            assert max(map(len, text.splitlines())) <= 80


def test_inspect_and_week_list_what_is_due() -> None:
    for command in ("inspect", "week"):
        kinds = {one["kind"] for one in as_json(command, DEMO)["due"]}
        assert kinds == {"test", "leaching check"}
        assert "leaching checks due" in run(command, DEMO).stdout
