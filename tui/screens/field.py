"""Tests and wind of one zone: catches of each run, the cans, the wind of the day."""

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Vertical
from textual.content import Content
from textual.widgets import Static

from tui import explained
from tui import field_state as state
from tui.screens import field_pictures, pictures, wording
from tui.screens.doors import Page
from tui.screens.explaining import explain_numbers
from tui.session import Session, zone_plan
from tui.tried import Effect, du_effects
from tui.widgets.box import BoxPlot
from tui.widgets.charts import CanMap
from tui.widgets.wind_day import WindDay
from tui.widgets.words import Words

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation

PICTURES = ("box", "cans", "wind")
TALL = 30  # from this many rows on, pictures stand beside each other


class FieldScreen(Page):
    """The field test of one zone in three pictures."""

    CSS_PATH = "field.tcss"
    AUTO_FOCUS = ""
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right", "run(1)", "Run", key_display="← →"),
        Binding("left", "run(-1)", "Run back", show=False),
        Binding("n,down,j", "step(1)", "Next zone", key_display="n"),
        Binding("p,up,k", "step(-1)", "Previous zone", show=False),
        Binding("1", "picture(0)", "Picture", key_display="1-5"),
        Binding("2", "picture(1)", show=False),
        Binding("3", "picture(2)", show=False),
        Binding("4", "door('packages')", show=False),
        Binding("5", "door('spacing')", show=False),
        Binding("v,tab", "next_picture(1)", show=False),
        Binding("shift+tab", "next_picture(-1)", show=False),
        Binding("e", "explain", show=False),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._picture = 0
        self._place = 0  # among all runs of the zone, newest test first

    def body(self) -> ComposeResult:
        with Vertical(id="head"):
            yield Words(id="name")
            yield Words(id="test")
        yield Words(id="tabs")
        with Container(id="pictures"):
            for name, chart in zip(
                PICTURES, (BoxPlot(), CanMap((14, 6)), WindDay()), strict=True
            ):
                with Vertical(id=name, classes="pane"):
                    yield Words(classes="title")
                    yield chart

    @property
    def is_narrow(self) -> bool:
        """Whether there is room for one picture only."""
        return super().is_narrow or self.app.size.height < TALL

    def effects(self, session: Session) -> tuple[Effect, ...]:
        return du_effects(session, self._zone_id)

    def show(self, session: Session) -> None:
        self.set_class(self.is_narrow, "narrow")
        self._tabs()
        plan = zone_plan(session, self._zone_id)
        name = plan.zone.name if plan is not None else ""
        self.query_one("#name", Static).update(
            Content.assemble(
                (f"{self._zone_id}  {name}", "bold"),
                ("   tests and wind", "$foreground 60%"),
            )
        )
        tests = state.zone_tests(session, self._zone_id)
        if not tests:
            self._nothing()
            return
        places = [(test, run) for test in tests for run in test.runs]
        self._place %= len(places)
        test, run = places[self._place]
        self._about(session, test, run, f"run {self._place + 1} of {len(places)}")
        self._boxes(session, test, run)
        self._cans(session, test, run)
        self._wind(session, test, run)

    def _nothing(self) -> None:
        said = field_pictures.NO_TEST.format(zone=self._zone_id)
        self.query_one("#test", Static).update("no can test yet")
        self.query_one(BoxPlot).show((), nothing=said)
        self.query_one(CanMap).show(None, "The map of the cans comes with a test.")
        self.query_one(WindDay).show(
            None, (), nothing="The wind of its day comes with a test."
        )
        for name, title in zip(
            PICTURES, ("Catch of each run", "Cans as they stood", "Wind of the day"),
            strict=True,
        ):  # fmt: skip
            self._title(name, title)

    def _about(
        self, session: Session, test: "TestEvaluation", run: "RunEvaluation", at: str
    ) -> None:
        when = f"{wording.day_text(test.date)} {test.date.year}"
        package = f", package {test.package}" if test.package else ""
        self.query_one("#test", Static).update(
            Content.assemble(
                (f"{run.run} of {when}", "bold $primary"),
                (f"  {at}   ", "$foreground 60%"),
                f"{test.condition}{package}   ",
                (field_pictures.wind_words(run, session.units), "$foreground 60%"),
            )
        )

    def _boxes(
        self, session: Session, test: "TestEvaluation", run: "RunEvaluation"
    ) -> None:
        fives = state.boxes(test)
        drawn = [
            field_pictures.box(one, five, session.units, is_chosen=one is run)
            for one, five in zip(test.runs, fives, strict=True)
        ]
        tried = state.tried_box(session, self._zone_id, run)
        if tried is not None:
            drawn.append(field_pictures.tried_box(run, *tried, session.units))
        self.query_one(BoxPlot).show(drawn, field_pictures.BOX_LEGEND)
        _, label = field_pictures.depth_unit(run, session.units)
        self._title("box", f"Catch of each run, {label}")

    def _cans(
        self, session: Session, test: "TestEvaluation", run: "RunEvaluation"
    ) -> None:
        layout = state.layout_of(session, test)
        ground = field_pictures.ground_words(layout, run, session.units)
        grid = pictures.can_grid(run, session.units, about=("", ground))
        heads = state.heads_of(layout, run)
        self.query_one(CanMap).show(replace(grid, sprinklers=heads))
        title = pictures.can_title(run, session.units, len(test.runs))
        self._title("cans", title)

    def _wind(
        self, session: Session, test: "TestEvaluation", run: "RunEvaluation"
    ) -> None:
        day = state.day_of_run(session, test, run)
        windows = field_pictures.wind_windows(day, test, run.run, session.units)
        why = f"Not drawn: {day.why}. {field_pictures.ADD_LOG}"
        self.query_one(WindDay).show(
            field_pictures.wind_trace(day, session.units),
            windows,
            field_pictures.wind_legend(day),
            nothing=why,
        )
        self._title("wind", field_pictures.wind_title(day, session.units))

    def _title(self, pane: str, text: str) -> None:
        self.query_one(f"#{pane} .title", Static).update(text)

    def _tabs(self) -> None:
        parts: list[str | tuple[str, str]] = []
        for i, name in enumerate((*PICTURES, "packages", "spacing")):
            here = i == self._picture
            label = f"{i + 1} {name}"
            parts.append(
                (f"[{label}]" if here else f" {label} ", "bold" if here else "")
            )
            if i < len(PICTURES):
                self.query_one(f"#{name}").set_class(here, "current")
        self.query_one("#tabs", Static).update(Content.assemble(*parts))

    def _again(self) -> None:
        if self.dashboard.session is not None:
            self.show(self.dashboard.session)
            self.say_what_if(self.dashboard.session)

    def other_zone(self, zone_id: str) -> None:
        self._zone_id, self._place = zone_id, 0

    def action_run(self, by: int) -> None:
        self._place += by
        self._again()

    def action_step(self, by: int) -> None:
        session = self.dashboard.session
        if session is None or session.plan is None:
            return
        ids = [one.zone.id for one in session.plan.zones]
        at = ids.index(self._zone_id) + by if self._zone_id in ids else 0
        if 0 <= at < len(ids):
            self.other_zone(ids[at])
            self._again()
            self.say_path()

    def action_explain(self) -> None:
        session = self.dashboard.session
        tests = state.zone_tests(session, self._zone_id) if session else ()
        places = [(test, run) for test in tests for run in test.runs]
        numbers: explained.Numbers = ()
        title = self._zone_id
        if places:
            test, run = places[self._place % len(places)]
            numbers = explained.of_test(test, run.run)
            title = f"{self._zone_id}  {test.test}, {run.run}: from the cans"
        explain_numbers(self, session, title, numbers)

    def action_picture(self, picture: int) -> None:
        self._picture = picture
        self._tabs()

    def action_next_picture(self, by: int) -> None:
        self.action_picture((self._picture + by) % len(PICTURES))
