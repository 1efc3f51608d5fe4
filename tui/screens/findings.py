"""Everything wrong with a site, worst first: place, what, and what to do."""

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


class FindingsScreen(Doors[None]):
    """The list of findings; also what a folder shows that is no site."""

    CSS_PATH = "findings.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "app.from_findings", "Back"),
        Binding("j", "cursor('cursor_down')", "Down", show=False),
        Binding("k", "cursor('cursor_up')", "Up", show=False),
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

    def action_cursor(self, how: str) -> None:
        getattr(self.query_one(OptionList), f"action_{how}")()


def _entry(finding: Finding) -> Content:
    colour = {"stop": "$text-error", "warning": "$text-warning"}.get(finding.level, "")
    level = f"{wording.GLYPH[finding.level]} {finding.level}".ljust(10)
    return Content.assemble(
        (level, f"bold {colour}".strip()),
        (finding.where, "bold"),
        f"\n{finding.what}",
        f"\n→ {finding.fix}\n",
    )
