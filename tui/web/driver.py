"""What a tab's process speaks through: it ends when its server is no longer there.

A server that is killed outright can end nothing itself. Its end of the pipe closes
with it, on every platform, and that is what the process goes by.
"""

import os
import threading

from textual.drivers.web_driver import WebDriver
from textual.events import AppFocus
from textual.messages import ExitApp

LONGEST_END_S = 5.0


class EndingDriver(WebDriver):
    """The web driver, which also leaves at the end of its input."""

    def start_application_mode(self) -> None:
        """Begin as one that has the keys: its page was opened just now."""
        super().start_application_mode()
        # the library begins without, even if the page has told by then that it has them
        self._app.call_later(self._app.post_message, AppFocus())

    def run_input_thread(self) -> None:
        """Read until the input ends; then nobody can drive the dashboard any more."""
        super().run_input_thread()
        if self.exit_event.is_set():
            return
        self._app.post_message(ExitApp())
        # a calculation that runs on would keep the process
        last = threading.Timer(LONGEST_END_S, os._exit, (1,))
        last.daemon = True
        last.start()
