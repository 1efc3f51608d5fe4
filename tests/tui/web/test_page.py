"""What the page is made of: nothing from outside, and a font that holds its glyphs."""

import re
from pathlib import Path

import pytest
import textual_serve.server as library
from fontTools.ttLib import TTFont

import tui
from tui.web.server import OWN

TUI = Path(tui.__file__).parent
THEIRS = Path(library.__file__).parent / "static"
TEXTS = [
    path
    for top in (OWN, THEIRS)
    for path in sorted(top.rglob("*"))
    if path.suffix in (".html", ".css", ".js")
]
# ⏎ and the like come from the terminal library's footer
FOOTER = "⏎←→↑↓"


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: path.name)
def test_nothing_that_is_served_names_an_address_outside(path: Path) -> None:
    text = re.sub(r"/\*.*?\*/", "", path.read_text(encoding="utf-8"), flags=re.S)
    found = re.findall(
        r"""(?:https?:|wss?:|url\(["']?|src=["']|href=["'])//[\w.]+""", text
    )
    assert found == []


def test_what_is_served_was_found() -> None:
    assert {"app_index.html", "page.js", "textual.js"} <= {path.name for path in TEXTS}


def test_no_style_brings_in_another() -> None:
    for path in TEXTS:
        if path.suffix == ".css":
            assert "@import" not in path.read_text(encoding="utf-8"), path


def test_the_page_holds_no_script_of_its_own_text() -> None:
    page = (OWN / "templates" / "app_index.html").read_text(encoding="utf-8")
    assert re.findall(r"<script(?![^>]*\bsrc=)|\bon\w+=", page) == []


@pytest.mark.parametrize("name", ["DejaVuSansMono.woff", "DejaVuSansMono-Bold.woff"])
def test_the_font_holds_every_glyph_that_the_terminal_code_writes(name: str) -> None:
    written = {
        glyph
        for path in TUI.rglob("*.py")
        for glyph in path.read_text(encoding="utf-8")
        if ord(glyph) > 126
    }
    held = TTFont(OWN / "own" / name).getBestCmap()
    assert [glyph for glyph in {*written, *FOOTER} if ord(glyph) not in held] == []


@pytest.mark.parametrize("name", ["DejaVuSansMono.woff", "DejaVuSansMono-Bold.woff"])
def test_every_glyph_of_the_font_is_one_cell_wide(name: str) -> None:
    font = TTFont(OWN / "own" / name)
    names = {
        glyph for code, glyph in font.getBestCmap().items() if 0x2190 <= code < 0x2600
    }
    assert {font["hmtx"][glyph][0] for glyph in names} == {font["hmtx"]["M"][0]}


def test_the_licence_of_the_font_stands_beside_it() -> None:
    licence = (OWN / "own" / "DejaVu-LICENSE.txt").read_text(encoding="utf-8")
    assert "Permission is hereby granted" in licence


def test_the_page_asks_for_the_font_by_the_name_that_the_widget_uses() -> None:
    script = (THEIRS / "js" / "textual.js").read_text(encoding="utf-8")
    family = re.search(r"fontFamily:\"'([^']+)'", script)
    assert family
    style = (OWN / "own" / "page.css").read_text(encoding="utf-8")
    assert f'font-family: "{family[1]}"' in style
