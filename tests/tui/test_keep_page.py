"""Keeping and dropping what is tried, by keys."""

from dataclasses import replace
from pathlib import Path

import pytest
from textual.widgets import Static

from tests.tui.pilots import NARROW, WIDE, Text, dashboard, pressed, session_of, settled
from tui import keeping
from tui.app import Dashboard
from tui.screens.ask import AskScreen
from tui.screens.keep import KeepScreen
from tui.session import Session
from tui.what_if import Edit


@pytest.fixture(autouse=True)
def without_money(monkeypatch: pytest.MonkeyPatch) -> None:
    """Seasons are run by other tests."""
    work = keeping.tried

    def tried(session: Session, *, with_money: bool) -> keeping.Tried:
        del with_money
        return replace(work(session, with_money=False), has_money=True)

    monkeypatch.setattr(keeping, "tried", tried)


RULE, FACTOR = Edit("rule", "average", "Z4"), Edit("kc factor", 1.1, "Z4")


def said(one: object) -> list[str]:
    return [str(edit) for edit in one]  # type: ignore[attr-defined]


async def test_one_is_dropped_all_are_dropped_and_undone(
    prepared: None, demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        app = pilot.app
        assert isinstance(app, Dashboard)
        await pressed(pilot, "T")
        assert not isinstance(app.screen, KeepScreen)  # nothing is tried
        before = session_of(pilot)
        app.request_edit(RULE)
        app.request_edit(FACTOR)
        await settled(pilot)
        app.action_what_ifs()
        await pilot.pause()
        await settled(pilot)  # what each alone would do is worked out beside
        assert isinstance(app.screen, KeepScreen)
        text = screen_text(app)
        assert "Z4 Kc factor 1.00 → 1.10" in text
        assert "Z4 rule low quarter" in text
        assert "Z4 Kc factor 1.00 → 1.10: k writes it" in text
        await pressed(pilot, "down")
        assert "Z4 rule low quarter → average: k writes it" in screen_text(app)
        await pilot.press("up", "d")  # the one under the cursor, the newest
        await settled(pilot)
        assert session_of(pilot).what_ifs == (RULE,)
        await pilot.press("D")
        await settled(pilot)
        assert session_of(pilot).what_ifs == ()
        assert session_of(pilot).site == before.site
        assert session_of(pilot).plan is not None
        await pressed(pilot, "ctrl+z", "ctrl+z")
        assert session_of(pilot).what_ifs == (RULE, FACTOR)
        await pressed(pilot, "ctrl+y")
        assert session_of(pilot).what_ifs == (RULE,)


async def test_kept_is_written_asked_for_and_undone(own_demo: Path) -> None:
    file = own_demo / "zones.toml"
    own = file.read_bytes()
    async with dashboard(own_demo, WIDE) as pilot:
        app = pilot.app
        assert isinstance(app, Dashboard)
        app.request_edit(RULE)
        app.request_edit(Edit("du", 0.85, "Z4"))
        await settled(pilot)
        await pilot.press("T")
        await settled(pilot)
        where = str(app.screen.query_one("#where", Static).content)
        assert "a uniformity is only kept by a test" in where
        await pilot.press("K")
        await settled(pilot)
        assert isinstance(app.screen, AskScreen)
        await pilot.press("y")
        for _ in range(3):
            await settled(pilot)
        assert file.read_bytes() != own
        assert said(session_of(pilot).what_ifs) == ["Z4 DU 0.85"]
        assert session_of(pilot).site_folder is not None
        zone = session_of(pilot).site_folder.site.zone("Z4")  # type: ignore[union-attr]
        assert zone is not None
        assert zone.rule == "average"
        app.action_undo()
        for _ in range(3):
            await settled(pilot)
        # the files of before are edits that wait for a save, like any other step back
        assert app.is_unsaved
        assert said(session_of(pilot).what_ifs) == ["Z4 rule average", "Z4 DU 0.85"]
