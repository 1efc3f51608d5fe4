"""Everything wrong with a site, worst first: place, what, and what to do."""

import re
from functools import partial
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from scheduler.errors import Finding
from tui.screens import wording
from tui.screens.doors import Doors
from tui.session import Session
from tui.taking import Table
from tui.tried import Effect, findings_effects
from tui.widgets.sheet import Told
from tui.widgets.words import Words

# where a finding names its zone, or the folder of its test
ZONE = re.compile(r"\bzones? ([\w.-]*\w)|tests/\d{4}-\d\d-\d\d-([^/:]+)")


class FindingsScreen(Doors[None]):
    """The list of findings; also what a folder shows that is no site."""

    CSS_PATH = "findings.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "app.from_findings", "Back"),
        Binding("enter", "select", "Its zone"),
        Binding("j", "cursor('cursor_down')", "Down", show=False),
        Binding("k", "cursor('cursor_up')", "Up", show=False),
        Binding("e", "explain", "Explain", show=False),
    ]

    def body(self) -> ComposeResult:
        yield Words(id="summary")
        yield OptionList(id="findings", markup=False)

    def effects(self, session: Session) -> tuple[Effect, ...]:
        return findings_effects(session)

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

    @property
    def zone_meant(self) -> str:
        """Zone that the finding under the cursor is about; empty where none."""
        session, at = self.dashboard.session, self.query_one(OptionList).highlighted
        if session is None or at is None or at >= len(session.findings):
            return ""
        named = ZONE.search(session.findings[at].where)
        site = session.site
        zone = site.zone(named[1] or named[2]) if site and named else None
        return zone.id if zone is not None else ""

    def action_select(self) -> None:
        self.query_one(OptionList).action_select()

    def on_option_list_option_selected(self) -> None:
        if self.zone_meant:
            self.dashboard.open_page("zone", self.zone_meant)

    def action_explain(self) -> None:
        """Explain the week of the zone that the finding in front is about."""
        session, zone = self.dashboard.session, self.zone_meant
        if session is not None and session.plan is not None and zone:
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


def _entry(finding: Finding) -> Told:
    level = f"{wording.GLYPH[finding.level]} {finding.level}".ljust(10)
    lines = (f"{level}{finding.where}", finding.what, f"→ {finding.fix}", "")
    return Told(lines, partial(_written, finding, level, lines))


def _written(finding: Finding, level: str, lines: tuple[str, ...]) -> Content:
    colour = {"stop": "$text-error", "warning": "$text-warning"}.get(finding.level, "")
    return Content.assemble(
        (level, f"bold {colour}".strip()),
        (finding.where, "bold"),
        "\n" + "\n".join(lines[1:]),
    )
