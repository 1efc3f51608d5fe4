"""What the tests of a served app share: a server of the small app, a way in."""

import asyncio
import contextlib
import os
import re
import sys
import time
from collections.abc import AsyncIterator
from pathlib import Path
from types import TracebackType

import aiohttp

from tui.web.server import DashboardServer, listening

SMALL_APP = str(Path(__file__).with_name("small_app.py"))
ESCAPES = re.compile(r"\x1b\[[0-9;?<>=$]*[A-Za-z]")


@contextlib.asynccontextmanager
async def server_of(mode: str = "app") -> AsyncIterator[DashboardServer]:
    """A server of the small app in this process."""
    bound = listening(0)
    command = (sys.executable, SMALL_APP, mode)
    server = DashboardServer(command, bound.getsockname()[1], "a small app")
    running = asyncio.create_task(server.run(bound))
    try:
        yield server
    finally:
        running.cancel()
        await asyncio.wait([running])


class Visitor:
    """Somebody with a client of their own, who may hold the key."""

    def __init__(self, address: str) -> None:
        # the jar of the client library holds no cookies of addresses in numbers
        jar = aiohttp.CookieJar(unsafe=True)
        self.session = aiohttp.ClientSession(cookie_jar=jar)
        self.address = address

    async def __aenter__(self) -> "Visitor":
        return self

    async def __aexit__(
        self,
        kind: type[BaseException] | None,
        problem: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        await self.session.close()

    async def status(self, path: str, **headers: str) -> int:
        """The status of an answer, redirects not followed."""
        async with self.session.get(
            self.address + path, headers=headers, allow_redirects=False
        ) as answer:
            return answer.status

    async def socket(
        self, origin: str | None = None
    ) -> aiohttp.ClientWebSocketResponse:
        """The websocket of the page."""
        return await self.session.ws_connect(
            f"{self.address}/ws?width=80&height=24", origin=origin or self.address
        )


@contextlib.asynccontextmanager
async def let_in(first_address: str) -> AsyncIterator[Visitor]:
    """Somebody who came by the first address and holds the key."""
    async with Visitor(first_address.partition("/?")[0]) as one:
        async with one.session.get(first_address) as answer:
            assert answer.status == 200
        yield one


async def process_of(socket: aiohttp.ClientWebSocketResponse) -> int:
    """The process that the small app says it is."""
    drawn = ""
    async for message in socket:
        if message.type is aiohttp.WSMsgType.BINARY:
            drawn += message.data.decode("utf-8", "replace")
            if found := re.search(r"process (\d+) runs", ESCAPES.sub("", drawn)):
                return int(found[1])
    raise AssertionError("the app said nothing")


async def told(socket: aiohttp.ClientWebSocketResponse, kind: str) -> str:
    """The next word of a kind that the server sends to the page."""
    async for message in socket:
        if message.type is aiohttp.WSMsgType.TEXT and message.json()[0] == kind:
            return str(message.json()[1])
    raise AssertionError("the page was closed")


async def is_gone(process: int, within_s: float = 60.0) -> bool:
    """Whether a process ends in time."""
    last = time.monotonic() + within_s
    while (there := _runs(process)) and time.monotonic() < last:
        await asyncio.sleep(0.05)
    return not there


def _runs(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    # one that ended but was not fetched by its new parent still has a number
    said = Path(f"/proc/{process}/stat")
    with contextlib.suppress(OSError):
        return said.read_text("utf-8").rpartition(")")[2].split()[0] != "Z"
    return not Path("/proc").is_dir()
