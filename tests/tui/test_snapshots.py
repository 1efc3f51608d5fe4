"""Pictures of the dashboard: of a made-up week, which change only with the faces.

Others are of the demo site, and change with its numbers as well.
"""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from scheduler.errors import Finding
from tests.tui import made
from tui import need_state
from tui import session as state
from tui.app import Dashboard
from tui.session import Session
from tui.widgets import work_line

Compare = Callable[..., bool]
NO_SITE = Finding(
    "stop", "tern_hollow", "there is no site.toml", "start with: lowquarter new FOLDER"
)


def _with(monkeypatch: pytest.MonkeyPatch, session: Session) -> Dashboard:
    monkeypatch.setattr(state, "open_session", lambda *_: session)
    monkeypatch.setattr(state, "evaluated", lambda one, *_: one)
    # on a busy machine a line about the work would come and go
    monkeypatch.setattr(work_line, "PATIENCE_S", 600.0)
    monkeypatch.setattr(need_state, "kc_of_year", lambda *_: made.kc_year())
    return Dashboard(Path("tern_hollow"))


def _after(*keys: str) -> Callable[[Pilot[Any]], Any]:
    async def run_before(pilot: Pilot[Any]) -> None:
        for _ in range(2):
            await pilot.app.workers.wait_for_complete()
            await pilot.pause()
        await pilot.press(*keys)
        for _ in range(2):  # a line about the work may have come and gone
            await pilot.app.workers.wait_for_complete()
            await pilot.pause()

    return run_before


@pytest.mark.parametrize(
    ("keys", "size"),
    [
        pytest.param(["down"], (80, 24), id="zones"),
        pytest.param(["down", "enter", "v"], (80, 24), id="rules"),
        pytest.param(["down", "enter"], (140, 40), id="zone"),
        pytest.param(["down", "b", "v", "v"], (80, 24), id="depletion"),
        pytest.param(["down", "b"], (140, 40), id="need"),
    ],
)
def test_the_week_looks_as_before(
    keys: list[str],
    size: tuple[int, int],
    snap_compare: Compare,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    app = _with(monkeypatch, made.session())
    assert snap_compare(app, run_before=_after(*keys), terminal_size=size)


@pytest.mark.usefixtures("prepared")
@pytest.mark.parametrize(
    ("keys", "size", "face"),
    [
        pytest.param(["space"], (80, 24), "light", id="walk"),
        pytest.param(["j", "h"], (140, 40), "dark", id="hours"),
        pytest.param(["j", "g"], (80, 24), "contrast", id="given"),
        pytest.param(["j", "enter", "2"], (140, 40), "light", id="tried"),
    ],
)
def test_the_demo_site_looks_as_before(
    demo: Path,
    keys: list[str],
    size: tuple[int, int],
    face: str,
    snap_compare: Compare,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(work_line, "PATIENCE_S", 600.0)
    app = Dashboard(demo, face=face)
    assert snap_compare(app, run_before=_after(*keys), terminal_size=size)


def test_a_folder_that_is_no_site_looks_as_before(
    snap_compare: Compare, monkeypatch: pytest.MonkeyPatch
) -> None:
    nothing: dict[str, Any] = {
        "site_folder": None,
        "site": None,
        "plan": None,
        "evaluations": None,
    }
    session = made.session(findings=(NO_SITE,), **nothing)
    app = _with(monkeypatch, session)
    assert snap_compare(app, run_before=_after(), terminal_size=(80, 24))
