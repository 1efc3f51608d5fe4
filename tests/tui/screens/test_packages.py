"""The page of packages on a narrow screen: what is offered, what is told in full."""

from pathlib import Path

import pytest

from tests.tui.pilots import Text, dashboard, pressed

pytestmark = pytest.mark.usefixtures("prepared")


async def test_words_are_offered_only_where_a_picture_is_shown(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "w")
        offered = []
        for key in "123":
            await pressed(pilot, key)
            offered.append("x" in pilot.app.screen.active_bindings)
        assert offered == [True, False, False]


@pytest.mark.parametrize(
    ("key", "words"), [("c", "log yard logger"), ("w", "brought from 10 to 2 m")]
)
async def test_where_the_wind_comes_from_is_told_in_full_on_a_narrow_page(
    demo: Path, screen_text: Text, key: str, words: str
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, key)
        assert words in " ".join(screen_text(pilot.app).split())
