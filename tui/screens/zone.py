"""One zone's week: what to set, the cans, the rules, the cycles, the days."""

from typing import ClassVar, Literal

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import Finding, QuantityError
from tui.screens import pictures, wording
from tui.screens.doors import Doors
from tui.session import Edit, Session, evaluation, zone_findings, zone_plan
from tui.tried import Effect, plan_before, zone_effects
from tui.what_if import typed_days, typed_kc
from tui.widgets.bars import Prompt
from tui.widgets.charts import CanMap, CycleBars, DepletionBars
from tui.widgets.rule_bars import RuleBars
from tui.widgets.words import Words

PICTURES = ("cans", "rules", "cycles", "depletion", "findings")
TALL = 34  # from this many rows on, two rows of pictures fit
EASY = 40  # and from this many with space between them
HINTS = {
    "kc": "Kc to try, such as 0.85",
    "days": "days to try, such as mon wed fri",
}


class ZoneScreen(Doors[str]):
    """One zone, all of it; gives back the zone it was left on."""

    CSS_PATH = "zone.tcss"
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Zones"),
        Binding("n,down,j", "step(1)", "Next", key_display="n"),
        Binding("p,up", "step(-1)", "Previous", show=False),
        Binding("v,tab", "picture(1)", "Picture", key_display="v"),
        Binding("shift+tab", "picture(-1)", "Picture back", show=False),
        Binding("1", "rule(1)", "Rule", key_display="1-5"),
        Binding("2", "rule(2)", show=False),
        Binding("3", "rule(3)", show=False),
        Binding("4", "rule(4)", show=False),
        Binding("5", "rule(5)", show=False),
        Binding("k", "ask('kc')", "Kc", show=False),
        Binding("d", "ask('days')", "Days", show=False),
        Binding("r", "run", "Run", show=False),
        Binding("e", "explain", "Explain"),
        Binding("x", "words", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__()
        self.zone_id = zone_id
        self._picture = 0
        self._run = 0

    def body(self) -> ComposeResult:
        with Vertical(id="head"):
            yield Words(id="name")
            yield Words(id="setting")
            yield Words(id="figures")
        yield Words(id="tabs")
        with Container(id="pictures"):
            for name, chart in (
                ("cans", CanMap()),
                ("rules", RuleBars()),
                ("cycles", CycleBars()),
                ("depletion", DepletionBars()),
            ):
                with Vertical(id=name, classes="pane"):
                    yield Words(classes="title")
                    yield chart
            with Vertical(id="findings", classes="pane"):
                yield Words(classes="title")
                with VerticalScroll(can_focus=False):
                    yield Words(id="found")
        yield Prompt()

    @property
    def zone_here(self) -> str:
        return self.zone_id

    def effects(self, session: Session) -> tuple[Effect, ...]:
        return zone_effects(session, self.zone_id)

    def show(self, session: Session) -> None:
        self.set_class(self.app.size.height < EASY, "short")
        plan = zone_plan(session, self.zone_id)
        if plan is None:
            self._nothing(session)
            return
        zones = session.plan.zones if session.plan is not None else ()
        place = [one.zone.id for one in zones].index(plan.zone.id) + 1
        self._head(session, f"zone {place} of {len(zones)}")
        self._cans(session)
        self._charts(session)
        found = zone_findings(session, self.zone_id)
        self._title("findings", f"Findings: {wording.counted(found)}")
        self.query_one("#found", Static).update(
            Content.assemble(*(_finding(one) for one in found))
        )
        self._tabs()

    def _nothing(self, session: Session) -> None:
        """Leave no picture of another week or zone; the cans are as they were."""
        why = f"There is no zone {self.zone_id}."
        if session.plan is None:
            why = "No week is planned; see the findings."
        self.query_one("#name", Static).update(why)
        for part in ("#setting", "#figures", "#found"):
            self.query_one(part, Static).update("")
        self._title("findings", "Findings")
        self._cans(session)
        self.query_one(RuleBars).show((), (), why)
        self.query_one(CycleBars).show(None, why)
        self.query_one(DepletionBars).show(None, why)

    def _head(self, session: Session, place: str) -> None:
        plan = zone_plan(session, self.zone_id)
        assert plan is not None, "show has looked"
        zone = plan.zone
        valve = f", valve {zone.valve}" if zone.valve else ""
        plants = f", {zone.plant.name}" if zone.plant is not None else ""
        self.query_one("#name", Static).update(
            Content.assemble(
                (f"{zone.id}  {zone.name}", "bold"),
                (f"   {zone.grown_in}{plants}{valve}   {place}", "$foreground 60%"),
            )
        )
        self.query_one("#setting", Static).update(
            wording.setting_text(plan, session.units)
        )
        parts: list[str | tuple[str, str]] = []
        pairs = wording.figures(session, plan)
        for line in wording.packed(pairs, self.app.size.width - 2):
            for name, value in line:
                parts += [(f"{name} ", "$foreground 60%"), f"{value}   "]
            parts.append("\n")
        self.query_one("#figures", Static).update(Content.assemble(*parts[:-1]))

    def _cans(self, session: Session) -> None:
        test, chart = evaluation(session, self.zone_id), self.query_one(CanMap)
        if test is None or not test.runs:
            basis = "No readings of this zone; see its findings."
            chart.show(None, basis)
            self._title("cans", "Cans as they stood")
            return
        run = test.runs[self._run % len(test.runs)]
        plan = zone_plan(session, self.zone_id)
        note = wording.range_note(session, plan) if plan is not None else ""
        about = (
            f"{test.condition}, {wording.day_text(test.date)} {test.date.year}",
            note,
        )
        chart.show(pictures.can_grid(run, session.units, about=about))
        title = pictures.can_title(run, session.units, len(test.runs))
        more = "   r next run" if len(test.runs) > 1 else ""
        self._title("cans", f"{title}{more}")

    def _charts(self, session: Session) -> None:
        plan = zone_plan(session, self.zone_id)
        assert plan is not None, "show has looked"
        was = plan_before(session, self.zone_id)
        columns = pictures.rule_columns(plan, session.units, was)
        self.query_one(RuleBars).show(columns, pictures.RULE_ROWS)
        self._title("rules", "What each quarter of the zone gets, of its need │")
        self.query_one(CycleBars).show(pictures.cycle_line(plan, was))
        self._title("cycles", "One watering, to scale")
        self.query_one(DepletionBars).show(pictures.day_bars(plan, session.units, was))
        self._title("depletion", "Depletion where the rule serves, each evening")

    def _title(self, pane: str, text: str) -> None:
        self.query_one(f"#{pane} .title", Static).update(text)

    def _tabs(self) -> None:
        parts: list[str | tuple[str, str]] = []
        for i, name in enumerate(PICTURES):
            here = i == self._picture
            parts.append((f"[{name}]" if here else f" {name} ", "bold" if here else ""))
            parts.append(" ")
            self.query_one(f"#{name}").set_class(here, "current")
        self.query_one("#tabs", Static).update(Content.assemble(*parts))

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer the next picture only where one is shown at a time."""
        del parameters
        return self.is_narrow if action == "picture" else True

    @property
    def is_narrow(self) -> bool:
        """Whether there is room for one picture only."""
        return super().is_narrow or self.app.size.height < TALL

    def action_leave(self) -> None:
        self.dismiss(self.zone_id)

    def action_step(self, by: int) -> None:
        session = self.dashboard.session
        if session is None or session.plan is None:
            return
        ids = [one.zone.id for one in session.plan.zones]
        at = ids.index(self.zone_id) + by if self.zone_id in ids else 0
        if 0 <= at < len(ids):
            self.pick(ids[at])

    def pick(self, zone_id: str) -> None:
        """Show another zone."""
        session = self.dashboard.session
        if session is not None and zone_id != self.zone_id:
            self.other_zone(zone_id)
            self.show(session)
            self.say_path()
            self.say_what_if(session)

    def other_zone(self, zone_id: str) -> None:
        self.zone_id, self._run = zone_id, 0

    def action_picture(self, by: int) -> None:
        self._picture = (self._picture + by) % len(PICTURES)
        self._tabs()

    def action_page(self, by: int) -> None:
        scroll = self.query_one("#findings VerticalScroll", VerticalScroll)
        (scroll.scroll_page_down if by > 0 else scroll.scroll_page_up)(animate=False)

    def action_run(self) -> None:
        self._run += 1
        if self.dashboard.session is not None:
            self._cans(self.dashboard.session)

    def action_rule(self, key: int) -> None:
        session = self.dashboard.session
        plan = zone_plan(session, self.zone_id) if session is not None else None
        if plan is None or key > len(plan.rules):
            self.notify("this zone has no run-time rule", severity="warning")
            return
        rule = plan.rules[key - 1].rule
        if rule == "leaching target":
            self.notify("it rules by itself where it is the larger", severity="warning")
        elif rule not in (plan.rule, plan.zone.chosen_rule):
            self.dashboard.request_edit(Edit("rule", rule, self.zone_id))

    def action_ask(self, what: Literal["kc", "days"]) -> None:
        self.query_one(Prompt).ask(what, HINTS[what])

    def on_prompt_given(self, event: Prompt.Given) -> None:
        if not event.text.strip():
            return
        try:
            if event.what == "days":
                edit = Edit("days", typed_days(event.text), self.zone_id)
            else:
                edit = Edit("kc", typed_kc(event.text), self.zone_id)
        except QuantityError as error:
            self.notify(str(error), severity="error", markup=False)
            return
        self.dashboard.request_edit(edit)

    def action_explain(self) -> None:
        self.dashboard.explain(self.zone_id)


def _finding(finding: Finding) -> Content:
    colour = {"stop": "$text-error", "warning": "$text-warning"}.get(finding.level, "")
    return Content.assemble(
        (f"{wording.GLYPH[finding.level]} {finding.level} ", f"bold {colour}".strip()),
        f"{finding.where}: {finding.what}. → {finding.fix}\n",
    )
