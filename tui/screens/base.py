"""What every screen shares: it follows the session and the width of the terminal."""

from typing import TYPE_CHECKING, TypeVar, cast

from textual.app import ComposeResult
from textual.geometry import Size

from tui.painting import Painted
from tui.screens.wording import week_text
from tui.session import Session
from tui.tried import Effect, named, told, whole_effects
from tui.widgets.bars import TopBar
from tui.widgets.key_line import KeyLine
from tui.widgets.path_line import PathLine
from tui.widgets.what_if_line import WhatIfLine
from tui.widgets.work_line import WorkLine

if TYPE_CHECKING:
    from tui.app import Dashboard

Result = TypeVar("Result")
WIDE = 110  # from this many columns on, things stand side by side


class SessionScreen(Painted[Result]):
    """A screen that shows one session and follows when it changes."""

    # what it showed last: it is written anew only for another session or size
    _face: "tuple[Session, Size] | None" = None
    _is_laid_out = False

    @property
    def dashboard(self) -> "Dashboard":
        """The app, by its own type."""
        return cast("Dashboard", self.app)

    @property
    def is_narrow(self) -> bool:
        """Whether there is room for one picture only."""
        return self.app.size.width < WIDE

    @property
    def is_seen(self) -> bool:
        """Whether it is on top, or a question stands before it."""
        return self.is_current or self.app.screen.is_modal

    def compose(self) -> ComposeResult:
        yield TopBar()
        yield PathLine()
        yield from self.body()
        yield WorkLine()
        yield WhatIfLine()
        is_compact = self.app.size.width < WIDE
        yield KeyLine(compact=is_compact)

    def body(self) -> ComposeResult:
        """Compose what stands between the top line and the footer."""
        raise NotImplementedError

    def show(self, session: Session) -> None:
        """Show a session."""
        raise NotImplementedError

    def on_mount(self) -> None:
        self.set_class(self.is_narrow, "narrow")
        self._is_laid_out = True
        self.follow()

    def on_screen_resume(self) -> None:
        self.follow()

    def on_resize(self) -> None:
        self.query_one(KeyLine).compact = self.app.size.width < WIDE
        self.set_class(self.is_narrow, "narrow")
        self.refresh_bindings()  # some keys are offered where one picture is shown
        self.follow()

    def follow(self) -> None:
        """Show the session that the dashboard holds now, and what it is busy with."""
        if not self._is_laid_out:
            return
        self.say_busy()
        session = self.dashboard.session
        if session is None or not self.is_current:
            return  # a screen that is not seen looks when it comes back
        size, last = self.app.size, self._face
        if last is not None and last[0] is session and last[1] == size:
            return
        self._face = (session, size)
        self.show(session)
        self.say_what_if(session)

    def forget(self) -> None:
        """Show whatever session there is when it comes back, and hold none."""
        self._face = None

    def effects(self, session: Session) -> tuple[Effect, ...] | None:
        """Main numbers of the page, before and after; None until worked out."""
        return whole_effects(session)

    def say_what_if(self, session: Session) -> None:
        """Write the line of what is tried and what it does on this page."""
        tried = named(session)
        does = told(self.effects(session)) if tried else ()
        self.query_one(WhatIfLine).show(tried, does, self.app.size.width)

    def say_busy(self) -> None:
        """Say on the top line where we are, when, and what is worked on."""
        if not self._is_laid_out or not self.is_seen:
            return  # said when it comes back
        session, busy = self.dashboard.session, self.dashboard.busy
        self._say_work(busy, is_of_before=session is not None)
        bar = self.query_one(TopBar)
        if session is None or session.site is None:
            bar.show(str(self.dashboard.folder), busy)
            return
        week = ""
        if session.plan is not None:
            week = week_text(session.plan, roomy=not self.is_narrow)
        face = "US units" if session.units == "us" else "metric"
        # in front: a long name is cut at its end
        unsaved = "● not saved  " if self.dashboard.is_unsaved else ""
        bar.show(f"{unsaved}{session.site.name}", f"{busy or week}  {face}")

    def _say_work(self, busy: str, *, is_of_before: bool) -> None:
        """Say what the app works out, once it takes long; escape leaves it."""
        line = self.query_one(WorkLine)
        line.is_still = self.dashboard.in_words
        if busy:
            leave = self.dashboard.leave_busy
            line.begin("app", busy, leave, is_of_before=is_of_before)
        else:
            line.end("app")

    def step_made(self) -> None:
        """Look at the steps of edits again; few screens show them."""
