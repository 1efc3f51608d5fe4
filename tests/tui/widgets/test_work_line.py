"""The line that says what is being worked out: late, with its time, left on a key."""

import asyncio
from collections.abc import Callable

import pytest
from rich.cells import cell_len
from textual.app import App, ComposeResult
from textual.widgets import Static

from tui.widgets.work_line import WorkLine


class Alone(App[None]):
    def compose(self) -> ComposeResult:
        yield WorkLine()


def nothing() -> None:
    """Leave nothing."""


async def shown(line: WorkLine) -> None:
    while not line.is_shown:
        await asyncio.sleep(0.05)


async def test_what_is_quick_is_never_named() -> None:
    async with Alone().run_test() as pilot:
        line = pilot.app.query_one(WorkLine)
        line.begin("page", "planning …", nothing)
        line.end("page")
        await pilot.pause(0.7)
        assert not line.is_shown


async def test_what_takes_long_is_named_with_the_key_that_leaves_it() -> None:
    async with Alone().run_test(size=(100, 5)) as pilot:
        line = pilot.app.query_one(WorkLine)
        line.begin("page", "running the season …", nothing)
        await asyncio.wait_for(shown(line), 20)
        said = str(line.content)
        assert "running the season" in said
        assert "what is shown is of before" in said
        assert "esc leaves it" in said


@pytest.mark.parametrize("width", [40, 80])
async def test_the_key_that_leaves_it_is_told_at_any_width(width: int) -> None:
    async with Alone().run_test(size=(width, 5)) as pilot:
        line = pilot.app.query_one(WorkLine)
        what = "running the season of every zone, and what each option returns …"
        line.begin("page", what, nothing)
        await asyncio.wait_for(shown(line), 20)
        said = str(line.content)
        assert said.startswith("running the s")
        assert said.endswith("esc leaves it")
        assert len(said) <= width - 2


@pytest.mark.parametrize("still", [False, True])
async def test_for_a_screen_reader_no_seconds_are_counted(still: bool) -> None:
    async with Alone().run_test() as pilot:
        line = pilot.app.query_one(WorkLine)
        line.is_still = still
        line.begin("page", "planning …", nothing)
        await asyncio.wait_for(shown(line), 20)
        assert (" s" in str(line.content).partition("what is shown")[0]) is not still


async def test_for_a_screen_reader_other_work_is_told_when_it_takes_the_place() -> None:
    async with Alone().run_test() as pilot:
        line = pilot.app.query_one(WorkLine)
        line.is_still = True
        line.begin("page", "running the season of Z1 …", nothing)
        await asyncio.wait_for(shown(line), 20)
        line.begin("page", "running the season of Z2 …", nothing)
        line._tick()
        assert str(line.content).startswith("running the season of Z2")


async def test_signs_that_take_two_cells_leave_room_for_the_key() -> None:
    async with Alone().run_test(size=(40, 5)) as pilot:
        line = pilot.app.query_one(WorkLine)
        line.begin("page", "北" * 20, nothing)
        await asyncio.wait_for(shown(line), 20)
        assert cell_len(str(line.content)) <= 38


async def test_leaving_leaves_the_last_work_and_keeps_the_other() -> None:
    left: list[str] = []

    def leave(name: str) -> Callable[[], None]:
        return lambda: left.append(name)

    async with Alone().run_test() as pilot:
        line = pilot.app.query_one(WorkLine)
        line.begin("app", "planning …", leave("app"))
        line.begin("page", "season …", leave("page"))
        await asyncio.wait_for(shown(line), 20)
        line.leave()
        assert left == ["page"]
        assert line.is_shown
        line.leave()
        assert left == ["page", "app"]
        assert not line.is_shown


class Filled(App[None]):
    CSS = "Screen { layers: default over; } #page { height: 1fr; }"

    def compose(self) -> ComposeResult:
        yield Static("top")
        yield Static("page", id="page")
        yield WorkLine()


async def test_it_stands_over_the_top_line_and_no_picture_gives_way() -> None:
    async with Filled().run_test() as pilot:
        page = pilot.app.query_one("#page")
        before = page.region
        line = pilot.app.query_one(WorkLine)
        line.begin("page", "planning …", nothing)
        await asyncio.wait_for(shown(line), 20)
        await pilot.pause()
        assert line.region.y == 0
        assert page.region == before
