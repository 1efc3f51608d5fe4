"""`lowquarter cost` on the demo, and on the 1.5-acre yard as a folder."""

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from tui.cli import main

DEMO = "demo_sites/tern_hollow"
FILES = {
    "site.toml": """\
format = 1
name = "Tern Hollow Nursery"
units = "us"
[place]
latitude_deg = 38.4
longitude_deg = -75.6
elevation_ft = 40
time_zone = "America/New_York"
[tariff]
currency = "USD"
water_price_money_per_kgal = 2.78
interest = 0.06
""",
    "zones.toml": """\
format = 1
[[zone]]
id = "Y1"
name = "Yard"
area_acre = 1.5
grown_in = "pots"
watered = "off"
assumed_du_lq = 0.58
assumed_net_rate_in_per_h = 0.5
""",
    "options.toml": """\
format = 1
[[option]]
id = "now"
name = "as it is"
deed = "do nothing"
zones = ["Y1"]
du_lq = 0.58
du_lq_low = 0.555
du_lq_high = 0.605
tested_days = 12
[[option]]
id = "A"
name = "new nozzles"
deed = "tune up"
zones = ["Y1"]
season_need_in = 26
du_lq = 0.62
du_lq_low = 0.58
du_lq_high = 0.66
tested_days = 12
price_money = 900
life_years = 5
[[option]]
id = "B"
name = "re-spacing"
deed = "re-space"
zones = ["Y1"]
season_need_in = 26
du_lq = 0.78
du_lq_low = 0.755
du_lq_high = 0.805
tested_days = 12
price_money = 9600
life_years = 12
""",
}


@cache
def run(folder: str | Path, *args: str) -> Result:
    return CliRunner().invoke(main, ["cost", str(folder), *args])


@pytest.fixture(scope="module")
def demo() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(run(DEMO, "--json").stdout)
    return found


@pytest.fixture
def yard(tmp_path: Path) -> Path:
    for name, text in FILES.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    return tmp_path


def options(folder: Path, *args: str) -> dict[str, dict[str, Any]]:
    """Rules of option B by name, from the JSON."""
    read = json.loads(run(folder, "--json", *args).stdout)
    return {
        f"{one['id']} {rule['rule']}": rule
        for one in read["options"]
        for rule in one["rules"]
    }


def test_every_zone_has_the_keys_that_were_promised(demo: dict[str, Any]) -> None:
    keys = {"volume_m3", "above_need_m3", "above_need_low_m3", "above_need_high_m3",
            "money", "energy_kwh"}  # fmt: skip
    assert len(demo["zones"]) == 7
    assert all(keys <= set(one) for one in demo["zones"])


def test_every_option_has_the_keys_that_were_promised(demo: dict[str, Any]) -> None:
    keys = {"name", "yearly_cost", "net_present_value", "break_even_price_per_m3",
            "chance_it_pays", "verdict"}  # fmt: skip
    assert [one["id"] for one in demo["options"]] == ["T4", "R4", "P5"]
    assert all(keys <= set(one) for one in demo["options"])


def test_zones_of_the_demo_sum_to_its_site(demo: dict[str, Any]) -> None:
    for key in ("volume_m3", "above_need_m3", "money", "energy_kwh"):
        assert demo["total"][key] == pytest.approx(sum(z[key] for z in demo["zones"]))


def test_a_range_holds_its_number(demo: dict[str, Any]) -> None:
    for one in demo["zones"]:
        if one["above_need_low_m3"] is not None:
            low, high = one["above_need_low_m3"], one["above_need_high_m3"]
            assert low <= one["above_need_m3"] <= high


def test_weeks_of_the_demo_sum_to_the_zone(demo: dict[str, Any]) -> None:
    for one in demo["zones"]:
        assert sum(week["volume_m3"] for week in one["weeks"]) == pytest.approx(
            one["volume_m3"]
        )


def test_the_demo_counts_its_heads(demo: dict[str, Any]) -> None:
    # 180 x 120 ft at 20 x 30 ft: 10 x 5 heads, 5 laterals of 180 ft
    lines = {one["what"]: one["quantity"] for one in demo["options"][1]["lines"]}
    assert lines["head and riser"] == 50
    assert lines["lateral pipe, laid"] == pytest.approx(5 * 180 * 0.3048)


def test_a_price_that_is_asked_for_still_stays_empty(demo: dict[str, Any]) -> None:
    last = demo["options"][2]
    assert (last["outlay"], last["missing"]) == (None, ["price: head and riser"])


def test_a_yard_of_one_and_a_half_acres_reads_from_a_folder(yard: Path) -> None:
    found = options(yard)
    half, quarter = found["B low half"], found["B low quarter"]
    assert [round(one["saved_m3"] / 3.785411784) for one in (half, quarter)] == [
        196,
        468,
    ]
    assert [round(one["saved"]) for one in (half, quarter)] == [544, 1302]
    assert (half["verdict"], quarter["verdict"]) == ("does not pay", "pays")
    assert found["A low quarter"]["verdict"] == "not proven"


def test_another_price_gives_another_verdict(yard: Path) -> None:
    found = options(yard, "--price", "$0.40/kgal")
    assert found["B low quarter"]["verdict"] == "does not pay"
    assert found["B low half"]["verdict"] == "does not pay"


def test_break_even_stands_first_and_with_its_two_numbers(yard: Path) -> None:
    text = run(yard).stdout
    assert text.index("Break-even") < text.index("B re-spacing (re-space")
    line = next(one for one in text.splitlines() if one.startswith("B re-spacing "))
    assert line.split()[2:6] == ["9,600", "1,145", "5.85", "2.45"]


def test_doing_nothing_stands_first(yard: Path) -> None:
    assert run(yard).stdout.index("do nothing") < run(yard).stdout.index("A new")


def test_potential_and_actual_stand_apart() -> None:
    text = run(DEMO).stdout
    assert "Potential, as forecast: 103 kgal" in text
    assert "Actual, as re-tested: –" in text


@pytest.mark.parametrize("args", [(), ("--zone", "Z4"), ("--units", "metric")])
def test_lines_fit_a_terminal_of_eighty_columns(args: tuple[str, ...]) -> None:
    assert max(map(len, run(DEMO, *args).stdout.splitlines())) <= 80


def test_one_zone_is_told_under_every_rule_and_by_week() -> None:
    text = run(DEMO, "--zone", "Z4").stdout
    assert "share served" in text
    assert "Week of: water / above need, kgal." in text
    assert "P5" not in text


def test_metric_faces_show_cubic_metres() -> None:
    assert "what a saved m³ must be worth" in run(DEMO, "--units", "metric").stdout


def test_zones_are_held_against_what_is_asked() -> None:
    assert "target as asked, DU 0.85" in run(DEMO, "--reference", "0.85").stdout


def test_a_reference_that_is_nothing_is_refused() -> None:
    wrong = run(DEMO, "--reference", "wonder-40")
    assert wrong.exit_code == 2
    assert "neither a DU nor a tested package" in wrong.output


def test_a_price_without_a_volume_is_refused() -> None:
    wrong = run(DEMO, "--price", "0.40")
    assert wrong.exit_code == 2
    assert "names no volume" in wrong.output


def test_a_zone_that_is_not_there_is_named() -> None:
    wrong = run(DEMO, "--zone", "Z99")
    assert wrong.exit_code == 2
    assert "there is no zone 'Z99'" in wrong.output


def test_numbers_say_where_they_came_from() -> None:
    text = run(DEMO, "--zone", "Z4", "--explain").stdout
    assert "above need" in text
    assert "Blank and Tarquin" in text
    assert "outlay money" in text
