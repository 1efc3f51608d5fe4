"""A tab's process ends with its tab and with its server, whatever ends that."""

import asyncio
import os
import signal
import sys
from pathlib import Path

import pytest

from tests.tui.web.served import SMALL_APP, is_gone, let_in, process_of, server_of
from tui.web import child
from tui.web.child import Child, Page
from tui.web.downloads import WholeDownloads

ON_POSIX = pytest.mark.skipif(os.name != "posix", reason="signals are POSIX")


async def _nothing(*_: object) -> None:
    """An end of a page that nobody holds."""


def a_child(*command: str) -> Child:
    return Child(command, Page(_nothing, _nothing, _nothing), WholeDownloads())


async def test_a_process_that_does_not_leave_is_ended_by_force(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(child, "GRACE_S", 0.2)
    async with (
        server_of("deaf") as server,
        let_in(server.door.first_address) as one,
    ):
        page = await one.socket()
        process = await process_of(page)
        await page.close()
        assert await is_gone(process)


@ON_POSIX
@pytest.mark.parametrize("name", ["SIGTERM", "SIGINT", "SIGHUP", "SIGKILL"])
async def test_no_process_outlives_a_server_that_ends_by(name: str) -> None:
    server = await asyncio.create_subprocess_exec(
        sys.executable, SMALL_APP, "serve", stdout=asyncio.subprocess.PIPE
    )
    assert server.stdout is not None
    first_address = (await server.stdout.readline()).decode().strip()
    async with let_in(first_address) as one:
        process = await process_of(await one.socket())
        server.send_signal(getattr(signal, name))
        code = await asyncio.wait_for(server.wait(), 20)
        assert await is_gone(process)
    assert code == (-signal.SIGKILL if name == "SIGKILL" else 0)


async def test_a_folder_is_no_command_whatever_its_name(tmp_path: Path) -> None:
    planted = tmp_path / "planted"
    one = a_child(sys.executable, "-c", "pass", f"$(touch {planted}); touch {planted}")
    await one.start(80, 24)
    await one.stop()
    assert not planted.exists()


async def test_asked_twice_at_once_it_is_ended_once_and_both_wait_for_it() -> None:
    one = a_child(sys.executable, "-c", "input()")
    await one.start(80, 24)
    await asyncio.gather(one.stop(), one.stop())
    assert one._process is not None
    assert one._process.returncode is not None


async def test_one_that_was_stopped_before_it_began_can_be_stopped_later() -> None:
    one = a_child(sys.executable, "-c", "input()")
    await one.stop()
    await one.start(80, 24)
    await one.stop()
    assert one._process is not None
    assert one._process.returncode is not None


def test_the_terminal_of_the_server_does_not_choose_the_glyphs(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("TERM", "linux")
    environment = a_child("never")._build_environment(80, 24)
    assert environment["TERM"] == "xterm-256color"
