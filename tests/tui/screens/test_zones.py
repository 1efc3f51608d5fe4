"""The table of zones under a pilot: find, order, the side, the place that is kept."""

from pathlib import Path

import pytest
from textual.containers import VerticalScroll
from textual.pilot import Pilot

from tests.tui.pilots import NARROW, WIDE, Text, dashboard, pressed
from tui.app import Dashboard
from tui.widgets.zone_table import ZoneTable

pytestmark = pytest.mark.usefixtures("prepared")


def listed(pilot: Pilot[int], text: str) -> list[str]:
    """Ids of the zones in the table, from the top."""
    rows = pilot.app.screen.query_one(ZoneTable).row_count
    lines = text.splitlines()
    at = next(i for i, one in enumerate(lines) if one.startswith("zone name"))
    return [one.split()[0] for one in lines[at + 1 : at + 1 + rows]]


async def test_zones_are_found_by_typed_words_and_escape_shows_all(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "down", "down", "slash", *"du<0.7", "enter")
        assert listed(pilot, screen_text(pilot.app)) == ["Z3", "Z7"]
        assert "2 of 9 zones: du<0.7" in screen_text(pilot.app)
        table = pilot.app.screen.query_one(ZoneTable)
        assert table.picked == "Z3"
        await pressed(pilot, "down", "u")
        assert (table.picked, table.row_count) == ("Z7", 2)
        await pressed(pilot, "escape")
        assert (table.picked, table.row_count) == ("Z7", 9)


async def test_a_condition_that_cannot_be_read_shows_all_and_says_why(
    demo: Path,
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "slash", *"moon<3", "enter")
        assert pilot.app.screen.query_one(ZoneTable).row_count == 9
        (said,) = pilot.app._notifications
        assert "there is no number 'moon'" in said.message


async def test_leaving_the_question_gives_the_keys_back_to_the_table(
    demo: Path,
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "slash", "z", "escape", "down")
        assert pilot.app.screen.query_one(ZoneTable).picked == "Z2"


async def test_zones_needing_eyes_come_first_and_the_file_is_one_key_away(
    demo: Path, screen_text: Text
) -> None:
    app = Dashboard(demo)
    async with app.run_test(size=NARROW) as pilot:
        await pressed(pilot)
        assert listed(pilot, screen_text(app))[:2] == ["Z9", "Z4"]
        await pressed(pilot, "down", "o")
        assert listed(pilot, screen_text(app)) == [f"Z{i}" for i in range(1, 10)]
        assert app.screen.query_one(ZoneTable).picked == "Z4"


async def test_a_click_on_a_head_orders_by_it(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pilot.click(ZoneTable, offset=(48, 0))
        await pressed(pilot)
        assert listed(pilot, screen_text(pilot.app))[0] == "Z3"  # 0.60


async def test_what_stands_beside_the_table_scrolls_by_keys(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        side = pilot.app.screen.query_one("#side", VerticalScroll)
        await pressed(pilot, "J")
        assert side.scroll_y > 0
        await pressed(pilot, "K")
        assert side.scroll_y == 0


async def test_resizing_keeps_what_was_found_its_order_and_the_row(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "o", "slash", *"note", "enter", "down", "down")
        before = screen_text(pilot.app)
        await pilot.resize_terminal(200, 60)
        await pressed(pilot)
        await pilot.resize_terminal(*NARROW)
        await pressed(pilot)
        assert screen_text(pilot.app) == before
