"""Everything wrong with a site, worst first: place, what, and what to do."""

import re
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from scheduler.errors import Finding
from tui.screens import wording
from tui.screens.base import SessionScreen
from tui.session import Session
from tui.taking import Table


class FindingsScreen(SessionScreen[None]):
    """The list of findings; also what a folder shows that is no site."""

    CSS_PATH = "findings.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "app.zones", "Back"),
        Binding("j", "cursor('cursor_down')", "Down", show=False),
        Binding("k", "cursor('cursor_up')", "Up", show=False),
        Binding("e", "explain", "Explain", show=False),
    ]

    def body(self) -> ComposeResult:
        yield Static("", id="summary", markup=False)
        yield OptionList(id="findings", markup=False)

    def show(self, session: Session) -> None:
        summary = wording.counted(session.findings)
        if session.site is None:
            summary = f"This folder cannot be read as a site.  {summary}"
        self.query_one("#summary", Static).update(summary)
        listed = self.query_one(OptionList)
        at = listed.highlighted
        listed.clear_options()
        listed.add_options(Option(_entry(one)) for one in session.findings)
        if session.findings:
            listed.highlighted = min(at or 0, len(session.findings) - 1)

    def action_explain(self) -> None:
        """Explain the week of the zone that the finding in front is about."""
        session, at = self.dashboard.session, self.query_one(OptionList).highlighted
        zone = ""
        if session is not None and session.plan is not None and at is not None:
            where = session.findings[at].where
            ids = [one.zone.id for one in session.plan.zones]
            named = [one for one in ids if _is_named(one, where)]
            zone = max(named, key=len, default="")
        if zone:
            self.dashboard.explain(zone)
        else:
            self.notify("This finding is of no zone's numbers.", severity="warning")

    @property
    def whole_table(self) -> Table:
        """Every finding as a row, to be taken away."""
        session = self.dashboard.session
        found = session.findings if session is not None else ()
        rows = tuple((one.level, one.where, one.what, one.fix) for one in found)
        heads = ("level", "where", "what", "what to do")
        return Table(heads, rows, (False,) * len(heads))

    def action_cursor(self, how: str) -> None:
        getattr(self.query_one(OptionList), f"action_{how}")()


def _is_named(zone: str, where: str) -> bool:
    """Whether a place is of a zone: its id stands there as a word of its own."""
    word = rf"(?<![^\W_]){re.escape(zone)}(?![^\W_])"
    return re.search(word, where, re.IGNORECASE) is not None


def _entry(finding: Finding) -> Content:
    colour = {"stop": "$text-error", "warning": "$text-warning"}.get(finding.level, "")
    level = f"{wording.GLYPH[finding.level]} {finding.level}".ljust(10)
    return Content.assemble(
        (level, f"bold {colour}".strip()),
        (finding.where, "bold"),
        f"\n{finding.what}",
        f"\n→ {finding.fix}\n",
    )
