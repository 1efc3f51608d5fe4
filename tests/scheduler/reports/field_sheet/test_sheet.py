"""Field sheets hold no arithmetic: what they show is the room's number, formatted."""

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest

from scheduler.field.visit import ZoneVisit, grid_map, zone_visits
from scheduler.files.demo import demo_source
from scheduler.files.site_folder import SiteFolder, read_site_folder
from scheduler.record import StatedResult
from scheduler.reports.field_sheet import Asked, field_sheets, field_sheets_json
from scheduler.reports.machine import run_json
from scheduler.reports.page import paper_page
from scheduler.reports.paper import Boxes, Cans, Facts, Paper, Table, Ticks
from scheduler.reports.paper_text import paper_text
from scheduler.reports.text import WIDTH
from scheduler.said import date_text
from scheduler.units import System, shown, typed, unit_label

TODAY = dt.date(2026, 6, 8)
SYSTEMS: tuple[System, ...] = ("us", "metric")


@pytest.fixture(scope="module")
def demo() -> SiteFolder:
    return read_site_folder(demo_source() / "tern_hollow")


@pytest.fixture(scope="module")
def visits(demo: SiteFolder) -> dict[str, ZoneVisit]:
    assert demo.site is not None
    found = zone_visits(demo.site, demo.history, TODAY)
    return {one.zone.id: one for one in found}


def sheet(visit: ZoneVisit, units: System = "us", **asked: Any) -> Paper:
    return field_sheets([visit], Asked("Tern Hollow Nursery", units, **asked))


def blocks(paper: Paper) -> list[Any]:
    return [
        block
        for leaf in paper.leaves
        for section in leaf.sections
        for block in section.blocks
    ]


def facts(paper: Paper) -> str:
    return " ".join(
        f"{name} {text}"
        for block in blocks(paper)
        if isinstance(block, Facts)
        for name, text in block.facts
    )


def boxes(paper: Paper) -> dict[str, Any]:
    return {
        box.label: box
        for block in blocks(paper)
        if isinstance(block, Boxes)
        for box in block.boxes
    }


# --- what is filled in -------------------------------------------------------


@pytest.mark.parametrize("units", SYSTEMS)
def test_hardware_is_that_on_file_formatted(
    visits: dict[str, ZoneVisit], units: System
) -> None:
    visit = visits["Z4"]
    package = visit.package
    assert package is not None
    assert package.spacing_m is not None
    text = facts(sheet(visit, units))
    for known in (
        shown(package.nozzle_flow_l_per_min, "l_per_min", units),
        shown(package.pressure_kpa, "kpa", units),
        shown(package.regulator_kpa, "kpa", units),
        typed(package.spacing_m, "m", units),
        shown(visit.zone.area_m2, "m2", units),
        f"about {visit.n_heads} heads",
    ):
        assert known in text


@pytest.mark.parametrize("units", SYSTEMS)
@pytest.mark.parametrize("zone", ["Z1", "Z2", "Z4", "Z5", "Z6", "Z7"])
def test_the_last_result_is_the_rooms_formatted(
    visits: dict[str, ZoneVisit], zone: str, units: System
) -> None:
    last = visits[zone].last
    assert last is not None
    text = facts(sheet(visits[zone], units))
    assert f"{date_text(last.date)}" in text
    for run in last.runs:
        assert run.ranges is not None
        assert run.wind is not None
        low, high = run.ranges.du_lq.low, run.ranges.du_lq.high
        assert shown(run.catch.net_rate_mm_per_h, "mm_per_h", units) in text
        assert f"{shown(run.uniformity.du_lq, '', units)} (" in text
        assert f"({shown(low, '', units)}–{shown(high, '', units)}, right" in text
        assert f"wind {shown(run.wind.mean_m_per_s, 'm_per_s', units)}" in text


def test_a_test_that_cannot_be_used_shows_why_and_no_result(
    visits: dict[str, ZoneVisit],
) -> None:
    paper = sheet(visits["Z9"])
    assert "cannot be used: the cans caught 196 %" in facts(paper)
    assert "DU" not in facts(paper)
    assert "in doubt" in boxes(paper)["Mouth, inside"].hint


def test_a_stated_result_names_who_stated_it(visits: dict[str, ZoneVisit]) -> None:
    visit = visits["Z4"]
    assert visit.last is not None
    told = StatedResult(0.66, 11.0, "the district's laboratory")
    stated = replace(visit, last=replace(visit.last, runs=(), stated=told))
    text = facts(sheet(stated))
    assert "stated by the district's laboratory" in text
    assert shown(11.0, "mm_per_h", "us") in text
    assert "0.66" in text


def test_a_zone_without_tests_says_none_yet(visits: dict[str, ZoneVisit]) -> None:
    paper = sheet(visits["Z8"])
    assert "Last test none yet" in facts(paper)
    assert "Package not on file" in facts(paper)
    assert boxes(paper)["Mouth, inside"].hint == ""


@pytest.mark.parametrize("units", SYSTEMS)
def test_mouth_minutes_and_clock_are_those_on_file(
    visits: dict[str, ZoneVisit], units: System
) -> None:
    visit = visits["Z4"]
    known, text = boxes(sheet(visit, units)), paper_text(sheet(visit, units))
    assert known["Mouth, inside"].hint == f"last {shown(visit.mouth_mm, 'mm', units)}"
    assert known["Minutes of water"].hint == f"last {shown(30.0, 'min', units)}"
    assert "On file: 24 min in 1 cycle, Mon Tue Wed Thu Fri Sat." in text


@pytest.mark.parametrize(
    ("units", "pot", "spacing"),
    # as typed in the demo: 10.5 in tops at 14 in; 26.67 cm and 35.56 cm by hand
    [("us", "10.5 in top", "14 in, square"),
     ("metric", "26.67 cm top", "35.56 cm, square")],
)  # fmt: skip
def test_the_crop_card_holds_pot_and_spacing_as_a_hand_measures_them(
    visits: dict[str, ZoneVisit], units: System, pot: str, spacing: str
) -> None:
    rows = [
        row
        for block in blocks(sheet(visits["Z4"], units))
        if isinstance(block, Table)
        for row in block.rows
    ]
    assert any({"hollies, #3", pot, spacing} <= set(row) for row in rows)


def test_a_soil_zone_asks_for_runoff_and_not_for_leachate(
    visits: dict[str, ZoneVisit],
) -> None:
    soil, pots = paper_text(sheet(visits["Z7"])), paper_text(sheet(visits["Z4"]))
    assert "clay loam" in soil
    assert "leached" not in soil
    assert "leached" in pots


@pytest.mark.parametrize("units", SYSTEMS)
def test_units_to_write_in_are_the_sites(
    visits: dict[str, ZoneVisit], units: System
) -> None:
    text = paper_text(sheet(visits["Z4"], units))
    for suffix in ("kpa", "l_per_min", "m_per_s"):
        assert unit_label(suffix, units) in text
        other: System = "us" if units == "metric" else "metric"
        assert unit_label(suffix, other) not in text


def test_the_grid_is_the_last_tests_map(visits: dict[str, ZoneVisit]) -> None:
    (grid, _) = (one for one in blocks(sheet(visits["Z4"])) if isinstance(one, Cans))
    assert [band.label for band in grid.bands] == [visits["Z4"].can_map.label]


def test_a_wide_grid_is_drawn_in_bands_that_hold_every_can(
    visits: dict[str, ZoneVisit],
) -> None:
    laid = grid_map(5, 31, "as asked")
    paper = sheet(replace(visits["Z4"], can_map=laid), n_runs=1)
    (grid,) = (one for one in blocks(paper) if isinstance(one, Cans))
    assert all(len(band.columns) <= 12 for band in grid.bands)
    rows = [[name for band in grid.bands for name in band.label[i]] for i in range(5)]
    assert rows == [list(row) for row in laid.label]


@pytest.mark.parametrize("n_heads", [None, 1, 24, 48, 49, 228, 900])
def test_every_head_has_a_box_as_far_as_the_paper_goes(
    visits: dict[str, ZoneVisit], n_heads: int | None
) -> None:
    paper = sheet(replace(visits["Z4"], n_heads=n_heads))
    ticked = [one for b in blocks(paper) if isinstance(b, Ticks) for one in b.numbers]
    expected = min(n_heads or 24, 228)
    assert ticked == [str(i + 1) for i in range(expected)]
    assert ("one more sheet" in paper_text(paper)) == ((n_heads or 0) > 228)


# --- order, sides, dates -----------------------------------------------------


def test_the_sections_come_in_the_order_of_the_work(
    visits: dict[str, ZoneVisit],
) -> None:
    numbers = [
        section.number
        for leaf in sheet(visits["Z4"], n_runs=2).leaves
        for section in leaf.sections
        if section.number
    ]
    assert numbers == [*"12345", *"678", *"678", "9", "10", "11"]


@pytest.mark.parametrize("n_runs", [1, 2, 4])
def test_each_run_has_a_side_with_its_own_grid(
    visits: dict[str, ZoneVisit], n_runs: int
) -> None:
    paper = sheet(visits["Z4"], n_runs=n_runs)
    assert sum(isinstance(one, Cans) for one in blocks(paper)) == n_runs
    assert paper.leaves[-1].place == f"side {4 + n_runs} of {4 + n_runs}"


def test_the_date_is_a_line_to_write_on_unless_it_is_given(
    visits: dict[str, ZoneVisit],
) -> None:
    blank = sheet(visits["Z4"])
    dated = sheet(visits["Z4"], date=dt.date(2026, 6, 18))
    assert boxes(blank)["Date of the test"].value == ""
    assert boxes(dated)["Date of the test"].value == "18 Jun 2026"
    assert "Date 18 Jun 2026" in dated.leaves[1].stamp


def test_the_cautions_stand_on_the_first_side_of_each_zone(
    visits: dict[str, ZoneVisit],
) -> None:
    paper = field_sheets(visits.values(), Asked("a", "us"))
    first = [leaf for leaf in paper.leaves if leaf.place.startswith("side 1 ")]
    assert len(first) == len(visits)
    for leaf in first:
        subjects = {subject for subject, _ in leaf.foot}
        assert {"Electrics", "Pressure", "Re-entry", "Recycled water"} <= subjects
        assert "Local codes" in leaf.closing


# --- paper that can be printed -----------------------------------------------


@pytest.mark.parametrize("units", SYSTEMS)
def test_every_sheet_of_the_demo_fits_eighty_columns(
    visits: dict[str, ZoneVisit], units: System
) -> None:
    text = paper_text(field_sheets(visits.values(), Asked("Tern Hollow", units)))
    assert max(map(len, text.splitlines())) <= WIDTH


def test_strange_names_are_shown_and_do_no_harm(visits: dict[str, ZoneVisit]) -> None:
    name = "<b>Höhe</b> & \x1b[2J\n" + "lang" * 60
    zone = visits["Z4"].zone.model_copy(update={"name": name, "valve": "<7>"})
    paper = sheet(replace(visits["Z4"], zone=zone))
    text, html = paper_text(paper), paper_page(paper)
    assert max(map(len, text.splitlines())) <= WIDTH
    assert "\x1b" not in text
    assert "<b>Höhe</b> &" in text
    assert "&lt;b&gt;Höhe&lt;/b&gt; &amp;" in html
    assert "&lt;7&gt;" in html


def test_json_holds_the_rooms_numbers(visits: dict[str, ZoneVisit]) -> None:
    visit = visits["Z4"]
    assert visit.last is not None
    (one,) = field_sheets_json([visit], Asked("a", "us"), ())["sheets"]
    assert one["mouth_mm"] == visit.mouth_mm
    assert one["n_heads"] == visit.n_heads
    assert one["can_map"]["columns"] == list("ABCDEFGH")
    assert one["last"]["runs"] == [run_json(run) for run in visit.last.runs]
    assert one["last"]["usable"] is True
