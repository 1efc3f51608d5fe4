"""Papers as PDF: the pages and words of the paper, the same bytes again."""

import builtins
import re
import sys
import zlib
from typing import Any

import pytest

from scheduler.errors import SaveError
from scheduler.reports.paper import (
    Block,
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
    Sheet,
    Sketch,
    Table,
    Ticks,
    Words,
)
from scheduler.reports.pdf import paper_pdf

NAME = '#panic("no") *Zoë* $x$ & "Söhne" <b>'
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 527 40" '
    'font-family="sans-serif"><text x="5" y="20">forty-one</text></svg>'
)
TABLE = Table((Column(NAME, 2), Column("n", is_number=True)), ((NAME, "1"),))
EVERYTHING: tuple[Block, ...] = (
    Boxes((Box(NAME, value=NAME), Box("b", unit="mL", hint=NAME),
           Box("c", 6, choices=(NAME,)))),
    TABLE,
    Table(TABLE.columns, TABLE.rows, is_filled=True),
    Facts(((NAME, NAME),)),
    Words(NAME),
    Legend(((NAME, NAME),), NAME, NAME),
    Ticks((NAME,)),
    Cans((CanBand((), (), (("A1", ""),)),), (NAME, NAME)),
    Cans((CanBand((NAME,), (NAME,), (("A1",),)),), (NAME, NAME)),
    Picture(NAME, NAME, SVG, (TABLE,), NAME),
)  # fmt: skip


def paper(*blocks: Block, n_leaves: int = 1, sheet: Sheet = "a4") -> Paper:
    section = Section(NAME, blocks or (Words("x"),), "1")
    leaf = Leaf(NAME, NAME, NAME, (section,), NAME, ((NAME, NAME),), NAME)
    return Paper(NAME, NAME, (leaf,) * n_leaves, sheet)


def n_pages(data: bytes) -> int:
    """Pages of a PDF, from its page tree, which may be packed."""
    packed = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", data, flags=re.S)
    parts = [data]
    for one in packed:
        try:
            parts.append(zlib.decompress(one))
        except zlib.error:
            continue
    whole = b"\n".join(parts)
    counts = re.findall(rb"/Type\s*/Pages\b[^>]*?/Count\s+(\d+)", whole)
    return max(int(one) for one in counts)


@pytest.fixture(autouse=True)
def _typst(request: pytest.FixtureRequest) -> None:
    if "without" not in request.node.name:
        pytest.importorskip("typst")


def test_it_is_a_pdf_with_a_page_a_leaf() -> None:
    data = paper_pdf(paper(n_leaves=3))
    assert data.startswith(b"%PDF-")
    assert n_pages(data) == 3


@pytest.mark.parametrize("block", EVERYTHING, ids=lambda one: one.kind)
def test_every_part_is_set_and_no_text_is_read_as_markup(block: Block) -> None:
    assert paper_pdf(paper(block)).startswith(b"%PDF-")


@pytest.mark.parametrize("block", [Sketch(is_dotted=True), Photos((NAME, "b", "c"))])
def test_a_field_to_draw_in_fills_the_page_and_no_more(block: Block) -> None:
    assert n_pages(paper_pdf(paper(block))) == 1


def test_the_same_paper_gives_the_same_bytes() -> None:
    assert paper_pdf(paper(*EVERYTHING)) == paper_pdf(paper(*EVERYTHING))


@pytest.mark.parametrize(
    ("sheet", "box"), [("a4", rb"595\.2\d* 841\.8\d*"), ("us-letter", rb"612 792")]
)
def test_the_sheet_is_the_one_in_the_printer(sheet: Sheet, box: bytes) -> None:
    data = paper_pdf(paper(sheet=sheet))
    parts = [data]
    for one in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", data, flags=re.S):
        try:
            parts.append(zlib.decompress(one))
        except zlib.error:
            continue
    assert re.search(rb"/MediaBox\s*\[\s*0 0 " + box, b"\n".join(parts))


def test_without_the_package_it_says_how_to_get_it_or_do_without(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    real = builtins.__import__

    def absent(name: str, *rest: Any, **more: Any) -> Any:
        if name == "typst":
            raise ImportError(name)
        return real(name, *rest, **more)

    monkeypatch.delitem(sys.modules, "typst", raising=False)
    monkeypatch.setattr(builtins, "__import__", absent)
    with pytest.raises(SaveError, match=r"lowquarter\[pdf\].*\.html"):
        paper_pdf(paper())
