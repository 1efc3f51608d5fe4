"""What the dashboard does about edits: a line of steps to undo and redo, and saves.

What-ifs and edits of the folder's files are steps of the same line, in the order in
which they were made.
"""

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual.app import App
from textual.binding import Binding, BindingType
from textual.events import AppFocus
from textual.reactive import var
from textual.screen import ModalScreen

from scheduler.errors import SaveError
from tui import given_state as state
from tui.given_edit import given_edit, texts_after
from tui.keeper import Keeper
from tui.screens.ask import AskScreen
from tui.screens.difference import DifferenceScreen
from tui.session import Session
from tui.tried import named
from tui.what_if import Edit, in_force

if TYPE_CHECKING:
    from scheduler.files.folder_edits import FolderEdits


ELSEWHERE = "Another dashboard has unsaved edits here; they are its own to save."


class Editing(App[int]):
    """The part of the dashboard that makes, takes back and saves edits."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("g", "given", "Given", show=False),
        Binding("ctrl+z", "undo", "Undo", show=False),
        Binding("ctrl+y", "redo", "Redo", show=False),
        Binding("ctrl+s", "save_given", "Save", show=False),
    ]

    session: var[Session | None] = var(None)
    busy: var[str] = var("", init=False)
    # grows with each step of the files' edits, computed or not
    steps: var[int] = var(0, init=False)

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self.folder = folder
        self._edits: tuple[Edit, ...] = ()  # as asked for, computed or not yet
        self._undone: tuple[Edit, ...] = ()  # taken back, the last one first
        self._keeper = Keeper(folder)

    # --- what the dashboard itself does -------------------------------------
    def compute(self) -> None:
        """Compute the session with the edits that are asked for."""
        raise NotImplementedError

    def read_after_save(self) -> None:
        """Read the folder again and plan anew; edits stay."""
        raise NotImplementedError

    # --- the line of steps --------------------------------------------------
    @property
    def edits_asked(self) -> tuple[Edit, ...]:
        """What-ifs as asked for, computed or not yet."""
        return self._edits

    @property
    def given_now(self) -> "FolderEdits | None":
        """The folder's files with all edits that are asked for."""
        session = self.session
        if session is None or session.given is None:
            return None
        return texts_after(session.given, session.opened, self._edits)

    @property
    def is_unsaved(self) -> bool:
        """Whether any file of the folder is edited and not saved."""
        given = self.given_now
        return given is not None and bool(given.changed)

    def request_edit(self, edit: Edit) -> None:
        """Ask for one more edit."""
        self._undone = ()
        self._ask_for((*self._edits, edit))

    def edit_given(self, given: "FolderEdits", said: str) -> bool:
        """Take an edit of the folder's files; not while older ones are undecided."""
        if self._keeper.before is not None:
            self._offer()
            return False
        self.request_edit(given_edit(given, said, before=self.given_now))
        return True

    def keep(self, given: "FolderEdits", what_ifs: tuple[Edit, ...]) -> None:
        """Write what-ifs into the folder's files; one step, with the save."""
        if self._keeper.before is not None:
            self._offer()
        elif not self._has_stops(given):
            self.request_edit(given_edit(given, "kept", what_ifs))
            self._save()

    def drop(self, what_ifs: tuple[Edit, ...]) -> None:
        """Try some what-ifs no longer."""
        self.request_edit(Edit("settled", "", settled=what_ifs))

    def say_lost(self, session: Session) -> None:
        """Name what was tried and finds no place in a folder that was read again."""
        lost = [one for one in in_force(self._edits) if one not in session.what_ifs]
        if lost:
            names = ", ".join(one.name for one in lost)
            said = f"Tried no longer, the folder has no place for it: {names}."
            self.notify(said, severity="warning", markup=False, timeout=15)

    def leave(self) -> None:
        """Leave the dashboard; what was tried and not kept is named once."""
        self._keeper.let_go()
        tried = named(self.session) if self.session is not None else ()
        said = f"Tried and not kept, so not on disk: {', '.join(tried)}."
        self.exit(0, message=said if tried else None)

    def action_undo(self) -> None:
        if self._edits:
            self._undone = (self._edits[-1], *self._undone)
            self._ask_for(self._edits[:-1])

    def action_redo(self) -> None:
        if self._undone:
            again, *rest = self._undone
            self._undone = tuple(rest)
            self._ask_for((*self._edits, again))

    def _ask_for(self, edits: tuple[Edit, ...]) -> None:
        if self.session is None:
            return
        was = self.given_now
        self._edits = edits
        now = self.given_now
        if was is not None and now is not None and was.now != now.now:
            self._keep(now)
            self.steps += 1
        self.compute()

    def fall_back(self) -> None:
        """To what is computed; what was asked for besides can be redone."""
        done = self.session.edits if self.session is not None else ()
        if self._edits[: len(done)] == done:
            self._undone = (*self._edits[len(done) :], *self._undone)
        self._edits = done
        if self.given_now is not None:
            self._keep(self.given_now)
        self.steps += 1

    def _keep(self, given: "FolderEdits") -> None:
        if self._keeper.before is not None:
            return  # theirs is the file until it is decided what becomes of them
        said = self._keeper.keep(given)
        if said:
            self.notify(said, severity="warning", markup=False)

    # --- saved --------------------------------------------------------------
    def action_save_given(self) -> None:
        given = self.given_now
        if given is None or not given.changed:
            self.notify("Nothing is edited that is not saved.")
        elif self._keeper.before is not None:
            self._offer()
        elif not self.settle_differences() and not self._has_stops(given):
            lines = "\n".join(state.change_lines(given))
            question = f"This will be written:\n\n{lines}\n"
            ask = AskScreen(question, {"s": "write it"}, "not yet")
            self.push_screen(ask, self._save_answered)

    def _save_answered(self, key: str | None) -> None:
        if key == "s":
            self._save()

    def _has_stops(self, given: "FolderEdits") -> bool:
        wrong = state.what_is_new(given)
        if not wrong or wrong[0].level != "stop":
            return False
        self.notify(
            f"Not saved: {wrong[0]}.", severity="error", markup=False, timeout=15
        )
        return True

    def _save(self) -> bool:
        session, given = self.session, self.given_now
        if session is None or given is None:
            return False
        files = ", ".join(given.changed)
        try:
            self.session = state.saved(session, given)
        except SaveError as problem:
            if not self.settle_differences():
                self.notify(
                    f"Not saved: {problem}.", severity="error", markup=False, timeout=15
                )
            return False
        self._keep(self.given_now or given)
        self.steps += 1
        self.notify(f"Saved: {files}.")
        self.read_after_save()
        return True

    # --- somebody else's changes --------------------------------------------
    def settle_differences(self) -> bool:
        """Show the first file that was edited here and changed on disk, if any."""
        given = self.given_now
        if given is None or not given.changed:
            return False
        found = state.differences(given)
        if not found or isinstance(self.screen, ModalScreen):
            return bool(found)
        file = found[0].file

        def settled(key: str | None) -> None:
            if key in ("t", "m"):
                self._settle(file, keep_mine=key == "m")

        self.push_screen(DifferenceScreen(found[0], len(found) - 1), settled)
        return True

    def _settle(self, file: str, *, keep_mine: bool) -> None:
        session, given = self.session, self.given_now
        if session is None or given is None:
            return
        try:
            done, lost = state.settled(session, given, file, keep_mine=keep_mine)
        except SaveError as problem:
            self.notify(str(problem), severity="error", markup=False)
            return
        for one in lost:
            self.notify(f"No place for {one}", severity="warning", markup=False)
        self._go_on(done)
        self.read_after_save()

    def _go_on(self, session: Session) -> None:
        """Take a session whose edits were put on other files; undo begins there."""
        self._edits, self._undone = session.edits, ()
        self.session = session
        if self.given_now is not None:
            self._keep(self.given_now)
        self.steps += 1

    def on_app_focus(self, event: AppFocus) -> None:
        del event
        session = self.session
        if session is None or session.given is None or self.busy:
            return
        if isinstance(self.screen, ModalScreen):
            return
        changed = state.changed_on_disk(session.given)
        if changed:
            self.notify(f"Changed on disk: {', '.join(changed)}.")
            self.read_after_save()

    # --- edits of before ----------------------------------------------------
    def offer_kept(self) -> None:
        """Offer edits of before that were never saved; name another's that live."""
        if self._keeper.is_edited_elsewhere:
            self.notify(ELSEWHERE, severity="warning", timeout=15)
        if self._keeper.before is not None:
            self._offer()

    def _offer(self) -> None:
        before = self._keeper.before
        assert before is not None, "asked only when there are some"
        lines = "\n".join(state.change_lines(before))
        question = f"These edits were never saved:\n\n{lines}\n"
        answers = {"r": "go on with them", "d": "drop them"}
        self.push_screen(AskScreen(question, answers, "later"), self._decided)

    def _decided(self, key: str | None) -> None:
        session, before = self.session, self._keeper.before
        if key == "d":
            self._keeper.drop()
        elif key == "r" and session is not None and before is not None:
            self._keeper.before = None
            self._go_on(state.resumed(session, before))
            self.compute()
            self.settle_differences()

    # --- leaving ------------------------------------------------------------
    def ask_before_quit(self) -> bool:
        """Ask about unsaved edits; False when there are none."""
        given = self.given_now
        if given is None or not given.changed or self._keeper.before is not None:
            return False
        lines = "\n".join(state.change_lines(given))
        answers = {"s": "save them", "k": "keep for next time", "d": "drop them"}
        ask = AskScreen(f"These edits are not saved:\n\n{lines}\n", answers, "stay")
        self.push_screen(ask, self._quit_answered)
        return True

    def _quit_answered(self, key: str | None) -> None:
        given = self.given_now
        if given is None or key not in ("s", "k", "d"):
            return
        if key == "s" and (self._has_stops(given) or not self._save()):
            return
        if key == "d":
            self._keep(given.with_texts({}))
        self.leave()
