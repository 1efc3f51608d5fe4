"""A run while it is typed: worked up after each entry, kept, and saved.

Numbers without ranges come at once; ranges follow from a thread, numbered, and one
that comes late is dropped. What is typed is kept in a journal until it is saved.
"""

from dataclasses import replace
from typing import TYPE_CHECKING

from textual.message import Message
from textual.timer import Timer
from textual.worker import Worker, WorkerState

from scheduler.errors import SaveError
from tui import draft as drafts
from tui import draft_files, draft_journal
from tui.beside import beside
from tui.draft import Draft
from tui.draft_journal import Journal
from tui.screens.base import SessionScreen
from tui.session import Session

if TYPE_CHECKING:
    from scheduler.field.evaluation import TestEvaluation

PAUSE_S = 0.15  # of typing, before ranges are asked for


class LiveRunScreen(SessionScreen[str]):
    """Holds one draft; subclasses paint it and change it."""

    class RangesReady(Message):
        """The run was worked up with its ranges."""

        def __init__(self, test: "TestEvaluation", number: int) -> None:
            super().__init__()
            self.test, self.number = test, number

    class Saved(Message):
        """The run is on disk."""

        def __init__(self, draft: Draft) -> None:
            super().__init__()
            self.draft = draft

    class NotSaved(Message):
        """The run could not be saved; what was typed is still here."""

        def __init__(self, error: SaveError) -> None:
            super().__init__()
            self.error = error

    class NotKept(Message):
        """The journal could not be written."""

        def __init__(self, error: SaveError) -> None:
            super().__init__()
            self.error = error

    def __init__(self, draft: Draft, journal: Journal) -> None:
        super().__init__()
        self.draft = draft
        self.journal = journal
        self.result: TestEvaluation | None = None
        self._number = 0  # of the last change worked up
        self._pause: Timer | None = None
        self._is_saving = False
        self._then = ""  # what a save is followed by: leave or quit
        self._is_kept_said = False

    def paint(self) -> None:
        """Paint the draft and its result."""
        raise NotImplementedError

    def gone(self, then: str) -> None:
        """Leave this page, or the dashboard."""
        raise NotImplementedError

    # --- worked up -----------------------------------------------------------
    def take(self, draft: Draft) -> None:
        """Go on with another draft; one with other entries is worked up and kept."""
        is_other, self.draft = draft.now != self.draft.now, draft
        if is_other:
            self.work_up()
            self._write_journal(self.journal, self.draft)
        self.paint()

    def work_up(self) -> None:
        """Work the draft up without ranges, and ask for them after a pause."""
        session = self.dashboard.session
        if session is None:
            return
        self._number += 1
        self.result = drafts.worked_up(self.draft, session, with_ranges=False)
        if self._pause is not None:
            self._pause.stop()
        self._pause = self.set_timer(PAUSE_S, self._ask_ranges)

    def _ask_ranges(self) -> None:
        if self.dashboard.session is not None:
            self._ranges(self.draft, self.dashboard.session, self._number)

    @beside("ranges")
    def _ranges(self, draft: Draft, session: Session, number: int) -> None:
        test = drafts.worked_up(draft, session, with_ranges=True)
        self.post_message(self.RangesReady(test, number))

    def on_live_run_screen_ranges_ready(self, message: RangesReady) -> None:
        if message.number == self._number:  # else something was typed meanwhile
            self.result = message.test
            self.paint()

    # --- kept against a crash ------------------------------------------------
    @beside("journal", exclusive=False)
    def _write_journal(self, journal: Journal, draft: Draft) -> None:
        try:
            journal.keep(draft)
        except SaveError as error:
            self.post_message(self.NotKept(error))

    def on_unmount(self) -> None:
        self.journal.let_go()  # to whoever opens the folder next

    def on_live_run_screen_not_kept(self, message: NotKept) -> None:
        if not self._is_kept_said:
            self._is_kept_said = True
            self._complain(f"Not kept against a crash: {message.error}.")

    # --- saved ---------------------------------------------------------------
    def save(self) -> None:
        """Save the draft, unless there is nothing to save."""
        if self._is_saving:
            return
        if not self.draft.is_changed:
            self.notify("Nothing is typed that is not saved.")
            self._follow_save()
            return
        self._is_saving = True
        self._save(self.draft)

    @beside("save", exclusive=False)
    def _save(self, draft: Draft) -> None:
        try:
            done = draft_files.saved_draft(self.dashboard.folder, draft)
        except SaveError as error:
            self.post_message(self.NotSaved(error))
        else:
            self.post_message(self.Saved(done))

    def on_live_run_screen_saved(self, message: Saved) -> None:
        self._is_saving = False
        done = message.draft
        self.draft = replace(
            self.draft,
            test=done.test,
            file=done.file,
            digests=done.digests,
            saved=done.saved,
        )
        self.journal.close()
        self.journal = draft_journal.journal_of(self.dashboard.folder, self.draft)
        if self.draft.is_changed:  # something was typed while it was saved
            self._write_journal(self.journal, self.draft)
        self.notify(f"Saved in tests/{done.test}, {done.file}.", timeout=3)
        self.dashboard.read_after_save()
        self.paint()
        self._follow_save()

    def _follow_save(self) -> None:
        then, self._then = self._then, ""
        if then and not self.draft.is_changed:
            self.gone(then)

    def on_live_run_screen_not_saved(self, message: NotSaved) -> None:
        self._is_saving, self._then = False, ""
        self._complain(f"Not saved: {message.error}.")

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        if event.state is WorkerState.ERROR:
            self._is_saving, self._then = False, ""
            self._complain(f"Not done: {event.worker.error!r}.")

    def _complain(self, what: str) -> None:
        text = f"{what} What you typed is still here."
        self.notify(text, severity="error", markup=False, timeout=12)
