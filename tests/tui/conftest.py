"""What the tests of the dashboard share: the demo site, an app on it, its text."""

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import pytest_textual_snapshot as snapshots
from textual.app import App

from scheduler.files.demo import demo_source
from tests.tui.pilots import text_of
from tui import session as state
from tui.session import Session, evaluated, open_session

# syrupy 5 and later renamed the attribute; without it pictures are saved as .raw
snapshots.SVGImageExtension.file_extension = "svg"


@pytest.fixture
def screen_text() -> Callable[[App[Any]], str]:
    return text_of


@pytest.fixture(scope="session")
def demo() -> Path:
    return demo_source() / "tern_hollow"


@pytest.fixture
def own_demo(tmp_path: Path, demo: Path) -> Path:
    """A copy of the demo site that a test may spoil."""
    return shutil.copytree(demo, tmp_path / "tern_hollow")


@pytest.fixture(scope="session")
def opened(demo: Path) -> Session:
    """The demo site, opened once."""
    return open_session(demo)


@pytest.fixture(scope="session")
def rated(opened: Session) -> Session:
    """The demo site with the ranges of its tests, worked up once."""
    return evaluated(opened)


@pytest.fixture
def prepared(
    demo: Path, opened: Session, rated: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Open the demo site once for all tests; any other folder is really read."""
    really_open, really_evaluate = state.open_session, state.evaluated

    def open_session(folder: Path, units: Any = None) -> Session:
        return opened if folder == demo else really_open(folder, units)

    def evaluated(session: Session, resamples: int | None = None) -> Session:
        is_demo = session.site_folder is opened.site_folder
        return rated if is_demo else really_evaluate(session, resamples)

    monkeypatch.setattr(state, "open_session", open_session)
    monkeypatch.setattr(state, "evaluated", evaluated)
