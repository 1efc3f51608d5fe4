"""What a zone needs: weather, coefficient, depletion, and the range of the week."""

from functools import partial
from typing import TYPE_CHECKING, ClassVar, cast

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import SchedulerError
from scheduler.units import shown
from tui import explained, need_state
from tui.screens import need_pictures as pictures
from tui.screens import wording
from tui.screens.explaining import explain_numbers
from tui.screens.need_words import why_no_balance, why_no_week
from tui.screens.trying import Trying
from tui.session import Session, zone_plan
from tui.tried import plan_before
from tui.widgets.course_lines import CourseLines
from tui.widgets.day_columns import DayBands
from tui.widgets.range_bars import RangeBars
from tui.widgets.season_lines import SeasonLines
from tui.widgets.words import Words

if TYPE_CHECKING:
    from scheduler.need.kc_year import KcYear

PICTURES = ("weather", "Kc", "depletion", "week")
TITLES = {
    "weather": "Reference ET and rain",
    "Kc": "Crop coefficient through the year, ▲ today",
    "depletion": "Depletion, behind and ahead",
    "week": "Need of the week",
}
TALL = 34  # from this many rows on, two rows of pictures fit


class NeedScreen(Trying):
    """Four pictures of what a zone needs, and dials to try other numbers."""

    CSS_PATH = "need.tcss"
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right,n,down", "zone(1)", "Zone", key_display="← →"),
        Binding("left,p,up", "zone(-1)", show=False),
        Binding("v,tab", "picture(1)", "Picture", key_display="v"),
        Binding("shift+tab", "picture(-1)", show=False),
        Binding("e", "explain", show=False),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._picture = 0

    def body(self) -> ComposeResult:
        with Vertical(id="head"):
            yield Words(id="name")
            yield Words(id="setting")
            yield Words(id="sum")
        yield Words(id="tabs")
        with Container(id="pictures"):
            for name, chart in zip(
                PICTURES,
                (DayBands(), SeasonLines(), CourseLines(), RangeBars()),
                strict=True,
            ):
                with Vertical(id=name, classes="pane"):
                    yield Words(TITLES[name], classes="title")
                    yield chart
                    yield Words(classes="note")
        yield Words(id="tried")

    @property
    def is_narrow(self) -> bool:
        """Whether there is room for one picture only."""
        return super().is_narrow or self.app.size.height < TALL

    def show(self, session: Session) -> None:
        zones = session.plan.zones if session.plan is not None else ()
        ids = [one.zone.id for one in zones]
        if not ids:
            self._nothing("No week is planned; see the findings.")
            return
        if self._zone_id not in ids:
            self._zone_id = ids[0]
        self._head(session, f"zone {ids.index(self._zone_id) + 1} of {len(ids)}")
        self._charts(session)
        self._tabs()
        self.say_tried(session)
        self.ask(
            partial(need_state.kc_now_and_before, session, self._zone_id),
            f"working out the coefficient of {self._zone_id} over the year …",
        )

    @property
    def about(self) -> str:
        return self._zone_id.casefold()

    def empty(self, why: str) -> None:
        """The coefficient alone takes work; the other pictures are the week's."""
        self.query_one(SeasonLines).show(None, why)
        self._note("Kc", ())

    def _nothing(self, why: str) -> None:
        self.take_off(why)
        self.query_one(DayBands).show(None, why)
        self.query_one(CourseLines).show(None, why)
        self.query_one(RangeBars).show(None, why)
        for pane in ("weather", "depletion"):
            self._note(pane, ())
        for part in ("#setting", "#sum", "#tried"):
            self.query_one(part, Static).update("")
        self.query_one("#name", Static).update("Need: no week is planned")

    def _head(self, session: Session, place: str) -> None:
        plan = zone_plan(session, self._zone_id)
        assert plan is not None, "show has looked"
        zone, units = plan.zone, session.units
        plants = f", {zone.plant.name}" if zone.plant is not None else ""
        self.query_one("#name", Static).update(
            Content.assemble(
                (f"{zone.id}  {zone.name}  ", "bold"),
                ("need", "bold $primary"),
                (f"   {zone.grown_in}{plants}   {place}", "$foreground 60%"),
            )
        )
        self.query_one("#setting", Static).update(wording.setting_text(plan, units))
        pairs = [
            ("ETo", shown(plan.eto_mm, "mm", units)),
            ("Kc", shown(plan.kc, "", units)),
            ("use on the bed", shown(plan.etc_mm, "mm", units)),
            ("rain", shown(plan.effective_rain_mm, "mm", units)),
            ("need", shown(plan.need_mm, "mm", units)),
        ]
        said = [f"{name} {value}" for name, value in pairs if value != "–"]
        self.query_one("#sum", Static).update("   ".join(said))

    def _charts(self, session: Session) -> None:
        plan = zone_plan(session, self._zone_id)
        assert plan is not None, "show has looked"
        assert session.plan is not None, "a zone has a plan"
        units = session.units
        self.query_one(DayBands).show(pictures.day_columns(session.plan, units))
        self._note("weather", pictures.weather_note(session.plan, units))
        was = plan_before(session, self._zone_id)
        course = pictures.course_days(plan, units, was)
        self.query_one(CourseLines).show(
            course, "" if course is not None else why_no_balance(plan)
        )
        told = course.words[1:] if course is not None else ()
        now = (one for one in told if not one.startswith(pictures.BEFORE))
        self._note("depletion", tuple(now))
        rows = pictures.range_rows(plan, units, was)
        self.query_one(RangeBars).show(
            rows, "" if rows is not None else why_no_week(plan)
        )
        # pictures that are there take the room of those that are not
        is_bare = course is None and rows is None
        self.query_one("#pictures").set_class(is_bare, "bare")

    def answered(self, answer: object) -> None:
        if answer is None or isinstance(answer, SchedulerError):
            self.take_off(str(answer or "no coefficient: see the zone's findings"))
            return
        found, before = cast("tuple[KcYear, KcYear | None]", answer)
        self.query_one(SeasonLines).show(pictures.kc_lines(found, before))
        self._note("Kc", pictures.kc_words(found, before))

    def _note(self, pane: str, lines: tuple[str, ...]) -> None:
        self.query_one(f"#{pane} .note", Static).update(" ".join(lines))

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

    def action_words(self) -> None:
        super().action_words()
        for note in self.query(".note"):  # the words of a picture hold its note
            note.display = not self._in_words

    def action_picture(self, by: int) -> None:
        self._picture = (self._picture + by) % len(PICTURES)
        self._tabs()

    def action_explain(self) -> None:
        session = self.dashboard.session
        numbers = explained.of_need(session, self._zone_id) if session else ()
        title = f"{self._zone_id}: from the cans and the weather to the need"
        explain_numbers(self, session, title, numbers)
