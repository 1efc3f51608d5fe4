"""What moving last week's starts gains; enter plans the week of a line."""

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import SchedulerError
from scheduler.units import shown
from tui import moves_state as state
from tui.screens.doors import Page
from tui.session import Session
from tui.tried import Effect, night_effects
from tui.widgets.move_bars import MoveBar, MoveBars
from tui.widgets.words import Words

if TYPE_CHECKING:
    from scheduler.units import System
    from scheduler.watering.night_plan.moves import MoveCurve, MovePoint


class MovesScreen(Page):
    """Arrows go from line to line; enter takes its worth of a move."""

    help_subject = "moves"
    CSS_PATH = "moves.tcss"
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("down,j", "step(1)", "Line", key_display="↑ ↓"),
        Binding("up,k", "step(-1)", show=False),
        Binding("enter", "pick", "Plan so"),
        Binding("G", "app.pop_screen", show=False),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._curve: MoveCurve | None = None
        self._here: int | None = None  # None: where the week stands

    def body(self) -> ComposeResult:
        yield Words(id="head")
        yield MoveBars()
        yield Words(id="foot")

    def effects(self, session: Session) -> tuple[Effect, ...]:
        return night_effects(session)

    def show(self, session: Session) -> None:
        self._here = None
        self.query_one("#head", Static).update("Moves: working out what they gain …")
        self.ask(partial(state.curve_of, session), "moving last week's starts …")

    def answered(self, answer: object) -> None:
        from scheduler.watering.night_plan.moves import MoveCurve

        if isinstance(answer, MoveCurve):
            self._curve = answer
            self._draw()
        elif isinstance(answer, SchedulerError):
            self.query_one("#head", Static).update(f"Moves: {answer}")

    def left_off(self) -> None:
        super().left_off()
        self.query_one("#head", Static).update("Moves: not worked out")
        self._draw()

    def _draw(self) -> None:
        session, curve = self.dashboard.session, self._curve
        if session is None or curve is None:
            return
        stands = state.stands_at(session, curve)
        here = stands if self._here is None else self._here
        chart, foot = self.query_one(MoveBars), self.query_one("#foot", Static)
        head = Content.assemble(
            ("What moving last week's starts gains  ", "bold"),
            f"{curve.known} waterings had a place; compared in {curve.scale}",
        )
        self.query_one("#head", Static).update(head)
        if not curve.points:
            chart.say(f"No moves to compare: {curve.why}.")
            foot.update("")
            return
        money = session.plan.site.tariff if session.plan else None
        currency = money.currency if money else ""
        bars = tuple(_bar(one, session.units, currency) for one in curve.points)
        chart.show(bars, here, stands)
        foot.update(
            "► under the cursor, ● as planned. Enter plans the week so; to keep it, "
            f"write move_worth = {curve.points[here].share:g} under [controller]."
        )

    def action_step(self, by: int) -> None:
        session, curve = self.dashboard.session, self._curve
        if session is None or curve is None or not curve.points:
            return
        at = state.stands_at(session, curve) if self._here is None else self._here
        self._here = (at + by) % len(curve.points)
        self._draw()

    def action_pick(self) -> None:
        session, curve = self.dashboard.session, self._curve
        if session is None or curve is None or not curve.points:
            return
        at = state.stands_at(session, curve) if self._here is None else self._here
        self.dashboard.request_edit(state.pick(curve.points[at]))


def _bar(one: "MovePoint", units: "System", currency: str) -> MoveBar:
    if one.gained_money is not None:
        amount = f"{one.gained_money:.2f} {currency}".rstrip()
    else:
        amount = shown(one.gained_m3, "m3", units)
    text = f"{one.gained:.2%}".replace("%", " %")
    lost = f", {one.unplaced} without room" if one.unplaced else ""
    return MoveBar(
        f"{one.moved}", one.gained, f"{text}, {amount}{lost}", f"{one.share:g}"
    )
