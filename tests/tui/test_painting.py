"""A page that opens or changes leaves the other pages alone."""

import gc
from pathlib import Path
from typing import Any
from weakref import ref

import pytest
from textual.app import ComposeResult
from textual.css import stylesheet
from textual.screen import ModalScreen, Screen
from textual.widgets import Static

from tui.painting import Painted, Painting, Rules


class Whole(Screen[None]):
    """A page with a whole ground."""

    DEFAULT_CSS = "Whole { background: blue; }"

    def compose(self) -> ComposeResult:
        yield Static("a page")


class Glass(Screen[None]):
    """A page that shows what lies below it."""

    DEFAULT_CSS = "Glass { background: blue 50%; }"


class Returning(Painted[None]):
    """A page in the colours of the theme."""

    DEFAULT_CSS = "Returning Static { color: $foreground; }"

    def compose(self) -> ComposeResult:
        yield Static("a page")


class Question(ModalScreen[None]):
    """A question before a page."""

    def compose(self) -> ComposeResult:
        yield Static("yes or no?")


class Paged(Screen[None]):
    """A page with rules of its own."""

    def compose(self) -> ComposeResult:
        yield Static("a page")


@pytest.fixture
def parsed(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Sources in the order in which they are parsed."""
    found: list[str] = []
    parse: Any = vars(stylesheet)["parse"]

    def counted(scope: str, css: str, *args: Any, **named: Any) -> Any:
        found.append(css)
        return parse(scope, css, *args, **named)

    monkeypatch.setattr(stylesheet, "parse", counted)
    return found


async def test_only_a_page_that_is_seen_counts_as_seen() -> None:
    app = Painting()
    async with app.run_test() as pilot:
        below = Whole()
        await app.push_screen(below)
        await app.push_screen(Whole())
        await pilot.pause()
        assert not below.is_current
        app.pop_screen()
        await app.push_screen(Glass())
        await pilot.pause()
        assert below.is_current


def test_rules_are_parsed_once_until_a_colour_changes(parsed: list[str]) -> None:
    rules = Rules(variables={"ink": "red"})
    for i in range(100):  # more than Textual keeps
        rules.add_source(f"A{i} {{ color: $ink; }}", ("", str(i)))
    rules.reparse()
    rules.set_variables({"ink": "red"})
    rules.reparse()
    assert len(parsed) == 100
    rules.set_variables({"ink": "blue"})
    rules.reparse()
    assert len(parsed) == 200


async def test_a_page_opens_in_its_own_rules_and_parses_no_others(
    parsed: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own = tmp_path / "paged.tcss"
    own.write_text("Paged { Static { color: red; } }", encoding="utf-8")
    monkeypatch.setattr(Paged, "CSS_PATH", str(own))
    app = Painting()
    async with app.run_test() as pilot:
        await app.push_screen(Whole())
        await pilot.pause()
        parsed.clear()
        await app.push_screen(Paged())
        await pilot.pause()
        assert parsed == [own.read_text(encoding="utf-8")]
        assert app.screen.query_one(Static).styles.color.hex == "#FF0000"


async def test_a_page_that_comes_back_is_styled_only_for_other_colours(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    styled: list[object] = []
    update = Returning.update_node_styles

    def counted(page: Returning, *, animate: bool = True) -> None:
        styled.append(page)
        update(page, animate=animate)

    monkeypatch.setattr(Returning, "update_node_styles", counted)
    app = Painting()
    async with app.run_test() as pilot:
        page = Returning()
        await app.push_screen(page)
        await app.push_screen(Whole())
        styled.clear()
        app.pop_screen()
        await pilot.pause()
        assert not styled
        await app.push_screen(Whole())
        before = page.query_one(Static).styles.color
        app.theme = "textual-light" if app.current_theme.dark else "textual-dark"
        await pilot.pause()
        app.pop_screen()
        await pilot.pause()
        assert page.query_one(Static).styles.color != before


async def test_a_page_mounted_ahead_is_laid_out_before_it_is_shown() -> None:
    app = Painting()
    async with app.run_test() as pilot:
        page = Whole()
        app.mount_ahead(page)
        while not page.outer_size:
            await pilot.pause(0.02)
        assert not page.is_current
        assert page.query_one(Static).region.width == app.size.width


async def test_nothing_is_kept_of_a_question_that_was_left() -> None:
    app = Painting()
    async with app.run_test() as pilot:
        await app.push_screen(Question())
        await pilot.pause()
        lines = ref(app.screen.query_one(Static)._styles_cache)
        await app.pop_screen()
        await pilot.pause()
        gc.collect()
        assert lines() is None
