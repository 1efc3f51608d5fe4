"""Packages against wind: lines with bands, the pairs, and the verdict in words."""

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container, Vertical, VerticalScroll
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import QuantityError, SchedulerError
from scheduler.units import parsed_quantity, shown, unit_label
from tui import explained
from tui import field_state as state
from tui.field_state import Packages
from tui.screens import package_pictures as drawn
from tui.screens.doors import Page
from tui.screens.explaining import explain_numbers
from tui.session import Session
from tui.tried import Effect, du_effects, du_tried_effects
from tui.widgets.bars import Prompt
from tui.widgets.du_wind import DuWind
from tui.widgets.words import Words
from tui.widgets.zone_table import ZoneTable

if TYPE_CHECKING:
    from scheduler.field.package_trial import Pair

PICTURES = ("picture", "pairs", "verdict")
TALL = 30
WORKING = "comparing every two packages …"
MOST_SAID = 3  # warnings beside the picture; the findings screen has them all
NOTHING = (
    "No package was tested in a known wind. Give a test's package in its test.toml or "
    "its zone's in zones.toml, and the wind of each run: wind_mph or wind_m_per_s, or "
    "a [[wind_log]] in site.toml."
)


class PackagesScreen(Page):
    """Every package of the site against wind."""

    CSS_PATH = "packages.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("a", "ask_wind", "At wind"),
        Binding("right", "view(1)", "Picture", key_display="← →", priority=True),
        Binding("left", "view(-1)", "Picture back", show=False, priority=True),
        Binding("v", "view(1)", show=False),
        Binding("1", "view_at(0)", show=False),
        Binding("2", "view_at(1)", show=False),
        Binding("3", "view_at(2)", show=False),
        Binding("n", "zone(1)", "Zone", show=False),
        Binding("p", "zone(-1)", "Zone before", show=False),
        Binding("j", "cursor(1)", show=False),
        Binding("k", "cursor(-1)", show=False),
        Binding("e", "explain", show=False),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__(zone_id)
        self._view = 0
        self._wind_m_per_s: float | None = None
        self._shown_wind_m_per_s: float | None = None  # of the last good answer
        self._found: Packages | None = None
        self._rows: list[drawn.Row] = []

    def body(self) -> ComposeResult:
        yield Words(id="head")
        yield Words(id="tabs")
        with Container(id="middle"):
            with Vertical(id="picture", classes="pane"):
                yield Words(classes="title")
                yield DuWind()
            with VerticalScroll(id="verdict", classes="pane", can_focus=False):
                yield Words(id="said")
        with Vertical(id="pairs", classes="pane"):
            yield ZoneTable()
        yield Prompt()

    @property
    def is_narrow(self) -> bool:
        """Whether there is room for one picture only."""
        return super().is_narrow or self.app.size.height < TALL

    def effects(self, session: Session) -> tuple[Effect, ...]:
        own = du_effects(session, self._zone_id)
        drawn_too = du_tried_effects(session, self._picked_packages())
        return (*own, *(o for o in drawn_too if o.name != f"{self._zone_id} DU"))

    def _picked_packages(self) -> tuple[str, ...]:
        """Packages of the row under the cursor, else of the first."""
        picked = self.query_one(ZoneTable).picked
        row = next((one for one in self._rows if one.key == picked), None)
        row = row or (self._rows[0] if self._rows else None)
        return row.packages if row is not None else ()

    def show(self, session: Session) -> None:
        self.set_class(self.is_narrow, "narrow")
        self._tabs()
        self.refresh_bindings()
        if session.site_folder is None or session.site_folder.site is None:
            why = "There is no site; see the findings."
            self.take_off(why)
            self.query_one("#head", Static).update(why)
            return
        if self._found is not None:
            self._draw(session)  # in other units at once, if those have changed
        self.ask(partial(state.packages, session, self._wind_m_per_s), WORKING)

    def answered(self, answer: object) -> None:
        session = self.dashboard.session
        if isinstance(answer, SchedulerError):
            self.notify(str(answer), severity="error", markup=False)
            # a wind that is refused here is not asked for on the next zone
            self._wind_m_per_s = self._shown_wind_m_per_s
        elif isinstance(answer, Packages) and session is not None:
            self._found, self._shown_wind_m_per_s = answer, self._wind_m_per_s
            self._draw(session)

    @property
    def about(self) -> str:
        return self._zone_id.casefold()

    def empty(self, why: str) -> None:
        self._found, self._rows = None, []
        self.query_one("#head", Static).update("Packages against wind   not compared")
        self.query_one(ZoneTable).show((), ())
        self.query_one(DuWind).show((), nothing=why)
        self.query_one(DuWind).across(())
        self.query_one("#picture .title", Static).update("DU low quarter against wind")
        self.query_one("#said", Static).update(why)

    # --- what is drawn ------------------------------------------------------
    def _draw(self, session: Session) -> None:
        found = self._found
        assert found is not None, "drawn only when there is something"
        with_pairs = found.has_wind and bool(found.trial.pairs)
        self._rows = drawn.rows(found, session.units, with_pairs=with_pairs)
        columns = drawn.columns(session.units, with_pairs=with_pairs)
        table = self.query_one(ZoneTable)
        table.show(columns, [(one.key, one.cells) for one in self._rows])
        self._head(session, found)
        self._selected(session)

    def _head(self, session: Session, found: Packages) -> None:
        if found.has_wind:
            wind = shown(found.trial.wind_m_per_s, "m_per_s", session.units)
            at, why = f"compared at {wind}", found.trial.wind_from
        else:
            at, why = "no wind to compare at yet", "press a to type one"
        self.query_one("#head", Static).update(
            Content.assemble(
                ("Packages against wind   ", "bold"),
                (at, "bold $primary"),
                (f"   {why}", "$foreground 60%"),
            )
        )

    def _selected(self, session: Session) -> None:
        """Draw the row under the cursor."""
        found = self._found
        if found is None:
            return
        names = self._picked_packages()
        pair = self._pair(names) if found.has_wind else None
        units = session.units
        self.query_one(DuWind).show(
            drawn.series(found, names, units),
            drawn.marks(found, pair, names, units),
            f"wind, {unit_label('m_per_s', units)}",
            nothing=NOTHING,
        )
        self.query_one(DuWind).across(drawn.levels(session, names))
        self.say_what_if(session)
        title = "DU low quarter against wind: " + " and ".join(names)
        self.query_one("#picture .title", Static).update(title.rstrip(": "))
        self._say(session, pair)

    def _pair(self, names: tuple[str, ...]) -> "Pair | None":
        pairs = self._found.trial.pairs if self._found is not None else ()
        return next((one for one in pairs if (one.a, one.b) == names), None)

    def _say(self, session: Session, pair: "Pair | None") -> None:
        found = self._found
        assert found is not None, "drawn only when there is something"
        said = drawn.verdict(found, pair, session.units)
        parts: list[str | tuple[str, str]] = [(said[0], "bold"), "\n\n"]
        parts += [f"{one}\n" for one in said[1:]]
        worst = [one for one in found.trial.findings if one.level != "note"]
        told = [f"\n▲ {one.what} ({one.where})" for one in worst[:MOST_SAID]]
        parts += [(one, "$text-warning") for one in told]
        if len(worst) > MOST_SAID:
            parts.append((f"\n{len(worst) - MOST_SAID} more: f", "$foreground 60%"))
        self.query_one("#said", Static).update(Content.assemble(*parts))

    def _tabs(self) -> None:
        parts: list[str | tuple[str, str]] = []
        for i, name in enumerate(PICTURES):
            here = i == self._view
            label = f"{i + 1} {name}"
            parts.append(
                (f"[{label}]" if here else f" {label} ", "bold" if here else "")
            )
            self.query_one(f"#{name}").set_class(here, "current")
            self.set_class(here, f"on-{name}")
        parts.append(("  ↑ ↓ another pair", "$foreground 60%"))
        self.query_one("#tabs", Static).update(Content.assemble(*parts))

    # --- keys ---------------------------------------------------------------
    def on_zone_table_row_highlighted(self) -> None:
        if self.dashboard.session is not None:
            self._selected(self.dashboard.session)

    def action_cursor(self, by: int) -> None:
        table = self.query_one(ZoneTable)
        table.move_cursor(row=table.cursor_row + by)

    def action_view(self, by: int) -> None:
        self.action_view_at((self._view + by) % len(PICTURES))

    def action_view_at(self, view: int) -> None:
        self._view = view
        self._tabs()
        self.refresh_bindings()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Leave the arrows to the prompt; offer words where a picture is shown."""
        del parameters
        if action == "words":
            return not self.is_narrow or PICTURES[self._view] == "picture"
        return not (action == "view" and isinstance(self.focused, Prompt))

    def action_explain(self) -> None:
        picked = self.query_one(ZoneTable).picked
        row = next((one for one in self._rows if one.key == picked), None)
        numbers: explained.Numbers = ()
        if self._found is not None and row is not None:
            numbers = explained.of_packages(self._found, row.packages)
        names = " and ".join(row.packages) if row is not None else "packages"
        session = self.dashboard.session
        explain_numbers(self, session, f"{names}: DU against wind", numbers)

    def action_ask_wind(self) -> None:
        self.query_one(Prompt).ask("wind", 'wind to compare at, such as "4 mph"')

    def on_prompt_given(self, event: Prompt.Given) -> None:
        text, session = event.text.strip(), self.dashboard.session
        self.query_one(ZoneTable).focus()
        if session is None:
            return
        try:
            self._wind_m_per_s = parsed_quantity(text, to="m_per_s") if text else None
        except QuantityError as error:
            self.notify(str(error), severity="error", markup=False)
            return
        self.ask(partial(state.packages, session, self._wind_m_per_s), WORKING)
