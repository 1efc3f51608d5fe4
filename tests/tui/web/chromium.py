"""Chromium without a window, driven over its own debugging socket."""

import asyncio
import base64
import contextlib
import json
import re
import shutil
import time
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import aiohttp

PROGRAM = next(
    (
        found
        for name in ("chromium", "chromium-browser", "google-chrome", "chrome")
        if (found := shutil.which(name))
    ),
    None,
)
FLAGS = (
    "--headless=new",
    "--no-sandbox",
    "--no-first-run",
    "--disable-gpu",
    "--enable-unsafe-swiftshader",  # the terminal in the page draws by WebGL
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    # whatever asks for a name gets none, should a page want something from outside
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
    "--remote-debugging-port=0",
)
ESCAPES = re.compile(r"\x1b\[[0-9;?<>=$]*[A-Za-z]|\x1b\][^\x07]*\x07|\x1b.")


class Tab:
    """One tab: what it asked for, what it was sent, what it complained of."""

    def __init__(self, socket: aiohttp.ClientWebSocketResponse, folder: Path) -> None:
        self._socket = socket
        self._number = 0
        self._answers: dict[int, asyncio.Future[dict[str, Any]]] = {}
        self.asked_for: list[str] = []
        self.said: list[str] = []
        self.complaints: list[str] = []
        self._names: dict[str, str] = {}
        self._whole: list[str] = []
        self._folder = folder
        self._received = ""
        self._reader = asyncio.create_task(self._read())

    async def do(self, method: str, **values: object) -> dict[str, Any]:
        """Give one order and wait for its answer."""
        self._number += 1
        number = self._number
        self._answers[number] = asyncio.get_running_loop().create_future()
        await self._socket.send_json({"id": number, "method": method, "params": values})
        return await asyncio.wait_for(self._answers[number], 30)

    async def _read(self) -> None:
        async for message in self._socket:
            event = json.loads(message.data)
            if (number := event.get("id")) is not None:
                self._answers.pop(number).set_result(event)
            else:
                self._hear(event["method"], event["params"])

    def _hear(self, method: str, about: dict[str, Any]) -> None:
        domain, _, event = method.partition(".")
        if domain == "Network":
            self._hear_of_network(event, about)
        elif method == "Log.entryAdded" and about["entry"]["level"] == "error":
            self.complaints.append(about["entry"]["text"])
        elif method == "Runtime.exceptionThrown":
            self.complaints.append(about["exceptionDetails"]["text"])
        elif method == "Browser.downloadWillBegin":
            self._names[about["guid"]] = about["suggestedFilename"]
        elif method == "Browser.downloadProgress" and about["state"] == "completed":
            self._whole.append(self._names[about["guid"]])

    def _hear_of_network(self, event: str, about: dict[str, Any]) -> None:
        if event == "requestWillBeSent":
            self.asked_for.append(about["request"]["url"])
        elif event == "webSocketCreated":
            self.asked_for.append(about["url"])
        elif event == "webSocketFrameSent":
            self.said.append(about["response"]["payloadData"])
        elif event == "webSocketFrameReceived" and about["response"]["opcode"] == 2:
            payload = base64.b64decode(about["response"]["payloadData"])
            self._received += payload.decode("utf-8", "replace")

    @property
    def text(self) -> str:
        """Everything that the tab was sent to draw, without colours."""
        return ESCAPES.sub("", self._received)

    def forget(self) -> None:
        """Begin anew with what is drawn from here."""
        self._received = ""

    async def drawn(self, word: str, within_s: float = 40.0) -> bool:
        """Whether a word is drawn in time."""
        last = time.monotonic() + within_s
        while word not in self.text and time.monotonic() < last:
            await asyncio.sleep(0.05)
        return word in self.text

    async def press(self, key: str, *, code: int = 0, ctrl: bool = False) -> None:
        """Press and let go of a key."""
        text = {} if ctrl or len(key) > 1 else {"text": key}
        if key == "Enter":
            text = {"text": "\r"}
        about = {
            "key": key,
            "windowsVirtualKeyCode": code or ord(key[0].upper()),
            "modifiers": 2 if ctrl else 0,
        }
        await self.do("Input.dispatchKeyEvent", type="keyDown", **about, **text)
        await self.do("Input.dispatchKeyEvent", type="keyUp", **about)

    async def picture(self) -> bytes:
        """What the tab looks like, as PNG."""
        answer = await self.do("Page.captureScreenshot", format="png")
        return base64.b64decode(answer["result"]["data"])

    async def changed_from(self, before: bytes, within_s: float = 20.0) -> bool:
        """Whether the tab comes to look other than it did."""
        last = time.monotonic() + within_s
        while (same := await self.picture() == before) and time.monotonic() < last:
            await asyncio.sleep(0.1)
        return not same

    async def settled(self) -> None:
        """Wait until two pictures are the same: all that was sent is drawn."""
        while await self.changed_from(await self.picture(), within_s=0.3):
            pass

    async def taken(self, within_s: float = 20.0) -> bytes:
        """The first file that was downloaded, when it is whole."""
        last = time.monotonic() + within_s
        while not self._whole and time.monotonic() < last:
            await asyncio.sleep(0.05)
        return (self._folder / self._whole[0]).read_bytes()

    async def value(self, expression: str) -> Any:
        """What an expression is worth in the page."""
        answer = await self.do(
            "Runtime.evaluate", expression=expression, returnByValue=True
        )
        return answer["result"]["result"].get("value")


@contextlib.asynccontextmanager
async def tab(own: Path, width: int = 1280, height: int = 800) -> AsyncIterator[Tab]:
    """A browser with one empty tab; both are gone afterwards."""
    assert PROGRAM is not None
    browser = await asyncio.create_subprocess_exec(
        PROGRAM,
        *FLAGS,
        f"--user-data-dir={own / 'profile'}",
        f"--window-size={width},{height}",
        "about:blank",
        stdout=asyncio.subprocess.DEVNULL,
        stderr=asyncio.subprocess.DEVNULL,
    )
    try:
        port = await _port(own / "profile" / "DevToolsActivePort")
        async with aiohttp.ClientSession(f"http://127.0.0.1:{port}") as session:
            async with session.get("/json/list") as answer:
                page = next(p for p in await answer.json() if p["type"] == "page")
            async with session.ws_connect(
                page["webSocketDebuggerUrl"], max_msg_size=0
            ) as socket:
                one = Tab(socket, own / "taken")
                for domain in ("Network", "Page", "Runtime", "Log"):
                    await one.do(f"{domain}.enable")
                await one.do("Emulation.setFocusEmulationEnabled", enabled=True)
                await one.do(
                    "Browser.setDownloadBehavior",
                    behavior="allow",
                    downloadPath=str(own / "taken"),
                    eventsEnabled=True,
                )
                yield one
                await one.do("Browser.close")
    finally:
        with contextlib.suppress(TimeoutError):
            await asyncio.wait_for(browser.wait(), 10)
        if browser.returncode is None:
            browser.kill()
            await browser.wait()


async def _port(said_in: Path) -> int:
    for _ in range(600):
        if said_in.is_file() and (lines := said_in.read_text("utf-8").splitlines()):
            return int(lines[0])
        await asyncio.sleep(0.05)
    raise AssertionError("the browser did not start within 30 s")
