"""Pages: one file, escaped, complete."""

import re
from html.parser import HTMLParser

import pytest
from jinja2 import UndefinedError

from scheduler.reports.charts.svg import Drawing
from scheduler.reports.page import environment, page, paper_page
from scheduler.reports.paper import (
    Box,
    Boxes,
    CanBand,
    Cans,
    Column,
    Facts,
    Leaf,
    Legend,
    Paper,
    Photos,
    Picture,
    Section,
    Sketch,
    Table,
    Ticks,
    Words,
)

NAME = '<b>Zoë & "Söhne"</b>'
EVERYTHING = (
    Boxes((Box(NAME, value=NAME), Box("b", unit="mL", hint=NAME), Box("c", 3,
           choices=(NAME,)))),
    Table((Column(NAME), Column("b")), ((NAME, ""),)),
    Facts(((NAME, NAME),)),
    Words(NAME),
    Legend(((NAME, NAME),), NAME, NAME),
    Ticks((NAME,)),
    Cans((CanBand((), (), ((NAME, ""),)),), (NAME, NAME)),
    Cans((CanBand((NAME,), (NAME,), (("A1",),)),), (NAME, NAME)),
    Sketch(is_dotted=True),
    Photos((NAME,)),
    Picture(NAME, NAME, Drawing(9).svg(NAME, NAME), (), NAME),
)  # fmt: skip
VOID = {"meta", "col", "circle", "rect", "path"}


def paper(*blocks: object, n_leaves: int = 1) -> Paper:
    section = Section(NAME, blocks or EVERYTHING, "1")  # type: ignore[arg-type]
    leaf = Leaf(NAME, NAME, NAME, (section,), NAME, ((NAME, NAME),), NAME)
    return Paper(NAME, NAME, (leaf,) * n_leaves)


class Nesting(HTMLParser):
    """Tags that were opened and closed in order."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.seen: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.seen.append(tag)
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: object) -> None:
        self.seen.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def parsed(html: str) -> Nesting:
    reader = Nesting()
    reader.feed(html)
    reader.close()
    return reader


def test_every_tag_is_closed_in_order() -> None:
    assert parsed(paper_page(paper())).open == []


def test_what_a_user_typed_is_text_and_never_a_tag() -> None:
    reader = parsed(paper_page(paper()))
    assert NAME not in paper_page(paper())
    assert NAME in [one.strip() for one in reader.text]
    # the only bold ones: the letter of a legend, the subject of a caution, the title
    # of a picture
    assert reader.seen.count("b") == 3


def test_a_page_asks_for_nothing_and_runs_nothing() -> None:
    html = paper_page(paper()).replace('xmlns="http://www.w3.org/2000/svg"', "")
    for word in (
        "http:",
        "https:",
        "//",
        "<script",
        "<link",
        "<img",
        "@import",
        "src=",
    ):
        assert word not in html, word


def test_a_page_says_its_encoding_and_language() -> None:
    html = paper_page(paper())
    assert '<meta charset="utf-8">' in html
    assert '<html lang="en">' in html


def test_each_leaf_starts_a_new_page() -> None:
    html = paper_page(paper(n_leaves=3))
    assert html.count('<article class="leaf">') == 3
    assert "break-after: page" in html


def test_no_letter_is_smaller_than_twelve_points() -> None:
    fonts = " ".join(re.findall(r"font(?:-size)?:[^;}]*", paper_page(paper())))
    sizes = re.findall(r"([\d.]+)(pt|px|em|rem|%)", fonts)
    assert sizes
    assert all(unit == "pt" and float(size) >= 12 for size, unit in sizes)


def test_a_picture_stands_in_the_page_as_it_was_drawn() -> None:
    drawing = Drawing(9)
    drawing.text((1, 8), "41")
    svg = drawing.svg("a map", "dry")
    html = paper_page(paper(Picture("a map", "dry", svg, (), "how to read it")))
    assert svg in html
    assert "how to read it" in html


def test_numbers_of_a_table_stand_flush_right() -> None:
    columns = (Column("place"), Column("n", is_number=True))
    html = paper_page(paper(Table(columns, (("head 1", "47"),), is_filled=True)))
    assert '<td class="number">47</td>' in html
    assert "<td>head 1</td>" in html


def test_a_name_that_a_template_does_not_know_is_an_error() -> None:
    with pytest.raises(UndefinedError):
        page("paper.html")


def test_templates_escape_by_themselves() -> None:
    assert environment().from_string("{{ a }}").render(a="<") == "&lt;"
