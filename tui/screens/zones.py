"""All zones of a site in one table, with what wants attention beside it."""

from collections.abc import Sequence
from functools import cache
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import Finding, QuantityError
from scheduler.reports.joined import joined
from tui.proof_state import everything_due
from tui.screens import wording
from tui.screens.doors import Doors
from tui.screens.proof_words import due_line
from tui.screens.zone_cells import zone_cells, zone_columns
from tui.session import Session, worst_first, zone_findings, zone_plan
from tui.widgets.bars import Prompt
from tui.widgets.words import Words
from tui.widgets.zone_table import ZoneTable
from tui.zone_view import HELP, ORDERS, Row, filtered, ordered, rows_of

ROOMY = 140  # from this many columns on, names and nights are written out
SIDE = 36  # columns kept for what wants attention
# findings that the panel lists under each head; more make every key of the table
# slower, and the findings screen has them all
ATTENTION = 12
FIND = "find"
# the order that a click on the head of a column asks for
HEADS = {
    "zone": "file", "name": "name", "min": "minutes", "+/−": "change", "DU": "du",
    "range": "du", "flags": "eyes",
}  # fmt: skip


class ZonesScreen(Doors[None]):
    """One row a zone: minutes now and before, uniformity, rate, flags."""

    CSS_PATH = "zones.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "enter", "Zone"),
        Binding("space", "walk", "Week", key_display="space"),
        Binding("slash", "find", "Find", key_display="/"),
        Binding("o", "order", "Order"),
        Binding("e", "explain", "Explain", show=False),
        Binding("escape", "show_all", "All", show=False),
        Binding("j", "cursor(1)", "Down", show=False),
        Binding("k", "cursor(-1)", "Up", show=False),
        Binding("shift+down,J", "side(1)", "Side", show=False),
        Binding("shift+up,K", "side(-1)", "Side back", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._typed = ""
        self._slip = ""  # what could not be read, to be mended
        self._heads: tuple[str, ...] = ()  # of the columns that are shown
        self._all: tuple[Row, ...] = ()
        self._of: Session | None = None  # whose rows and findings these are
        self._said: tuple[Sequence[Finding], Sequence[Finding]] = ((), ())

    def body(self) -> ComposeResult:
        yield Words(id="summary")
        with Horizontal(id="middle"):
            yield ZoneTable()
            with VerticalScroll(id="side", can_focus=False):
                yield Words(id="about")
                yield Words(id="attention")
        yield Prompt()

    @property
    def zone_here(self) -> str:
        return self.query_one(ZoneTable).picked

    def show(self, session: Session) -> None:
        if self._of is not session:
            self._of, self._all = session, rows_of(session)
            due = joined(worst_first(session.plan.tests_due)) if session.plan else []
            rest = joined(one for one in session.findings if one.level != "note")
            self._said = due, rest
        if session.plan is None:
            said = f"No week could be planned. {_counts(session)}"
            self.query_one("#summary", Static).update(said)
            self._attend(session)
            return
        rows = self._rows(session)
        self._summary(session, len(rows))
        width = self.app.size.width
        roomy = width >= ROOMY
        room = width - 1 if self.is_narrow else width - (SIDE if roomy else SIDE - 6)
        columns = zone_columns(session, room, roomy=roomy)
        self._heads = tuple(one.head.strip() for one in columns)
        self.query_one(ZoneTable).show_rows(
            columns,
            [row.plan.zone.id for row in rows],
            cache(lambda i: zone_cells(session, rows[i].plan, roomy=roomy)),
        )
        self._attend(session)

    def _rows(self, session: Session) -> tuple[Row, ...]:
        try:
            found = filtered(self._all, self._typed, session.units)
        except QuantityError as problem:
            self.notify(str(problem), severity="warning", markup=False)
            self._slip, self._typed, found = self._typed, "", self._all
        return ordered(found, self.dashboard.zone_order)

    def _summary(self, session: Session, shown: int) -> None:
        number = len(self._all)
        planned = sum(row.plan.status == "planned" for row in self._all)
        due = due_line(everything_due(session), roomy=not self.is_narrow)
        order = ORDERS[self.dashboard.zone_order]
        head = f"{number} zones, {planned} planned"
        if self._typed:
            back = "" if shown else "  esc shows all"
            head = f"{shown} of {number} zones: {self._typed}{back}"
        self.query_one("#summary", Static).update(
            Content.assemble(
                (head, "bold $primary" if self._typed else ""),
                f"     {_counts(session)}",
                (f"     {due}", "$foreground 60%"),
                ("" if self.is_narrow else f"     {order}", "$foreground 60%"),
                ("     before→tried" if session.week_edits else "", "bold $primary"),
            )
        )

    def pick(self, zone_id: str) -> None:
        """Move the cursor to a zone."""
        self.query_one(ZoneTable).pick(zone_id)

    # --- keys ---------------------------------------------------------------
    def action_enter(self) -> None:
        if picked := self.query_one(ZoneTable).picked:
            self.dashboard.open_zone(picked)

    def action_walk(self) -> None:
        self.dashboard.open_walk()

    def action_find(self) -> None:
        self.query_one(Prompt).ask(FIND, HELP, self._slip or self._typed)

    def on_prompt_given(self, event: Prompt.Given) -> None:
        self._typed, self._slip = " ".join(event.text.split()), ""
        self._again()

    def action_show_all(self) -> None:
        self._typed = ""
        self._again()

    def action_order(self) -> None:
        orders = list(ORDERS)
        at = orders.index(self.dashboard.zone_order)
        self._order(orders[(at + 1) % len(orders)])

    def _order(self, order: str) -> None:
        self.dashboard.zone_order = order
        self.notify(f"Zones {ORDERS[order]}.", timeout=2)
        self._again()

    def _again(self) -> None:
        self.query_one(ZoneTable).focus()
        if self.dashboard.session is not None:
            self.show(self.dashboard.session)

    def action_explain(self) -> None:
        if picked := self.query_one(ZoneTable).picked:
            self.dashboard.explain(picked)

    def action_cursor(self, by: int) -> None:
        table = self.query_one(ZoneTable)
        table.move_cursor(row=table.cursor_row + by)

    def action_side(self, by: int) -> None:
        side = self.query_one("#side", VerticalScroll)
        side.scroll_relative(y=by * max(1, side.size.height // 2), animate=False)

    def on_zone_table_row_selected(self, event: ZoneTable.RowSelected) -> None:
        self.dashboard.open_zone(event.key)  # a click on the picked row

    def on_zone_table_head_selected(self, event: ZoneTable.HeadSelected) -> None:
        order = HEADS.get(self._heads[event.column], "")
        if order:
            self._order(order)

    def on_zone_table_row_highlighted(self) -> None:
        if self.dashboard.session is not None:
            self._attend(self.dashboard.session)
            self.say_path()

    def _attend(self, session: Session) -> None:
        picked = self.query_one(ZoneTable).picked
        self.query_one("#about", Static).update(_about(session, picked))
        attention = self.query_one("#attention", Static)
        room = attention.size.width or SIDE - 10  # not laid out yet
        said = _attention(session, picked, self._said, room)
        attention.update(said)


def _counts(session: Session) -> str:
    return wording.counted(session.findings)


def _about(session: Session, zone_id: str) -> Content:
    plan = zone_plan(session, zone_id)
    if plan is None:
        return Content("")
    head = f"{plan.zone.id}  {plan.zone.name}\n"
    return Content.assemble((head, "bold"), wording.setting_text(plan, session.units))


def _attention(
    session: Session,
    zone_id: str,
    site: tuple[Sequence[Finding], Sequence[Finding]],
    room: int,
) -> Content:
    """Findings of the picked zone, then tests due, then the site's worst."""
    due, rest = site
    own = [one for one in zone_findings(session, zone_id) if one.level != "note"]
    parts: list[Content | str | tuple[str, str]] = []
    said: set[Finding] = set()
    for head, found in (("this zone", own), ("tests due", due), ("the site", rest)):
        new = [one for one in found if one not in said]
        fresh = new[:ATTENTION]
        if fresh:
            parts.append((f"\n{head}\n", "$foreground 60%"))
            parts += [_line(one, room) for one in fresh]
        if more := len(new) - len(fresh):
            parts.append((f"… {more} more: f\n", "$foreground 60%"))
        said.update(fresh)
    return Content.assemble(*parts)


def _line(finding: Finding, room: int) -> Content:
    colour = {"stop": "$text-error", "warning": "$text-warning"}.get(finding.level, "")
    return Content.assemble(
        (f"{wording.GLYPH[finding.level]} ", f"bold {colour}".strip()),
        f"{wording.short_path(finding.where, room - len('✖ :'))}: {finding.what}\n",
    )
