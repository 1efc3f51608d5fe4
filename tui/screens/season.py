"""A zone through a year: what each quarter gets, drains and lacks."""

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import SchedulerError
from tui import season_state as state
from tui.explained import main_first
from tui.screens import season_words as words
from tui.screens.explaining import explain_numbers
from tui.screens.trying import Trying
from tui.season_state import ZoneYear
from tui.session import Edit, Session
from tui.taking import Table, of_lines
from tui.tried import Effect, season_effects
from tui.widgets.range_bars import RangeBars
from tui.widgets.season_lines import SeasonLines
from tui.widgets.words import Words

if TYPE_CHECKING:
    from scheduler.season import ZoneSeason

FIRST_DU, STEP, LEAST, MOST = 85, 5, 50, 95


class SeasonScreen(Trying):
    """What-ifs redraw it; another DU may be held beside it."""

    CSS_PATH = "season.tcss"
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right,n", "zone(1)", "Zone", key_display="← →"),
        Binding("left,p", "zone(-1)", show=False),
        Binding("1", "rule(1)", "Rule", key_display="1-4"),
        Binding("o", "other", "Other DU"),
        Binding("e", "explain", "Explain", show=False),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._du = FIRST_DU
        self._dial = None  # - and + move the other DU until a dial is picked
        self._found: ZoneYear | None = None
        self._asked_of: tuple[str, tuple[Edit, ...]] = ("", ())
        self._found_of: tuple[str, tuple[Edit, ...]] = ("", ())

    def body(self) -> ComposeResult:
        yield Words(id="head")
        with Horizontal(id="middle"):
            yield SeasonLines()
            with VerticalScroll(id="side", can_focus=False):
                yield Words(id="numbers")
                yield RangeBars()
                yield Words(id="notes")
        yield Words(id="tried")

    def show(self, session: Session) -> None:
        ids = state.season_zones(session)
        if not ids:
            said = "Season: no zone follows the weather"
            self.take_off(said)
            self.query_one("#head", Static).update(said)
            return
        if self._zone_id.casefold() not in {one.casefold() for one in ids}:
            self._zone_id = ids[0]
        self._asked_of = (self._zone_id, session.what_ifs)
        below = f"   below: {self._zone_shown}" if self._is_of_another else ""
        said = f"{self._zone_id}  running the season …{below}"
        self.query_one("#head", Static).update(said)
        self.say_tried(session)
        self.ask(
            partial(state.zone_year, session, self._zone_id, self._du / 100),
            f"running the season of {self._zone_id} …",
        )

    @property
    def about(self) -> str:
        return self._zone_id.casefold()

    @property
    def _zone_shown(self) -> str:
        return self._found.now.zone.id if self._found is not None else ""

    @property
    def _is_of_another(self) -> bool:
        """Whether another zone's season is shown until this one's has run."""
        return bool(self._zone_shown) and self._zone_shown.casefold() != self.about

    def empty(self, why: str) -> None:
        self._found = None
        self.query_one("#head", Static).update(f"{self._zone_id}  season")
        self.query_one(SeasonLines).show(None, why)
        self._no_numbers()

    def left_off(self) -> None:
        super().left_off()
        self.query_one("#head", Static).update(f"{self._zone_id}  season not run")

    def answered(self, answer: object) -> None:
        if isinstance(answer, SchedulerError):
            self.take_off(str(answer))
        elif isinstance(answer, ZoneYear):
            self._found_of = self._asked_of
            self._draw(answer)

    def _draw(self, found: ZoneYear) -> None:
        session = self.dashboard.session
        if session is None:
            return
        units, one = session.units, found.now
        self._found = found
        self.say_tried(session)
        name = found.plan.days.name if found.plan.days is not None else "no weather"
        self.query_one("#head", Static).update(
            Content.assemble(
                (f"{one.zone.id}  {one.zone.name}  ", "bold"),
                (f"rule {one.zone.chosen_rule}   ", "$foreground 60%"),
                (f"season of {name}", "bold $primary"),
            )
        )
        lines = words.year_lines(one, found.plan, units, found.before)
        why = "; ".join(said.what for said in one.findings) or "no weather for a season"
        self.query_one(SeasonLines).show(lines, why)
        self._numbers(found, one)

    def _no_numbers(self) -> None:
        self.query_one("#numbers", Static).update("")
        self.query_one("#notes", Static).update("")
        self.query_one(RangeBars).display = False

    def _numbers(self, found: ZoneYear, one: "ZoneSeason") -> None:
        assert self.dashboard.session is not None, "drawn only with a session"
        units = self.dashboard.session.units
        if not one.quarters:
            self._no_numbers()
            return
        table = words.quarter_lines(one, found.before, units)
        sums = words.totals(one, found.before, units)
        bars = words.quarter_bars(one, found.before, units)
        self.query_one(RangeBars).show(bars)
        self.query_one(RangeBars).display = bars is not None
        self.query_one("#numbers", Static).update("\n".join([*table, "", *sums]))
        said = [words.bound(one)]
        if found.other is not None:
            said.insert(0, words.sentence(found.other, units))
        self.query_one("#notes", Static).update("\n".join(said))

    @property
    def whole_table(self) -> Table | None:
        """The quarters as a table, to be taken away."""
        session, found = self.dashboard.session, self._found
        if session is None or found is None or not found.now.quarters:
            return None
        if self._is_of_another:
            return None  # it would be filed under this zone's name
        return of_lines(words.quarter_lines(found.now, found.before, session.units))

    def action_zone(self, by: int) -> None:
        session = self.dashboard.session
        ids = state.season_zones(session) if session is not None else ()
        if session is None or len(ids) < 2:
            return
        at = [one.casefold() for one in ids].index(self._zone_id.casefold())
        self._zone_id = ids[(at + by) % len(ids)]
        self.show(session)
        self.say_path()

    def dial_parts(self, session: Session) -> list[str | tuple[str, str]]:
        parts = super().dial_parts(session)
        other = self.dial_part("o", f"other DU 0.{self._du}", self._dial is None)
        return [parts[0], *other, *parts[1:]]

    def effects(self, session: Session) -> tuple[Effect, ...] | None:
        """Before and after of the season that is shown."""
        found = self._found
        is_of = self._found_of == (self._zone_id, session.what_ifs)
        if not is_of or found is None or found.before is None:
            return None  # the season is still run with what is tried
        if not found.now.quarters:
            return ()
        return season_effects(found.before, found.now, session.units)

    def action_rule(self, key: int) -> None:
        from scheduler.site import (
            RULES,
        )  # brings numpy, which the first paint is spared

        session = self.dashboard.session
        zone = session.site.zone(self._zone_id) if session and session.site else None
        if zone is None or key > len(RULES):
            return
        if zone.chosen_rule != RULES[key - 1]:
            self.dashboard.request_edit(Edit("rule", RULES[key - 1], zone.id))

    def action_other(self) -> None:
        self._dial = None
        if self.dashboard.session is not None:
            self.say_tried(self.dashboard.session)

    def action_turn(self, by: int) -> None:
        if self._dial is not None:
            super().action_turn(by)
            return
        self._du = min(MOST, max(LEAST, self._du + by * STEP))
        if self.dashboard.session is not None:
            self.show(self.dashboard.session)

    def action_explain(self) -> None:
        session, found = self.dashboard.session, self._found
        if session is not None and found is not None and found.now.trace is not None:
            zone = found.now.zone
            title = f"{zone.id}  {zone.name}: from the cans to the season's water"
            before = found.before.trace if found.before is not None else None
            numbers = main_first(found.now.chains)
            explain_numbers(self, session, title, numbers, before=before)
