"""What the need page and the season page share: dials for what-ifs.

A dial is picked by its letter and turned by - and +; every page shows what is tried,
for the tried numbers stand in the session.
"""

from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from scheduler.units import shown
from tui.screens.doors import Page
from tui.session import Session, own_zone_plan, zone_plan
from tui.tried import Effect, zone_effects
from tui.what_if import Edit, What, dial

DIAL_KEYS: "dict[What, str]" = {"du": "d", "kc factor": "k", "allowed": "a"}


class Trying(Page):
    """A page on which rule, DU, Kc and allowed depletion can be tried."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("1", "rule(1)", "Rule", key_display="1-5"),
        Binding("2", "rule(2)", show=False),
        Binding("3", "rule(3)", show=False),
        Binding("4", "rule(4)", show=False),
        Binding("5", "rule(5)", show=False),
        Binding("d", "dial('du')", "Dial", key_display="d k a"),
        Binding("k", "dial('kc factor')", show=False),
        Binding("a", "dial('allowed')", show=False),
        Binding("minus", "turn(-1)", "Try", key_display="- +"),
        Binding("plus,equals_sign", "turn(1)", show=False),
        Binding("0", "as_entered", "As is"),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._dial: What | None = "du"

    def say_tried(self, session: Session) -> None:
        """Write the dials, and below them what they do."""
        parts = self.dial_parts(session)
        self.query_one("#tried", Static).update(Content.assemble(*parts))
        self.say_what_if(session)

    def dial_parts(self, session: Session) -> list[str | tuple[str, str]]:
        """The dials as they stand, the picked one in brackets."""
        plan = own_zone_plan(session, self._zone_id)
        parts: list[str | tuple[str, str]] = [("- + ", "$foreground 60%")]
        for what, key in DIAL_KEYS.items():
            now = dial(plan, session.edits, self._zone_id, what)
            parts += self.dial_part(key, dial_text(what, now), what == self._dial)
        parts.append(("0 as entered", "$foreground 60%"))
        return parts

    @staticmethod
    def dial_part(key: str, text: str, is_picked: bool) -> list[str | tuple[str, str]]:
        """One dial: its key and where it stands."""
        if is_picked:
            return [(f"[{key} {text}]", "bold $primary"), " "]
        return [(f" {key} ", "$foreground 60%"), f"{text}  "]

    def effects(self, session: Session) -> tuple[Effect, ...] | None:
        return zone_effects(session, self._zone_id)

    def _is_tried(self, session: Session) -> bool:
        return any(one.zone == self._zone_id for one in session.what_ifs)

    def action_dial(self, what: What) -> None:
        self._dial = what
        if self.dashboard.session is not None:
            self.say_tried(self.dashboard.session)

    def action_turn(self, by: int) -> None:
        if self._dial is not None:
            self.dashboard.turn(self._zone_id, self._dial, by)

    def action_as_entered(self) -> None:
        session = self.dashboard.session
        if session is not None and self._is_tried(session):
            self.dashboard.request_edit(Edit("as entered", "", self._zone_id))

    def action_rule(self, key: int) -> None:
        session = self.dashboard.session
        plan = zone_plan(session, self._zone_id) if session is not None else None
        if plan is None or key > len(plan.rules):
            self.notify("this zone has no such run-time rule", severity="warning")
            return
        rule = plan.rules[key - 1].rule
        if rule == "leaching target":
            self.notify("it rules by itself where it is the larger", severity="warning")
        elif rule not in (plan.rule, plan.zone.chosen_rule):
            self.dashboard.request_edit(Edit("rule", rule, self._zone_id))


def dial_text(what: What, value: float | None) -> str:
    """Where a dial stands: `DU 0.75`, `Kc ×1.05`, `allowed 30 %`."""
    if what == "allowed":
        return (
            "allowed –" if value is None else f"allowed {value:.0%}".replace("%", " %")
        )
    number = shown(value, "", "metric", digits=2)
    return f"Kc ×{number}" if what == "kc factor" else f"DU {number}"
