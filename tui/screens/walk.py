"""The weekly walk: what changes and why, zone after zone; accept, issue."""

from collections.abc import Sequence
from dataclasses import replace
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from scheduler.reports.changes import override_text, percent_text
from scheduler.said import signed
from tui import week_walk as state
from tui.screens import wording
from tui.screens.doors import Doors
from tui.session import Session, issue_week
from tui.tried import Effect, night_effects
from tui.week_walk import why_odd
from tui.widgets.bars import Prompt
from tui.widgets.words import Words
from tui.widgets.zone_table import Column, ZoneTable
from tui.zone_view import Row

WHY = "why the week is issued in spite of its stop findings; escape leaves it"
WORDS = 41  # columns that eight words of a reason take
LEAST_NAME = 17  # columns that tell most names apart, the gap behind them too
QUIET = "Nothing changes at the clock this week. i issues it."


class WalkScreen(Doors[None]):
    """One row a changed zone; stops and large changes stand on top."""

    CSS_PATH = "walk.tcss"
    help_subject = "the weekly walk"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("a", "accept_all", "Accept all"),
        Binding("space", "accept", "This one", key_display="space"),
        Binding("i", "issue", "Issue"),
        Binding("enter", "look", "Look"),
        Binding("escape", "app.pop_screen", "Back"),
        Binding("j", "cursor(1)", show=False),
        Binding("k", "cursor(-1)", show=False),
    ]

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[Row, ...] = ()

    def body(self) -> ComposeResult:
        yield Words(id="head")
        yield ZoneTable()
        yield Words(id="about")
        yield Prompt()

    @property
    def zone_here(self) -> str:
        return self.query_one(ZoneTable).picked

    def effects(self, session: Session) -> tuple[Effect, ...]:
        return night_effects(session)

    def show(self, session: Session) -> None:
        self._rows = rows = state.walked_rows(session)
        table, at = self.query_one(ZoneTable), self.dashboard.walk.at
        table.show_rows(
            columns(self.app.size.width, rows, is_narrow=self.is_narrow),
            [one.plan.zone.id for one in rows],
            lambda i: self._cells(session, rows[i]),
        )
        table.pick(at)
        self._say()

    def _cells(self, session: Session, row: Row) -> list[str]:
        plan, units = row.plan, session.units
        changed = plan.changed
        mark = "✔" if self.dashboard.walk.has(row) else "✖" if why_odd(row) else "·"
        nights = [] if self.is_narrow else [f" {wording.night_letters(plan)}"]
        minutes = wording.minutes_text(plan, roomy=not self.is_narrow)
        return [
            f"{mark} {plan.zone.id}",
            plan.zone.name,
            wording.was_text(plan, units),
            f"→ {minutes}",
            percent_text(changed.change) if changed else "–",
            *nights,
            f" {changed.reason}" if changed else "",
        ]

    def _say(self) -> None:
        session, walk = self.dashboard.session, self.dashboard.walk
        if session is None:
            return
        left = [one for one in self._rows if not walk.has(one)]
        odd = sum(bool(why_odd(one)) for one in left)
        same = len(session.plan.zones) - len(self._rows) if session.plan else 0
        many = len(self._rows)
        zones = "1 zone changes" if many == 1 else f"{many} zones change"
        parts: list[str | tuple[str, str]] = [
            (f"{zones}, ", "bold"),
            f"{same} do not; {len(left)} left",
        ]
        if odd:
            how = "" if self.is_narrow else ": space accepts one by itself"
            parts.append((f"   ✖ {odd} to be looked at{how}", "bold $text-error"))
        elif not left:
            parts.append(("   ✔ all accepted: i issues the week", "bold $text-success"))
        whole = Content.assemble(*parts) if self._rows else Content(QUIET)
        self.query_one("#head", Static).update(whole)
        self.query_one("#about", Static).update(self._about(session))
        self.query_one(ZoneTable).refresh()

    def _about(self, session: Session) -> Content:
        row = self._row()
        if row is None:
            return Content("")
        plan, odd = row.plan, why_odd(row)
        name = f"{plan.zone.id}  {plan.zone.name}\n"
        parts: list[str | tuple[str, str]] = [(name, "bold")]
        parts.append(f"{wording.setting_text(plan, session.units)}\n")
        if odd:
            parts.append((f"✖ {odd}\n", "bold $text-error"))
        for kept in plan.changed.overrides if plan.changed else ():
            parts.append(f"{override_text(plan.zone.id, kept)}\n")
        if plan.was_from:
            parts.append((f"was: {plan.was_from}\n", "$foreground 60%"))
        for one in plan.changed.shares[:3] if plan.changed else ():
            parts.append(
                (f"{one.words}: {signed(one.minutes, '.1f')} min\n", "$foreground 60%")
            )
        return Content.assemble(*parts)

    def _row(self) -> Row | None:
        here = self.zone_here
        return next((one for one in self._rows if one.plan.zone.id == here), None)

    # --- keys ---------------------------------------------------------------
    def on_zone_table_row_highlighted(self) -> None:
        if self.zone_here:
            self.dashboard.walk = replace(self.dashboard.walk, at=self.zone_here)
        self._say()

    def on_zone_table_row_selected(self, event: ZoneTable.RowSelected) -> None:
        self.dashboard.open_zone(event.key)

    def action_look(self) -> None:
        if self.zone_here:
            self.dashboard.open_page("zone", self.zone_here)

    def action_cursor(self, by: int) -> None:
        table = self.query_one(ZoneTable)
        table.move_cursor(row=table.cursor_row + by)

    def action_accept(self) -> None:
        """Accept the zone under the cursor and go on; again takes it back."""
        row, walk = self._row(), self.dashboard.walk
        if row is None:
            return
        if walk.has(row):
            self.dashboard.walk = walk.without(row)
        else:
            self.dashboard.walk = walk.with_rows(row)
            self.action_cursor(1)
        self._say()

    def action_accept_all(self) -> None:
        session = self.dashboard.session
        if session is not None:
            self.dashboard.walk = state.accepted_all(session, self.dashboard.walk)
            self._say()

    def action_issue(self) -> None:
        session = self.dashboard.session
        if session is None:
            return
        asked = state.ready(session, self.dashboard.walk)
        if asked.asks_why:
            self.query_one(Prompt).ask("why", WHY)
        elif asked.refused:
            self.notify(asked.refused, severity="warning", markup=False)
        else:
            self._issue(session, "")

    def on_prompt_given(self, event: Prompt.Given) -> None:
        session, why = self.dashboard.session, event.text.strip()
        if session is None:
            return
        # the week may have become another one while the reason was typed
        asked = state.ready(session, self.dashboard.walk)
        refused = "" if asked.asks_why else asked.refused
        if refused or not why:
            said = refused or "Not issued: no reason was given."
            self.notify(said, severity="warning", markup=False)
        else:
            self._issue(session, why)

    def _issue(self, session: Session, why: str) -> None:
        self.notify(issue_week(session, why), markup=False)
        # what the clock was told is part of the folder now
        self.dashboard.action_read_again()


def columns(width: int, rows: Sequence[Row], *, is_narrow: bool) -> list[Column]:
    longest = max((len(one.plan.zone.name) for one in rows), default=0) + 1
    ids = max((len(one.plan.zone.id) for one in rows), default=0) + 3
    zone, was, now, change = (max(7, ids), *((4, 7, 7) if is_narrow else (5, 10, 8)))
    used = zone + was + now + change + (0 if is_narrow else 9)
    names = max(LEAST_NAME, min(longest, width - used - WORDS))
    nights = [] if is_narrow else [Column(" nights", 9, is_right=False)]
    return [
        Column("  zone", zone, is_right=False),
        Column("name", names, is_right=False),
        Column("was", was),
        Column("→ min" if is_narrow else "now, min", now),
        Column("change", change),
        *nights,
        Column(" why", max(20, width - names - used), is_right=False),
    ]
