"""Pages, downloads and the websocket of the dashboard, behind one door.

The library brings the terminal in the page and its exchange with a process; how people
get in, which page they see, what a process is and when it ends are our own.
"""

import asyncio
import contextlib
import errno
import html
import signal
import socket
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

from aiohttp import web
from aiohttp.typedefs import Handler, Middleware
from textual_serve.server import Server, to_int

from scheduler.errors import SchedulerError
from tui.web.child import Child, Page
from tui.web.door import HOST, TOKEN, Asked, Door, security_headers
from tui.web.downloads import CutShortError, WholeDownloads, attachment

OWN = Path(str(files("tui.web")))
LARGEST_MESSAGE = 2**20  # a page sends keys and pasted text
PATIENCE_S = 5.0  # with a page that is just being opened when the server stops
LARGEST_SIDE = 500  # [characters]

REFUSED = """<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>lowquarter: not here</title></head>
<body><h1>This page was not opened</h1><p>{why}</p></body></html>
"""


class ServeError(SchedulerError):
    """A server that cannot be started; nothing was opened."""


def listening(port: int) -> socket.socket:
    """A socket that is bound to this machine alone.

    Raises
    ------
    ServeError
        If the port is taken or not ours to take.
    """
    bound = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if hasattr(signal, "SIGHUP"):  # elsewhere the option lets two listen at once
        bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        bound.bind((HOST, port))
        bound.listen()
    except OSError as problem:
        bound.close()
        taken = problem.errno in (errno.EADDRINUSE, errno.EACCES)
        what = (
            "is in use or not free to take" if taken else f"cannot be opened: {problem}"
        )
        raise ServeError(
            f"port {port} of {HOST} {what}",
            "name another with --port, or leave --port out for a free one",
        ) from problem
    return bound


class DashboardServer(Server):
    """Serves one folder's dashboard to one browser, one process a tab."""

    def __init__(self, command: Sequence[str], port: int, title: str) -> None:
        super().__init__(
            command[0], HOST, port, title, templates_path=OWN / "templates"
        )
        self.door = Door(port)
        self.public_url = self.door.address
        self.download_manager: WholeDownloads = WholeDownloads()
        self._command = tuple(command)
        self._children: set[Child] = set()

    async def on_startup(self, app: web.Application) -> None:
        """Say nothing: the command has printed the address."""

    async def on_shutdown(self, app: web.Application) -> None:
        """End every process; each closes its page."""
        del app  # ours is the only one
        # one that cannot be ended must not keep the others
        ends = (one.stop() for one in self._children)
        await asyncio.gather(*ends, return_exceptions=True)

    async def _make_app(self) -> web.Application:
        app = await super()._make_app()
        app.router.add_static("/own", OWN / "own")
        app.middlewares.append(self._guard())
        app.on_response_prepare.append(self._add_headers)
        return app

    async def _add_headers(self, _: web.Request, answer: web.StreamResponse) -> None:
        answer.headers.update(security_headers(self.door.address))
        answer.headers.popall("Server", None)

    def _guard(self) -> Middleware:
        @web.middleware
        async def guard(request: web.Request, handler: Handler) -> web.StreamResponse:
            asked = Asked(
                request.method,
                request.path,
                request.query.get(TOKEN),
                request.cookies.get(self.door.cookie_name),
                request.headers,
            )
            why = self.door.refusal(asked)
            if why is None and (key := self.door.key_for(asked)) is not None:
                return self._let_in(key)
            why = why or self.door.refusal_without_token(asked)
            if why is not None:
                text = REFUSED.format(why=html.escape(why))
                return web.Response(status=403, text=text, content_type="text/html")
            return await handler(request)

        return guard

    def _let_in(self, key: str) -> web.Response:
        """To the address without the token, which is good no longer."""
        answer = web.Response(status=303, headers={"Location": "/"})
        name = self.door.cookie_name
        answer.set_cookie(name, key, path="/", httponly=True, samesite="Strict")
        return answer

    async def handle_download(self, request: web.Request) -> web.StreamResponse:
        """Send a file that the dashboard delivers; always as one to be saved."""
        key = request.match_info["key"]
        try:
            about = await self.download_manager.get_download_metadata(key)
            whole = await self.download_manager.whole(key)
        except KeyError:
            raise web.HTTPNotFound(text="This file was taken away already.") from None
        except CutShortError:
            said = "The file came only in part and was dropped; ask for it once more."
            raise web.HTTPBadGateway(text=said) from None
        kind = about.mime_type or "application/octet-stream"
        charset = f"; charset={about.encoding}" if about.encoding else ""
        headers = {
            "Content-Type": kind + charset,
            "Content-Disposition": attachment(about.file_name),
        }
        return web.Response(body=whole, headers=headers)

    async def handle_websocket(self, request: web.Request) -> web.WebSocketResponse:
        """Run a process for a tab, for as long as the tab is there."""
        page = web.WebSocketResponse(heartbeat=15, max_msg_size=LARGEST_MESSAGE)
        await page.prepare(request)
        ends = Page(page.send_bytes, page.send_str, page.close)
        child = Child(self._command, ends, self.download_manager)
        self._children.add(child)
        try:
            width, height = (
                min(max(to_int(request.query.get(side, ""), usual), 1), LARGEST_SIDE)
                for side, usual in (("width", 80), ("height", 24))
            )
            await child.start(width, height)
            # what is no message of the page closes it
            with contextlib.suppress(
                ValueError, LookupError, TypeError, AttributeError, AssertionError
            ):
                await self._process_messages(page, child)
        finally:
            await child.stop()
            self._children.discard(child)
        return page

    async def run(self, bound: socket.socket) -> None:
        """Answer on a socket until told to stop; then no process remains."""
        stop = asyncio.Event()
        loop = asyncio.get_running_loop()
        for name in ("SIGINT", "SIGTERM", "SIGHUP"):
            # where a loop takes no signals, Ctrl+C cancels us instead
            with contextlib.suppress(AttributeError, NotImplementedError):
                loop.add_signal_handler(getattr(signal, name), stop.set)
        runner = web.AppRunner(
            await self._make_app(), access_log=None, shutdown_timeout=PATIENCE_S
        )
        await runner.setup()
        try:
            await web.SockSite(runner, bound).start()
            await stop.wait()
        finally:
            await runner.cleanup()
