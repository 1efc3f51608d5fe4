"""Typing a run in: a grid as the cans stood, and the result alive beside it.

Every entry is worked up at once without ranges; ranges follow from a thread, numbered,
and one that comes late is dropped. What is typed is kept in a journal until it is
saved.
"""

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.message import Message
from textual.timer import Timer
from textual.widgets import Static
from textual.worker import Worker, WorkerState

from scheduler.errors import SaveError
from tui import draft as drafts
from tui import draft_files
from tui.draft import Draft, Setup
from tui.draft_files import Journal
from tui.screens import entry_words, wording
from tui.screens.ask import AskScreen
from tui.screens.base import SessionScreen
from tui.screens.run_form import RunFormScreen
from tui.session import Session, zone_plan
from tui.setup_text import setup_texts
from tui.widgets.bars import Prompt
from tui.widgets.can_grid import CanGrid

if TYPE_CHECKING:
    from scheduler.field.evaluation import TestEvaluation

TYPED = frozenset("0123456789.,/½¼¾⅛⅜⅝⅞⅓⅔-")
CODES = frozenset("klo")
PAUSE_S = 0.15  # of typing, before ranges are asked for
HINT = "type a reading, then enter; - none  k knocked  l leaf  o overflow"
WHY = "why is it left out? such as: knocked over by a cart"


class CanEntryScreen(SessionScreen[None]):
    """One run of one test while it is typed."""

    CSS_PATH = "can_entry.tcss"
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "save", "Save", key_display="^s"),
        Binding("enter,tab", "step(1)", "Next can", key_display="enter"),
        Binding("shift+tab", "step(-1)", show=False),
        Binding("up", "move(-1, 0)", show=False),
        Binding("down", "move(1, 0)", show=False),
        Binding("left", "move(0, -1)", show=False),
        Binding("right", "move(0, 1)", show=False),
        Binding("home", "move(0, -99)", show=False),
        Binding("end", "move(0, 99)", show=False),
        Binding("x", "leave_out", "Leave out"),
        Binding("ctrl+z", "undo", "Undo", key_display="^z"),
        Binding("ctrl+y", "redo", "Redo", show=False),
        Binding("s", "snake", "Walk"),
        Binding("e", "set_up", "Can, date"),
        Binding("v", "numbers", "Findings"),
        Binding("pagedown", "page(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
        Binding("escape", "leave", "Back"),
        Binding("q", "quit", show=False),
        Binding("ctrl+q", "quit", show=False, priority=True),
    ]

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
        """The run could not be saved; what was typed is kept."""

        def __init__(self, error: SaveError, what: str) -> None:
            super().__init__()
            self.error, self.what = error, what

    def __init__(self, draft: Draft, journal: Journal) -> None:
        super().__init__()
        self.draft = draft
        self.journal = journal
        self.result: TestEvaluation | None = None
        self._typing: str | None = None  # in the cell under the cursor
        self._number = 0  # of the last change worked up
        self._pause: Timer | None = None
        self._is_saving = False
        self._then = ""  # what a save is followed by: leave or quit
        self._journal_said = False

    def body(self) -> ComposeResult:
        yield Static("", id="name", markup=False)
        yield Static("", id="setup", markup=False)
        with Container(id="middle"):
            yield CanGrid()
            with VerticalScroll(id="side", can_focus=False):
                yield Static("", id="result", markup=False)
                yield Static("", id="said", markup=False)
        yield Static("", id="remark", markup=False)
        yield Prompt()

    # --- showing -------------------------------------------------------------
    def show(self, session: Session) -> None:
        if self.result is None:
            self._work_up()
        self._paint(session)

    def _paint(self, session: Session | None) -> None:
        if session is None or self.result is None:
            return
        draft, test = self.draft, self.result
        self._head(session)
        odd = {one.where.removeprefix("can ") for one in drafts.refusals(draft)}
        run = test.runs[0] if test.runs else None
        self.query_one(CanGrid).show(
            entry_words.can_sheet(draft, run, odd, self._typing)
        )
        self.query_one("#result", Static).update(
            entry_words.result(draft, test, session.units)
        )
        parts = [
            part
            for one in entry_words.findings_of(draft, test)
            if run is not None or one.level != "stop"
            for part in entry_words.said(one)
        ]
        self.query_one("#said", Static).update(Content.assemble(*parts))
        self.query_one("#remark", Static).update(self._remark())

    def _head(self, session: Session) -> None:
        draft = self.draft
        zone = session.site.zone(draft.zone) if session.site is not None else None
        name = f"{draft.zone}  {zone.name}" if zone is not None else draft.zone
        which = f"{draft.test or 'new test'}, {draft.file or 'new run'}"
        state = "saved" if not draft.is_changed and draft.file else "not saved"
        if not draft.is_changed and not draft.file:
            state = "nothing typed yet"
        self.query_one("#name", Static).update(
            Content.assemble((name, "bold"), f"   {which}   ", (state, "$primary"))
        )
        self.query_one("#setup", Static).update(entry_words.setup_line(draft))

    def _remark(self) -> Content:
        draft = self.draft
        if self._typing is None:
            said = drafts.remark(draft)
            if said is not None:
                return entry_words.remark_line(said)
            if draft.reason:
                return Content(f"× can {draft.label} is left out: {draft.reason}")
        session = self.dashboard.session
        plan = zone_plan(session, draft.zone) if session is not None else None
        if session is None or plan is None or draft.is_changed or not draft.file:
            return Content.assemble((f"can {draft.label}: {HINT}", "$foreground 60%"))
        setting = wording.setting_text(plan, session.units)
        return Content.assemble(("this week: ", "$foreground 60%"), setting)

    # --- worked up -----------------------------------------------------------
    def _take(self, draft: Draft) -> None:
        """Go on with another draft; one with other entries is worked up and kept."""
        is_other, self.draft = draft.now != self.draft.now, draft
        if is_other:
            self._work_up()
            self._keep()
        self._paint(self.dashboard.session)

    def _work_up(self) -> None:
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

    @work(thread=True, exclusive=True, group="ranges", exit_on_error=False)
    def _ranges(self, draft: Draft, session: Session, number: int) -> None:
        test = drafts.worked_up(draft, session, with_ranges=True)
        self.post_message(self.RangesReady(test, number))

    def on_can_entry_screen_ranges_ready(self, message: RangesReady) -> None:
        if message.number == self._number:  # else something was typed meanwhile
            self.result = message.test
            self._paint(self.dashboard.session)

    # --- kept against a crash ------------------------------------------------
    def _keep(self) -> None:
        self._write_journal(self.journal, self.draft)

    @work(thread=True, group="journal", exit_on_error=False)
    def _write_journal(self, journal: Journal, draft: Draft) -> None:
        try:
            journal.keep(draft)
        except (SaveError, OSError) as problem:
            error = (
                problem
                if isinstance(problem, SaveError)
                else SaveError(f"cannot be kept ({problem})", "save soon: ctrl+s")
            )
            self.post_message(self.NotSaved(error, "not kept against a crash"))

    # --- typing --------------------------------------------------------------
    def on_key(self, event: Key) -> None:
        if self.focused is not None:
            return  # the line that asks for a reason has the keys
        sign = event.character or ""
        if sign and sign in TYPED:
            self._type((self._typing or "") + sign)
        elif sign and sign.casefold() in CODES:
            self._typing = None
            self._take(self.draft.entered(sign.casefold()).stepped())
        elif event.key == "backspace":
            text = self.draft.text if self._typing is None else self._typing
            self._type(text[:-1])
        elif event.key in ("space", "delete"):
            self._typing = None
            self._take(self.draft.entered(""))
        else:
            return
        event.stop()
        event.prevent_default()

    def _type(self, text: str) -> None:
        self._typing = text
        self._paint(self.dashboard.session)

    def _settled(self) -> Draft:
        """Draft with the cell that is being typed in it."""
        text, self._typing = self._typing, None
        return self.draft if text is None else self.draft.entered(text)

    def action_step(self, by: int) -> None:
        draft = self._settled()
        here = replace(draft, at=draft.at)
        self._take(draft.stepped(by))
        self._say(here)

    def action_move(self, down: int, right: int) -> None:
        draft = self._settled()
        self._take(draft.moved(down, right))
        self._say(draft)

    def on_can_grid_picked(self, event: CanGrid.Picked) -> None:
        draft = self._settled()
        self._take(draft.placed(event.row, event.column))
        self._say(draft)

    def _say(self, left: Draft) -> None:
        """Say what is odd about the can that was just left, if it was typed now."""
        said = drafts.remark(left)
        if said is not None and drafts.remark(self.draft) is None:
            self.query_one("#remark", Static).update(entry_words.remark_line(said))

    def action_undo(self) -> None:
        self._typing = None
        self._take(self.draft.undone())

    def action_redo(self) -> None:
        self._typing = None
        self._take(self.draft.redone())

    def action_snake(self) -> None:
        self._take(self._settled().turned())

    def action_leave_out(self) -> None:
        self._take(self._settled())
        if self.draft.reason:
            self._take(self.draft.left_out(""))
        else:
            self.query_one(Prompt).ask("reason", f"can {self.draft.label}: {WHY}")

    def on_prompt_given(self, event: Prompt.Given) -> None:
        if not event.text.strip():
            self.notify(f"Can {self.draft.label} is kept: no reason was given.")
            return
        self._take(self.draft.left_out(event.text))

    def action_set_up(self) -> None:
        self._take(self._settled())
        setup = self.draft.setup
        title = f"{self.draft.zone}  {self.draft.test or 'new test'}: what is said once"
        form = RunFormScreen(title, setup_texts(setup), before=setup)
        self.app.push_screen(form, self._set_up)

    def _set_up(self, setup: Setup | None) -> None:
        if setup is not None:
            self._take(self.draft.set_up(setup))

    def action_numbers(self) -> None:
        self.toggle_class("numbers")

    def action_page(self, by: int) -> None:
        side = self.query_one("#side", VerticalScroll)
        (side.scroll_page_down if by > 0 else side.scroll_page_up)(animate=False)

    # --- saving and leaving --------------------------------------------------
    def action_save(self) -> None:
        self._take(self._settled())
        if self._is_saving:
            return
        if not self.draft.is_changed:
            self.notify("Nothing is typed that is not saved.")
            self._follow_save()
            return
        self._is_saving = True
        self._save(self.draft)

    @work(thread=True, group="save", exit_on_error=False)
    def _save(self, draft: Draft) -> None:
        folder = self.dashboard.folder
        try:
            done = draft_files.saved_draft(folder, draft)
        except SaveError as error:
            self.post_message(self.NotSaved(error, "not saved"))
        else:
            self.post_message(self.Saved(done))

    def on_can_entry_screen_saved(self, message: Saved) -> None:
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
        self.journal = draft_files.journal_of(self.dashboard.folder, self.draft)
        if self.draft.is_changed:  # something was typed while it was saved
            self._keep()
        self.notify(f"Saved in tests/{done.test}, {done.file}.")
        self.dashboard.read_after_save()
        self._paint(self.dashboard.session)
        self._follow_save()

    def _follow_save(self) -> None:
        then, self._then = self._then, ""
        if then and not self.draft.is_changed:
            self._gone(then)

    def on_can_entry_screen_not_saved(self, message: NotSaved) -> None:
        if message.what == "not saved":
            self._is_saving, self._then = False, ""
        elif self._journal_said:
            return
        else:
            self._journal_said = True
        self.notify(
            f"{message.what}: {message.error}. What you typed is still here.",
            severity="error",
            markup=False,
            timeout=12,
        )

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        if event.state is WorkerState.ERROR:
            self._is_saving, self._then = False, ""
            what = f"Not done: {event.worker.error!r}. What you typed is still here."
            self.notify(what, severity="error", markup=False, timeout=30)

    def action_leave(self) -> None:
        if self._typing is not None:
            self._typing = None  # the cell stays as it was
            self._paint(self.dashboard.session)
            return
        self._ask("leave")

    def action_quit(self) -> None:
        self._take(self._settled())
        self._ask("quit")

    def _ask(self, then: str) -> None:
        if not self.draft.is_changed:
            self._gone(then)
            return
        question = f"What was typed for {self.draft.zone} is not saved."
        answers = {"s": "save", "d": "drop it"}

        def answered(key: str | None) -> None:
            if key == "s":
                self._then = then
                self.action_save()
            elif key == "d":
                self._gone(then)

        self.app.push_screen(AskScreen(question, answers, "stay here"), answered)

    def _gone(self, then: str) -> None:
        self.journal.close()
        if then == "quit":
            self.app.exit(0)
        else:
            self.dismiss(None)
