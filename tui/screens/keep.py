"""What is tried, and what it does to the whole site; kept in files, or dropped."""

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import SchedulerError
from tui import keeping
from tui.given_state import change_lines
from tui.keeping import Line, Tried
from tui.screens.ask import AskScreen
from tui.screens.doors import Page
from tui.session import Session
from tui.tried import Effect, arrow, edit_text, told
from tui.what_if import Edit
from tui.widgets.words import Words
from tui.widgets.zone_table import Column, ZoneTable

if TYPE_CHECKING:
    from scheduler.files.folder_edits import FolderEdits

ALL = "all"
WORKING = "…"
ROOMY = 100  # columns; with fewer the row's line below says the rest
WITH_MONEY = 3  # cells


class KeepScreen(Page):
    """A row each, and all of them together; keep or drop one, or all."""

    help_subject = "what is tried"
    is_at_once = True
    CSS_PATH = "keep.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("k", "keep('one')", "Keep"),
        Binding("d", "drop('one')", "Drop"),
        Binding("K", "keep('all')", "Keep all"),
        Binding("D", "drop('all')", "Drop all"),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._found: Tried | None = None
        self._of: tuple[Edit, ...] = ()
        self._asked: tuple[object, ...] = ()

    def body(self) -> ComposeResult:
        yield Words(id="head")
        yield ZoneTable()
        with VerticalScroll(id="side", can_focus=False):
            yield Words(id="where")

    # --- what is shown ------------------------------------------------------
    def show(self, session: Session) -> None:
        if session.what_ifs != self._of:
            self._found, self._of = None, session.what_ifs
        self._draw(session)
        of = (session.what_ifs, session.units, session.plan)
        if self._of and of != self._asked:  # not for a resize: it is much work
            self._asked = of
            self.ask(partial(keeping.tried, session, with_money=False))

    def answered(self, answer: object) -> None:
        session = self.dashboard.session
        if session is None:
            return
        if isinstance(answer, Tried):
            self._found = answer
            self._draw(session)
            self._ask_money()
        elif isinstance(answer, tuple):
            self._ask_before(*answer)
        elif isinstance(answer, SchedulerError):
            self.notify(str(answer), severity="error", markup=False, timeout=30)
            self._go_on()  # keeping took the place of what was being worked out

    def _draw(self, session: Session) -> None:
        number = len(session.what_ifs)
        named = f"{number} what-if{'s' if number != 1 else ''}" if number else "Nothing"
        self.query_one("#head", Static).update(
            Content.assemble(
                (f"{named} tried  ", "bold"),
                ("none is on disk until it is kept" if number else "", "bold $primary"),
                ("   of the whole site; each without it → with it", "$foreground 60%"),
            )
        )
        columns, rows = table(session, self._found, self.app.size.width)
        self.query_one(ZoneTable).show(columns, rows)
        self._say()

    def _say(self) -> None:
        line = self._line
        said = "Of all: what can be kept is written to the files, the rest stays tried."
        if line is not None:
            can = "k writes it to the site folder, d drops it"
            does = "; ".join(told(self._known(line)))
            said = f"{line.text}: {line.why_not or can}.\nIt alone: {does}."
        self.query_one("#where", Static).update(said if self._of else "")

    def _known(self, line: Line) -> tuple[Effect, ...] | None:
        """What a line does; None where only its money can change, not yet known."""
        has_money = self._found is not None and self._found.has_money
        effects = (*line.effects, *line.nights)
        is_told = any(one.is_change for one in effects)
        return effects if effects and (has_money or is_told) else None

    def on_zone_table_row_highlighted(self) -> None:
        self._say()

    @property
    def _line(self) -> Line | None:
        """The row under the cursor; None for all of them."""
        picked = self.query_one(ZoneTable).picked
        if self._found is None or not picked.isdigit():
            return None
        return self._found.lines[int(picked)]

    # --- keys ---------------------------------------------------------------
    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """It is in words already."""
        del parameters
        return action != "words"

    def _edits(self, which: str) -> tuple[Edit, ...]:
        picked = self.query_one(ZoneTable).picked
        if which == ALL or picked == ALL:
            return self._of
        # also before it is worked out what each does
        newest_first = tuple(reversed(self._of))
        return (newest_first[int(picked)],) if picked.isdigit() else ()

    def action_drop(self, which: str) -> None:
        if edits := self._edits(which):
            self.dashboard.drop(edits)

    def action_keep(self, which: str) -> None:
        edits = self._edits(which)
        able = keeping.can_keep(edits, self._of)
        for one in edits:
            if one not in able:
                why = keeping.why_not(one, edits, self._of)
                said = f"{one.name} is not kept: {why}."
                self.notify(said, severity="warning", markup=False, timeout=15)
        given = self.dashboard.given_now
        if able and given is not None:
            self.ask(lambda: (keeping.written(given, able), able))

    def _ask_before(self, given: "FolderEdits", edits: tuple[Edit, ...]) -> None:
        lines = "\n".join(change_lines(given))
        screen = AskScreen(
            f"This will be written:\n\n{lines}\n", {"y": "write it"}, "not now"
        )
        self.app.push_screen(screen, partial(self._keep, given, edits))

    def _keep(
        self, given: "FolderEdits", edits: tuple[Edit, ...], key: str | None
    ) -> None:
        asked = self.dashboard.edits_asked
        if key == "y":
            self.dashboard.keep(given, edits)
        if self.dashboard.edits_asked == asked:  # not kept, or refused
            self._go_on()

    def _go_on(self) -> None:
        """Work out what keeping broke off."""
        session = self.dashboard.session
        if session is not None and self._found is None:
            self.ask(partial(keeping.tried, session, with_money=False))
        self._ask_money()

    def _ask_money(self) -> None:
        """Go on with the money, which takes longest."""
        session, found = self.dashboard.session, self._found
        if session is not None and found is not None and not found.has_money:
            self.ask(partial(keeping.tried, session, with_money=True))


def table(
    session: Session, found: Tried | None, width: int
) -> tuple[list[Column], list[tuple[str, list[str]]]]:
    """Columns and rows: every what-if, then all of them."""
    roomy = width >= ROOMY
    wide = (24, 18, 34) if roomy else (22, 14, 17)
    tariff = session.site.tariff if session.site is not None else None
    money = tariff.currency if tariff is not None else "money"
    columns = [
        Column(name, size, is_right=False)
        for name, size in zip(
            ("what is tried", "water a week", "min a week", f"{money} a year"),
            (max(24, width - sum(wide) - 2), *wide),
            strict=True,
        )
    ]
    if found is None:
        texts = [edit_text(session, one) for one in reversed(session.what_ifs)]
        return columns, [(str(i), [o, *[WORKING] * 3]) for i, o in enumerate(texts)]
    rows = [
        (str(i), [f"{'✖ ' if one.why_not else ''}{one.text}",
                  *_cells(one.effects, roomy)])
        for i, one in enumerate(found.lines)
    ]  # fmt: skip
    if len(found.lines) > 1:
        rows.append((ALL, ["all of it", *_cells(found.together, roomy)]))
    return columns, rows


def _cells(effects: Sequence[Effect], roomy: bool) -> list[str]:
    cells = [arrow(one.was, one.now) if one.is_change else one.now for one in effects]
    if len(effects) == WITH_MONEY and roomy and cells[-1] != "–":
        cells[-1] = f"{cells[-1]} {effects[-1].name}"
    return cells + [WORKING] * (WITH_MONEY - len(cells))
