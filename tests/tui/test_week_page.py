"""The page of the hours of the week under a pilot."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from scheduler.watering.night_plan.board import NightBoard
from tests.tui.pilots import (
    NARROW,
    SIZES,
    WIDE,
    Text,
    dashboard,
    pressed,
    session_of,
)
from tui import week_state
from tui.app import Dashboard
from tui.screens.week import WeekScreen
from tui.screens.week_pictures import clock
from tui.widgets.night_chart import NightChart

pytestmark = pytest.mark.usefixtures("prepared")


def part(pilot: Pilot[int], name: str) -> str:
    return str(pilot.app.screen.query_one(f"#{name}", Static).content)


def stands(pilot: Pilot[int], zone: str) -> tuple[NightBoard, tuple[int, ...]]:
    """The board, and the starts of a zone on the first night."""
    board = week_state.board_of(session_of(pilot))
    assert board is not None
    return board, next(one.starts for one in board.placed[0] if one.zone == zone)


def free_steps(pilot: Pilot[int], zone: str) -> list[str]:
    """Keys that take the first watering of a zone to a place that is free."""
    board, starts = stands(pilot, zone)
    for far in range(1, 27):
        for key, by in (("shift+right", 15 * far), ("shift+left", -15 * far)):
            put = [one + by for one in starts]
            pin = week_state.pin_for(board, (zone, 0), 0, put)
            if not week_state.broken(session_of(pilot), pin):
                return [key] * far
    raise AssertionError("the night is full")


def lanes(pilot: Pilot[int]) -> list[str]:
    picture = pilot.app.screen.query_one(NightChart).picture
    assert picture is not None
    return [one.name for one in picture.lanes]


@pytest.mark.parametrize("size", SIZES)
async def test_the_page_opens_from_the_zones_at_every_size(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, "h")
        assert isinstance(pilot.app.screen, WeekScreen)
        assert "fits; peak" in screen_text(pilot.app)
        assert "cycle 1 of 1" in screen_text(pilot.app)


async def test_a_wide_page_shows_seven_nights(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h")
        assert lanes(pilot)[0] == "Mon 8"
        assert len(lanes(pilot)) == 7


async def test_a_narrow_page_shows_one_night_by_zone(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "h")
        assert lanes(pilot) == [f"Z{i}" for i in range(1, 9)]


async def test_a_key_turns_from_the_week_to_one_night(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", "v")
        assert lanes(pilot)[0] == "Z1"


async def test_the_cursor_begins_at_the_zone_of_the_table(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "down", "down", "h")
        assert part(pilot, "read").startswith("Z3 ")


async def test_the_cursor_reads_out_the_next_cycle(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, *["down"] * 6, "h")
        first = part(pilot, "read")
        assert "cycle 1 of 4" in first
        await pressed(pilot, "right")
        assert part(pilot, "read") != first


async def test_the_cursor_goes_to_the_next_night_in_the_same_zone(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", "down")
        assert "Z1 Liner beds, junipers, Tue 9 Jun" in part(pilot, "read")


async def test_why_it_stands_there_is_said(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h")
        assert "Why there: " in part(pilot, "read")


async def test_a_watering_in_hand_moves_by_the_minute(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", "enter", "right", "shift+right")
        board, starts = stands(pilot, "Z1")
        assert f"Mon {clock(board, 0, starts[0] + 16)}–" in part(pilot, "read")


async def test_a_place_that_breaks_a_rule_is_named_and_not_taken(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", "enter", *["shift+right"] * 26)
        assert "✖ window: it is open 22:00-04:30" in part(pilot, "read")
        await pressed(pilot, "enter")
        assert session_of(pilot).pins == ()
        assert "✖ window: " in part(pilot, "read")


async def test_a_free_place_is_taken_as_a_what_if(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", "enter", *free_steps(pilot, "Z1"))
        assert "✔ free" in part(pilot, "read")
        await pressed(pilot, "enter")
        (pin,) = session_of(pilot).pins
        assert "moved by hand" in part(pilot, "read")
        assert f"→ {pin}" in screen_text(pilot.app)


async def test_a_move_is_undone_by_the_usual_key(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h")
        before = part(pilot, "read")
        await pressed(pilot, "enter", *free_steps(pilot, "Z1"), "enter")
        assert part(pilot, "read") != before
        await pressed(pilot, "ctrl+z")
        assert part(pilot, "read") == before


async def test_escape_lets_it_go_back_and_stays(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h")
        before = part(pilot, "read")
        await pressed(pilot, "enter", "shift+right", "escape")
        assert isinstance(pilot.app.screen, WeekScreen)
        assert part(pilot, "read") == before


async def test_a_night_on_which_it_runs_already_is_named(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", "enter", "down")
        assert "✖ night: Z1 is watered on Tue already" in part(pilot, "read")


async def test_one_cycle_alone_keeps_its_soak(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, *["down"] * 6, "h")
        _, starts = stands(pilot, "Z7")
        soak = starts[1] - starts[0] - 8
        await pressed(pilot, "enter", "o", *["right"] * (soak - 9))
        assert "✖ soak: 9 min before " in part(pilot, "read")


async def test_a_weaker_pump_stands_before_and_after(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", *["minus"] * 3)
        await pressed(pilot)
        assert part(pilot, "pump").startswith("Pump 200.0 gpm: fits")
        assert "At 170.0 gpm: " in part(pilot, "pump")
        assert len(session_of(pilot).what_ifs) == 1


async def test_what_has_no_room_keeps_its_lane(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "h", *["minus"] * 9)
        assert "Z6" in lanes(pilot)
        assert part(pilot, "head").count("no room for") == 1


async def test_the_picture_is_said_in_words(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", "x")
        assert "Mon 8 Jun: Z" in screen_text(pilot.app)


async def test_a_week_with_a_stop_is_not_issued_and_says_how(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", "i")
        (said,) = pilot.app._notifications
        assert "--issue --force WHY" in said.message


async def test_three_keys_issue_a_week(own_demo: Path) -> None:
    shutil.rmtree(next((own_demo / "tests").glob("*-Z9")))
    async with dashboard(own_demo, WIDE) as pilot:
        await pressed(pilot, "h", "i", "y")
    assert (own_demo / "weeks" / "2026-W24.json").is_file()


async def test_a_no_issues_nothing(own_demo: Path) -> None:
    shutil.rmtree(next((own_demo / "tests").glob("*-Z9")))
    async with dashboard(own_demo, WIDE) as pilot:
        await pressed(pilot, "h", "i", "escape")
    assert not (own_demo / "weeks").exists()


async def test_the_page_opens_from_a_zone(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, "down", "enter", "h")
        assert part(pilot, "read").startswith("Z2 ")


async def test_a_site_without_a_pump_says_why(own_demo: Path) -> None:
    toml = own_demo / "site.toml"
    text = toml.read_text(encoding="utf-8").replace("flow_gpm = 200\n", "")
    toml.write_text(text.replace("max_valves_at_once = 3\n", ""), encoding="utf-8")
    async with dashboard(own_demo, WIDE) as pilot:
        await pressed(pilot, "h")
        nothing = pilot.app.screen.query_one(NightChart).nothing
        assert "no night plan is made" in nothing
        await pressed(pilot, "enter", "right", "down", "o", "minus")
        assert isinstance(pilot.app.screen, WeekScreen)


async def test_ranges_that_come_in_leave_the_hand_alone(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "h", "enter", "right")
        app = pilot.app
        assert isinstance(app, Dashboard)
        app.session = replace(session_of(pilot), evaluations=())
        await pilot.pause()
        assert part(pilot, "read").startswith("Moving Z1")
