"""The page of a season under a pilot."""

from dataclasses import replace
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

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
from tui.screens.season import SeasonScreen
from tui.session import Edit
from tui.widgets.season_lines import SeasonLines


def numbers(pilot: Pilot[int]) -> str:
    return str(pilot.app.screen.query_one("#numbers", Static).content)


@pytest.mark.parametrize("size", SIZES)
async def test_the_quarters_are_there_at_every_size(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, "y")
        await settled(pilot)
        assert isinstance(pilot.app.screen, SeasonScreen)
        assert "driest" in screen_text(pilot.app)
        assert "water put on" in screen_text(pilot.app)


async def test_another_rule_stands_beside_the_one_before(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "y", "1")
        await settled(pilot)
        assert "was" in numbers(pilot)


async def test_what_was_and_is_stands_beside_each_quarter_on_one_line(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "y", "1")
        await settled(pilot)
        for line in numbers(pilot).splitlines()[:5]:
            assert line in screen_text(pilot.app)


async def test_another_du_is_tried_by_a_key(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "y", "plus")
        await settled(pilot)
        note = str(pilot.app.screen.query_one("#notes", Static).content)
        assert "At DU 0.90" in note


async def test_a_tried_uniformity_stands_in_one_line_before_and_after(
    demo: Path,
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "y", "d", "plus")
        await settled(pilot)
        tried = str(pilot.app.screen.query_one("#tried", Static).content)
        assert "[d DU 0.80]" in tried
        line = str(pilot.app.screen.query_one("WhatIfLine", Static).content)
        assert "what-if Z1 DU 0.79 → 0.80" in line
        assert "water put on" in line
        screen = pilot.app.screen
        assert isinstance(screen, SeasonScreen)
        other = replace(session_of(pilot), edits=(Edit("du", 0.9, "Z1"),))
        assert screen.effects(other) is None  # its season is not run yet


async def test_the_chain_of_the_season_opens(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "y", "e")
        assert "from the cans to the season's water" in screen_text(pilot.app)


async def test_the_next_zone_is_a_key_away(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "y", "right")
        await settled(pilot)
        head = str(pilot.app.screen.query_one("#head", Static).content)
        assert head.startswith("Z2")


async def test_a_zone_that_cannot_be_run_says_why(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "y", "left")  # Z9, whose test cannot be true
        await settled(pilot)
        assert "no season can be run" in pilot.app.screen.query_one(SeasonLines).nothing


async def test_the_rule_is_read_whole_on_a_narrow_terminal(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "y")
        await settled(pilot)
        assert "rule low quarter" in screen_text(pilot.app)
