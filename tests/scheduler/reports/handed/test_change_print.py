"""The change sheet on paper: one side, escaped, nothing outside asked for."""

import dataclasses
import re

import pytest

from scheduler.reports.handed.change_print import (
    VOID,
    change_page,
    change_pdf,
    change_text,
    sides,
)
from scheduler.reports.handed.change_sheet import ChangeSheet, change_sheet
from tests.scheduler.reports.handed.made import hostile_week, week
from tests.scheduler.reports.test_page import parsed

SITES = ("tern_hollow", "alder_flat")


def sheet(name: str = "tern_hollow") -> ChangeSheet:
    return change_sheet(week(name), week(name).site.units)


def times(made: ChangeSheet, n: int) -> ChangeSheet:
    """The sheet with so many zones to key in."""
    one = next(zone for zone in made.changed if zone.zone == "Z6")
    skips = (made.skips[0],) * n
    return dataclasses.replace(made, changed=(one,) * n, skips=skips)


def test_a_zone_that_rests_has_no_minutes_in_the_text() -> None:
    assert any(
        line.endswith("NOW  OFF")
        for line in change_text(sheet("alder_flat")).splitlines()
    )


@pytest.mark.parametrize("name", SITES)
def test_the_demo_sites_need_one_side(name: str) -> None:
    assert [one.of for one in sides(sheet(name))] == [1]


def test_nine_zones_fit_one_side() -> None:
    assert len(sides(times(sheet(), 9))) == 1


def test_twenty_zones_need_more_sides_and_the_page_says_so() -> None:
    many = times(sheet(), 20)
    dealt = sides(many)
    assert sum(len(one.changed) for one in dealt) == 20
    assert [one.has_foot for one in dealt] == [False] * (len(dealt) - 1) + [True]
    html = change_page(many)
    assert f"This sheet has {len(dealt)} sides" in html
    assert f"side 1 of {len(dealt)}" in html


def test_a_sheet_without_changes_says_so() -> None:
    none = dataclasses.replace(sheet(), changed=())
    assert "Nothing changes this week." in change_page(none)
    assert "Nothing changes this week." in change_text(none)


@pytest.mark.parametrize("name", SITES)
def test_every_number_of_the_sheet_is_on_the_page(name: str) -> None:
    made = sheet(name)
    text = re.sub(r"\s+", " ", " ".join(parsed(change_page(made)).text))
    for one in made.changed:
        for said in (one.was, one.now, one.detail, one.why, *one.starts):
            assert said in text, said
    for row in made.skips:
        assert " ".join(cell for cell in row.rain if cell)[:4] in text


@pytest.mark.parametrize("name", SITES)
def test_every_number_of_the_sheet_is_in_the_text(name: str) -> None:
    made = sheet(name)
    text = re.sub(r"\s+", " ", change_text(made))
    for one in made.changed:
        for said in (f"was {one.was} -> NOW {one.now} min", one.why, *one.starts):
            assert said.replace(" min", "") in text.replace(" min", ""), said


@pytest.mark.parametrize("name", SITES)
def test_the_text_is_eighty_columns_wide_at_most(name: str) -> None:
    assert max(map(len, change_text(sheet(name)).splitlines())) <= 80


def test_old_sheets_are_void_and_initials_have_a_box() -> None:
    for printed in (change_page(sheet()), change_text(sheet())):
        assert VOID in printed
        assert "Keyed in by" in printed


def test_now_is_the_largest_type_of_the_page() -> None:
    sizes = {
        name: float(size)
        for name, size in re.findall(
            r"(\.?\w+) \{[^}]*?font-size: (\d+)pt", change_page(sheet())
        )
    }
    assert max(sizes, key=lambda one: sizes[one]) == ".now"


def test_what_a_user_typed_is_never_a_tag() -> None:
    html = change_page(change_sheet(hostile_week(), "us"))
    assert "<script" not in html
    reader = parsed(html)
    assert reader.open == []
    assert any("<script>alert" in text for text in reader.text)


def test_a_name_on_two_lines_stays_on_one() -> None:
    text = change_text(change_sheet(hostile_week(), "us"))
    assert not any(line.startswith("BEGIN:VEVENT") for line in text.splitlines())


def test_a_page_asks_for_nothing_and_runs_nothing() -> None:
    html = change_page(sheet())
    for word in ("http", "//", "<script", "<link", "<img", "@import", "src=", "url("):
        assert word not in html, word


@pytest.mark.parametrize("name", SITES)
def test_the_pdf_is_a_pdf_and_the_same_each_time(name: str) -> None:
    pytest.importorskip("typst")
    made = change_pdf(sheet(name))
    assert made.startswith(b"%PDF-")
    assert made == change_pdf(sheet(name))


def test_hostile_names_are_no_markup_of_the_pdf() -> None:
    pytest.importorskip("typst")
    made = change_sheet(hostile_week(), "us")
    assert change_pdf(made).startswith(b"%PDF-")
