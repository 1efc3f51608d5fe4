"""The dashboard under a pilot: opening a folder, what-ifs, late answers, leaving."""

import asyncio
import contextlib
import gc
import subprocess
import sys
import threading
import weakref
from collections.abc import Iterable
from pathlib import Path

import pytest
from textual.message import Message
from textual.worker import WorkerFailed

from tests.tui.pilots import (
    SIZES,
    Text,
    dashboard,
    pressed,
    rule_of,
    session_of,
    settled,
)
from tui import session as state
from tui.app import Dashboard
from tui.screens.findings import FindingsScreen
from tui.session import Edit, Session
from tui.widgets.zone_table import ZoneTable

pytestmark = pytest.mark.usefixtures("prepared")


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


# --- what-ifs ----------------------------------------------------------------


async def test_a_rule_key_tries_another_rule(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter", "1")
        assert rule_of(pilot, "Z4") == "average"
        assert "what-if Z4 rule low quarter → average" in screen_text(pilot.app)


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


async def test_leaving_with_what_ifs_asks_nothing_and_names_them_once(
    demo: Path,
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "enter", "1")
        await pilot.press("q")
        assert pilot.app.return_value == 0
        (said,) = pilot.app._exit_renderables
        assert "Tried and not kept" in str(said)
        assert "Z4 rule low quarter → average" in str(said)


async def test_leaving_without_what_ifs_just_leaves(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pilot.press("q")
        assert pilot.app.return_value == 0


# --- screens that are not seen, screens that were left ------------------------
async def test_a_table_that_was_hidden_shows_the_week_when_it_comes_back(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        before = screen_text(pilot.app)
        await pressed(pilot, "enter", "u", "escape")
        assert screen_text(pilot.app) != before


async def test_a_face_that_was_left_leaves_memory(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "question_mark")
        left = weakref.ref(pilot.app.screen)
        await pressed(pilot, "escape", "down")
        gc.collect()
        assert left() is None


async def test_a_page_is_made_once_and_leaves_memory_for_one_of_another_size(
    demo: Path,
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter")
        left = weakref.ref(pilot.app.screen)
        await pressed(pilot, "escape", "down", "enter")
        assert pilot.app.screen is left()
        await pressed(pilot, "escape")
        await pilot.resize_terminal(100, 30)
        await pressed(pilot, "enter")
        assert pilot.app.screen is not left()
        await pressed(pilot, "escape", "down")
        gc.collect()
        assert left() is None


# a page that was left is the same one when it is opened again
@pytest.mark.parametrize("page", ["enter", *"tcwsbhylmg"])
@pytest.mark.parametrize("meanwhile", [("down",), ("u",), ("ctrl+t",)])
async def test_a_page_opened_again_is_as_one_opened_anew(
    demo: Path, page: str, meanwhile: tuple[str, ...], screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, *meanwhile, page)
        await settled(pilot)
        anew = screen_text(pilot.app)
    async with dashboard(demo) as pilot:
        await pressed(pilot, page)
        await settled(pilot)
        await pressed(pilot, "escape", *meanwhile, page)
        await settled(pilot)
        assert screen_text(pilot.app) == anew


async def test_a_watering_in_the_hand_is_not_kept_with_the_page(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "h", "enter")
        assert "Moving" in screen_text(pilot.app)
        await pressed(pilot, "b", "h")
        assert "Moving" not in screen_text(pilot.app)
