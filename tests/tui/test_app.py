"""The dashboard under a pilot: what is on the screen after which keys."""

import asyncio
import contextlib
import subprocess
import sys
import threading
from collections.abc import AsyncIterator, Callable, Iterable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import pytest
from textual.app import App
from textual.message import Message
from textual.pilot import Pilot
from textual.worker import WorkerFailed

from tests.tui import made
from tui import session as state
from tui.app import Dashboard
from tui.screens.findings import FindingsScreen
from tui.screens.zone import ZoneScreen
from tui.screens.zones import ZonesScreen
from tui.session import Edit, Session
from tui.widgets.zone_table import ZoneTable

NARROW, WIDE = (80, 24), (140, 40)
SIZES = [NARROW, WIDE]
Text = Callable[[App[Any]], str]


@pytest.fixture(autouse=True)
def prepared(
    demo: Path, opened: Session, rated: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Open the demo site once for all tests; any other folder is really read."""
    really_open, really_evaluate = state.open_session, state.evaluated

    def open_session(folder: Path, units: Any = None) -> Session:
        return opened if folder == demo else really_open(folder, units)

    def evaluated(session: Session) -> Session:
        is_demo = session.site_folder is opened.site_folder
        return rated if is_demo else really_evaluate(session)

    monkeypatch.setattr(state, "open_session", open_session)
    monkeypatch.setattr(state, "evaluated", evaluated)


async def settled(pilot: Pilot[int]) -> None:
    """Wait until workers are done and their answers are on the screen."""
    for _ in range(2):  # opening starts the second worker, the ranges
        live = [one for one in pilot.app.workers if not one.is_cancelled]
        if live:
            await pilot.app.workers.wait_for_complete(live)
        await pilot.pause()


@asynccontextmanager
async def dashboard(
    folder: Path, size: tuple[int, int] = NARROW
) -> AsyncIterator[Pilot[int]]:
    app = Dashboard(folder)
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await settled(pilot)
        yield pilot


async def pressed(pilot: Pilot[int], *keys: str) -> None:
    await pilot.press(*keys)
    await settled(pilot)


def session_of(pilot: Pilot[int]) -> Session:
    assert isinstance(pilot.app, Dashboard)
    assert pilot.app.session is not None
    return pilot.app.session


def rule_of(pilot: Pilot[int], zone: str) -> str | None:
    plan = state.zone_plan(session_of(pilot), zone)
    assert plan is not None
    return plan.rule


# --- opening -----------------------------------------------------------------


@pytest.mark.parametrize("size", SIZES)
async def test_the_table_names_every_zone(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        text = screen_text(pilot.app)
        for i in range(1, 10):
            assert f"Z{i} " in text


@pytest.mark.parametrize("size", SIZES)
async def test_the_pinned_day_is_on_the_first_line(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        first = screen_text(pilot.app).splitlines()[0]
        assert "Tern Hollow" in first
        assert "8 Jun (pinned)" in first
        assert first.rstrip().endswith("US units")


async def test_a_row_shows_the_numbers_of_the_engine(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        plan = state.zone_plan(session_of(pilot), "Z4")
        assert plan is not None
        row = next(
            line for line in screen_text(pilot.app).splitlines() if line[:3] == "Z4 "
        )
        assert f" {plan.minutes_per_day} " in row
        assert plan.evidence is not None
        assert f"{plan.evidence.du_lq:.2f}" in row


async def test_ranges_arrive_by_themselves(own_demo: Path, screen_text: Text) -> None:
    async with dashboard(own_demo) as pilot:
        run = state.only_run(session_of(pilot), "Z4")
        assert run is not None
        assert run.ranges is not None
        assert f"{run.ranges.du_lq.low:.2f}–" in screen_text(pilot.app)


async def test_a_stop_has_a_word_beside_its_glyph(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        assert "✖ 1 stop" in screen_text(pilot.app)


async def test_a_folder_that_is_no_site_opens_on_its_findings(
    tmp_path: Path, screen_text: Text
) -> None:
    async with dashboard(tmp_path / "nowhere") as pilot:
        assert isinstance(pilot.app.screen, FindingsScreen)
        text = screen_text(pilot.app)
        assert "cannot be read as a site" in text
        assert "✖ stop" in text


async def test_a_broken_file_leaves_help_and_quit(own_demo: Path) -> None:
    (own_demo / "site.toml").write_text("name =", encoding="utf-8")
    async with dashboard(own_demo) as pilot:
        await pressed(pilot, "escape", "u", "ctrl+z", "question_mark", "escape")
        assert isinstance(pilot.app.screen, FindingsScreen)


async def test_a_mended_folder_is_read_again(own_demo: Path) -> None:
    whole = (own_demo / "site.toml").read_bytes()
    (own_demo / "site.toml").write_text("name =", encoding="utf-8")
    async with dashboard(own_demo) as pilot:
        (own_demo / "site.toml").write_bytes(whole)
        await pressed(pilot, "ctrl+r")
        assert session_of(pilot).plan is not None


def test_importing_the_app_loads_no_numbers() -> None:
    heavy = {"numpy", "pandas", "pydantic", "scheduler.plan", "scheduler.site"}
    code = "import sys, tui.app; print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert heavy.isdisjoint(done.stdout.split())


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
        for words in ("24 cans", "each quarter gets", "to scale", "Depletion", "Find"):
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


@pytest.mark.parametrize("key", ["question_mark", "f1"])
async def test_help_lists_keys_and_cautions(
    demo: Path, key: str, screen_text: Text
) -> None:
    async with dashboard(demo, (100, 60)) as pilot:
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
        assert "what-if, not saved" in screen_text(pilot.app)
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


# --- what-ifs ----------------------------------------------------------------


async def test_a_rule_key_tries_another_rule(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter", "1")
        assert rule_of(pilot, "Z4") == "average"
        assert "what-if, not saved: Z4 rule average" in screen_text(pilot.app)


async def test_undo_takes_a_rule_back(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        before = rule_of(pilot, "Z4")
        await pressed(pilot, "down", "down", "down", "enter", "1", "ctrl+z")
        assert rule_of(pilot, "Z4") == before
        assert "what-if" not in screen_text(pilot.app)


async def test_a_kc_is_typed_and_tried(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter", "k", *"0.5", "enter")
        plan = state.zone_plan(session_of(pilot), "Z4")
        assert plan is not None
        assert plan.kc == pytest.approx(0.5)


async def test_days_are_typed_and_tried(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        keys = ["d", *"mon", "space", *"thu", "enter"]
        await pressed(pilot, "down", "down", "down", "enter", *keys)
        plan = state.zone_plan(session_of(pilot), "Z4")
        assert plan is not None
        assert {day.weekday() for day in plan.days} <= {0, 3}


async def test_keys_work_again_after_a_prompt_is_left(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter", "k", *"0.5", "escape", "n", "escape")
        assert pilot.app.screen.query_one(ZoneTable).picked == "Z2"
        assert session_of(pilot).edits == ()


async def test_a_refused_kc_leaves_the_week_as_it_was(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        before = session_of(pilot)
        await pressed(pilot, "enter", "k", *"99", "enter")
        assert session_of(pilot) is before
        assert [one.severity for one in pilot.app._notifications] == ["error"]


async def test_a_refused_edit_does_not_spoil_the_next(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter", "k", *"99", "enter", "1")
        assert [str(one) for one in session_of(pilot).edits] == ["Z4 rule average"]


async def test_a_crash_keeps_the_week_and_says_so(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def crash(session: Session, edits: Iterable[Edit]) -> Session:
        raise ZeroDivisionError

    async with dashboard(demo) as pilot:
        before = session_of(pilot)
        monkeypatch.setattr(state, "with_edits", crash)
        await pilot.press("u")
        with contextlib.suppress(WorkerFailed):
            await settled(pilot)
        await pilot.pause()
        assert session_of(pilot) is before
        assert any("ZeroDivision" in one.message for one in pilot.app._notifications)


async def test_a_late_answer_to_an_older_edit_is_dropped(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    started, release, answered = (threading.Event() for _ in range(3))
    compute = state.with_edits

    def slow_at_first(session: Session, edits: Iterable[Edit]) -> Session:
        edits = tuple(edits)
        if len(edits) == 1:
            started.set()
            assert release.wait(30)
        return compute(session, edits)

    async with dashboard(demo) as pilot:
        app = pilot.app
        assert isinstance(app, Dashboard)
        post = app.post_message

        def posted(message: Message) -> bool:
            done = post(message)
            if isinstance(message, Dashboard.SessionReady):
                (answered if len(message.session.edits) == 1 else second).set()
            return done

        second = threading.Event()
        monkeypatch.setattr(state, "with_edits", slow_at_first)
        monkeypatch.setattr(app, "post_message", posted)
        app.request_edit(Edit("rule", "average", "Z4"))
        assert await asyncio.to_thread(started.wait, 30)
        app.request_edit(Edit("rule", "low half", "Z5"))
        assert await asyncio.to_thread(second.wait, 30)
        release.set()
        assert await asyncio.to_thread(answered.wait, 30)
        await pilot.pause()
        # the older answer came last and knows only the first edit; none may be lost
        assert [str(one) for one in session_of(pilot).edits] == [
            "Z4 rule average",
            "Z5 rule low half",
        ]
        assert (rule_of(pilot, "Z4"), rule_of(pilot, "Z5")) == ("average", "low half")


async def test_leaving_with_what_ifs_asks_once(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter", "1", "q")
        assert pilot.app.is_running
        assert pilot.app.return_value is None
        await pilot.press("q")
        assert pilot.app.return_value == 0


async def test_leaving_without_what_ifs_just_leaves(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pilot.press("q")
        assert pilot.app.return_value == 0


# --- a made-up site for what the demo has not --------------------------------


async def test_two_hundred_zones_scroll(
    monkeypatch: pytest.MonkeyPatch, screen_text: Text
) -> None:
    monkeypatch.setattr(state, "open_session", lambda *_: made.session(197))
    monkeypatch.setattr(state, "evaluated", lambda session: session)
    async with dashboard(Path("made")) as pilot:
        await pressed(pilot, "end", "ctrl+end")
        await pressed(pilot, *["pagedown"] * 25)
        assert "Y196" in screen_text(pilot.app)
