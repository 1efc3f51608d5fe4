"""The line of keys: whole keys only, at any width."""

from pathlib import Path
from typing import ClassVar

import pytest
from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType

from tests.tui.pilots import NARROW, SIZES, WIDE, Text, dashboard, pressed, settled
from tui.widgets.key_line import KeyLine

pytestmark = pytest.mark.usefixtures("prepared")


def key_words(app: App[int]) -> list[str]:
    """Key and word of each key on the line, as far as they lie inside it."""
    line = app.screen.query_one(KeyLine)
    ends = [end for _, end in line.places.values()]
    return [
        said
        for said, end in zip(line.words, ends, strict=True)
        if end <= line.region.width
    ]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("key", ["enter", "t", "c", "w", "s", "y"])
async def test_no_key_of_a_page_is_cut(
    demo: Path, key: str, size: tuple[int, int]
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, key)
        line = pilot.app.screen.query_one(KeyLine)
        assert len(key_words(pilot.app)) == len(line.words) > 0
        assert "? Help" in key_words(pilot.app)


async def test_the_keys_of_every_page_give_way_to_those_of_this_one(
    demo: Path,
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "s")
        words = key_words(pilot.app)
        assert "- + Target" in words
        assert "f Findings" not in words


async def test_keys_come_back_when_there_is_room(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "s")
        await pilot.resize_terminal(180, 40)
        await settled(pilot)
        assert "q Quit" in screen_text(pilot.app).splitlines()[-1]


async def test_keys_of_the_page_give_way_too_and_the_help_does_not(demo: Path) -> None:
    async with dashboard(demo, (60, 24)) as pilot:
        for key in ("s", "b", "y", "l", "g"):
            await pressed(pilot, key)
            line = pilot.app.screen.query_one(KeyLine)
            assert key_words(pilot.app) == line.words
            assert line.words[-1] == "? Help"


async def test_a_key_that_hangs_on_the_height_comes_and_goes_with_it(
    demo: Path,
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "b")
        for rows, is_named in ((24, True), (40, False)):
            await pilot.resize_terminal(WIDE[0], rows)
            await settled(pilot)
            assert ("v Picture" in key_words(pilot.app)) is is_named


async def test_a_key_that_gave_way_still_works(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "s", "f")
        assert type(pilot.app.screen).__name__ == "FindingsScreen"


async def test_while_something_is_typed_only_keys_that_work_are_named(
    demo: Path,
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "slash")
        words = key_words(pilot.app)
        assert {"F3 Findings", "F1 Help"} <= set(words)
        first, _ = pilot.app.screen.query_one(KeyLine).places["findings"]
        await pilot.click(KeyLine, offset=(first, 0))
        await settled(pilot)
        assert type(pilot.app.screen).__name__ == "FindingsScreen"


async def test_a_letter_that_would_be_typed_is_not_named_for_another_key(
    demo: Path,
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "enter")
        assert "v Picture" in key_words(pilot.app)
        await pressed(pilot, "d")  # asks for days
        assert "tab Picture" in key_words(pilot.app)


async def test_a_click_on_a_key_presses_it(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        first, end = pilot.app.screen.query_one(KeyLine).places["help"]
        for column in (first, end - 1):
            await pilot.click(KeyLine, offset=(column, 0))
            await settled(pilot)
            assert type(pilot.app.screen).__name__ == "HelpScreen"
            await pressed(pilot, "escape")


async def test_a_click_between_two_keys_does_nothing(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        before = pilot.app.screen
        _, end = list(before.query_one(KeyLine).places.values())[1]
        await pilot.click(KeyLine, offset=(end, 0))
        await settled(pilot)
        assert pilot.app.screen is before


async def test_the_key_below_the_mouse_is_marked(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, NARROW) as pilot:
        line = pilot.app.screen.query_one(KeyLine)
        first, _ = line.places["help"]
        plain = line.render_line(0)
        await pilot.hover(KeyLine, offset=(first, 0))
        await pilot.pause()
        assert line.render_line(0) != plain
        await pilot.hover(KeyLine, offset=(first - 1, 0))
        await pilot.pause()
        assert line.render_line(0) == plain


class Refusing(App[None]):
    """A page with a key that cannot be used now."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("a", "act", "Act")]
    acted = rung = 0

    def compose(self) -> ComposeResult:
        yield KeyLine()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        return None if action == "act" else super().check_action(action, parameters)

    def action_act(self) -> None:
        self.acted += 1

    def bell(self) -> None:
        self.rung += 1


async def test_a_key_that_cannot_be_used_is_dim_and_a_click_on_it_only_rings() -> None:
    app = Refusing()
    async with app.run_test() as pilot:
        await pilot.click(KeyLine, offset=(1, 0))
        await pilot.pause()
        assert (app.acted, app.rung) == (0, 1)
        texts = list(app.query_one(KeyLine).render_line(0))
        assert any(one.text == "a" and one.style and one.style.dim for one in texts)
