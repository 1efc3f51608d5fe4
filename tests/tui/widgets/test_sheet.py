"""Paragraphs to scroll through: counted without wrapping, made when they are seen."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from hypothesis import given
from hypothesis import strategies as st
from textual.app import App, ComposeResult
from textual.content import Content
from textual.css.styles import RulesMap
from textual.geometry import Offset
from textual.pilot import Pilot
from textual.selection import Selection

from tests.tui.pilots import Text
from tui.widgets.sheet import Paragraph, Sheet, Told, lines_of

RULES: RulesMap = {}
TEXT = st.text(alphabet="ab wxyz.-·°漢\t\n", max_size=80)


class Shown(App[None]):
    """Hundreds of paragraphs of two lines, a free one below."""

    def compose(self) -> ComposeResult:
        texts = [Content(f"number {i} " + "of many words " * 2) for i in range(300)]
        yield Sheet([Paragraph(one, indent=2, below=1) for one in texts], id="sheet")

    def on_mount(self) -> None:
        self.query_one(Sheet).focus()


@asynccontextmanager
async def shown() -> AsyncIterator[tuple[Sheet, Pilot[None]]]:
    app = Shown()
    async with app.run_test(size=(30, 12)) as pilot:
        await pilot.pause()
        yield app.query_one(Sheet), pilot


# --- counting -------------------------------------------------------------------
def test_a_text_that_fits_takes_a_line_and_one_more_word_two() -> None:
    assert lines_of("twelve cells", 12) == 1
    assert lines_of("twelve cells and", 12) == 2
    assert lines_of("one\n\ntwo", 12) == 3


@given(TEXT, st.integers(2, 30))
def test_counted_as_textual_wraps(text: str, width: int) -> None:
    assert lines_of(text, width) == Content(text).get_height(RULES, width)


@given(st.lists(TEXT, min_size=1, max_size=4), st.integers(2, 30))
def test_what_is_told_is_as_high_as_it_is_written(texts: list[str], width: int) -> None:
    content = Content("\n".join(texts))
    told = Told(tuple(texts), lambda: content)
    assert told.get_height(RULES, width) == content.get_height(RULES, width)


# --- the sheet ------------------------------------------------------------------
async def test_only_the_paragraphs_in_sight_are_made(screen_text: Text) -> None:
    async with shown() as (sheet, pilot):
        await pilot.press("end")
        assert "number 299" in screen_text(pilot.app)
        assert len(sheet._made) <= 2 * 5


async def test_a_page_key_is_there_at_once() -> None:
    async with shown() as (sheet, pilot):
        await pilot.press("pagedown")
        assert sheet.scroll_y == sheet.scroll_target_y == 12


async def test_another_width_is_counted_anew(screen_text: Text) -> None:
    async with shown() as (sheet, pilot):
        assert sheet.virtual_size.height == 300 * 3
        await pilot.resize_terminal(60, 12)
        await pilot.press("end")
        assert sheet.virtual_size.height == 300 * 2
        assert "number 299 of many words of many words" in screen_text(pilot.app)


async def test_all_of_it_can_be_said() -> None:
    async with shown() as (sheet, _):
        assert sheet.text.startswith(
            "number 0 of many words of many words \n\nnumber 1"
        )
        assert "number 299" in sheet.text


async def test_what_the_mouse_marks_is_taken_as_it_stands() -> None:
    async with shown() as (sheet, pilot):
        mark = Selection(Offset(2, 3), Offset(10, 3))
        sheet.screen.selections = {sheet: mark}
        await pilot.pause()
        assert sheet.get_selection(mark) == ("number 1", "\n")
        marked = sheet.screen.get_component_rich_style("screen--selection").bgcolor
        grounds = [
            (one.text, one.style.bgcolor == marked)
            for one in sheet.render_line(3)
            if one.style is not None
        ]
        assert ("number 1", True) in grounds
