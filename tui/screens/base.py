"""What every screen shares: it follows the session and the width of the terminal."""

from typing import TYPE_CHECKING, TypeVar, cast

from textual.app import ComposeResult
from textual.screen import Screen

from tui.screens.wording import week_text
from tui.session import Session
from tui.widgets.bars import TopBar, WhatIfLine
from tui.widgets.key_line import KeyLine
from tui.widgets.path_line import PathLine

if TYPE_CHECKING:
    from tui.app import Dashboard

Result = TypeVar("Result")
WIDE = 110  # from this many columns on, things stand side by side


class SessionScreen(Screen[Result]):
    """A screen that shows one session and follows when it changes."""

    @property
    def dashboard(self) -> "Dashboard":
        """The app, by its own type."""
        return cast("Dashboard", self.app)

    @property
    def is_narrow(self) -> bool:
        """Whether there is room for one picture only."""
        return self.app.size.width < WIDE

    def compose(self) -> ComposeResult:
        yield TopBar()
        yield PathLine()
        yield from self.body()
        yield WhatIfLine("", markup=False)
        yield KeyLine(show_command_palette=False)

    def body(self) -> ComposeResult:
        """Compose what stands between the top line and the footer."""
        raise NotImplementedError

    def show(self, session: Session) -> None:
        """Show a session."""
        raise NotImplementedError

    def on_mount(self) -> None:
        self.set_class(self.is_narrow, "narrow")
        self.watch(self.app, "session", self._follow)
        self.watch(self.app, "busy", self._say_busy, init=False)

    def on_resize(self) -> None:
        self.query_one(KeyLine).compact = self.app.size.width < WIDE
        self.set_class(self.is_narrow, "narrow")
        self._follow(self.dashboard.session)

    def _follow(self, session: Session | None) -> None:
        self._say_busy()
        if session is None:
            return
        self.query_one(WhatIfLine).show(
            tuple(one.text(session.units) for one in session.what_ifs)
        )
        self.show(session)

    def _say_busy(self) -> None:
        session, busy = self.dashboard.session, self.dashboard.busy
        bar = self.query_one(TopBar)
        if session is None or session.site is None:
            bar.show(str(self.dashboard.folder), busy)
            return
        week = ""
        if session.plan is not None:
            week = week_text(session.plan, roomy=not self.is_narrow)
        face = "US units" if session.units == "us" else "metric"
        unsaved = "  ● not saved" if self.dashboard.is_unsaved else ""
        bar.show(f"{session.site.name}{unsaved}", f"{busy or week}  {face}")
