"""Typing a test in by keys alone: from the list of tests to the new week."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import pytest
from textual.pilot import Pilot

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
from tests.tui.test_draft import ROWS, S3, typed
from tui import draft_journal
from tui import session as state
from tui.screens.can_entry import CanEntryScreen
from tui.screens.run_form import RunFormScreen
from tui.screens.tests import TestsScreen
from tui.widgets.can_grid import CanGrid
from tui.widgets.zone_table import ZoneTable

TO_Z4 = ("down", "down", "down", "t")


def keys(rows: tuple[str, ...]) -> list[str]:
    pressed_keys: list[str] = []
    for text in " ".join(rows).split():
        if text in "klo":
            pressed_keys.append(text)
        else:
            pressed_keys += [*text.replace(".", ""), "enter"]
    return pressed_keys


def page(pilot: Pilot[int]) -> CanEntryScreen:
    assert isinstance(pilot.app.screen, CanEntryScreen)
    return pilot.app.screen


@asynccontextmanager
async def new_test(
    site: Path, rows: tuple[str, ...] = (), size: tuple[int, int] = (80, 24)
) -> AsyncIterator[Pilot[int]]:
    """The page of a new test of Z4, with readings typed."""
    async with dashboard(site, size) as pilot:
        await pressed(pilot, *TO_Z4, "n", "ctrl+s")
        await pilot.press(*keys(rows))
        await ranged(pilot)
        yield pilot


async def ranged(pilot: Pilot[int]) -> None:
    """Wait for the pause of typing, and for what it asks."""
    screen = pilot.app.screen
    if isinstance(screen, CanEntryScreen) and screen._pause is not None:
        await screen._pause._task if screen._pause._task else None
    await settled(pilot)


@pytest.mark.parametrize("size", [NARROW, pytest.param(WIDE, marks=pytest.mark.slow)])
async def test_24_readings_typed_one_after_another_give_the_known_result(
    own_demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with new_test(own_demo, ROWS, size) as pilot:
        text = screen_text(pilot.app)
        for words in ("24 of 24 cans", "55.8 mL", "0.48 in/h", "0.72", "0.83"):
            assert words in text


async def test_the_list_of_tests_needs_no_scrolling_to_the_side(
    own_demo: Path,
) -> None:
    async with dashboard(own_demo) as pilot:
        await pressed(pilot, *TO_Z4)
        table = pilot.app.screen.query_one(ZoneTable)
        assert table.max_scroll_x == 0
        assert not table.show_horizontal_scrollbar


async def test_ranges_follow_by_themselves(own_demo: Path, screen_text: Text) -> None:
    async with new_test(own_demo, ROWS) as pilot:
        result = page(pilot).result
        assert result is not None
        ranges = result.runs[0].ranges
        assert ranges is not None
        assert f"({ranges.du_lq.low:.2f}–{ranges.du_lq.high:.2f}" in screen_text(
            pilot.app
        )


async def test_a_late_answer_is_dropped(own_demo: Path) -> None:
    async with new_test(own_demo, ROWS) as pilot:
        screen = page(pilot)
        late = screen.result
        assert late is not None
        await pressed(pilot, "9", "enter")
        newer = screen.result
        screen.post_message(screen.RangesReady(late, screen._number - 1))
        await pilot.pause()
        assert screen.result is not late
        assert newer is not None


async def test_a_knocked_can_and_a_blank_are_not_counted(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo, S3, WIDE) as pilot:
        text = screen_text(pilot.app)
        assert "22 of 24 cans   1 knocked   1 blank, not zero" in text
        assert "0.69" in text


async def test_a_zero_is_kept_and_asked_about(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo, ("41 52 60 48 0",)) as pilot:
        assert "can E1: 0 is kept" in screen_text(pilot.app)
        assert page(pilot).draft.now.cells[0][4] == "0"


async def test_a_lost_point_is_asked_about_and_typing_goes_on(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo, ("41 52 60 480",)) as pilot:
        assert "can D1: 480 mL" in screen_text(pilot.app)
        assert "meant 48?" in screen_text(pilot.app)
        assert page(pilot).draft.label == "E1"


async def test_undo_and_redo_go_by_entries(own_demo: Path) -> None:
    async with new_test(own_demo, ("41 52",)) as pilot:
        await pressed(pilot, "ctrl+z", "ctrl+z")
        assert page(pilot).draft.now.cells[0][:2] == ("", "")
        await pressed(pilot, "ctrl+y")
        assert page(pilot).draft.now.cells[0][:2] == ("41", "")


async def test_undo_takes_the_remark_of_the_undone_can_away(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo, ("41 0",)) as pilot:
        assert "can B1: 0 is kept" in screen_text(pilot.app)
        await pressed(pilot, "ctrl+z")
        assert "0 is kept" not in screen_text(pilot.app)


async def test_enter_after_a_code_skips_no_can(own_demo: Path) -> None:
    async with new_test(own_demo, ("41",)) as pilot:
        await pressed(pilot, "k", "enter", "5", "2", "enter")
        assert page(pilot).draft.now.cells[0][:3] == ("41", "k", "52")


async def test_a_second_enter_after_a_code_skips_a_can(own_demo: Path) -> None:
    async with new_test(own_demo, ("41",)) as pilot:
        await pressed(pilot, "k", "enter", "enter", "5", "2", "enter")
        assert page(pilot).draft.now.cells[0][:4] == ("41", "k", "", "52")


async def test_the_hint_tells_codes_that_need_no_enter(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo) as pilot:
        text = screen_text(pilot.app)
        assert "k knocked, l leaf, o overflow: no enter" in text


async def test_a_missing_start_is_mended_on_the_page(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo, ROWS, WIDE) as pilot:
        text = " ".join(screen_text(pilot.app).split())
        assert "press e and write the start" in text
        assert "test.toml" not in text


async def test_backspace_edits_and_space_clears(own_demo: Path) -> None:
    async with new_test(own_demo, ("41 52",)) as pilot:
        await pressed(pilot, "left", "backspace", "7", "left", "space")
        assert page(pilot).draft.now.cells[0][:2] == ("", "57")


async def test_escape_leaves_a_cell_as_it_was(own_demo: Path) -> None:
    async with new_test(own_demo, ("41 52",)) as pilot:
        await pressed(pilot, "left", "9", "9", "escape")
        assert page(pilot).draft.now.cells[0][1] == "52"


async def test_a_can_is_left_out_for_a_reason_and_both_results_stand(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo, S3, WIDE) as pilot:
        await pressed(pilot, "up", "up", "home", *["right"] * 5)
        await pressed(pilot, "x", *"arc", "enter")
        text = screen_text(pilot.app)
        assert "DU 0.69 with all, 0.82 without F1 (arc)" in text


async def test_without_a_reason_a_can_is_kept(own_demo: Path) -> None:
    async with new_test(own_demo, ("41 52",)) as pilot:
        await pressed(pilot, "x", "enter")
        assert page(pilot).draft.now.excluded == ()


async def test_a_click_picks_a_can(own_demo: Path) -> None:
    async with new_test(own_demo) as pilot:
        frame = page(pilot).query_one(CanGrid).frame
        assert frame is not None
        at = (frame.head + 2 * frame.wide + 1, 1 + frame.high)
        await pilot.click(CanGrid, offset=at)
        assert page(pilot).draft.label == "C2"


# --- saving ----------------------------------------------------------------------


async def test_saving_plans_the_week_anew(own_demo: Path, screen_text: Text) -> None:
    async with new_test(own_demo, ROWS) as pilot:
        await pressed(pilot, "ctrl+s")
        await settled(pilot)
        plan = state.zone_plan(session_of(pilot), "Z4")
        assert plan is not None
        assert plan.evidence is not None
        assert plan.evidence.test == "2026-06-08-Z4"
        assert page(pilot).draft.file == "run1.csv"
        assert draft_journal.kept_drafts(own_demo) == ()


async def test_a_wrong_mouth_blocks_the_zone_with_the_causes_named(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo, ROWS, WIDE) as pilot:
        form_keys = ["e", "down", "down", "ctrl+u", *"3.0", "space", *"in", "ctrl+s"]
        await pressed(pilot, *form_keys, "ctrl+s")
        await settled(pilot)
        plan = state.zone_plan(session_of(pilot), "Z4")
        assert plan is not None
        assert plan.status == "blocked"
        text = screen_text(pilot.app)
        assert "Blocked: the cans caught 196 %" in text
        assert "check the can mouth" in text


async def test_a_reading_below_zero_is_refused(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo, ROWS) as pilot:
        await pressed(pilot, "-", "1", "2", "enter", "ctrl+s")
        assert any("-12" in one.message for one in pilot.app._notifications)
        assert not (own_demo / "tests" / "2026-06-08-Z4").exists()
        assert page(pilot).draft.is_changed


async def test_another_writer_is_said_and_nothing_is_overwritten(
    own_demo: Path,
) -> None:
    path = own_demo / "tests" / "2026-05-12-Z4" / "run1.csv"
    async with dashboard(own_demo) as pilot:
        await pressed(pilot, *TO_Z4, "enter", "4", "2", "enter")
        path.write_text("1,2\n3,4\n", encoding="utf-8")
        await pressed(pilot, "ctrl+s")
        assert any("somebody else" in one.message for one in pilot.app._notifications)
        assert path.read_text("utf-8") == "1,2\n3,4\n"
        assert page(pilot).draft.is_changed


# --- leaving ---------------------------------------------------------------------


async def test_leaving_asks_and_staying_loses_nothing(own_demo: Path) -> None:
    async with new_test(own_demo, ("41 52",)) as pilot:
        await pressed(pilot, "escape", "escape")
        assert page(pilot).draft.now.cells[0][:2] == ("41", "52")


async def test_leaving_can_drop(own_demo: Path) -> None:
    async with new_test(own_demo, ("41 52",)) as pilot:
        await pressed(pilot, "escape", "d")
        assert isinstance(pilot.app.screen, TestsScreen)
        assert draft_journal.kept_drafts(own_demo) == ()


async def test_leaving_can_save(own_demo: Path) -> None:
    async with new_test(own_demo, ROWS) as pilot:
        await pressed(pilot, "escape", "s")
        await settled(pilot)
        assert isinstance(pilot.app.screen, TestsScreen)
        assert (own_demo / "tests" / "2026-06-08-Z4" / "run1.csv").is_file()


async def test_quitting_asks_too(own_demo: Path) -> None:
    async with new_test(own_demo, ("41 52",)) as pilot:
        await pressed(pilot, "q")
        assert pilot.app.return_value is None
        await pilot.press("d")
        await pilot.pause()
        assert pilot.app.return_value == 0


async def test_a_crash_loses_nothing_and_the_entries_are_offered_back(
    own_demo: Path, screen_text: Text
) -> None:
    async with new_test(own_demo, ("41 52",)):
        pass  # the dashboard ends without being asked
    async with dashboard(own_demo) as pilot:
        assert any("never saved" in one.message for one in pilot.app._notifications)
        await pressed(pilot, *TO_Z4)
        assert "NOT SAVED" in screen_text(pilot.app)
        await pressed(pilot, "enter")
        assert page(pilot).draft.now.cells[0][:2] == ("41", "52")


# --- the list --------------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
async def test_the_list_shows_every_run_of_the_zone(
    own_demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(own_demo, size) as pilot:
        await pressed(pilot, "t")
        text = screen_text(pilot.app)
        for words in ("2026-04-28", "as found", "run1", "run2", "mph"):
            assert words in text


async def test_another_run_opens_on_the_same_grid(own_demo: Path) -> None:
    async with dashboard(own_demo) as pilot:
        await pressed(pilot, "t", "r")
        assert isinstance(pilot.app.screen, RunFormScreen)
        await pressed(pilot, "ctrl+s")
        assert page(pilot).draft.setup.shape == (6, 6)
        assert page(pilot).draft.test == "2026-04-28-Z1"


async def test_a_wrong_form_says_what_and_keeps_the_rest(
    own_demo: Path, screen_text: Text
) -> None:
    async with dashboard(own_demo) as pilot:
        await pressed(pilot, *TO_Z4, "n", "ctrl+u", *"June", "ctrl+s")
        assert "'June' is not a date" in screen_text(pilot.app)
        assert isinstance(pilot.app.screen, RunFormScreen)


async def test_what_another_dashboard_types_is_named_and_not_offered(
    own_demo: Path, screen_text: Text
) -> None:
    theirs = draft_journal.journal_of(own_demo, typed())
    theirs.keep(typed())
    async with dashboard(own_demo) as pilot:
        said = [one.message for one in pilot.app._notifications]
        assert any("is typing readings of Z4" in one for one in said)
        await pressed(pilot, *TO_Z4)
        text = screen_text(pilot.app)
        assert "ELSEWHERE" in text
        assert "there it is saved or dropped" in text
        await pressed(pilot, "d", "enter")
        assert isinstance(pilot.app.screen, TestsScreen)
        theirs.let_go()  # as on a kill, while the list still shows it
        await pressed(pilot, "enter")
        assert page(pilot).draft.now == typed().now


async def test_a_draft_that_went_meanwhile_is_said_and_the_list_read_again(
    own_demo: Path, screen_text: Text
) -> None:
    theirs = draft_journal.journal_of(own_demo, typed())
    theirs.keep(typed())
    theirs.let_go()
    async with dashboard(own_demo) as pilot:
        await pressed(pilot, *TO_Z4)
        assert "NOT SAVED" in screen_text(pilot.app)
        theirs.close()
        await pressed(pilot, "enter")
        assert isinstance(pilot.app.screen, TestsScreen)
        said = [one.message for one in pilot.app._notifications]
        assert any("dropped by another dashboard" in one for one in said)
        assert "NOT SAVED" not in screen_text(pilot.app)
