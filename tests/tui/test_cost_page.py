"""The page of cost under a pilot."""

from dataclasses import replace
from pathlib import Path
from typing import Any
from unittest.mock import Mock

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from scheduler.errors import SchedulerError
from tests.tui.pilots import (
    NARROW,
    SIZES,
    WIDE,
    Text,
    dashboard,
    pressed,
    session_of,
    settled,
)
from tui import cost_state
from tui.screens import cost_words
from tui.screens.cost import LEFT_WEEK, OPTION_WIDTH, CostScreen
from tui.screens.cost_week_words import WEEK_WAITING
from tui.session import Edit
from tui.widgets.range_bars import RangeBars
from tui.widgets.work_line import WorkLine
from tui.widgets.zone_table import ZoneTable


def shown(pilot: Pilot[int], name: str) -> str:
    return str(pilot.app.screen.query_one(f"#{name}", Static).content)


def picked(pilot: Pilot[int]) -> str:
    return pilot.app.screen.query_one(ZoneTable).picked


async def opened(pilot: Pilot[int], *keys: str) -> CostScreen:
    await pressed(pilot, *keys, "m")
    screen = pilot.app.screen
    assert isinstance(screen, CostScreen)
    return screen


@pytest.mark.parametrize("size", SIZES)
async def test_break_even_and_rules_come_first_at_every_size(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        await opened(pilot)
        lines = screen_text(pilot.app).splitlines()
        head = next(i for i, line in enumerate(lines) if "own rule" in line)
        assert "low half" in lines[head]
        assert "not proven" in lines[head + 2]
        assert head < 8


async def test_zones_stand_with_water_above_need(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await opened(pilot)
        assert "Above need, kgal a year" in shown(pilot, "zones")


async def test_every_row_of_the_zones_stands_on_one_line_where_both_columns_are_tight(
    demo: Path,
) -> None:
    async with dashboard(demo, (112, 36)) as pilot:
        screen = await opened(pilot)
        assert screen.query_one(RangeBars).nothing == ""  # a week is planned
        await settled(pilot)
        zones = screen.query_one("#zones", Static)
        assert max(map(len, shown(pilot, "zones").splitlines())) <= zones.size.width


async def test_zones_and_option_change_places_with_the_room(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        screen = await opened(pilot)
        left, option = screen.query_one("#left"), screen.query_one("#option")
        await pilot.resize_terminal(*WIDE)
        await settled(pilot)
        assert left.region.right <= option.region.x
        await pilot.resize_terminal(*NARROW)
        await settled(pilot)
        assert option.region.bottom <= left.region.y
        assert option.region.width > OPTION_WIDTH


async def test_the_week_and_the_nights_of_the_picked_option_stand_beside_the_year(
    demo: Path,
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await opened(pilot, "down", "down", "down")
        await settled(pilot)
        assert "Week of 8 Jun as planned, season so far, year" in shown(pilot, "week")
        assert "All zones together, this week (8 Jun)" in shown(pilot, "why")
        await pressed(pilot, "x")
        assert "In the week of 8 Jun the plan puts on" in shown(pilot, "words")


async def test_another_price_redraws_every_figure_and_names_what_it_was(
    demo: Path,
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await opened(pilot)
        before = shown(pilot, "zones")
        await pressed(pilot, "1", *"4.20", "enter")
        await settled(pilot)
        assert "water 2.60 → 4.20 per kgal" in shown(pilot, "assumed")
        assert "was" in shown(pilot, "numbers")
        other = replace(session_of(pilot), edits=(Edit("water price", 9.0),))
        screen = pilot.app.screen
        assert isinstance(screen, CostScreen)
        assert screen.effects(other) is None  # it is not worked out yet
        assert shown(pilot, "zones") != before
        await pressed(pilot, "ctrl+z")
        await settled(pilot)
        assert shown(pilot, "zones") == before


@pytest.mark.parametrize(
    ("key", "typed", "words"),
    [
        ("2", "0.2", "energy 0.120 → 0.200"),
        ("3", "9", "interest 6.0% → 9.0%"),
        ("4", "8", "life 5–12 → 8 y"),
    ],
)
async def test_energy_interest_and_life_are_tried_in_place(
    demo: Path, key: str, typed: str, words: str
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await opened(pilot)
        await pressed(pilot, key, *typed, "enter")
        await settled(pilot)
        assert words in shown(pilot, "assumed")


async def test_an_answer_is_told_once_and_the_room_of_the_week_is_kept(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[int] = []
    zone_lines = cost_words.zone_lines

    def counted(*given: Any) -> list[str]:
        made.append(1)
        return zone_lines(*given)

    async with dashboard(demo, WIDE) as pilot:
        screen = await opened(pilot)
        await settled(pilot)
        week = screen.query_one("#week")
        rows = week.size.height
        assert rows > 9
        monkeypatch.setattr(cost_words, "zone_lines", counted)
        await pressed(pilot, "1", *"4.20", "enter")
        await settled(pilot)
        assert made == [1]  # not for the what-if, nor for the nights
        assert screen._found is not None
        screen.answered(replace(screen._found))
        assert shown(pilot, "week").startswith(WEEK_WAITING)
        assert len(shown(pilot, "week").split("\n")) == rows
        await settled(pilot)
        assert shown(pilot, "week").startswith("Week of 8 Jun")
        screen._around = None
        screen._leave_week()
        assert not week.display


async def test_nights_that_do_not_come_are_not_said_to_be_on_their_way(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    around = cost_state.around_now
    torn = SchedulerError("the log is torn", "mend it")

    def instead(error: Exception) -> None:
        monkeypatch.setattr(cost_state, "around_now", Mock(side_effect=error))

    async with dashboard(demo, WIDE) as pilot:
        screen = await opened(pilot)
        await settled(pilot)
        for error, said in ((torn, str(torn)), (KeyError("Z1"), "Not worked out: Key")):
            instead(error)
            await pressed(pilot, "down")
            assert f"· {said}" in shown(pilot, "why")
            assert "working" not in shown(pilot, "why")
            assert not screen.query_one(WorkLine)._works
        screen._leave_week()
        assert LEFT_WEEK in shown(pilot, "why")
        monkeypatch.setattr(cost_state, "around_now", around)
        await pressed(pilot, "up")
        assert "All zones together, this week (8 Jun)" in shown(pilot, "why")


async def test_what_is_no_price_changes_nothing(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await opened(pilot)
        await pressed(pilot, "1", "n", "o", "enter")
        assert session_of(pilot).edits == ()


async def test_a_result_that_cannot_be_had_leaves_the_last_one(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        screen = await opened(pilot)
        before = shown(pilot, "numbers")
        screen.answered(SchedulerError("no weather", "add some"))
        assert shown(pilot, "numbers") == before
        assert "no weather" in shown(pilot, "head")


async def test_it_says_itself_in_words(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        screen = await opened(pilot)
        await pressed(pilot, "x")
        assert screen.query_one("#words").display
        assert "of it above the need of its plants" in shown(pilot, "words")


async def test_another_option_is_a_key_away(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await opened(pilot)
        first = shown(pilot, "numbers")
        await pressed(pilot, "j")
        assert shown(pilot, "numbers") != first


async def test_a_tested_package_is_tried_as_then(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await opened(pilot)
        name = session_of(pilot).site
        assert name is not None
        await pressed(pilot, "t")
        await pilot.press(*["minus" if c == "-" else c for c in "yard-20x30"], "enter")
        await settled(pilot)
        (edit,) = session_of(pilot).edits
        assert str(edit).endswith("then yard-20x30")


async def test_a_spacing_of_the_map_opens_the_page_as_then(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "down", "down", "down", "s")
        await settled(pilot)
        await pressed(pilot, "right", "m")
        await settled(pilot)
        assert isinstance(pilot.app.screen, CostScreen)
        (edit,) = session_of(pilot).edits
        assert edit.what == "then"
        assert picked(pilot) == edit.typed
