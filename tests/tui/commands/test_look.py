"""How the dashboard shall look, on the command line."""

from typing import Any

import pytest
from click.testing import CliRunner

from scheduler.files.demo import demo_source
from tui.cli import main
from tui.commands import edge, look
from tui.themes import FACES

DEMO = str(demo_source() / "tern_hollow")


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    """What the dashboard is opened with, in a terminal that is not there."""
    found: dict[str, Any] = {}
    monkeypatch.setattr(edge, "has_terminal", lambda: True)
    monkeypatch.setattr(edge, "open_dashboard", lambda *_, **named: found.update(named))
    return found


def test_the_colours_on_the_command_line_are_those_of_the_dashboard() -> None:
    assert set(look.THEMES) == set(FACES)


def test_colours_and_words_reach_the_dashboard(asked: dict[str, Any]) -> None:
    done = CliRunner().invoke(main, ["open", DEMO, "--theme", "contrast", "--words"])
    assert done.exit_code == 0, done.output
    assert asked == {"face": "contrast", "in_words": True}


def test_nothing_asked_for_is_the_dark_one_with_pictures(asked: dict[str, Any]) -> None:
    CliRunner().invoke(main, ["open", DEMO])
    assert asked == {"face": None, "in_words": False}


def test_ascii_is_asked_for_as_a_bare_console_does(
    asked: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LOWQUARTER_ASCII", "")
    seen: list[bool] = []
    from tui.widgets.canvas import ascii_only

    monkeypatch.setattr(
        edge, "open_dashboard", lambda *_, **__: seen.append(ascii_only())
    )
    CliRunner().invoke(main, ["open", DEMO, "--ascii"])
    assert seen == [True]


def test_colours_that_are_none_are_a_slip_of_usage() -> None:
    done = CliRunner().invoke(main, ["open", DEMO, "--theme", "pink"])
    assert done.exit_code == 2
    assert "contrast" in done.output
