"""What uneven water costs and whether an option pays, while prices are moved."""

from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static
from textual.worker import Worker, WorkerState

from scheduler.errors import QuantityError, SchedulerError
from tui import cost_state as state
from tui import explained
from tui.beside import beside
from tui.cost_state import CostNow
from tui.screens import cost_week_words as week_words
from tui.screens import cost_words as words
from tui.screens.doors import Page
from tui.screens.explaining import explain_numbers
from tui.session import Edit, Session
from tui.tried import Effect, arrow, cost_effects
from tui.what_if import MONEY, What
from tui.widgets.bars import Prompt
from tui.widgets.canvas import SMALLEST
from tui.widgets.range_bars import RangeBars
from tui.widgets.words import Words
from tui.widgets.work_line import WorkLine
from tui.widgets.zone_table import ZoneTable

if TYPE_CHECKING:
    from scheduler.money.option_nights import OptionNights
    from scheduler.money.retrofit import OptionResult
    from scheduler.money.with_week import WithWeek

OPTION_WIDTH, OPTION_LEAST = 56, 46  # of the column of an option
SIDES = 6  # columns beside and between both, the scroll bar too
ZONES_WIDTH = 78  # that the table of zones likes to have
LEFT_WEEK = "Nights with the option: left. Another line, or ctrl+r, asks again."
UNSAID = "Working out the season of every zone …"


class CostScreen(Page):
    """Prices are what-ifs of the session; the last good result stays meanwhile."""

    CSS_PATH = "cost.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("1", "assume(0)", "Assume", key_display="1-4"),
        Binding("2", "assume(1)", show=False),
        Binding("3", "assume(2)", show=False),
        Binding("4", "assume(3)", show=False),
        Binding("t", "then", "Tested package"),
        Binding("n", "zone(1)", "Zone", show=False),
        Binding("p", "zone(-1)", "Zone before", show=False),
        Binding("j", "cursor(1)", show=False),
        Binding("k", "cursor(-1)", show=False),
        Binding("e", "explain", show=False),
        Binding("pagedown", "page(1)", show=False, priority=True),
        Binding("pageup", "page(-1)", show=False, priority=True),
    ]

    @dataclass
    class Week(Message):
        """What the planned week adds to a cost was worked out; None without a plan."""

        found: "WithWeek | None"
        asked: tuple[CostNow, str]
        refused: str = ""

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._found: CostNow | None = None
        self._asked_of: tuple[Edit, ...] = ()
        self._found_of: tuple[Edit, ...] = ()
        self._around: WithWeek | None = None
        self._asked: tuple[CostNow, str] | None = None
        self._picks_zone = True  # the first option of the zone one comes from
        self._no_week = ""  # why no nights are there and none are awaited
        self._week_rows = 0  # lines that the week took when it was told last
        # what the page, and what the option, was drawn from
        self._drawn_in: tuple[object, ...] = ()
        self._told_of: tuple[object, ...] = ()

    def other_zone(self, zone_id: str) -> None:
        super().other_zone(zone_id)
        self._picks_zone = True

    def body(self) -> ComposeResult:
        yield Words(id="head")
        yield Words(id="assumed")
        yield ZoneTable()
        with VerticalScroll(id="middle", can_focus=False):
            yield Words(id="words")
            if not self.is_narrow:
                yield from self._of_zones()
            with Vertical(id="option"):
                yield Words(id="numbers")
                yield Words(id="why")
            if self.is_narrow:
                yield from self._of_zones()
        yield Prompt()

    def _of_zones(self) -> ComposeResult:
        with Vertical(id="left"):
            yield Words(id="zones")
            yield Words(id="week")  # apart: zones are not told again when it comes
            yield RangeBars()

    def effects(self, session: Session) -> tuple[Effect, ...] | None:
        if self._found is None or self._found_of != session.what_ifs:
            return None  # what is shown may be of another what-if
        picked = self.query_one(ZoneTable).picked
        return cost_effects(self._found, picked, session.units)

    def show(self, session: Session) -> None:
        self._asked_of = session.what_ifs
        is_as_drawn = self._drawn_in == (session.units, self.app.size)
        if self._found is not None and not is_as_drawn:
            self._draw(session)  # in other units at once
        self._head("working it out …" if self._found is None else "working anew …")
        self.ask(
            partial(state.cost_now, session),
            "running the season of every zone, and what each option returns …",
        )

    def left_off(self) -> None:
        super().left_off()
        self._head("not worked out" if self._found is None else "of before")

    def answered(self, answer: object) -> None:
        session = self.dashboard.session
        if isinstance(answer, SchedulerError):
            self._head(str(answer))
        elif isinstance(answer, CostNow) and session is not None:
            self._found, self._around = answer, None
            self._found_of = self._asked_of
            self._draw(session)
            self._head("")
            if self._picks_zone:
                self._picks_zone = False
                self.query_one(ZoneTable).pick(self._first(session))
            self._ask_week(session)

    def _ask_week(self, session: Session) -> None:
        """Prices are answered at once; the nights with an option take longer."""
        assert self._found is not None, "there is an answer"
        asked = self._found, self.query_one(ZoneTable).picked
        if asked != self._asked:
            self._asked = asked
            if self._no_week:
                self._no_week = ""
                self._option(session)
            what = "laying out the nights of all zones …"
            line = self.query_one(WorkLine)
            line.begin("week", what, self._leave_week, is_of_before=False)
            self._look_at_week(session, *asked)

    def _leave_week(self) -> None:
        """Drop the nights that are awaited; picking a line asks again."""
        self._asked = None
        self._say_no_week(LEFT_WEEK)

    def _say_no_week(self, why: str) -> None:
        self._no_week, self._week_rows = why, 0
        if self.dashboard.session is not None and self._found is not None:
            self._week(self.dashboard.session)
            self._option(self.dashboard.session)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        if event.state is WorkerState.ERROR and event.worker.group == "week":
            self.query_one(WorkLine).end("week")
            self._asked = None
            self._say_no_week(f"Not worked out: {event.worker.error!r}.")

    @beside("week")
    def _look_at_week(self, session: Session, cost: CostNow, option: str) -> None:
        try:
            found = state.around_now(session, cost.now, option)
        except SchedulerError as refused:
            self.post_message(self.Week(None, (cost, option), str(refused)))
        else:
            self.post_message(self.Week(found, (cost, option)))

    def on_cost_screen_week(self, message: Week) -> None:
        session = self.dashboard.session
        if message.asked == self._asked and session is not None:
            self.query_one(WorkLine).end("week")
            if message.refused:
                self.notify(message.refused, severity="warning", markup=False)
            self._around = message.found
            self._say_no_week(message.refused)

    def _first(self, session: Session) -> str:
        """Option that was tried last, else the first one of the zone one came from."""
        assert self._found is not None, "there is an answer"
        tried = [one.typed for one in session.edits if one.what == "then"]
        options = self._found.now.options
        zone = self._zone_id.casefold()
        mine = [o for o in options if zone in {z.casefold() for z in o.option.zones}]
        ids = [one.option.id for one in (*mine, *options)]
        return next(iter((*reversed(tried), *ids)), "")

    # --- what is drawn ------------------------------------------------------
    def _head(self, doing: str) -> None:
        season = self._found.now.year if self._found is not None else ""
        self.query_one("#head", Static).update(
            Content.assemble(
                ("Cost of uneven water  ", "bold"),
                (f"season of {season}" if season else "", "bold $primary"),
                (f"   {self._currency}  {doing}", "$foreground 60%"),
            )
        )

    @property
    def _currency(self) -> str:
        return f"in {words.currency(self._found.now)}" if self._found else ""

    def _draw(self, session: Session) -> None:
        assert self._found is not None, "drawn only when there is something"
        now, units = self._found.now, session.units
        parts: list[str | tuple[str, str]] = []
        told = words.assumptions(now, units)
        old = self._found.before
        was = told if old is None else words.assumptions(old, units)
        for key, (name, value) in enumerate(told, 1):
            first = was[key - 1][1]
            text = value if first == value else arrow(first, value)
            parts += [(f"{key} ", "bold $primary"), f"{name} {text}  "]
        without = week_words.without_lines(now, units)
        parts += [f"\n{without}"] if without else []
        self.query_one("#assumed", Static).update(Content.assemble(*parts))
        roomy = not self.is_narrow
        columns = words.option_columns(units, roomy=roomy, is_tried=old is not None)
        rows = words.option_rows(now, units, old, roomy=roomy)
        self.query_one(ZoneTable).show(columns, rows)
        bars = words.zone_bars(now, self._found.before)
        chart = self.query_one(RangeBars)
        chart.show(bars, "")
        chart.display = bars is not None
        chart.styles.height = max(SMALLEST[1], len(now.zones) + 4)
        self._arrange()
        zones = words.zone_lines(now, old, units, self._room)
        self.query_one("#zones", Static).update("\n".join(zones))
        self._week(session)
        self._option(session)
        self._drawn_in = (units, self.app.size)

    def _arrange(self) -> None:
        """Zones beside the option, or below it where there is no room for both."""
        middle, option = self.query_one("#middle"), self.query_one("#option")
        left = self.query_one("#left")
        option.styles.width = None if self.is_narrow else self._option_width
        is_below = middle.children.index(left) > middle.children.index(option)
        if is_below and not self.is_narrow:
            middle.move_child(left, before=option)
        elif self.is_narrow and not is_below:
            middle.move_child(left, after=option)

    @property
    def _room(self) -> int:
        """Columns that lines about zones may take."""
        room = self.app.size.width - SIDES - self._option_width
        return words.ROOM if self.is_narrow else room

    @property
    def _option_width(self) -> int:
        """Columns of the option, which gives some to the zones."""
        free = self.app.size.width - SIDES - ZONES_WIDTH
        return min(OPTION_WIDTH, max(OPTION_LEAST, free))

    def _week(self, session: Session) -> None:
        """The planned week; while it is worked out its room is kept."""
        lines = week_words.waiting_lines(self._week_rows)
        if self._around is not None:
            lines = week_words.week_lines(self._around, session.units, self._room)
            self._week_rows = len(lines)
        week = self.query_one("#week", Static)
        week.update("\n".join(lines))
        week.display = bool(lines)

    @property
    def _picked(self) -> "OptionResult | None":
        if self._found is None:
            return None
        return self._found.option(self.query_one(ZoneTable).picked)

    def _option(self, session: Session) -> None:
        assert self._found is not None, "drawn only when there is something"
        one, units = self._picked, session.units
        self._told_of = self._told_from(session)
        said = words.said(self._found.now, one, units, self._found.before)
        nights = self._nights(one, session)
        if self._around is not None:
            said = [*said, *week_words.week_said(self._around, units), *nights]
        self.query_one("#words", Static).update("\n\n".join(said))
        numbers, why = "", words.NO_OPTION if not self._found.now.options else ""
        if one is not None:
            before = self._found.option_before(one.option.id)
            numbers = "\n".join(words.option_lines(one, before, units))
            reasons = (*words.reasons(one, before), *nights)
            why = "\n".join(f"· {reason}" for reason in reasons)
        self.query_one("#numbers", Static).update(numbers)
        self.query_one("#why", Static).update(why)
        self.say_what_if(session)

    def _told_from(self, session: Session) -> tuple[object, ...]:
        tried = (session.units, session.what_ifs, session.plan is None)
        return (*tried, self._found, self._around, self._no_week, self._picked)

    @property
    def _fit(self) -> "OptionNights | None":
        """The nights of the picked option, once they are worked out."""
        one, around = self._picked, self._around
        return around.nights_of(one.option.id) if one and around else None

    def _nights(self, one: "OptionResult | None", session: Session) -> list[str]:
        if session.plan is None:
            return []
        name = None if one is None else one.option.id
        # else it is of the option that was picked before
        around = self._around if one is None or self._fit else None
        if one is not None and around is None and self._no_week:
            return [self._no_week]
        return week_words.night_lines(around, name, session.units)

    # --- keys ---------------------------------------------------------------
    def on_zone_table_row_highlighted(self) -> None:
        session = self.dashboard.session
        if self._found is not None and session is not None:
            # a table that is written anew says that its row is picked, too
            if self._told_of != self._told_from(session):
                self._option(session)
            self._ask_week(session)

    def action_cursor(self, by: int) -> None:
        table = self.query_one(ZoneTable)
        table.move_cursor(row=table.cursor_row + by)

    def action_page(self, by: int) -> None:
        middle = self.query_one("#middle", VerticalScroll)
        (middle.scroll_page_down if by > 0 else middle.scroll_page_up)(animate=False)

    def action_words(self) -> None:
        super().action_words()
        self.set_class(self._in_words, "in-words")

    def action_explain(self) -> None:
        numbers: explained.Numbers = ()
        if self._found is not None:
            numbers = explained.of_cost(self._found.now, self._picked, self._fit)
        one = self._picked
        title = f"option {one.option.id}: what it returns" if one else "cost"
        explain_numbers(self, self.dashboard.session, title, numbers)

    def action_assume(self, which: int) -> None:
        what = MONEY[which]
        self.query_one(Prompt).ask(what, words.HINTS[what])

    def action_then(self) -> None:
        session = self.dashboard.session
        names = state.tested_packages(session) if session is not None else ()
        if not names:
            self.notify("No package was tested.", severity="warning")
            return
        hint = f"a tested package to stand there: {', '.join(names)}"
        self.query_one(Prompt).ask("then", hint)

    def on_prompt_given(self, event: Prompt.Given) -> None:
        self.query_one(ZoneTable).focus()
        session, text = self.dashboard.session, event.text.strip()
        if not text or session is None:
            return
        if event.what == "then":
            self._try_package(session, text)
            return
        what: What = next(one for one in MONEY if one == event.what)
        try:
            value = state.assumed(session, what, text)
        except QuantityError as error:
            self.notify(str(error), severity="error", markup=False)
            return
        self.dashboard.request_edit(Edit(what, value, typed=text))

    def _try_package(self, session: Session, name: str) -> None:
        picked = self._picked
        zone = picked.option.zones[0] if picked is not None else self._zone_id
        if session.site is not None and session.site.zone(zone) is None:
            zone = session.site.zones[0].id
        option = (
            picked.option.id if picked is not None else state.option_for(session, zone)
        )
        self.dashboard.request_edit(state.then_edit(session, zone, option, name))
