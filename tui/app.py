"""The dashboard: paints first, then reads the site and recomputes beside the screen.

The session is the only thing that changes. An edit is numbered and computed in a
thread; an answer whose number is not the last is dropped, since a thread that was
overtaken still finishes.
"""

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.app import SystemCommand
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import Screen
from textual.worker import Worker, WorkerState, get_current_worker

from scheduler.errors import SchedulerError
from scheduler.units import System
from tui import draft_journal, explained, given_state
from tui import session as state
from tui.beside import beside, settle, tidy
from tui.editing import Editing
from tui.pages import page_of
from tui.palette import key_commands, page_commands
from tui.reader import Reader
from tui.screens.base import SessionScreen
from tui.screens.doors import Doors
from tui.screens.explain import ExplainScreen
from tui.screens.findings import FindingsScreen
from tui.screens.help import HelpScreen
from tui.screens.keep import KeepScreen
from tui.screens.zones import ZonesScreen
from tui.session import Edit, Session
from tui.way import Way
from tui.what_if import What, dial, turned

if TYPE_CHECKING:
    from scheduler.field.evaluation import TestEvaluation

# pages about one zone, which the name of a file then says
OF_A_ZONE = {"field", "need", "proof", "season", "tests", "zone"}


class Dashboard(Way, Editing, Reader):
    """One site folder on the screen."""

    TITLE = "lowquarter"
    CSS_PATH = "app.tcss"
    MODES: ClassVar = {"zones": ZonesScreen, "findings": FindingsScreen}
    DEFAULT_MODE = "zones"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f,f3", "findings", "Findings", key_display="f"),
        Binding("f2", "zones", "Zones", show=False),
        Binding("u", "units", "Units"),
        Binding("T", "what_ifs", "Keep or drop", show=False),
        Binding("ctrl+r", "read_again", "Read again", show=False),
        Binding("question_mark,f1", "help", "Help", key_display="?"),
        Binding("q", "leave_all", "Quit"),
    ]

    class Opened(Message):
        """The folder was read and its week planned."""

        def __init__(self, session: Session, number: int, unsaved: str) -> None:
            super().__init__()
            self.session, self.number, self.unsaved = session, number, unsaved

    class SessionReady(Message):
        """A session with other edits was computed."""

        def __init__(self, session: Session, number: int) -> None:
            super().__init__()
            self.session, self.number = session, number

    class RangesReady(Message):
        """Every test was worked up with its ranges."""

        def __init__(
            self, tests: "tuple[TestEvaluation, ...] | None", opening: Session
        ) -> None:
            super().__init__()
            self.tests, self.opening = tests, opening

    class Refused(Message):
        """An edit could not be computed; the old week stays."""

        def __init__(self, error: SchedulerError, number: int) -> None:
            super().__init__()
            self.error, self.number = error, number

    def __init__(
        self,
        folder: Path,
        *,
        units: System | None = None,
        face: str | None = None,
        in_words: bool = False,
        is_ahead: bool = False,
    ) -> None:
        super().__init__(folder)
        self.is_ahead = is_ahead  # pages are made before they are asked for
        self.look(face, in_words=in_words)
        self._units_asked = units
        self._number = 0  # of the last thing asked for
        self._reading = -1  # number of the reading that is awaited

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        yield from super().get_system_commands(screen)
        yield from page_commands(self, screen)
        yield from key_commands(self, screen)
        yield SystemCommand("Units", "US or metric", self.action_units)
        yield SystemCommand("Undo", "Undo the last step", self.action_undo)
        yield SystemCommand("Redo", "Redo the step undone", self.action_redo)
        yield SystemCommand("Save", "Save edited files", self.action_save_given)
        yield SystemCommand("Keep or drop", "What is tried", self.action_what_ifs)
        yield SystemCommand("Read again", "Read the folder", self.action_read_again)
        about = "Work up no more ranges of the tests"
        yield SystemCommand("Leave the ranges", about, self.leave_ranges)

    def on_mount(self) -> None:
        self.busy = "reading the site …"
        self.call_after_refresh(self.action_read_again)

    # the screens are told, they do not watch: what watches the app stays in memory
    # after it is left
    def watch_session(self) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, SessionScreen):
                screen.follow()
        self.let_go_session()

    def watch_busy(self) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, SessionScreen):
                screen.say_busy()

    def watch_steps(self) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, SessionScreen):
                screen.step_made()

    def watch_in_words(self, is_asked: bool) -> None:
        for screen in self.screen_stack:
            if isinstance(screen, Doors):
                screen.say_in_words(is_asked)

    # --- what is asked for --------------------------------------------------
    def action_read_again(self) -> None:
        """Read the folder anew; what is tried or not saved stays."""
        self.read_after_save()

    def read_after_save(self) -> None:
        """Read the folder again and plan anew; what-ifs stay."""
        self._number += 1
        self._reading = self._number
        self.busy = "reading the site …"
        self._open(self._number, self._edits, self.session)

    def turn(self, zone_id: str, what: What, by: int) -> None:
        """Turn one dial of a zone a step up or down, from where it was last put."""
        session = self.session
        if session is None:
            return
        plan = state.own_zone_plan(session, zone_id)
        if dial(plan, self._edits, zone_id, what) is None:
            self.notify(f"{zone_id} has no {what} to try", severity="warning")
        elif edit := turned(plan, self._edits, zone_id, what, by):
            self.request_edit(edit)

    def action_units(self) -> None:
        if self.session is not None:
            other = "metric" if self.session.units == "us" else "us"
            self.request_edit(Edit("units", other))

    def compute(self) -> None:
        """Compute the session with the edits that are asked for."""
        if self.session is None:
            return
        if self._reading == self._number:
            self.read_after_save()  # else what is read would never be shown
            return
        self._number += 1
        self.busy = "planning …"
        self._recompute(self.session, self._edits, self._number)

    def leave_busy(self) -> None:
        """Drop the answer of what is being read or planned; what is shown stays."""
        self._number += 1
        self.busy = ""
        self.fall_back()
        again = "ctrl+y asks again, ctrl+r reads the folder"
        self.notify(f"Left. What is shown is as before; {again}.", severity="warning")

    def leave_ranges(self) -> None:
        """Work up no more ranges; those that are known stay."""
        self.workers.cancel_group(self, "ranges")

    def taken_of(self) -> tuple[str, str, str]:
        session = self.session
        if session is None or session.site is None:
            return (self.folder.name, "", "")
        screen = next((s for s in reversed(self.screen_stack) if not s.is_modal), None)
        named = getattr(screen, "zone_here", "") or getattr(screen, "zone_id", "")
        zone = named if page_of(type(screen)) in OF_A_ZONE else ""
        return (session.site.name, zone, str(session.today or ""))

    # --- beside the screen --------------------------------------------------
    @beside("recompute")
    def _open(self, number: int, edits: tuple[Edit, ...], old: Session | None) -> None:
        fresh = state.open_session(self.folder, self._units_asked)
        session = given_state.reopened_without_lost(old, fresh, edits)
        if old is None:
            self._keeper.look()
        settle()
        kept = draft_journal.kept_drafts(self.folder)
        said = draft_journal.unsaved_words(kept)
        self.post_message(self.Opened(session, number, said))

    @beside("recompute")
    def _recompute(
        self, session: Session, edits: tuple[Edit, ...], number: int
    ) -> None:
        try:
            done = state.with_edits(session, edits)
            tidy()
        except SchedulerError as error:
            self.post_message(self.Refused(error, number))
        else:
            self.post_message(self.SessionReady(done, number))

    @beside("ranges")
    def _rate_ranges(self, session: Session) -> None:
        for done in state.evaluated_step_by_step(session):
            if get_current_worker().is_cancelled:
                return
            self.post_message(self.RangesReady(done.evaluations, session))

    # --- what comes back ----------------------------------------------------
    def on_dashboard_opened(self, message: Opened) -> None:
        if message.number != self._number:
            return
        self._reading, self.busy = -1, ""
        if self.session is None and message.unsaved:
            self.notify(message.unsaved, markup=False)
        is_first = self.session is None
        self.say_lost(message.session)
        self._edits = message.session.edits
        self.session = message.session
        self.steps += 1
        if message.session.site is None:
            self.switch_mode("findings")
        else:
            self._rate_ranges(message.session)
        if is_first:
            self.offer_kept()
            if self.is_ahead:
                self.set_timer(1.0, self.prepare_pages)
        else:
            self.settle_differences()

    def on_dashboard_session_ready(self, message: SessionReady) -> None:
        if message.number != self._number or self.session is None:
            return  # a newer edit is on its way
        self.busy = ""
        before, done = self.session, message.session
        if before.site_folder is done.site_folder:
            # ranges may have come in while this was computed
            self.session = state.with_evaluations(done, before.evaluations)
        else:
            self.session = done
            self._rate_ranges(done)

    def on_dashboard_ranges_ready(self, message: RangesReady) -> None:
        session = self.session
        if session is None or session.site_folder is not message.opening.site_folder:
            return  # the folder was read again meanwhile
        self.session = state.with_evaluations(session, message.tests)

    def on_dashboard_refused(self, message: Refused) -> None:
        if message.number != self._number or self.session is None:
            return
        self.busy = ""
        self.fall_back()
        self.notify(
            f"{message.error}. The week is as before.",
            severity="error",
            markup=False,
        )

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        if event.state is not WorkerState.ERROR:
            return
        if event.worker.group == "recompute":
            self._reading, self.busy = -1, ""
            self.fall_back()
        self.notify(
            f"Not computed: {event.worker.error!r}. What is shown is as before.",
            severity="error",
            markup=False,
            timeout=30,
        )

    # --- where we are -------------------------------------------------------
    def action_what_ifs(self) -> None:
        """Show what is tried, to keep or drop it."""
        if self.session is None or not self.session.what_ifs:
            self.notify("Nothing is tried.")
        elif not isinstance(self.screen, KeepScreen):
            self.push_screen(KeepScreen(getattr(self.screen, "zone_here", "")))

    def action_given(self) -> None:
        """Show what the files say, from pages that have no doors as well."""
        self.open_page("given", getattr(self.screen, "zone_here", ""))

    def explain(self, zone_id: str) -> None:
        """Show where one zone's minutes came from."""
        session = self.session
        plan = state.zone_plan(session, zone_id) if session is not None else None
        if session is not None and plan is not None:
            title = f"{plan.zone.id}  {plan.zone.name}: from the cans to the minutes"
            own = state.own_zone_plan(session, zone_id) if session.what_ifs else None
            numbers = explained.of_zone(session, plan.zone.id)
            screen = ExplainScreen(
                title,
                plan.trace,
                session.units,
                numbers,
                before=own.trace if own is not None else None,
            )
            self.push_screen(screen)

    def action_help(self) -> None:
        self.push_screen(HelpScreen())

    async def action_leave_all(self) -> None:
        await self.action_quit()

    async def action_quit(self) -> None:
        if self.ask_before_quit():
            return
        self.leave()


def run_dashboard(
    folder: Path,
    *,
    units: str | None = None,
    face: str | None = None,
    in_words: bool = False,
) -> int:
    """Show a site folder until the user quits; the exit code for the shell."""
    system: System | None = None
    if units is not None:
        system = "us" if units == "us" else "metric"
    app = Dashboard(folder, units=system, face=face, in_words=in_words, is_ahead=True)
    app.run()
    return app.return_code or 0
