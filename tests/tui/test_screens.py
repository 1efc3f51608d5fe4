"""The screens under a pilot: what is on them after which keys."""

import re
from pathlib import Path
from typing import Any

import pytest

from tests.tui import made
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
from tui import session as state
from tui.screens import zones
from tui.screens.zone import ZoneScreen
from tui.screens.zones import ZonesScreen
from tui.widgets.zone_table import ZoneTable

pytestmark = pytest.mark.usefixtures("prepared")


# --- one zone ----------------------------------------------------------------


async def test_enter_opens_the_picked_zone(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter")
        assert isinstance(pilot.app.screen, ZoneScreen)
        assert "Z4  " in screen_text(pilot.app).splitlines()[1]


async def test_escape_comes_back_to_the_same_row(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "enter", "escape")
        assert isinstance(pilot.app.screen, ZonesScreen)
        assert pilot.app.screen.query_one(ZoneTable).picked == "Z3"


async def test_stepping_moves_the_row_that_escape_comes_back_to(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter", "n", "down", "p", "escape")
        assert pilot.app.screen.query_one(ZoneTable).picked == "Z2"


async def test_stepping_stops_at_both_ends(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter", "p", *["n"] * 20, "escape")
        assert pilot.app.screen.query_one(ZoneTable).picked == "Z9"


async def test_a_wide_zone_shows_all_pictures(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "down", "down", "down", "enter")
        text = screen_text(pilot.app)
        for words in ("24 cans", "What each quarter", "to scale", "Depletion", "Find"):
            assert words in text


@pytest.mark.parametrize(
    ("times", "words"),
    [
        (0, "▾ driest quarter"),
        (1, "wettest"),
        (2, "to scale"),
        (3, "allowed"),
        (4, "Findings:"),
        (5, "▾ driest quarter"),
    ],
)
async def test_a_narrow_zone_cycles_through_its_pictures(
    demo: Path, times: int, words: str, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter", *["v"] * times)
        assert words in screen_text(pilot.app)


async def test_tab_and_its_way_back_cycle_too(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter", "tab", "tab", "shift+tab")
        assert "[rules]" in screen_text(pilot.app)


async def test_every_reading_of_the_map_is_on_a_narrow_screen(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter")
        test = state.evaluation(session_of(pilot), "Z4")
        assert test is not None
        text = screen_text(pilot.app)
        for reading in test.runs[0].catch.run.reading.ravel():
            assert f"{reading:.0f}" in text


async def test_a_zone_with_two_runs_shows_the_other_on_a_key(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter")
        before = screen_text(pilot.app)
        await pressed(pilot, "r")
        assert screen_text(pilot.app) != before
        await pressed(pilot, "r")
        assert screen_text(pilot.app) == before


@pytest.mark.parametrize("size", SIZES)
async def test_every_zone_can_be_shown(demo: Path, size: tuple[int, int]) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, "enter")
        for _ in range(9):
            await pressed(pilot, "n", *(["v"] * 5 if size == NARROW else []))
        assert isinstance(pilot.app.screen, ZoneScreen)


async def test_explain_reaches_from_the_cans_to_the_minutes(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, (100, 400)) as pilot:
        await pressed(pilot, "down", "down", "down", "enter", "e")
        plan = state.zone_plan(session_of(pilot), "Z4")
        assert plan is not None
        text = screen_text(pilot.app)
        assert "in/h" in text
        assert f"{len(list(plan.trace.chain()))}  minutes per day" in text


async def test_explain_goes_back_to_the_zone(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter", "e", "escape")
        assert isinstance(pilot.app.screen, ZoneScreen)


# --- units, findings, help, width --------------------------------------------


async def test_units_change_everywhere(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "u")
        assert "mm/h" in screen_text(pilot.app)
        assert "in/h" not in screen_text(pilot.app)
        await pressed(pilot, "down", "down", "down", "enter", "v", "v", "v")
        assert "mm allowed" in screen_text(pilot.app)


async def test_findings_list_place_what_and_fix(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "f")
        lines = screen_text(pilot.app).splitlines()
        worst = session_of(pilot).findings[0]
        at = next(
            y for y, line in enumerate(lines) if "✖ stop" in line and "Z9" in line
        )
        assert worst.where in lines[at]
        assert worst.what in lines[at + 1]
        assert worst.fix[:40] in lines[at + 2]


async def test_findings_go_back_to_the_zone_that_was_open(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter", "f", "escape")
        assert isinstance(pilot.app.screen, ZoneScreen)


async def test_long_lines_of_the_help_go_on_below_what_they_say(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, (80, 40)) as pilot:
        await pressed(pilot, "question_mark")
        lines = screen_text(pilot.app).splitlines()
        assert lines[1].strip() == "zones"  # the page in front comes first
        at = next(i for i, line in enumerate(lines) if "explain the numbers" in line)
        begun = lines[at].index("explain")
        assert lines[at + 1][:begun].isspace()
        assert not lines[at + 1][begun].isspace()
        await pilot.resize_terminal(140, 40)
        await settled(pilot)
        assert "formula and source; n another one" in screen_text(pilot.app)


@pytest.mark.parametrize("key", ["question_mark", "f1"])
async def test_help_lists_keys_and_cautions(
    demo: Path, key: str, screen_text: Text
) -> None:
    async with dashboard(demo, (100, 240)) as pilot:
        await pressed(pilot, key)
        text = screen_text(pilot.app)
        for word in ("ctrl+z", "Electrics", "Frost", "licensed practice"):
            assert word in text


async def test_resizing_loses_no_edit_and_no_place(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter", "1", "v")
        before = screen_text(pilot.app)
        await pilot.resize_terminal(*WIDE)
        await settled(pilot)
        assert "what-if " in screen_text(pilot.app)
        await pilot.resize_terminal(*NARROW)
        await settled(pilot)
        assert screen_text(pilot.app) == before


@pytest.mark.parametrize("size", [(40, 12), (20, 6), (110, 30)])
async def test_an_odd_terminal_does_not_break_it(
    demo: Path, size: tuple[int, int]
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, "enter", "v", "v", "n", "f", "escape", "escape")
        assert isinstance(pilot.app.screen, ZonesScreen)


@pytest.mark.parametrize("theme", ["textual-light", "nord", "ansi-dark"])
async def test_pictures_follow_the_theme(demo: Path, theme: str) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "down", "down", "down", "enter")
        before = pilot.app.export_screenshot()
        pilot.app.theme = theme
        await settled(pilot)
        assert pilot.app.export_screenshot() != before


async def test_plain_mode_puts_only_ascii_on_the_terminal(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LOWQUARTER_ASCII", "1")
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter")
        app = pilot.app
        for strip in app.screen._compositor.render_strips():
            plain = strip.apply_filter(app.get_line_filters()[-1], made_background())
            assert plain.text.isascii()


def made_background() -> Any:
    from textual.color import Color

    return Color.parse("black")


# --- a made-up site for what the demo has not --------------------------------


async def test_two_hundred_zones_scroll(
    monkeypatch: pytest.MonkeyPatch, screen_text: Text
) -> None:
    monkeypatch.setattr(state, "open_session", lambda *_: made.session(197))
    monkeypatch.setattr(state, "evaluated", lambda session, *_: session)
    async with dashboard(Path("made")) as pilot:
        await pressed(pilot, "end", "ctrl+end")
        await pressed(pilot, *["pagedown"] * 25)
        assert "Y196" in screen_text(pilot.app)


async def test_the_panel_of_the_table_says_how_many_findings_it_leaves_to_their_page(
    demo: Path, screen_text: Text, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(zones, "ATTENTION", 1)
    async with dashboard(demo, (140, 60)) as pilot:
        assert re.search(r"… \d+ more: f", screen_text(pilot.app))
