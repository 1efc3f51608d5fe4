"""What the folder's files say, thing by thing, and the place to change it."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import Finding, SaveError
from tui import given_state as state
from tui.screens import given_words as words
from tui.screens.doors import Page
from tui.screens.wording import GLYPH
from tui.session import Session
from tui.widgets.line_list import Line, LineList
from tui.widgets.words import Words

if TYPE_CHECKING:
    from scheduler.files.folder_edits import FolderEdits
    from scheduler.files.site_things import Field, Kind, Section, Thing
    from scheduler.files.text_changes import Change


class GivenScreen(Page):
    """Things on the left, the fields of the picked one on the right."""

    CSS_PATH = "given.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "Back"),
        Binding("right,tab", "side('given')", "Fields", key_display="← →"),
        Binding("left,shift+tab", "side('things')", show=False),
        Binding("x", "words", show=False),  # no pictures here
        Binding("a", "more", "Add"),
        Binding("o", "twin", "Copy"),
        Binding("r,delete", "less", "Remove", key_display="r"),
        Binding("g", "side('things')", show=False),
        Binding("ctrl+z", "app.undo", "Undo", key_display="^z ^y"),
        Binding("ctrl+y", "app.redo", show=False),
        Binding("ctrl+s", "app.save_given", "Save", key_display="^s"),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._things: dict[str, Thing] = {}
        self._fields: dict[str, tuple[Thing, Section, Field]] = {}
        self._tables: dict[str, Section] = {}
        self._open: set[tuple[str, str]] = set()  # tables not given, unfolded
        self._first = True
        self._said: tuple[Finding | None, str] | None = None

    def body(self) -> ComposeResult:
        yield Words(id="head")
        with Horizontal(id="middle"):
            yield LineList(id="things")
            yield LineList(id="given")
        yield Words(id="wrong")

    def on_mount(self) -> None:
        self.query_one("#things").focus()

    def on_screen_resume(self) -> None:
        if self._is_laid_out:
            self._paint()  # an edit may have been dropped meanwhile

    def other_zone(self, zone_id: str) -> None:
        super().other_zone(zone_id)
        self._first = True

    def step_made(self) -> None:
        self._paint()

    @property
    def left(self) -> LineList:
        """The things."""
        return self.query_one("#things", LineList)

    @property
    def right(self) -> LineList:
        """The fields of the picked thing."""
        return self.query_one("#given", LineList)

    @property
    def zone_here(self) -> str:
        thing = self._thing
        if thing is not None and thing.kind.name == "zone":
            self._zone_id = thing.name
        return self._zone_id

    @property
    def _given(self) -> "FolderEdits | None":
        return self.dashboard.given_now

    @property
    def _thing(self) -> "Thing | None":
        return self._things.get(self.left.picked)

    # --- what is drawn ------------------------------------------------------
    def show(self, session: Session) -> None:
        del session  # the files as they are asked for, computed or not yet
        self._paint()

    def _paint(self) -> None:
        given = self._given
        if given is None:
            self.query_one("#head", Static).update("There is no site folder to edit.")
            return
        found = state.given_things(given)
        self._things = {state.thing_key(one): one for one in found}
        changes = state.all_changes(given)
        marks = {
            key: "●"
            for key, one in self._things.items()
            if any(_is_in(change, file, one) for file, change in changes)
        }
        width = 22 if self.is_narrow else 36
        self.left.show(
            list(words.thing_lines(list(self._things.items()), marks, width))
        )
        if self._first:
            self._first = False
            self._pick_zone()
        self._say_head(given, len(changes))
        self._paint_fields()
        self._say_wrong(given)

    def _pick_zone(self) -> None:
        for key, one in self._things.items():
            is_here = one.name.casefold() == self._zone_id.casefold()
            if one.kind.name == "zone" and is_here:
                self.left.pick(key)

    def _say_head(self, given: "FolderEdits", changed: int) -> None:
        unread = ", ".join(state.unread_files(given))
        about = (
            "" if unread and self.is_narrow else "what the files of the folder say   "
        )
        tail = f"{changed} not saved" if changed else "as on disk"
        self.query_one("#head", Static).update(
            Content.assemble(
                ("Given  ", "bold"),
                (about, words.DIM),
                (tail, "bold $warning" if changed else words.DIM),
                (f"   not readable: {unread}" if unread else "", "$text-error"),
            )
        )

    def _say_wrong(self, given: "FolderEdits") -> None:
        wrong = state.what_is_new(given)
        text = Content("")
        if wrong:
            more = f"   and {len(wrong) - 1} more" if len(wrong) > 1 else ""
            colour = "$text-error" if wrong[0].level == "stop" else "$text-warning"
            glyph = GLYPH[wrong[0].level]
            text = Content.styled(f"{glyph} {wrong[0]}{more}", colour)
        self.query_one("#wrong", Static).update(text)

    def _paint_fields(self) -> None:
        given, thing, session = self._given, self._thing, self.dashboard.session
        if given is None or session is None:
            return
        lines: list[Line] = []
        self._fields, self._tables = {}, {}
        if thing is None:
            kind = self._kind
            name = words.LISTS.get(kind.name, "") if kind else ""
            text = f"No {name} given. a adds one."
            lines.append(Line("", Content.styled(text, words.DIM)))
        else:
            lines += self._thing_fields(given, thing, session)
        self.right.show(lines)

    def _thing_fields(
        self, given: "FolderEdits", thing: "Thing", session: Session
    ) -> list[Line]:
        old = state.disk_fields(given, thing)
        place = f"{thing.kind.file}:{thing.line}" if thing.line else thing.kind.file
        new = "   new, not saved" if old is None and thing.is_given else ""
        about = thing.about if thing.kind.name != words.BROKEN else ""
        name = f"{thing.name}  {about}".rstrip()
        head = Content.assemble(
            ("  ", ""), (name, "bold"), (f"   {place}", words.DIM), (new, "$warning")
        )
        lines = [Line("", head)]
        for section in state.given_sections(given, thing, state.own_units(session)):
            lines += self._section_lines(thing, section, old, session)
        if thing.kind.name == words.BROKEN and not self.right.is_typing:
            lines += words.broken_lines(thing, self.right.size.width)
        return lines

    def _section_lines(
        self,
        thing: "Thing",
        section: "Section",
        old: "dict[tuple[str, str], Field] | None",
        session: Session,
    ) -> list[Line]:
        key = words.table_key(section)
        self._tables[key] = section
        is_open = (self.left.picked, key) in self._open or not section.words
        lines: list[Line] = []
        if section.words:
            there = {words for words, _ in old or ()}
            is_new = old is not None and section.words not in there
            lines.append(words.section_line(section, is_open=is_open, is_new=is_new))
        if not section.is_given and not is_open:
            return lines
        for field in section.fields:
            key = words.field_key(section, field)
            self._fields[key] = (thing, section, field)
            before = (old or {}).get((section.words, field.field.name))
            was = words.was_text(field, before) if old is not None else None
            is_typing = self.right.is_typing and self.right.picked == key
            guessed = "" if field.typed else state.guess(session, thing, section, field)
            lines.append(
                words.field_line(
                    section, field, was=was, guessed=guessed, is_typing=is_typing
                )
            )
            if is_typing and self._said is not None:
                lines += words.wrong_lines(*self._said, self.right.size.width)
        return lines

    # --- picking ------------------------------------------------------------
    def on_line_list_picked(self, event: LineList.Picked) -> None:
        if event.lines is self.left:
            self.right.stop_typing()
            self.right.scroll_home(animate=False)
            self.right.picked = ""
            self._paint_fields()
            self.say_path()

    def on_line_list_chosen(self, event: LineList.Chosen) -> None:
        if event.lines is self.left:
            self._paint_fields()
            if event.key.startswith(words.MORE):
                self.action_more()
            else:
                self.right.focus()
        elif event.key in self._fields:
            self._type(event.key)
        elif event.key in self._tables and not self._tables[event.key].is_given:
            self._open ^= {(self.left.picked, event.key)}
            self._paint_fields()

    def action_side(self, side: str) -> None:
        self.query_one(f"#{side}", LineList).focus()

    def action_back(self) -> None:
        if self.right.has_focus:
            self.left.focus()
        else:
            self.app.pop_screen()

    # --- typing -------------------------------------------------------------
    def _type(self, key: str) -> None:
        field = self._fields[key][2]
        self._said = (None, words.hint(field))
        text = field.text
        is_line = field.field.name == words.BROKEN  # what it says stays, but for a sign
        unit = words.unit_words(field)
        self.right.type_into(
            text, words.name_width(field), unit, is_selected=not is_line
        )
        self._paint_fields()

    def on_line_list_typing(self, event: LineList.Typing) -> None:
        at, given = self._fields.get(self.right.picked), self._given
        if at is None or given is None:
            return
        self.ask(partial(self._checked, given, at, event.text))

    @staticmethod
    def _checked(
        given: "FolderEdits", at: "tuple[Thing, Section, Field]", text: str
    ) -> "tuple[Finding | None, str]":
        return state.typed(given, at, text).wrong, words.hint(at[2])

    def answered(self, answer: object) -> None:
        """Say what is wrong with what is typed, checked beside the screen."""
        if isinstance(answer, tuple) and self.right.is_typing:
            self._said = answer
            self._paint_fields()

    def on_line_list_typed(self, event: LineList.Typed) -> None:
        at, given = self._fields.get(self.right.picked), self._given
        if at is None or given is None:
            return
        done = state.typed(given, at, event.text)
        if done.edits is None:  # it stays open, with the remedy below
            self._said = (done.wrong, words.hint(at[2]))
            self._paint_fields()
            return
        self._leave_typing()
        thing, _, field = at
        if done.edits is not given:
            self._take(done.edits, f"{thing.name} {words.field_name(field)}")
        self.right.action_move(1)

    def on_line_list_left(self, event: LineList.Left) -> None:
        del event
        self._leave_typing()

    def _leave_typing(self) -> None:
        self._said = None
        self.right.stop_typing()
        self._paint_fields()

    def _take(self, given: "FolderEdits", said: str) -> bool:
        return self.dashboard.edit_given(given, said)

    # --- whole things -------------------------------------------------------
    @property
    def _kind(self) -> "Kind | None":
        """Kind of what is picked, or of the empty list that is."""
        if self._thing is not None:
            return self._thing.kind
        return state.kind_named(self.left.picked.removeprefix(words.MORE))

    def action_more(self) -> None:
        """Add a thing like the picked one, or the picked one itself."""
        given, session, kind = self._given, self.dashboard.session, self._kind
        if given is None or session is None or kind is None or not kind.name:
            return
        units = state.own_units(session)
        done = self._unless_refused(partial(state.with_more, given, kind, units))
        if done is not None and self._take(done, f"new {kind.words}"):
            self._pick_last(kind)

    def _unless_refused(
        self, edit: "Callable[[], FolderEdits]"
    ) -> "FolderEdits | None":
        """What an edit makes of the files; None, and the remedy, if it is refused."""
        try:
            return edit()
        except SaveError as problem:
            self.notify(f"{problem}.", severity="warning", markup=False)
            return None

    def action_twin(self) -> None:
        """Copy the picked thing."""
        given, thing = self._given, self._thing
        if given is None or thing is None or not thing.is_of_list:
            self.notify("Only things of a list can be copied.", severity="warning")
            return
        done = self._unless_refused(partial(state.with_twin, given, thing))
        if done is not None and self._take(done, f"{thing.name} once more"):
            self._pick_last(thing.kind)

    def _pick_last(self, kind: "Kind") -> None:
        mine = [key for key, one in self._things.items() if one.kind == kind]
        if mine:
            self.left.pick(mine[-1])
            self.right.focus()

    def action_less(self) -> None:
        """Take out the picked field, the picked table, or the picked thing."""
        given, thing = self._given, self._thing
        if given is None or thing is None or not thing.is_given:
            return
        if self.right.has_focus and self.right.picked in self._fields:
            at = self._fields[self.right.picked]
            done = state.typed(given, at, "")
            if done.edits is None and done.wrong is not None:
                self.notify(str(done.wrong), severity="warning", markup=False)
            elif done.edits is not None and done.edits is not given:
                self._take(done.edits, f"{thing.name} without {at[2].key}")
            return
        table = self._tables.get(self.right.picked) if self.right.has_focus else None
        if table is not None and not table.is_given:
            return
        less = self._unless_refused(partial(state.without, given, thing, table))
        if less is not None:
            self._take(less, f"{thing.name} removed")


def _is_in(change: "Change", file: str, thing: "Thing") -> bool:
    """Whether a change is one of a thing."""
    place = change.place
    if file != thing.kind.file:
        return False
    if not thing.kind.name:
        return not place or place[0] == "place"
    if not place or place[0] != thing.kind.name:
        return False
    if not thing.is_of_list:
        return True
    is_renamed = change.key == "id" and change.now.strip("\"'") == thing.name
    return is_renamed or (len(place) > 1 and place[1] in (thing.name, thing.place[1]))
