"""The change sheet in Spanish."""

import re

import pytest

from scheduler.reports.handed.change_language import sheet_in
from scheduler.reports.handed.change_print import change_page, change_pdf, change_text
from scheduler.reports.handed.change_sheet import (
    ChangeSheet,
    change_sheet,
    change_sheet_json,
)
from scheduler.reports.language import language_of
from tests.scheduler.reports.handed.made import week
from tests.scheduler.reports.test_page import parsed

ENGLISH = re.compile(
    r"\b(the|of|on|was|NOW|nights?|why|need|week|program|keyed|after|every|stays?|"
    r"Mon|Tue|Wed|Thu|Fri|Sat|Sun|in|new|valve|made|side)\b"
)
SITES = ("tern_hollow", "alder_flat")


def sheet(name: str) -> ChangeSheet:
    units = week(name).site.units
    return sheet_in(change_sheet(week(name), units), language_of("es", units))


def without_names(text: str, name: str) -> str:
    text = " ".join(text.split())
    for one in week(name).site.zones:
        text = text.replace(" ".join(one.name.split()), "")
    for reason in (one.fixed_reason for one in week(name).site.zones):
        text = text.replace(reason, "") if reason else text
    return text


@pytest.mark.parametrize("name", SITES)
def test_no_english_word_is_left_in_the_text(name: str) -> None:
    assert ENGLISH.findall(without_names(change_text(sheet(name)), name)) == []


@pytest.mark.parametrize("name", SITES)
def test_no_english_word_is_left_on_the_page(name: str) -> None:
    html = re.sub(r"<style>.*?</style>", "", change_page(sheet(name)), flags=re.S)
    text = " ".join(parsed(html).text)
    assert ENGLISH.findall(without_names(text, name)) == []


@pytest.mark.parametrize("name", SITES)
def test_minutes_and_starts_are_those_of_the_english_sheet(name: str) -> None:
    units = week(name).site.units
    for one, two in zip(
        sheet(name).changed, change_sheet(week(name), units).changed, strict=True
    ):
        assert (one.was, one.now) == (two.was, two.now.replace("OFF", "CERO"))
        starts = [
            re.findall(r"\d\d:\d\d", " ".join(made.starts)) for made in (one, two)
        ]
        assert starts[0] == starts[1]


def test_a_metric_sheet_has_the_decimal_comma() -> None:
    assert "30,0 mm" in sheet("alder_flat").changed[0].why


def test_a_metric_gauge_is_read_in_whole_millimetres() -> None:
    assert sheet("alder_flat").skips[0].rain[0] == "15"


def test_english_is_the_sheet_itself() -> None:
    plain = change_sheet(week(), "us")
    assert sheet_in(plain, language_of("en")) is plain


def test_the_json_names_the_language() -> None:
    assert change_sheet_json(sheet("tern_hollow"))["language"] == "es"


def test_the_pdf_is_set() -> None:
    pytest.importorskip("typst")
    assert change_pdf(sheet("tern_hollow")).startswith(b"%PDF")
