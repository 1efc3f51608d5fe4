"""The proof page under a pilot: what it shows, and recording from it."""

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
from tui.screens.explain import ExplainScreen
from tui.screens.log_form import LogFormScreen
from tui.screens.proof import PICTURES, ProofScreen
from tui.widgets.dated_ranges import RangesByDate

pytestmark = pytest.mark.usefixtures("prepared")
TO_Z4 = ("down", "down", "down", "l")
KEYS = {" ": "space", ",": "comma"}


async def typed(pilot: Pilot[int], text: str) -> None:
    await pilot.press(*(KEYS.get(one, one) for one in text))
    await pilot.pause()


async def recorded(pilot: Pilot[int], key: str, *answers: str) -> None:
    """A key, each answer with enter, and enter to write."""
    await pressed(pilot, key)
    for one in answers:
        await typed(pilot, one)
        await pilot.press("enter")
    await pressed(pilot, "enter")


def log_of(folder: Path) -> list[str]:
    return (folder / "log.csv").read_text(encoding="utf-8").splitlines()


def shown_lines(pilot: Pilot[int]) -> str:
    return str(pilot.app.screen.query_one("#lines", Static).content)


@pytest.mark.parametrize("size", SIZES)
async def test_a_check_is_shown_at_every_size(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, *TO_Z4)
        assert isinstance(pilot.app.screen, ProofScreen)
        text = screen_text(pilot.app).replace("\u00a0", " ")
        assert "Z4  Can yard east, hollies  proof" in text
        assert "38 %" in text
        assert "12 % E2" in text


async def test_one_picture_at_a_time_on_a_narrow_terminal(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, *TO_Z4)
        for name in PICTURES:
            panes = [one for one in pilot.app.screen.query(".pane") if one.display]
            assert [one.id for one in panes] == [name]
            await pressed(pilot, "v")


async def test_all_pictures_side_by_side_on_a_wide_one(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, *TO_Z4)
        text = screen_text(pilot.app)
        assert "Kc × 0.84 (0.64–1.11)" in text
        assert "plan and log" in text
        assert "It waits: the spacing noted on 2026-06-02" in " ".join(text.split())


@pytest.mark.parametrize("size", SIZES)
async def test_x_says_the_pictures_in_words(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, *TO_Z4, "x")
        text = " ".join(screen_text(pilot.app).replace("\u00a0", " ").split())
        assert "6 pots leached 38 % by volume" in text


async def test_the_next_zone_is_a_key_away(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, *TO_Z4, "right")
        head = str(pilot.app.screen.query_one("#head", Static).content)
        assert head.startswith("Z5")


async def test_a_zone_without_checks_says_how_to_record_one(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "l")
        assert "a records one" in pilot.app.screen.query_one(RangesByDate).nothing


async def test_the_page_opens_from_a_zone_too(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "down", "enter", "l")
        assert isinstance(pilot.app.screen, ProofScreen)
        assert pilot.app.screen.zone_here == "Z2"


async def test_the_first_page_counts_what_is_due(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        summary = str(pilot.app.screen.query_one("#summary", Static).content)
        assert "due: 7 tests, 5 leaching checks" in summary


async def test_the_count_fits_a_narrow_first_page(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        assert screen_text(pilot.app).splitlines()[1].endswith("12 due (l)")


@pytest.mark.parametrize("size", SIZES)
async def test_the_check_can_be_explained(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, *TO_Z4, "e")
        assert isinstance(pilot.app.screen, ExplainScreen)
        assert "leaching fraction" in screen_text(pilot.app).replace("_", " ")


async def test_side_by_side_all_three_are_explained(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, *TO_Z4, "e")
        texts = [str(one.content) for one in pilot.app.screen.query(Static)]
        for name in ("check_minutes", "kc_correction", "unexplained"):
            assert any(name in one.replace(" ", "_") for one in texts), name


# --- recording ---------------------------------------------------------------------


async def test_a_leaching_check_takes_four_keys_beside_its_numbers(
    own_demo: Path, screen_text: Text
) -> None:
    async with dashboard(own_demo, NARROW) as pilot:
        await pressed(pilot, "down", "down", "down", "down", "l")
        before = len(log_of(own_demo))
        await recorded(pilot, "a", "A1 420 60, B2 400 50", "60")
        assert len(log_of(own_demo)) == before + 2
        # read again at once: 110 of 820 mL
        assert "13 %" in screen_text(pilot.app).replace("\u00a0", " ")


async def test_the_line_stands_there_before_it_is_written(own_demo: Path) -> None:
    async with dashboard(own_demo, NARROW) as pilot:
        await pressed(pilot, *TO_Z4, "o")
        before = log_of(own_demo)
        await typed(pilot, "26")
        await pilot.press("enter")
        await typed(pilot, "dry")
        await pilot.press("enter")
        await pilot.pause()
        assert "2026-06-08,,override,Z4,,set 26 min,dry" in shown_lines(pilot)
        assert log_of(own_demo) == before


async def test_an_override_is_written(own_demo: Path) -> None:
    async with dashboard(own_demo, NARROW) as pilot:
        await pressed(pilot, *TO_Z4)
        await recorded(pilot, "o", "26", "dry")
        assert log_of(own_demo)[-1].startswith(
            "2026-06-08,,override,Z4,,set 26 min,dry,"
        )


async def test_a_skip_is_written_with_its_reason(own_demo: Path) -> None:
    async with dashboard(own_demo, NARROW) as pilot:
        await pressed(pilot, *TO_Z4)
        await recorded(pilot, "k", "wet")
        assert log_of(own_demo)[-1].startswith("2026-06-07,,skipped,Z4,,,wet,")


async def test_a_reading_takes_three_keys_beside_its_number(own_demo: Path) -> None:
    async with dashboard(own_demo, NARROW) as pilot:
        await pressed(pilot, *TO_Z4)
        await recorded(pilot, "m", "126310")
        line = "2026-06-08,,meter,,pump house,reading 126310 gal,,"
        assert log_of(own_demo)[-1].startswith(line)


async def test_escape_writes_nothing(own_demo: Path) -> None:
    async with dashboard(own_demo, NARROW) as pilot:
        before = log_of(own_demo)
        await pressed(pilot, *TO_Z4, "o", "2", "6", "escape")
        assert isinstance(pilot.app.screen, ProofScreen)
        assert log_of(own_demo) == before


async def test_what_is_wrong_is_said_and_nothing_written(own_demo: Path) -> None:
    async with dashboard(own_demo, NARROW) as pilot:
        before = log_of(own_demo)
        await pressed(pilot, *TO_Z4)
        await recorded(pilot, "o", "26", "")
        assert isinstance(pilot.app.screen, LogFormScreen)
        assert "✖ reason" in shown_lines(pilot)
        assert log_of(own_demo) == before


async def test_the_last_entry_is_taken_back_on_request(own_demo: Path) -> None:
    async with dashboard(own_demo, NARROW) as pilot:
        before = log_of(own_demo)
        await pressed(pilot, *TO_Z4)
        await recorded(pilot, "o", "26", "dry")
        await pressed(pilot, "z", "y")
        assert log_of(own_demo) == before


async def test_the_week_follows_what_was_recorded(own_demo: Path) -> None:
    async with dashboard(own_demo, NARROW) as pilot:
        before = session_of(pilot)
        await pressed(pilot, *TO_Z4)
        await recorded(pilot, "o", "26", "dry")
        await settled(pilot)
        assert session_of(pilot).history is not before.history
        assert session_of(pilot).plan is not before.plan
