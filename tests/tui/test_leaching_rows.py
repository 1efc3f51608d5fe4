"""The rows for leaching on the page of a zone."""

from pathlib import Path

import pytest

from tests.salty import salty_site
from tests.tui.pilots import Text, dashboard, pressed, rule_of


@pytest.fixture
def salty(tmp_path: Path) -> Path:
    return salty_site(tmp_path / "site")


async def test_the_leached_rule_is_tried_by_its_key(
    salty: Path, screen_text: Text
) -> None:
    async with dashboard(salty) as pilot:
        await pressed(pilot, *["down"] * 5, "enter", "5")
        assert rule_of(pilot, "Z6") == "low quarter, leached"
        assert "ter, leached  ▸ min a night" in screen_text(pilot.app)


async def test_a_leaching_target_is_no_rule_to_try(
    salty: Path, screen_text: Text
) -> None:
    async with dashboard(salty) as pilot:
        before = rule_of(pilot, "Z4")
        await pressed(pilot, *["down"] * 3, "enter", "5")
        assert rule_of(pilot, "Z4") == before
        assert "what-if" not in screen_text(pilot.app)


async def test_five_rows_fit_the_small_terminal(salty: Path, screen_text: Text) -> None:
    async with dashboard(salty) as pilot:
        await pressed(pilot, *["down"] * 5, "enter")
        await pressed(pilot, "v")
        lines = screen_text(pilot.app).splitlines()
        assert any("1 average" in one and "5 low" in one for one in lines)
        assert any("driest" in one and one.count("%") == 5 for one in lines)
