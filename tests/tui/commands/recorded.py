"""What the tests of the record command share: a copy of the demo, and its log."""

import shlex
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder
from scheduler.log import Entry
from tui.cli import main
from tui.commands import edge

NOW = "2026-06-08T14:03:22Z"


def copied_demo(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The demo site without its log, and a clock that stands still."""
    monkeypatch.setattr(edge, "moment", lambda: NOW)
    folder = Path(shutil.copytree(demo_source() / "tern_hollow", tmp_path / "demo"))
    (folder / "log.csv").unlink(missing_ok=True)
    return folder


def as_at_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(edge, "has_terminal", lambda: True)


def run(site: Path, arguments: str = "", typed: str | None = None) -> Result:
    words = ["record", str(site), *shlex.split(arguments)]
    return CliRunner().invoke(main, words, input=typed)


def lines(site: Path) -> list[str]:
    """The lines with facts, as they stand."""
    if not (site / "log.csv").exists():
        return []
    text = (site / "log.csv").read_text(encoding="utf-8")
    return [line for line in text.splitlines() if line[:1] not in "#d"]


def facts(site: Path) -> tuple[Entry, ...]:
    found = read_site_folder(site)
    assert not [one for one in found.findings if one.where.startswith("log.csv")]
    return found.history.log.entries
