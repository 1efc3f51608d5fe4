"""The nights of the week by the clock: read out, moved by hand, under another pump."""

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import QuantityError
from tui import explained
from tui import week_state as state
from tui.screens import week_words as words
from tui.screens.ask import AskScreen
from tui.screens.doors import Page
from tui.screens.explaining import explain_numbers
from tui.screens.week_pictures import night_picture, week_picture
from tui.screens.week_rows import as_walked, natural
from tui.screens.wording import day_text
from tui.session import Edit, Session, issue_week, issuing, zone_plan
from tui.tried import Effect, night_effects
from tui.widgets.night_chart import NightChart
from tui.widgets.words import Words

if TYPE_CHECKING:
    from scheduler.plan import WeekPlan
    from scheduler.watering.night_plan import NightPlan
    from scheduler.watering.night_plan.board import BoardCycle, NightBoard

FAR = 15  # minutes of a long step


class WeekScreen(Page):
    """Arrows go from cycle to cycle; enter takes a watering and drops it."""

    CSS_PATH = "week.tcss"
    is_at_once = True
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "let_go", "Back"),
        Binding("right", "step(1)", "Cycle", key_display="← →"),
        Binding("left", "step(-1)", show=False),
        Binding("down", "night(1)", "Night", key_display="↑ ↓"),
        Binding("up", "night(-1)", show=False),
        Binding("shift+right", f"step({FAR})", show=False),
        Binding("shift+left", f"step(-{FAR})", show=False),
        Binding("enter", "hold", "Move"),
        Binding("o", "alone", "One cycle", show=False),
        Binding("minus", "pump(-1)", "Pump", key_display="- +"),
        Binding("plus,equals_sign", "pump(1)", show=False),
        Binding("n", "zone(1)", "Zone", show=False),
        Binding("p", "zone(-1)", "Zone before", show=False),
        Binding("v", "view", "Week/night", show=False),
        Binding("i", "issue", "Issue"),
        Binding("e", "explain", show=False),
        Binding("G", "moves", "Gain", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("pageup", "page(-1)", show=False),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._at: BoardCycle | None = None  # under the cursor
        self._held: state.Held | None = None
        self._is_week: bool | None = None  # None: by the room there is
        self._before: NightPlan | None = None
        self._of: WeekPlan | None = None  # what is shown
        self._pictured: tuple[object, ...] = ()  # what the picture was drawn from

    def carry(self, zone_id: str) -> None:
        if self._held is not None:  # it was left while a watering was moved
            self._held = None
            self.forget()
        super().carry(zone_id)

    def forget(self) -> None:
        super().forget()
        self._of, self._before, self._pictured = None, None, ()
        for chart in self.query(NightChart):
            chart.picture = None  # its words hold the nights; `show` makes another

    def other_zone(self, zone_id: str) -> None:
        super().other_zone(zone_id)
        self._at = None

    def body(self) -> ComposeResult:
        yield Words(id="head")
        with Horizontal(id="middle"):
            yield NightChart()
            with VerticalScroll(id="side", can_focus=False):
                yield Words(id="read")
                yield Words(id="pump")
                yield Words(id="changes")

    # --- what is shown ------------------------------------------------------
    def effects(self, session: Session) -> tuple[Effect, ...]:
        return night_effects(session)

    def show(self, session: Session) -> None:
        if self._of is not session.plan:  # else the same week: a resize, new ranges
            self._held, self._before, self._of = None, None, session.plan
        is_pump = any(one.what == "pump" for one in session.what_ifs)
        if is_pump and not state.is_pump_alone(session):
            self.ask(
                partial(state.before_pump, session), "planning with the own pump …"
            )
        else:  # the week before is known, or there is none
            self.ask_no_more()
            self._before = state.before_pump(session)
        self._draw()

    def answered(self, answer: object) -> None:
        from scheduler.watering.night_plan import NightPlan

        self._before = answer if isinstance(answer, NightPlan) else None
        self._draw()

    def _draw(self) -> None:
        session = self.dashboard.session
        board = state.board_of(session) if session is not None else None
        if session is None or board is None:
            self._nothing("" if session is None else state.why_no_board(session))
            return
        broken: tuple[str, ...] = ()
        if self._held is not None:
            pin = state.pin_for(
                board, self._held.watering, self._held.night, self._held.starts
            )
            broken, board = state.broken(session, pin), state.tried(board, pin)
        here = self._cursor(board)
        if here is None:
            self._nothing("No watering has a place this week; see the findings.")
            return
        self._at, self._zone_id = here, here.zone
        self.say_path()
        self._picture(session, board, here, is_bad=bool(broken))
        self._read(session, board, broken)
        self._head(session, board)
        self._say_pump()
        self._say_changes(session)

    def _picture(
        self, session: Session, board: "NightBoard", here: "BoardCycle", *, is_bad: bool
    ) -> None:
        """Draw the nights; nothing where the same ones are drawn already."""
        draw = week_picture if self._shows_week else night_picture
        before = state.board_before(session)
        pictured = (draw, board, here, session.units, is_bad, before)
        if pictured != self._pictured:
            self._pictured = pictured
            picture = draw(board, here, session.units, is_bad=is_bad, before=before)
            self.query_one(NightChart).show(picture)

    @property
    def _shows_week(self) -> bool:
        return not self.is_narrow if self._is_week is None else self._is_week

    def _nothing(self, why: str) -> None:
        self._at, self._pictured = None, ()
        self.query_one("#head", Static).update("Hours of the week")
        self.query_one(NightChart).show(None, why)
        for part in ("#read", "#pump", "#changes"):
            self.query_one(part, Static).update("")

    def _cursor(self, board: "NightBoard") -> "BoardCycle | None":
        """The cycle under the cursor, or the nearest to where it was."""
        cycles = state.cycles_of(board)
        if self._held is not None:
            key = (self._held.watering[0], self._held.night, self._held.cycle)
            return next(
                (one for one in cycles if (one.zone, one.night, one.cycle) == key), None
            )
        at, wanted = self._at, self._zone_id.casefold()
        if at is None:
            mine = [one for one in cycles if one.zone.casefold() == wanted]
            return next(iter(mine or cycles), None)
        return min(
            cycles,
            key=lambda one: (
                one.zone != at.zone,
                abs(one.night - at.night),
                abs(one.start_min - at.start_min),
            ),
            default=None,
        )

    def _read(
        self, session: Session, board: "NightBoard", broken: tuple[str, ...]
    ) -> None:
        here = self._at
        assert here is not None, "drawn with a cursor"
        if self._held is not None:
            first, second = words.moving_lines(board, here, broken, self._held.is_alone)
            colour = "$text-error" if broken else "$text-success"
            self.query_one("#read", Static).update(
                Content.assemble((first, "bold"), "\n", (second, f"bold {colour}"))
            )
            return
        plan = zone_plan(session, here.zone)
        name = plan.zone.name if plan is not None else ""
        first, second = words.here_lines(board, here, name, session.units)
        found = state.why(board, (here.zone, here.night))
        third = words.why_text(board, here, found, session.units)
        text = Content.assemble((first, "bold"), "\n", second, "\n", third)
        if self.is_narrow and self._before is not None:  # the pump has the room
            text = Content.assemble((f"{here.zone} ", "bold"), second)
        self.query_one("#read", Static).update(text)

    def _head(self, session: Session, board: "NightBoard") -> None:
        night = session.plan.night if session.plan is not None else None
        if night is None or self._at is None:
            return
        what = "Week by the clock" if self._shows_week else "Night by the clock"
        date = day_text(board.hours.dates[self._at.night])
        colour = "" if night.summary.fits else "bold $text-error"
        self.query_one("#head", Static).update(
            Content.assemble(
                (f"{what}  ", "bold"),
                (date, "bold $primary"),
                (f"   {words.fit(night, session.units)}", colour),
            )
        )

    def _say_pump(self) -> None:
        session = self.dashboard.session
        after = session.plan.night if session and session.plan else None
        text = ""
        if session is not None and after is not None:
            if self._before is not None:
                text = words.pump_text(self._before, after, session.units)
            elif not after.summary.fits:
                text = words.ways_out(after)
        line = self.query_one("#pump", Static)
        line.update(text)
        line.display = bool(text)

    def _say_changes(self, session: Session) -> None:
        found = state.changes(session)
        text = Content("no week was issued before")
        if found is not None:
            first, *rest = words.change_lines(*found)
            lines = [(f"\n{one}", "$foreground") for one in rest]
            text = Content.assemble(first, *lines)
        self.query_one("#changes", Static).update(text)

    # --- keys ---------------------------------------------------------------
    def action_let_go(self) -> None:
        if self._held is None:
            self.app.pop_screen()
        else:
            self._held = None
            self._draw()

    def action_step(self, by: int) -> None:
        if self._held is not None:
            self._held = replace(self._held, starts=state.shifted(self._held, by))
            self._draw()
            return
        cycles = self._cycles()
        if self._at in cycles:
            step = 1 if by > 0 else -1
            self._at = cycles[(cycles.index(self._at) + step) % len(cycles)]
            self._draw()

    def _cycles(self) -> "tuple[BoardCycle, ...]":
        """Cycles in the order of the arrows."""
        session = self.dashboard.session
        board = state.board_of(session) if session is not None else None
        return as_walked(board) if board is not None else ()

    def action_zone(self, by: int) -> None:
        """The first watering of the next zone that has one, or of the one before."""
        first = {one.zone: one for one in reversed(self._cycles())}
        zones = sorted(first, key=natural)
        if self._held is None and self._at is not None and self._at.zone in zones:
            self._at = first[zones[(zones.index(self._at.zone) + by) % len(zones)]]
            self._draw()

    def action_night(self, by: int) -> None:
        session = self.dashboard.session
        board = state.board_of(session) if session is not None else None
        if board is None or self._at is None:
            return
        if self._held is not None:
            night = (self._held.night + by) % len(board.hours.dates)
            self._held = replace(self._held, night=night)
            self._draw()
            return
        at = self._at
        nights = sorted({one.night for one in self._cycles()})
        night = nights[(nights.index(at.night) + by) % len(nights)]
        self._at = min(
            (one for one in self._cycles() if one.night == night),
            key=lambda one: (one.zone != at.zone, abs(one.start_min - at.start_min)),
        )
        self._draw()

    def action_hold(self) -> None:
        session = self.dashboard.session
        board = state.board_of(session) if session is not None else None
        if session is None or board is None or self._at is None:
            return
        if self._held is None:
            here = self._at
            starts = next(
                one.starts for one in board.placed[here.night] if one.zone == here.zone
            )
            watering = (here.zone, here.night)
            self._held = state.Held(watering, here.night, starts, here.cycle)
            self._draw()
            return
        self._drop(session, board, self._held)

    def _drop(self, session: Session, board: "NightBoard", held: state.Held) -> None:
        pin = state.pin_for(board, held.watering, held.night, held.starts)
        broken = state.broken(session, pin)
        if broken:
            self.notify(f"Not there: {broken[0]}.", severity="warning", markup=False)
            return
        stood = next(
            one.starts
            for one in board.placed[held.watering[1]]
            if one.zone == held.watering[0]
        )
        self._held = None
        if (held.night, held.starts) == (held.watering[1], stood):
            self._draw()
        else:
            self.dashboard.request_edit(Edit("move", pin, pin.zone))

    def action_alone(self) -> None:
        if self._held is not None:
            self._held = replace(self._held, is_alone=not self._held.is_alone)
            self._draw()

    def action_pump(self, by: int) -> None:
        session, asked = self.dashboard.session, self.dashboard.edits_asked
        if session is None:
            return
        try:
            edit = state.pump_edit(session, asked, by)
        except QuantityError as error:
            self.notify(str(error), severity="warning", markup=False)
            return
        self.dashboard.request_edit(edit)

    def action_page(self, by: int) -> None:
        side = self.query_one("#side", VerticalScroll)
        (side.scroll_page_down if by > 0 else side.scroll_page_up)(animate=False)

    def action_explain(self) -> None:
        session = self.dashboard.session
        numbers = explained.of_nights(session, self._zone_id) if session else ()
        explain_numbers(self, session, "The nights of the week", numbers)

    def action_view(self) -> None:
        self._is_week = not self._shows_week
        self._draw()

    def action_moves(self) -> None:
        from tui.screens.moves import MovesScreen

        self.app.push_screen(MovesScreen(self._zone_id))

    def action_issue(self) -> None:
        session = self.dashboard.session
        if session is None:
            return
        asked = issuing(session)
        if asked.refused:
            self.notify(asked.refused, severity="warning", markup=False)
            return
        screen = AskScreen(asked.question, {"y": "issue it"}, "not now")
        self.app.push_screen(screen, partial(self._issued, session))

    def _issued(self, session: Session, key: str | None) -> None:
        if key != "y":
            return
        self.notify(issue_week(session), markup=False)
        # what the clock was told is part of the folder now
        self.dashboard.action_read_again()
