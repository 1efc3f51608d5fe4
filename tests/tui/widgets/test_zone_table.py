"""A table of thousands of rows makes only those that are seen."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from textual.app import App, ComposeResult
from textual.pilot import Pilot

from tests.tui.pilots import Text
from tui.widgets.zone_table import Column, ZoneTable

COLUMNS = [Column("zone", 7, is_right=False), Column("min", 6)]


class Shown(App[None]):
    """A table alone, and what it says."""

    def __init__(self, rows: int) -> None:
        super().__init__()
        self.made: list[int] = []
        self.said: list[str] = []
        self._rows = rows

    def compose(self) -> ComposeResult:
        yield ZoneTable()

    def on_mount(self) -> None:
        self.write([f"Z{i}" for i in range(self._rows)])

    def write(self, keys: list[str]) -> None:
        def cells(i: int) -> list[str]:
            self.made.append(i)
            return [keys[i], str(i)]

        self.query_one(ZoneTable).show_rows(COLUMNS, keys, cells)

    def on_zone_table_row_selected(self, event: ZoneTable.RowSelected) -> None:
        self.said.append(event.key)

    def on_zone_table_head_selected(self, event: ZoneTable.HeadSelected) -> None:
        self.said.append(f"head {event.column}")


@asynccontextmanager
async def shown(rows: int = 2000) -> AsyncIterator[tuple[Shown, Pilot[None]]]:
    app = Shown(rows)
    async with app.run_test(size=(30, 12)) as pilot:
        await pilot.pause()
        yield app, pilot


async def test_only_the_rows_in_sight_are_made() -> None:
    async with shown() as (app, pilot):
        await pilot.press("end")
        assert app.query_one(ZoneTable).picked == "Z1999"
        assert len(set(app.made)) <= 2 * 11
        assert 1999 in app.made


async def test_the_row_under_the_cursor_stays_in_sight(screen_text: Text) -> None:
    async with shown() as (app, pilot):
        await pilot.press(*["pagedown"] * 3, "down")
        text = screen_text(app)
        assert text.splitlines()[0].split() == ["zone", "min"]
        assert app.query_one(ZoneTable).picked in text


async def test_the_picked_row_stays_picked_when_the_order_changes(
    screen_text: Text,
) -> None:
    async with shown(300) as (app, pilot):
        await pilot.press("down", "down")
        app.write([f"Z{i}" for i in reversed(range(300))])
        await pilot.pause()
        assert app.query_one(ZoneTable).picked == "Z2"
        assert "Z2 " in screen_text(app)


async def test_a_row_that_is_gone_leaves_the_cursor_on_the_nearest_place() -> None:
    async with shown(30) as (app, pilot):
        await pilot.press("end")
        app.write(["Z1", "Z2"])
        await pilot.pause()
        assert app.query_one(ZoneTable).picked == "Z2"
        app.write([])
        await pilot.pause()
        assert app.query_one(ZoneTable).picked == ""


async def test_a_click_picks_and_another_opens() -> None:
    async with shown(30) as (app, pilot):
        await pilot.click(ZoneTable, offset=(2, 4))
        assert (app.query_one(ZoneTable).picked, app.said) == ("Z3", [])
        await pilot.click(ZoneTable, offset=(2, 4))
        assert app.said == ["Z3"]


async def test_a_click_on_a_head_names_its_column() -> None:
    async with shown(30) as (app, pilot):
        await pilot.click(ZoneTable, offset=(9, 0))
        assert app.said == ["head 1"]


async def test_a_text_that_is_too_long_ends_in_a_sign(screen_text: Text) -> None:
    async with shown(1) as (app, pilot):
        app.query_one(ZoneTable).show(COLUMNS, [("a", ["a long name", "12"])])
        await pilot.pause()
        assert screen_text(app).splitlines()[1] == "a lon…     12"
