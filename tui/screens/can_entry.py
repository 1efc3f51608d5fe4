"""Typing a run in: a grid as the cans stood, and the result alive beside it."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, VerticalScroll
from textual.content import Content
from textual.events import Key
from textual.widgets import Static

from scheduler.errors import Finding
from tui import draft as drafts
from tui.draft import Draft, Setup
from tui.draft_journal import Journal
from tui.screens import entry_words, wording
from tui.screens.ask import AskScreen
from tui.screens.live_run import LiveRunScreen
from tui.screens.run_form import RunFormScreen
from tui.session import Session, zone_plan
from tui.setup_text import setup_texts
from tui.widgets.bars import Prompt
from tui.widgets.can_grid import CanGrid
from tui.widgets.words import Words

TYPED = frozenset("0123456789.,/½¼¾⅛⅜⅝⅞⅓⅔-")
CODES = frozenset("klo")
WHY = "why is it left out? such as: knocked over by a cart"


class CanEntryScreen(LiveRunScreen):
    """One run of one test while it is typed."""

    help_subject = "typing a test in"
    CSS_PATH = "can_entry.tcss"
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "save", "Save", key_display="^s"),
        Binding("enter,tab", "step(1)", "Next", key_display="enter"),
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
        Binding("e", "set_up", "Can"),
        Binding("v", "numbers", "More"),
        Binding("pagedown", "page(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
        Binding("escape", "leave", "Back"),
        Binding("question_mark,f1", "app.help", "Help", key_display="?"),
        Binding("f,f3", "app.findings", show=False),
        Binding("u", "app.units", show=False),
        Binding("q", "quit", show=False),
        Binding("ctrl+q", "quit", show=False, priority=True),
    ]

    def __init__(self, draft: Draft, journal: Journal) -> None:
        super().__init__(draft, journal)
        self._typing: str | None = None  # in the cell under the cursor
        self._said: Finding | None = None  # of the can that was typed last
        self._has_gone_on = False  # by a code, which needs no enter

    def body(self) -> ComposeResult:
        yield Words(id="name")
        yield Words(id="setup")
        with Container(id="middle"):
            yield CanGrid()
            with VerticalScroll(id="side", can_focus=False):
                yield Words(id="result")
                yield Words(id="said")
        yield Words(id="remark")
        yield Prompt()

    # --- showing -------------------------------------------------------------
    def show(self, session: Session) -> None:
        del session
        if self.result is None:
            self.work_up()
        self.paint()

    def paint(self) -> None:
        session, test = self.dashboard.session, self.result
        if session is None or test is None:
            return
        draft, run = self.draft, test.runs[0] if test.runs else None
        self._head(session)
        odd = {one.where.removeprefix("can ") for one in drafts.refusals(draft)}
        self.query_one(CanGrid).show(
            entry_words.can_sheet(draft, run, odd, self._typing)
        )
        self.query_one("#result", Static).update(
            entry_words.result(draft, test, session.units, roomy=not self.is_narrow)
        )
        self.query_one("#said", Static).update(self._findings(session))
        self.query_one("#remark", Static).update(self._remark())

    def _head(self, session: Session) -> None:
        draft = self.draft
        zone = session.site.zone(draft.zone) if session.site is not None else None
        name = f"{draft.zone}  {zone.name}" if zone is not None else draft.zone
        which = f"{draft.test or 'new test'}, {draft.file or 'new run'}"
        state = ("not saved", "bold $text-warning")
        if not draft.is_changed:
            state = ("saved" if draft.file else "nothing typed yet", "$foreground 60%")
        self.query_one("#name", Static).update(
            Content.assemble((name, "bold"), f"   {which}   ", state)
        )
        self.query_one("#setup", Static).update(entry_words.setup_line(draft))

    def _findings(self, session: Session) -> Content:
        """What the saved run did to the week, and what must be said of the run."""
        draft, test = self.draft, self.result
        lines: list[Content] = []
        plan = zone_plan(session, draft.zone)
        if plan is not None and draft.file and not draft.is_changed:
            setting = wording.setting_text(plan, session.units)
            lines.append(Content.assemble(("this week  ", "$foreground 60%"), setting))
        if test is not None:
            found = entry_words.findings_of(draft, test)
            lines += [entry_words.said(one) for one in found]
        return Content("\n").join(lines)

    def _remark(self) -> Content:
        draft = self.draft
        if self._typing is None:
            said = drafts.remark(draft) or self._said
            if said is not None:
                return entry_words.remark_line(said)
            if draft.reason:
                return Content(f"× can {draft.label} is left out: {draft.reason}")
        return Content.assemble(
            (f"can {draft.label}: {entry_words.HINT}", "$foreground 60%")
        )

    # --- typing --------------------------------------------------------------
    def on_key(self, event: Key) -> None:
        if self.focused is not None:
            return  # the line that asks for a reason has the keys
        sign = event.character or ""
        if sign and sign in TYPED:
            self._type((self._typing or "") + sign)
        elif sign and sign.casefold() in CODES:
            self._typing = None
            self._on(self.draft.entered(sign.casefold()).stepped())
            self._has_gone_on = True
        elif event.key == "backspace":
            text = self.draft.text if self._typing is None else self._typing
            self._type(text[:-1])
        elif event.key in ("space", "delete"):
            self._typing = None
            self.take(self.draft.entered(""))
        else:
            return
        event.stop()
        event.prevent_default()

    def _type(self, text: str) -> None:
        self._typing, self._has_gone_on = text, False
        self.paint()

    def _settled(self) -> Draft:
        """Draft with the cell that is being typed in it."""
        text, self._typing = self._typing, None
        return self.draft if text is None else self.draft.entered(text)

    def action_step(self, by: int) -> None:
        if self._has_gone_on and by > 0:
            self._has_gone_on = False  # enter after a code: it has moved on already
            return
        self._on(self._settled().stepped(by))

    def action_move(self, down: int, right: int) -> None:
        self._on(self._settled().moved(down, right))

    def on_can_grid_picked(self, event: CanGrid.Picked) -> None:
        self._on(self._settled().placed(event.row, event.column))

    def _on(self, draft: Draft) -> None:
        """Move on, and say what is odd about the can that was just typed."""
        if draft.now != self.draft.now:
            self._said = drafts.remark(draft.placed(*self.draft.at))
        self._has_gone_on = False
        self.take(draft)

    def action_undo(self) -> None:
        self._back_to(self.draft.undone())

    def action_redo(self) -> None:
        self._back_to(self.draft.redone())

    def _back_to(self, draft: Draft) -> None:
        """Another state of the same run; what was said of the last can is over."""
        self._typing, self._said, self._has_gone_on = None, None, False
        self.take(draft)

    def action_snake(self) -> None:
        self.take(self._settled().turned())

    def action_leave_out(self) -> None:
        self.take(self._settled())
        if self.draft.reason:
            self.take(self.draft.left_out(""))
        else:
            self.query_one(Prompt).ask("reason", f"can {self.draft.label}: {WHY}")

    def on_prompt_given(self, event: Prompt.Given) -> None:
        if not event.text.strip():
            self.notify(f"Can {self.draft.label} is kept: no reason was given.")
            return
        self.take(self.draft.left_out(event.text))

    def action_set_up(self) -> None:
        self.take(self._settled())
        setup = self.draft.setup
        title = f"{self.draft.zone}  {self.draft.test or 'new test'}: what is said once"
        form = RunFormScreen(title, setup_texts(setup), before=setup)
        self.app.push_screen(form, self._set_up)

    def _set_up(self, setup: Setup | None) -> None:
        if setup is not None:
            self.take(self.draft.set_up(setup))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer the findings by themselves only where they have no room."""
        del parameters
        return self.is_narrow if action == "numbers" else True

    def action_numbers(self) -> None:
        self.toggle_class("numbers")

    def action_page(self, by: int) -> None:
        side = self.query_one("#side", VerticalScroll)
        (side.scroll_page_down if by > 0 else side.scroll_page_up)(animate=False)

    # --- saving and leaving --------------------------------------------------
    def action_save(self) -> None:
        self.take(self._settled())
        self.save()

    def action_leave(self) -> None:
        if self._typing is not None:
            self._typing = None  # the cell stays as it was
            self.paint()
            return
        self._ask("leave")

    def action_quit(self) -> None:
        self.take(self._settled())
        self._ask("quit")

    def _ask(self, then: str) -> None:
        if not self.draft.is_changed:
            self.gone(then)
            return
        question = f"What was typed for {self.draft.zone} is not saved."
        answers = {"s": "save", "d": "drop it"}

        def answered(key: str | None) -> None:
            if key == "s":
                self._then = then
                self.action_save()
            elif key == "d":
                self.gone(then)

        self.app.push_screen(AskScreen(question, answers, "stay here"), answered)

    def gone(self, then: str) -> None:
        self.journal.close()
        if then == "quit":
            self.app.exit(0)
        else:
            self.dismiss(f"{self.draft.test}/{self.draft.file.removesuffix('.csv')}")
