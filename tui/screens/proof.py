"""A zone's schedule held against what happened: leaching, drift, meter, what is due."""

from functools import partial
from typing import TYPE_CHECKING, ClassVar, cast

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import SaveError, SchedulerError
from tui import log_entry
from tui import proof_state as state
from tui.explained import main_first
from tui.screens import proof_pictures as pictures
from tui.screens import proof_words as words
from tui.screens.ask import AskScreen
from tui.screens.doors import Page
from tui.screens.explain import ExplainScreen
from tui.screens.log_form import LogFormScreen
from tui.session import Session
from tui.tried import Effect, zone_effects
from tui.widgets.dated_ranges import RangesByDate
from tui.widgets.drift_bands import DriftBands
from tui.widgets.meter_bars import PairedBars
from tui.widgets.words import Words

if TYPE_CHECKING:
    from scheduler.files.log_writing import LastEntry, TypedLine
    from scheduler.proof.zone_proof import ZoneProof
    from scheduler.trace import Trace

PICTURES = ("leaching", "drift", "meter", "due")
TITLES = {
    "leaching": "Leaching checks, % of the water; ○ not learned from",
    "drift": "Kc and rate over what was entered, by week; ▴ a look",
    "meter": "Plan against meter, by readings",
    "due": "Due, learned, in conflict",
}
TALL = 34  # from this many rows on, two rows of pictures fit
NO_CHECK = "No leaching check of this zone. a records one: six pots, the driest too."
NO_LOOK = (
    "Nothing learned yet: a leaching check, or pots on the scales, would teach it."
)
NO_METER = "No two readings of a meter that this zone runs through. m records one."


class ProofScreen(Page):
    """Pictures of the proof; records what happened, to the end of the log."""

    CSS_PATH = "proof.tcss"
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right,n,down", "zone(1)", "Zone", key_display="← →"),
        Binding("left,p,up", "zone(-1)", show=False),
        Binding("v,tab", "picture(1)", "Picture", key_display="v"),
        Binding("shift+tab", "picture(-1)", show=False),
        Binding("a", "record('leaching')", "Record", key_display="a o k m"),
        Binding("o", "record('override')", show=False),
        Binding("k", "record('skipped')", show=False),
        Binding("m", "record('meter')", show=False),
        Binding("z", "take_back", "Take back"),
        Binding("e", "explain", "Explain"),
        Binding("pagedown", "page(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._picture = 0
        self._found: ZoneProof | None = None

    def body(self) -> ComposeResult:
        yield Words(id="head")
        yield Words(id="tabs")
        with Container(id="pictures"):
            for name, chart in (
                ("leaching", RangesByDate()),
                ("drift", DriftBands()),
                ("meter", PairedBars()),
            ):
                with Vertical(id=name, classes="pane"):
                    yield Words(TITLES[name], classes="title")
                    yield chart
            with Vertical(id="due", classes="pane"):
                yield Words(TITLES["due"], classes="title")
                with VerticalScroll(can_focus=False):
                    yield Words(id="said")

    @property
    def is_narrow(self) -> bool:
        """Whether there is room for one picture only."""
        return super().is_narrow or self.app.size.height < TALL

    def effects(self, session: Session) -> tuple[Effect, ...]:
        return zone_effects(session, self._zone_id)

    def show(self, session: Session) -> None:
        ids = state.zones_of(session)
        if not ids:
            self.take_off("the site has no zones")
            self.query_one("#head", Static).update("Proof: the site has no zones")
            return
        if self._zone_id.casefold() not in {one.casefold() for one in ids}:
            self._zone_id = ids[0]
        self._tabs()
        self.ask(
            partial(state.zone_proof, session, self._zone_id),
            f"holding the plan of {self._zone_id} against what happened …",
        )

    @property
    def about(self) -> str:
        return self._zone_id.casefold()

    def empty(self, why: str) -> None:
        self._found = None
        self.query_one("#head", Static).update(f"{self._zone_id}  proof")
        self.query_one(RangesByDate).show(None, why)
        self.query_one(DriftBands).show(None, why)
        self.query_one(PairedBars).show(None, why)
        self.query_one("#said", Static).update(why)

    def answered(self, answer: object) -> None:
        if isinstance(answer, SchedulerError):
            before = ". What is shown is of before." if self._found is not None else ""
            said = f"{self._zone_id}  proof: {answer}{before}"
            self.query_one("#head", Static).update(said)
            return
        self._found = cast("ZoneProof", answer)
        self._draw(self._found)

    def _draw(self, found: "ZoneProof") -> None:
        session = self.dashboard.session
        if session is None:
            return
        ids = state.zones_of(session)
        place = f"zone {ids.index(found.zone.id) + 1} of {len(ids)}"
        due = words.due_line(found.due) or "nothing due"
        self.query_one("#head", Static).update(
            Content.assemble(
                (f"{found.zone.id}  {found.zone.name}  ", "bold"),
                ("proof", "bold $primary"),
                (f"   {due}   {place}", "$foreground 60%"),
                ("   of what is entered" if session.what_ifs else "", "bold $primary"),
            )
        )
        self.query_one(RangesByDate).show(pictures.leaching_points(found), NO_CHECK)
        self.query_one(DriftBands).show(pictures.drift_panels(found), NO_LOOK)
        bars = pictures.meter_pairs(found, session.units)
        self.query_one(PairedBars).show(bars, NO_METER)
        self.query_one("#said", Static).update(words.said(found))

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

    def action_picture(self, by: int) -> None:
        self._picture = (self._picture + by) % len(PICTURES)
        self._tabs()

    def action_page(self, by: int) -> None:
        scroll = self.query_one("#due VerticalScroll", VerticalScroll)
        (scroll.scroll_page_down if by > 0 else scroll.scroll_page_up)(animate=False)

    def action_zone(self, by: int) -> None:
        session = self.dashboard.session
        ids = state.zones_of(session) if session is not None else ()
        if session is None or len(ids) < 2:
            return
        at = [one.casefold() for one in ids].index(self._zone_id.casefold())
        self._zone_id = ids[(at + by) % len(ids)]
        self.show(session)
        self.say_path()

    def action_explain(self) -> None:
        """Where the numbers of the pictures come from."""
        session, found = self.dashboard.session, self._found
        if session is None or found is None:
            return
        traces = self._traces(found)
        if not traces:
            self.notify("nothing is computed here yet", severity="warning")
            return
        title = f"{found.zone.id}  {found.zone.name}: proof"
        whole = traces[0] if len(traces) == 1 else words.whole_trace(traces)
        numbers = main_first(traces, [one.name for one in traces])
        self.app.push_screen(ExplainScreen(title, whole, session.units, numbers))

    def _traces(self, found: "ZoneProof") -> "tuple[Trace, ...]":
        """Of the picture in front; of all where they stand side by side."""
        known = {
            "leaching": found.checks[-1].trace if found.checks else None,
            "drift": found.learnt.trace if found.learnt is not None else None,
            "meter": found.intervals[-1].trace if found.intervals else None,
        }
        name = PICTURES[self._picture]
        if self.is_narrow and name in known:
            known = {name: known[name]}
        return tuple(one for one in known.values() if one is not None)

    # --- to the log, and back -----------------------------------------------------
    def action_record(self, what: log_entry.What) -> None:
        session = self.dashboard.session
        if session is None or session.site is None:
            return
        form = log_entry.log_form(session, what, self._zone_id)
        self.app.push_screen(LogFormScreen(form), self._write)

    def _write(self, lines: "tuple[TypedLine, ...] | None") -> None:
        if not lines:
            return
        try:
            log_entry.write(self.dashboard.folder, lines)
        except SaveError as error:
            self.notify(str(error), severity="error", markup=False, timeout=30)
            return
        count = "1 line" if len(lines) == 1 else f"{len(lines)} lines"
        self.notify(f"Written to log.csv: {count}. z takes it back.")
        self.dashboard.read_after_save()

    def action_take_back(self) -> None:
        try:
            entry = log_entry.last_own(self.dashboard.folder)
        except SaveError as error:
            self.notify(str(error), severity="warning", markup=False)
            return
        question = "\n".join(["Take this out of log.csv?", "", *entry.lines])
        self.app.push_screen(
            AskScreen(question, {"y": "take it back"}, "leave it"),
            partial(self._take_back, entry),
        )

    def _take_back(self, entry: "LastEntry", answer: str | None) -> None:
        if answer != "y":
            return
        try:
            log_entry.take_back(self.dashboard.folder, entry)
        except SaveError as error:
            self.notify(str(error), severity="error", markup=False, timeout=30)
            return
        self.notify("Taken back from log.csv.")
        self.dashboard.read_after_save()
