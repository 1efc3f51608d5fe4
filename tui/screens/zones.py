"""All zones of a site in one table, with what wants attention beside it."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import Finding
from scheduler.reports.joined import joined
from scheduler.units import unit_label
from tui.proof_state import everything_due
from tui.screens import wording
from tui.screens.doors import Doors
from tui.screens.proof_words import due_line
from tui.session import Session, worst_first, zone_findings, zone_plan
from tui.widgets.zone_table import Column, ZoneTable

ROOMY = 140  # from this many columns on, names and nights are written out
SIDE = 36  # columns kept for what wants attention
ATTENTION = 40  # findings that the panel lists; the findings screen has them all


class ZonesScreen(Doors[None]):
    """One row a zone: minutes now and before, uniformity, rate, flags."""

    CSS_PATH = "zones.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "enter", "Zone", priority=True),
        Binding("j", "cursor(1)", "Down", show=False),
        Binding("k", "cursor(-1)", "Up", show=False),
    ]

    def body(self) -> ComposeResult:
        yield Static("", id="summary", markup=False)
        with Horizontal(id="middle"):
            yield ZoneTable()
            with VerticalScroll(id="side", can_focus=False):
                yield Static("", id="about", markup=False)
                yield Static("", id="attention", markup=False)

    @property
    def zone_here(self) -> str:
        return self.query_one(ZoneTable).picked

    def show(self, session: Session) -> None:
        summary = self.query_one("#summary", Static)
        if session.plan is None:
            summary.update(f"No week could be planned. {_counts(session)}")
            self._attend(session)
            return
        number = len(session.plan.zones)
        planned = sum(one.status == "planned" for one in session.plan.zones)
        due = due_line(everything_due(session), roomy=not self.is_narrow)
        summary.update(
            Content.assemble(
                f"{number} zones, {planned} planned     {_counts(session)}",
                (f"     {due}", "$foreground 60%"),
            )
        )
        width = self.app.size.width
        roomy = width >= ROOMY
        room = width - 1 if self.is_narrow else width - (SIDE if roomy else SIDE - 6)
        columns = _columns(session, room, roomy=roomy)
        self.query_one(ZoneTable).show(columns, _rows(session, roomy=roomy))
        self._attend(session)

    def pick(self, zone_id: str) -> None:
        """Move the cursor to a zone."""
        self.query_one(ZoneTable).pick(zone_id)

    def action_enter(self) -> None:
        if picked := self.query_one(ZoneTable).picked:
            self.dashboard.open_zone(picked)

    def action_cursor(self, by: int) -> None:
        table = self.query_one(ZoneTable)
        table.move_cursor(row=table.cursor_row + by)

    def on_data_table_row_selected(self, event: ZoneTable.RowSelected) -> None:
        if event.row_key.value:  # a click on the picked row
            self.dashboard.open_zone(event.row_key.value)

    def on_data_table_row_highlighted(self) -> None:
        if self.dashboard.session is not None:
            self._attend(self.dashboard.session)

    def _attend(self, session: Session) -> None:
        picked = self.query_one(ZoneTable).picked
        self.query_one("#about", Static).update(_about(session, picked))
        self.query_one("#attention", Static).update(_attention(session, picked))


def _counts(session: Session) -> str:
    return wording.counted(session.findings)


def _columns(session: Session, width: int, *, roomy: bool) -> list[Column]:
    rate = unit_label("mm_per_h", session.units)
    fixed = [
        Column("min", 8 if roomy else 5),
        Column(" nights", 9, is_right=False) if roomy else Column("days", 5),
        Column("cycles", 7),
        Column("was", 5 if roomy else 4),
        Column("+/−", 5),
        Column("DU", 5),
        Column("range", 10),
        Column(rate, 6),
        Column("  flags", 17 if roomy else 13, is_right=False),
    ]
    zones = session.plan.zones if session.plan is not None else ()
    longest = max((len(one.zone.name) for one in zones), default=0) + 1
    room = width - 5 - sum(column.width for column in fixed)
    name = Column("name", max(12, min(longest, room)), is_right=False)
    return [Column("zone", 5, is_right=False), name, *fixed]


def _rows(session: Session, *, roomy: bool) -> list[tuple[str, list[str]]]:
    units = session.units
    plans = session.plan.zones if session.plan is not None else ()
    rows = []
    for plan in plans:
        found = zone_findings(session, plan.zone.id)
        nights = wording.nights_text(plan)
        cells = [
            plan.zone.id,
            plan.zone.name,
            wording.minutes_text(plan, roomy=roomy),
            f" {wording.night_letters(plan)}" if roomy else nights,
            wording.cycles_text(plan),
            wording.was_text(plan, units),
            wording.change_text(plan, units),
            wording.du_text(plan, units),
            wording.du_range_text(session, plan),
            wording.rate_text(plan, units),
            "  " + wording.flags(found, roomy=roomy),
        ]
        rows.append((plan.zone.id, cells))
    return rows


def _about(session: Session, zone_id: str) -> Content:
    plan = zone_plan(session, zone_id)
    if plan is None:
        return Content("")
    head = f"{plan.zone.id}  {plan.zone.name}\n"
    return Content.assemble((head, "bold"), wording.setting_text(plan, session.units))


def _attention(session: Session, zone_id: str) -> Content:
    """Findings of the picked zone, then tests due, then the site's worst."""
    own = [one for one in zone_findings(session, zone_id) if one.level != "note"]
    due = joined(worst_first(session.plan.tests_due)) if session.plan else []
    rest = joined(one for one in session.findings if one.level != "note")
    parts: list[Content | str | tuple[str, str]] = []
    said: set[Finding] = set()
    for head, found in (("this zone", own), ("tests due", due), ("the site", rest)):
        fresh = [one for one in found if one not in said][:ATTENTION]
        if fresh:
            parts.append((f"\n{head}\n", "$foreground 60%"))
            parts += [_line(one) for one in fresh]
        said.update(fresh)
    return Content.assemble(*parts)


def _line(finding: Finding) -> Content:
    colour = {"stop": "$text-error", "warning": "$text-warning"}.get(finding.level, "")
    return Content.assemble(
        (f"{wording.GLYPH[finding.level]} ", f"bold {colour}".strip()),
        f"{finding.where}: {finding.what}\n",
    )
