"""Uniformity of a package's sprinkler over both spacings, and one of them in full."""

from functools import partial
from typing import TYPE_CHECKING, ClassVar, Literal

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import SchedulerError
from scheduler.units import shown
from tui import cost_state, explained
from tui import field_state as state
from tui.field_state import SpacingMap
from tui.screens import spacing_pictures as drawn
from tui.screens.doors import Page
from tui.screens.explaining import explain_numbers
from tui.session import Edit, Session, zone_plan
from tui.taking import Table
from tui.tried import Effect, du_effects
from tui.widgets.spacing_map import SpacingMap as Map
from tui.widgets.words import Words

if TYPE_CHECKING:
    from scheduler.field.overlap import Pattern

# Nurseries aim at this and above (common practice, no source); - and + move it.
TARGET, STEP = 80, 5


class SpacingScreen(Page):
    """A what-if that nothing keeps: arrows move the heads, the numbers follow."""

    CSS_PATH = "spacing.tcss"
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right", "move(1, 0)", "Spacing", key_display="arrows"),
        Binding("left", "move(-1, 0)", show=False),
        Binding("up", "move(0, 1)", show=False),
        Binding("down", "move(0, -1)", show=False),
        Binding("l", "layout", "Layout"),
        Binding("o", "own", "As built"),
        Binding("n", "package(1)", "Package"),
        Binding("p", "package(-1)", show=False),
        Binding("m,dollar_sign", "money", "Money", show=False),
        Binding("minus", "target(-1)", "Target", key_display="- +"),
        Binding("plus,equals_sign", "target(1)", show=False),
        Binding("e", "explain", show=False),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._package = ""
        self._layout: Literal["rectangular", "triangular"] | None = None
        self._place: tuple[int, int] | None = None
        self._target = TARGET
        self._found: SpacingMap | None = None

    def body(self) -> ComposeResult:
        yield Words(id="head")
        with Horizontal(id="middle"):
            yield Map()
            with Vertical(id="side"):
                yield Words(id="numbers")
                with VerticalScroll(can_focus=False):
                    yield Words(id="notes")

    def other_zone(self, zone_id: str) -> None:
        super().other_zone(zone_id)
        self._package, self._layout, self._place = "", None, None

    def effects(self, session: Session) -> tuple[Effect, ...]:
        return du_effects(session, self._zone_id)

    def show(self, session: Session) -> None:
        names = [one.id for one in state.profiled_packages(session)]
        if not names:
            self.take_off(drawn.NOTHING)
            self.query_one("#head", Static).update("Spacing")
            self.query_one("#side").display = False
            return
        self.query_one("#side").display = True
        if self._package not in names:
            plan = zone_plan(session, self._zone_id)
            own = plan.zone.package if plan is not None else None
            self._package = own if own in names else names[0]
        self._ask(session)

    def _ask(self, session: Session) -> None:
        package = next(
            one for one in state.profiled_packages(session) if one.id == self._package
        )
        if self._layout is None:
            is_staggered = package.layout == "triangular"
            self._layout = "triangular" if is_staggered else "rectangular"
        if self._found is None:
            self.query_one("#head", Static).update("working out the map …")
        self.ask(
            partial(state.spacing_map, session, self._package, self._layout),
            f"laying the cans of {self._package} over each other …",
        )

    def left_off(self) -> None:
        super().left_off()
        if self._found is None:
            self.query_one("#head", Static).update("map not worked out")

    @property
    def about(self) -> str:
        return self._package

    def empty(self, why: str) -> None:
        self._found = None
        self.query_one("#head", Static).update(f"{self._package}  not worked out")
        self.query_one(Map).show(None, nothing=why)
        for part in ("#numbers", "#notes"):
            self.query_one(part, Static).update("")

    def answered(self, answer: object) -> None:
        if isinstance(answer, SchedulerError):
            self.notify(str(answer), severity="error", markup=False)
        elif isinstance(answer, SpacingMap):
            before = self._found
            if before is None or before.package.id != answer.package.id or (
                before.sweep.spacings_m.size != answer.sweep.spacings_m.size
            ):  # fmt: skip
                self._place = None  # another axis
            self._found = answer
            self._draw()

    # --- what is drawn ------------------------------------------------------
    def _draw(self) -> None:
        found, session = self._found, self.dashboard.session
        if found is None or session is None:
            return
        own = state.own_places(found)
        self._place = self._place or own
        built, at = self._pattern(own), self._pattern(self._place)
        units = session.units
        self.query_one(Map).show(
            drawn.field(found, units),
            drawn.chosen(found, at, self._place, own, units),
            self._target / 100,
        )
        throw = shown(found.profile.profile.throw_m, "m", units)
        flow = shown(found.profile.profile.flow_l_per_min, "l_per_min", units)
        self.query_one("#head", Static).update(
            Content.assemble(
                (f"{found.package.id}  ", "bold"),
                (
                    f"DU over both spacings, {drawn.ROWS[found.sweep.layout]}",
                    "bold $primary",
                ),
                (f"   throw {throw}, {flow}", "$foreground 60%"),
            )
        )
        self._numbers(session, at, built)
        self._notes(found)

    def _pattern(self, place: tuple[int, int]) -> "Pattern":
        assert self._found is not None, "drawn only with a map"
        swept = self._found.sweep
        return state.pattern_at(
            self._found,
            float(swept.spacings_m[place[0]]),
            float(swept.row_spacings_m[place[1]]),
        )

    def _numbers(self, session: Session, at: "Pattern", built: "Pattern") -> None:
        units = session.units
        parts: list[str | tuple[str, str]] = [
            (f"{drawn.size(at, units)}\n", "bold $primary"),
            (f"as built {drawn.size(built, units)}\n\n", "$foreground 60%"),
            (f"{'':<17} {'here':>5} {'built':>5}\n", "$foreground 60%"),
        ]
        here, before = drawn.numbers(at, units), drawn.numbers(built, units)
        for (name, value), (_, was) in zip(here, before, strict=True):
            parts += [
                (f"{name:<17} ", "$foreground 60%"),
                (f"{value:>5} ", "bold"),
                (f"{was:>5}\n", "$foreground 60%"),
            ]
        self.query_one("#numbers", Static).update(Content.assemble(*parts))

    @property
    def whole_table(self) -> Table | None:
        """The spacing under the cursor beside the one as built, to be taken away."""
        session, found = self.dashboard.session, self._found
        if session is None or found is None or self._place is None:
            return None
        at, own = self._place, state.own_places(found)
        here, built = (
            drawn.numbers(self._pattern(one), session.units) for one in (at, own)
        )
        rows = zip(here, built, strict=True)
        cells = tuple((name, value, was) for (name, value), (_, was) in rows)
        name = found.package.id
        return Table((name, "here", "built"), cells, (False, True, True))

    def _notes(self, found: SpacingMap) -> None:
        said = [f"{one.what}; {one.fix}" for one in state.spacing_cautions(found)]
        told = "\n".join(f"· {one}" for one in said)
        self.query_one("#notes", Static).update(
            Content.assemble(("A what-if; nothing is kept.\n", "bold"), told)
        )

    # --- keys ---------------------------------------------------------------
    def action_move(self, across: int, up: int) -> None:
        if self._found is None or self._place is None:
            return
        most = self._found.sweep.spacings_m.size - 1
        i, j = self._place[0] + across, self._place[1] + up
        self._place = min(max(i, 0), most), min(max(j, 0), most)
        self._draw()

    def action_explain(self) -> None:
        numbers: explained.Numbers = ()
        if self._found is not None and self._place is not None:
            at = self._pattern(self._place)
            numbers = explained.of_spacing(self._found, at)
        named = self._found.package.id if self._found is not None else self._package
        title = f"{named}: heads at another spacing"
        explain_numbers(self, self.dashboard.session, title, numbers)

    def action_own(self) -> None:
        self._place = None
        self._draw()

    def action_target(self, by: int) -> None:
        self._target = min(95, max(50, self._target + by * STEP))
        self._draw()

    def action_money(self) -> None:
        """Open the cost page with this spacing as what would stand in the zone."""
        session = self.dashboard.session
        if session is None or self._found is None or self._place is None:
            return
        zone = session.site.zone(self._zone_id) if session.site is not None else None
        at = self._pattern(self._place)
        if zone is not None and self._place != state.own_places(self._found):
            then = cost_state.then_of_map(self._found, at, session.units)
            option = cost_state.option_for(session, zone.id)
            self.dashboard.request_edit(Edit("then", then, zone.id, option))
        self.dashboard.open_page("cost", self._zone_id)

    def action_layout(self) -> None:
        if self._found is None or self.dashboard.session is None:
            return
        is_straight = self._layout == "rectangular"
        self._layout = "triangular" if is_straight else "rectangular"
        self._ask(self.dashboard.session)

    def action_package(self, by: int) -> None:
        session = self.dashboard.session
        names = [one.id for one in state.profiled_packages(session)] if session else []
        if session is None or len(names) < 2:
            self.notify("no other package has a profile")
            return
        self._package = names[(names.index(self._package) + by) % len(names)]
        self._layout = None
        self._ask(session)
