"""The page of moves under a pilot."""

from pathlib import Path

import pytest

from scheduler.errors import SchedulerError
from scheduler.watering.night_plan.moves import MoveCurve
from tests.tui.pilots import NARROW, Text, dashboard, pressed, session_of
from tests.tui.test_moves_state import CURVE
from tui import moves_state
from tui.screens.moves import MovesScreen
from tui.session import Session

pytestmark = pytest.mark.usefixtures("prepared")


async def test_without_an_issued_week_the_page_says_why(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "h", "G")
        assert isinstance(pilot.app.screen, MovesScreen)
        assert "no earlier issued week tells its starts" in screen_text(pilot.app)


async def test_enter_plans_the_week_of_the_line(
    demo: Path, screen_text: Text, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(moves_state, "curve_of", lambda _: CURVE)
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "h", "G", "down", "enter")
        plan = session_of(pilot).plan
        assert plan is not None
        assert plan.site.controller.move_worth == 0.0
        assert "30 " in screen_text(pilot.app)


async def test_why_nothing_can_be_compared_stands_on_the_page(
    demo: Path, screen_text: Text, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(_: Session) -> MoveCurve:
        raise SchedulerError("the wind is lacking", "name a file of it")

    monkeypatch.setattr(moves_state, "curve_of", refuse)
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "h", "G")
        assert "the wind is lacking; name a file of it" in screen_text(pilot.app)
        screen = pilot.app.screen
        assert isinstance(screen, MovesScreen)
        screen.left_off()
        await pilot.pause()
        assert "Moves: not worked out" in screen_text(pilot.app)
