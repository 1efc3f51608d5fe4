"""The page of a zone's need under a pilot, and the dials of what is tried."""

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
    rule_of,
    session_of,
    settled,
)
from tui.screens.explain import ExplainScreen
from tui.screens.need import NeedScreen
from tui.screens.season import SeasonScreen
from tui.widgets.course_lines import CourseLines
from tui.widgets.season_lines import SeasonLines

pytestmark = pytest.mark.usefixtures("prepared")


def told(pilot: Pilot[int], what: str) -> str:
    return str(pilot.app.screen.query_one(what, Static).content)


@pytest.mark.parametrize("size", SIZES)
async def test_the_page_opens_from_the_zones(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, "b")
        assert isinstance(pilot.app.screen, NeedScreen)
        text = screen_text(pilot.app)
        assert "Reference ET and rain" in text
        assert "[d DU 0.79]" in text
        shown = [one for one in pilot.app.screen.query(".pane") if one.display]
        assert len(shown) == (1 if size == NARROW else 4)


async def test_one_picture_after_the_other_on_a_narrow_terminal(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "b", "v")
        assert "Crop coefficient through the year" in screen_text(pilot.app)
        await pressed(pilot, "v")
        assert "Depletion, behind and ahead" in screen_text(pilot.app)
        await pressed(pilot, "v")
        assert "One watering brings 111 mL into a pot" in screen_text(pilot.app)


async def test_the_coefficient_comes_with_its_source(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "b")
        await settled(pilot)
        assert pilot.app.screen.query_one(SeasonLines).year is not None
        assert "From: guess from canopy closure" in told(pilot, "#Kc .note")


async def test_every_picture_is_said_in_words(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "b", "x")
        await settled(pilot)
        text = screen_text(pilot.app)
        for said in ("14 days behind: ETo", "on the bed area", "At most", "planned:"):
            assert said in text
        assert "┷" not in text


async def test_the_next_zone_is_a_key_away(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "b", "right", "n")
        assert told(pilot, "#name").startswith("Z3")


async def test_a_blocked_zone_says_why(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "b", "left")
        await settled(pilot)
        assert told(pilot, "#setting").startswith("Blocked")
        assert pilot.app.screen.query_one(CourseLines).course is None


async def test_the_chain_opens_from_the_page(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "b", "e")
        assert isinstance(pilot.app.screen, ExplainScreen)


# --- dials -------------------------------------------------------------------


async def test_a_dial_is_turned_and_both_weeks_stand_in_one_line(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "down", "down", "down", "b", "plus", "plus")
        assert [str(one) for one in session_of(pilot).what_ifs] == ["Z4 DU 0.80"]
        assert "[d DU 0.80]" in told(pilot, "#tried")
        line = told(pilot, "WhatIfLine")
        assert "what-if Z4 DU 0.72 → 0.80" in line
        assert "min a night 33 → " in line


async def test_a_letter_picks_another_dial(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "b", "k", "minus", "a", "plus")
        tried = [str(one) for one in session_of(pilot).what_ifs]
        assert tried == ["Z1 Kc factor 0.95", "Z1 allowed 55 %"]


async def test_undo_takes_one_step_back_and_zero_all(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "b", "plus", "plus", "ctrl+z")
        assert [str(one) for one in session_of(pilot).what_ifs] == ["Z1 DU 0.80"]
        await pressed(pilot, "0")
        assert session_of(pilot).what_ifs == ()
        assert "→" not in told(pilot, "#tried")
        await pressed(pilot, "ctrl+z")  # even dropping can be undone
        assert [str(one) for one in session_of(pilot).what_ifs] == ["Z1 DU 0.80"]


async def test_a_rule_is_tried_by_its_number(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "b", "1")
        assert rule_of(pilot, "Z1") == "average"


async def test_a_dial_that_a_zone_does_not_have_is_said(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "b", "left", "left", "a", "plus")  # Z8, fixed minutes
        assert session_of(pilot).what_ifs == ()


async def test_what_is_tried_here_is_tried_in_the_season(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "b", "k", "minus", "y")
        await settled(pilot)
        assert isinstance(pilot.app.screen, SeasonScreen)
        assert "Kc ×0.95" in told(pilot, "#tried")
        assert "water put on" in told(pilot, "WhatIfLine")
