"""The night sheet on paper: every row, escaped, nothing outside asked for."""

import dataclasses
import re

import pytest

from scheduler.reports.handed.night_print import (
    night_page,
    night_pdf,
    night_sheet_text,
)
from scheduler.reports.handed.night_sheet import NightSheet, night_sheet
from tests.scheduler.reports.handed.made import hostile_week, week
from tests.scheduler.reports.test_page import parsed

SITES = ("tern_hollow", "alder_flat")


def sheet(name: str = "tern_hollow") -> NightSheet:
    return night_sheet(week(name), week(name).site.units)


@pytest.mark.parametrize("name", SITES)
def test_every_row_is_printed_in_both_forms(name: str) -> None:
    made = sheet(name)
    page = re.sub(r"\s+", " ", " ".join(parsed(night_page(made)).text))
    text = re.sub(r"\s+", " ", night_sheet_text(made))
    for part in made.parts:
        for row in part.rows:
            assert f"{row.hours} {row.zones} {row.flow}" in page
            assert f"{row.hours} {row.zones} {row.flow}" in text


@pytest.mark.parametrize("name", SITES)
def test_the_text_is_eighty_columns_wide_at_most(name: str) -> None:
    assert max(map(len, night_sheet_text(sheet(name)).splitlines())) <= 80


def test_a_long_row_is_wrapped() -> None:
    made = sheet()
    row = dataclasses.replace(made.parts[0].rows[0], zones="Z1 + " * 20 + "Z2")
    part = dataclasses.replace(made.parts[0], rows=(row,))
    text = night_sheet_text(dataclasses.replace(made, parts=(part,)))
    assert text.count("Z1") == 21  # the lane has its name too
    assert max(map(len, text.splitlines())) <= 80


def test_every_night_has_its_drawing_with_patterns_of_its_own() -> None:
    html = night_page(sheet())
    assert html.count("<svg") == len(sheet().parts)
    names = re.findall(r'<pattern id="(\w+)"', html)
    assert len(set(names)) == len(names) == len(sheet().parts)


def test_what_a_user_typed_is_never_a_tag() -> None:
    html = night_page(night_sheet(hostile_week(), "us"))
    assert "<script" not in html
    assert parsed(html).open == []


def test_a_page_asks_for_nothing_and_runs_nothing() -> None:
    html = night_page(sheet())
    for word in ("http", "//", "<script", "<link", "<img", "@import", "src="):
        assert word not in html, word


@pytest.mark.parametrize("name", SITES)
def test_the_pdf_is_a_pdf_and_the_same_each_time(name: str) -> None:
    pytest.importorskip("typst")
    made = night_pdf(sheet(name))
    assert made.startswith(b"%PDF-")
    assert made == night_pdf(sheet(name))


def test_hostile_names_are_no_markup_of_the_pdf() -> None:
    pytest.importorskip("typst")
    made = night_sheet(hostile_week(), "us")
    assert night_pdf(made).startswith(b"%PDF-")
