"""One tab's own process: started with its websocket, ended with it and the server."""

import asyncio
import contextlib
import os
import signal
from asyncio.subprocess import PIPE, Process
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass

from textual_serve.app_service import AppService
from textual_serve.download_manager import DownloadManager

DRIVER = "tui.web.driver:EndingDriver"
GRACE_S = 3.0  # to leave when asked; then to leave when told
LAST_S = 1.0


@dataclass(frozen=True, slots=True)
class Page:
    """Where a process writes to: the three ends of a websocket."""

    write_bytes: Callable[[bytes], Awaitable[None]]
    write_str: Callable[[str], Awaitable[None]]
    close: Callable[[], Awaitable[object]]


class Child(AppService):
    """The process of one tab."""

    def __init__(
        self, command: Sequence[str], page: Page, downloads: DownloadManager
    ) -> None:
        async def close() -> None:
            await page.close()

        super().__init__(
            command[0],
            write_bytes=page.write_bytes,
            write_str=page.write_str,
            close=close,
            download_manager=downloads,
        )
        self._arguments = tuple(command)
        self._ending: asyncio.Task[None] | None = None

    def _build_environment(self, width: int = 80, height: int = 24) -> dict[str, str]:
        environment = super()._build_environment(width, height)
        # a browser draws every glyph, whatever the terminal of the server can do
        return {
            **environment,
            "TEXTUAL_DRIVER": DRIVER,
            "TERM": "xterm-256color",
            "PYTHONUTF8": "1",
        }

    async def _open_app_process(self, width: int = 80, height: int = 24) -> Process:
        # no shell: a folder's name is no command; a session of its own: Ctrl+C in the
        # terminal is for the server, which ends its children in order
        process = await asyncio.create_subprocess_exec(
            *self._arguments,
            stdin=PIPE,
            stdout=PIPE,
            stderr=PIPE,
            env=self._build_environment(width, height),
            start_new_session=True,
        )
        self._process, self._stdin = process, process.stdin
        return process

    async def run(self) -> None:
        """Pass on what the process draws; when it ends, its page hears of it."""
        await super().run()
        await self.remote_close()

    async def stop(self) -> None:
        """End the process; asked for twice, it is ended once."""
        if self._process is None:
            return  # not started yet: whoever starts it also ends it
        if self._ending is None:
            self._ending = asyncio.create_task(self._end())
        await asyncio.shield(self._ending)

    async def _end(self) -> None:
        process = self._process
        assert process is not None, "stop has looked"
        await self._download_manager.cancel_app_downloads(self.app_service_id)
        with contextlib.suppress(TimeoutError, ConnectionError, BrokenPipeError):
            await asyncio.wait_for(self.send_meta({"type": "quit"}), LAST_S)
        self.stdin.close()
        steps = ((GRACE_S, process.terminate), (GRACE_S, lambda: _kill(process)))
        for patience_s, next_step in steps:
            if await _ended(process, patience_s):
                break
            with contextlib.suppress(ProcessLookupError):
                next_step()
        await _ended(process, LAST_S)
        if self._task is not None:
            await asyncio.wait([self._task], timeout=LAST_S)
            self._task.cancel()
        await self.remote_close()


async def _ended(process: Process, patience_s: float) -> bool:
    with contextlib.suppress(TimeoutError):
        await asyncio.wait_for(process.wait(), patience_s)
    return process.returncode is not None


def _kill(process: Process) -> None:
    """End a process and whatever it started, at once."""
    if hasattr(os, "killpg"):
        os.killpg(process.pid, signal.SIGKILL)
    else:
        process.kill()
