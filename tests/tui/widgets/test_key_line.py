"""The line of keys: whole keys only, at any width."""

from pathlib import Path

import pytest
from textual.app import App

from tests.tui.pilots import NARROW, SIZES, Text, dashboard, pressed, settled
from tui.widgets.key_line import KeyLine

pytestmark = pytest.mark.usefixtures("prepared")


def key_words(app: App[int]) -> list[str]:
    """Key and word of each key on the line, as far as they lie inside it."""
    line = app.screen.query_one(KeyLine)
    return [
        f"{one.key_display} {one.description}"  # type: ignore[attr-defined]
        for one in line.children
        if one.region.right <= line.region.right
    ]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("key", ["enter", "t", "c", "w", "s", "y"])
async def test_no_key_of_a_page_is_cut(
    demo: Path, key: str, size: tuple[int, int]
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, key)
        line = pilot.app.screen.query_one(KeyLine)
        assert len(key_words(pilot.app)) == len(line.children) > 0
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


async def test_a_key_that_gave_way_still_works(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "s", "f")
        assert type(pilot.app.screen).__name__ == "FindingsScreen"
