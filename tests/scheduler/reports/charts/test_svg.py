"""Drawings: well formed, escaped, without colour, and nothing vanishes."""

import re
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.reports.charts.svg import LEAST, Drawing, fitted, text_width

NAME = '<b>Zoë & "Söhne"</b>'


def drawn() -> Drawing:
    drawing = Drawing(100)
    drawing.line((0, 0), (10, 10), dash="4 3")
    drawing.path([(0, 0), (5, 5)])
    drawing.area([(0, 0), (5, 5), (5, 0)])
    drawing.hatched((10, 10), (40, 20))
    drawing.circle((5, 5), 3)
    drawing.label((50, 50), NAME)
    return drawing


def test_what_a_user_typed_is_text_and_never_a_tag() -> None:
    whole = ET.fromstring(drawn().svg(NAME, NAME))
    names = [one.tag.split("}")[1] for one in whole.iter()]
    assert "b" not in names
    assert [one.text for one in whole.iter() if one.text == NAME] == [NAME] * 3


@given(st.text(max_size=40))
def test_any_text_makes_a_well_formed_drawing(text: str) -> None:
    drawing = Drawing(20)
    drawing.text((0, 10), "".join(c for c in text if c not in "\ufffe\uffff"))
    ET.fromstring(drawing.svg("t", "s"))


def test_a_drawing_has_a_name_and_words_for_the_ear() -> None:
    svg = drawn().svg("a map", "dry in the north")
    assert 'role="img" aria-label="a map"' in svg
    assert "<title>a map</title>" in svg
    assert "<desc>dry in the north</desc>" in svg


def test_there_is_no_colour_but_black_white_and_greys() -> None:
    used = set(re.findall(r'(?:fill|stroke)="([^"]+)"', drawn().svg("a", "b")))
    greys = {one for one in used if re.fullmatch(r"#(..)\1\1", one)}
    assert used - greys <= {"black", "white", "none"}


def test_a_drawing_holds_no_identifier_and_asks_for_nothing() -> None:
    svg = drawn().svg("a", "b").replace('xmlns="http://www.w3.org/2000/svg"', "")
    assert not re.search(r"\bid=|href|url\(|http", svg)


@pytest.mark.parametrize("is_hatched", [False, True])
def test_a_box_without_width_is_still_printed(is_hatched: bool) -> None:
    drawing = Drawing(20)
    (drawing.hatched if is_hatched else drawing.rect)((1, 1), (0, 10))
    widths = re.findall(r' width="([\d.]+)"', drawing.svg("a", "b"))
    assert {float(one) for one in widths} == {LEAST}


def test_hatching_stays_inside_its_box() -> None:
    drawing = Drawing(100)
    drawing.hatched((10, 20), (33, 17))
    for name, low, high in (("x", 10, 43), ("y", 20, 37)):
        ends = re.findall(rf' {name}[12]="([\d.]+)"', drawing.svg("a", "b"))
        assert ends
        assert all(low <= float(one) <= high for one in ends)


def test_a_long_text_is_cut_with_an_ellipsis() -> None:
    assert fitted("a" * 50, 60).endswith("…")
    assert text_width(fitted("a" * 50, 60)) <= 60
    assert fitted("short", 60) == "short"
