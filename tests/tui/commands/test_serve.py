"""The command that shows the dashboard in a browser: what it says and refuses."""

import queue
import socket
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tui.cli import main
from tui.web.server import DashboardServer


def serve(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["serve", *arguments])


@pytest.fixture
def stopped_at_once(monkeypatch: pytest.MonkeyPatch) -> list[DashboardServer]:
    """Servers that were started; each one stops before it answers."""
    started: list[DashboardServer] = []

    async def run(self: DashboardServer, bound: socket.socket) -> None:
        started.append(self)
        bound.close()

    monkeypatch.setattr(DashboardServer, "run", run)
    return started


def test_the_result_is_the_address_alone(
    tmp_path: Path, stopped_at_once: list[DashboardServer]
) -> None:
    result = serve(str(tmp_path))
    assert result.stdout == stopped_at_once[0].door.first_address + "\n"


def test_a_port_may_be_asked_for(
    tmp_path: Path, stopped_at_once: list[DashboardServer]
) -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    assert serve(str(tmp_path), "--port", str(port)).exit_code == 0
    assert stopped_at_once[0].port == port


def test_it_says_who_can_drive_it_and_how_to_reach_it_from_elsewhere(
    tmp_path: Path, stopped_at_once: list[DashboardServer]
) -> None:
    said = serve(str(tmp_path)).stderr
    assert "drives the program as you" in said
    port = stopped_at_once[0].port
    assert f"ssh -L {port}:127.0.0.1:{port}" in said


def test_no_option_opens_it_to_others() -> None:
    assert "--host" not in serve("--help").stdout


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> "queue.Queue[str]":
    """Addresses that a browser was asked to open; there is none."""
    asked: queue.Queue[str] = queue.Queue()

    def browser(address: str) -> bool:
        asked.put(address)
        return False

    monkeypatch.setattr("webbrowser.open", browser)
    return asked


def test_a_browser_is_opened_when_asked_for(
    tmp_path: Path,
    stopped_at_once: list[DashboardServer],
    opened: "queue.Queue[str]",
) -> None:
    serve(str(tmp_path), "--open")
    assert opened.get(timeout=10) == stopped_at_once[0].door.first_address


def test_no_browser_is_opened_unasked(
    tmp_path: Path,
    stopped_at_once: list[DashboardServer],
    opened: "queue.Queue[str]",
) -> None:
    serve(str(tmp_path))
    assert opened.empty()


def test_a_folder_that_is_not_there_ends_with_3(tmp_path: Path) -> None:
    result = serve(str(tmp_path / "none"))
    assert result.exit_code == 3
    assert "no such folder" in result.stderr


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "site.toml").write_text("", "utf-8")
    result = serve(str(tmp_path / "site.toml"))
    assert result.exit_code == 3
    assert "this is no folder" in result.stderr


def test_a_taken_port_ends_with_1_and_the_way_out(tmp_path: Path) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        result = serve(str(tmp_path), "--port", str(other.getsockname()[1]))
    assert result.exit_code == 1
    assert "leave --port out" in result.stderr


def test_without_the_extra_the_line_that_gets_it_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in [one for one in sys.modules if one.startswith("tui.web.")]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "aiohttp", None)
    result = serve(str(tmp_path))
    assert result.exit_code == 1
    assert "python -m pip install 'lowquarter[web]'" in result.stderr
