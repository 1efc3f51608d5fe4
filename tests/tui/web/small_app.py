"""A small app to serve: it says its process, delivers files, or will not end.

python small_app.py app        the app
python small_app.py stubborn   the app, in a process that would run on for ever
python small_app.py deaf       the same, without the end that the driver sets
python small_app.py serve      a server of the app; prints its first address
"""

import asyncio
import io
import os
import signal
import sys
import threading
from collections.abc import Callable
from functools import partial
from typing import ClassVar

from textual.app import App, ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import Static

LONG_TEXT = "catch,mL\n" + "\n".join(f"can {n},{n % 90}" for n in range(20_000))


class SmallApp(App[None]):
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("t", "text"),
        Binding("b", "binary"),
        Binding("x", "break"),
    ]

    def compose(self) -> ComposeResult:
        yield Static(f"process {os.getpid()} runs")

    def on_app_focus(self) -> None:
        self.query_one(Static).update(f"process {os.getpid()} runs, and has the keys")

    def on_app_blur(self) -> None:
        self.query_one(Static).update(f"process {os.getpid()} runs")

    def action_text(self) -> None:
        self.deliver_text(
            io.StringIO(LONG_TEXT),
            save_filename='zählung "a".csv',
            mime_type="text/csv",
        )

    def action_binary(self) -> None:
        self.deliver_binary(io.BytesIO(bytes(range(256))), save_filename="all.bin")

    def action_break(self) -> None:
        os._exit(1)


def _run_on(longest_end_s: float) -> None:
    """Run on after the app has left, deaf to being told to end."""
    from tui.web import driver

    driver.LONGEST_END_S = longest_end_s
    SmallApp().run()
    signal.signal(signal.SIGTERM, signal.SIG_IGN)
    threading.Event().wait()


def _serve() -> None:
    from tui.web.server import DashboardServer, listening

    bound = listening(0)
    command = (sys.executable, __file__, "app")
    server = DashboardServer(command, bound.getsockname()[1], "a small app")
    print(server.door.first_address, flush=True)
    asyncio.run(server.run(bound))


MODES: dict[str, Callable[[], object]] = {
    "app": lambda: SmallApp().run(),
    "stubborn": partial(_run_on, 0.3),
    "deaf": partial(_run_on, 600.0),
    "serve": _serve,
}

if __name__ == "__main__":
    MODES[sys.argv[1]]()
