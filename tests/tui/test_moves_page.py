"""The page of moves under a pilot."""

from pathlib import Path

import pytest

from tests.tui.pilots import NARROW, Text, dashboard, pressed, session_of
from tests.tui.test_moves_state import CURVE
from tui import moves_state
from tui.screens.moves import MovesScreen

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
