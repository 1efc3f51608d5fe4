"""Tests and runs of one zone: what they found, and the way to type another."""

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.widgets import Static

from scheduler.errors import SaveError
from scheduler.units import shown, unit_label
from tui import draft_files, draft_journal, explained
from tui.draft import Draft, Setup, new_draft
from tui.draft_journal import Journal, Kept
from tui.screens import wording
from tui.screens.ask import AskScreen
from tui.screens.base import WIDE
from tui.screens.can_entry import CanEntryScreen
from tui.screens.doors import Doors
from tui.screens.explaining import explain_numbers
from tui.screens.run_form import RunFormScreen
from tui.session import Session
from tui.setup_text import setup_texts
from tui.widgets.words import Words
from tui.widgets.zone_table import Column, ZoneTable

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation
    from scheduler.record import CanRun, CanTest

KEPT = "kept:"
LEFT = "Typed and never saved. Enter goes on with it, d drops it."
ELSEWHERE = "Another dashboard is typing this; there it is saved or dropped."
NONE_YET = "No test of this zone yet. Press n to type one in."


class TestsScreen(Doors[None]):
    """One row a run, newest test first; unsaved entries stand on top."""

    __test__ = False
    CSS_PATH = "tests.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "enter", "Open", priority=True),
        Binding("n", "new_test", "New test"),
        Binding("r", "new_run", "Another run"),
        Binding("d", "drop", "Drop unsaved"),
        Binding("e", "explain", show=False),
        Binding("escape", "leave", "Back"),
        Binding("right", "zone(1)", "Zone", key_display="← →", priority=True),
        Binding("left", "zone(-1)", show=False, priority=True),
    ]

    def __init__(self, zone_id: str) -> None:
        super().__init__()
        self.zone_id = zone_id
        self._kept: tuple[Kept, ...] = ()

    def body(self) -> ComposeResult:
        yield Words(id="name")
        yield ZoneTable()
        yield Words(id="about")

    @property
    def zone_here(self) -> str:
        return self.zone_id

    def other_zone(self, zone_id: str) -> None:
        self.zone_id = zone_id

    def on_screen_resume(self) -> None:
        if self.dashboard.session is not None:
            self.show(self.dashboard.session)

    def show(self, session: Session) -> None:
        self._kept = draft_journal.kept_drafts(session.folder, *self._ids(session))
        tests = draft_files.tests_of(session, self.zone_id)
        zone = session.site.zone(self.zone_id) if session.site is not None else None
        name = f"{self.zone_id}  {zone.name}" if zone is not None else self.zone_id
        number = f"{len(tests)} {'test' if len(tests) == 1 else 'tests'}"
        self.query_one("#name", Static).update(
            Content.assemble((name, "bold"), (f"   {number}", "$foreground 60%"))
        )
        rows = [_kept_row(i, one) for i, one in enumerate(self._kept)]
        for test in tests:
            rows += _rows(session, test)
        table = self.query_one(ZoneTable)
        table.show(_columns(session, self.app.size.width), rows)
        self._about()
        self.refresh_bindings()

    def _about(self) -> None:
        session, test = self.dashboard.session, self._test()
        text: str | Content = ""
        kept = self._picked_kept()
        if kept is not None:
            text = ELSEWHERE if kept.is_elsewhere else LEFT
        elif session is not None and test is not None:
            found = _evaluation(session, test)
            said = found.findings if found is not None else ()
            parts: list[str | tuple[str, str]] = []
            if test.note:
                parts.append((f"{test.note}\n", "$foreground 60%"))
            for one in sorted(said, key=lambda one: wording.LEVELS.index(one.level)):
                glyph = f"{wording.GLYPH[one.level]} {one.level} "
                parts += [(glyph, "bold"), f"{one.where}: {one.what}. → {one.fix}\n"]
            text = Content.assemble(*parts)
        elif not self.query_one(ZoneTable).row_count:
            text = NONE_YET
        self.query_one("#about", Static).update(text)

    def on_zone_table_row_highlighted(self) -> None:
        self._about()
        self.refresh_bindings()

    def on_zone_table_row_selected(self) -> None:
        self.action_enter()  # a click on the picked row

    def _ids(self, session: Session | None) -> tuple[str, ...]:
        """Ids of the zone, of today and of before."""
        site = session.site if session is not None else None
        zone = site.zone(self.zone_id) if site is not None else None
        return (self.zone_id, *(zone.formerly if zone is not None else ()))

    # --- what is picked ------------------------------------------------------
    def _picked_kept(self) -> Kept | None:
        key = self.query_one(ZoneTable).picked
        return self._kept[int(key[len(KEPT) :])] if key.startswith(KEPT) else None

    def _test(self) -> "CanTest | None":
        session, key = self.dashboard.session, self.query_one(ZoneTable).picked
        if session is None:
            return None
        name = key.partition("/")[0]
        tests = draft_files.tests_of(session, self.zone_id)
        return next((one for one in tests if one.name == name), None)

    def _run(self) -> "CanRun | None":
        test, key = self._test(), self.query_one(ZoneTable).picked
        runs = test.runs if test is not None else ()
        return next((one for one in runs if one.name == key.partition("/")[2]), None)

    # --- keys ----------------------------------------------------------------
    def action_explain(self) -> None:
        session, test = self.dashboard.session, self._test()
        found = _evaluation(session, test) if session and test else None
        run = self._run()
        numbers: explained.Numbers = ()
        if found is not None:
            numbers = explained.of_test(found, run.name if run is not None else "")
        title = f"{test.name}: from the cans" if test is not None else self.zone_id
        explain_numbers(self, session, title, numbers)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Offer what the picked row allows."""
        del parameters
        if action == "drop":
            kept = self._picked_kept() if self.is_mounted else None
            return kept is not None and not kept.is_elsewhere
        return True

    def action_zone(self, by: int) -> None:
        self.zone_id = self.zone_beside(by)
        self.on_screen_resume()
        self.say_path()

    def action_leave(self) -> None:
        self.dismiss(None)

    def action_enter(self) -> None:
        session, kept = self.dashboard.session, self._picked_kept()
        test, run = self._test(), self._run()
        if kept is not None:
            self._resume(kept)
        elif session is not None and test is not None and run is not None:
            self._begin(draft_files.opened_draft(session, test, run))
        elif test is not None:
            self.notify("A stated result has no readings to open.")

    def action_new_run(self) -> None:
        session, test = self.dashboard.session, self._test()
        if session is None or test is None or not test.runs:
            self.notify("Pick a test with readings first: a run stands on its grid.")
            return
        draft = draft_files.next_run(session, test)
        title = f"{self.zone_id}  {test.name}: another run on the same grid"
        self._ask(draft, title)

    def action_new_test(self) -> None:
        session = self.dashboard.session
        if session is None:
            return
        setup = draft_files.prefilled(session, self.zone_id)
        texts = setup_texts(setup) if setup is not None else _first_texts(session)
        title = f"{self.zone_id}  new test: what is said once"

        def filled(given: Setup | None) -> None:
            if given is not None:
                self._begin(new_draft(self.zone_id, given))

        self.app.push_screen(RunFormScreen(title, texts, before=setup), filled)

    def _ask(self, draft: Draft, title: str) -> None:
        def filled(given: Setup | None) -> None:
            if given is not None:
                self._begin(new_run_draft(draft, given))

        form = RunFormScreen(title, setup_texts(draft.setup), before=draft.setup)
        self.app.push_screen(form, filled)

    def _begin(self, draft: Draft) -> None:
        """Start typing, unless the same run was left unsaved before."""
        folder = self.dashboard.folder
        journal = draft_journal.journal_of(folder, draft)
        kept = draft_journal.kept_drafts(folder, *self._ids(self.dashboard.session))
        before = next((one for one in kept if one.path == journal.path), None)
        if any(one.is_elsewhere and one.is_same_run(draft) for one in kept):
            which = draft.file or "a new run" if draft.test else "a new test"
            self.notify(f"Another dashboard is typing {which} here as well.")
        if before is None:
            self._open(draft, journal)
            return

        def answered(key: str | None) -> None:
            if key == "g":
                self._resume(before)
            elif key == "d" and self._dropped(before):
                self._open(draft, journal)

        question = "This run was typed before and never saved."
        answers = {"g": "go on with it", "d": "drop it and start anew"}
        self.app.push_screen(AskScreen(question, answers, "back"), answered)

    def _resume(self, kept: Kept) -> None:
        """Go on with what was left, unless another dashboard does by now."""
        taken = self._taken(kept)
        if taken is not None:
            self._open(*taken)

    def _dropped(self, kept: Kept) -> bool:
        taken = self._taken(kept)
        if taken is not None:
            taken[1].close()
        return taken is not None

    def _taken(self, kept: Kept) -> tuple[Draft, Journal] | None:
        try:
            draft, journal = draft_journal.resumed(kept)
            return replace(draft, zone=self.zone_id), journal
        except SaveError as problem:
            self.notify(str(problem), severity="warning", markup=False)
            self.on_screen_resume()
            return None

    def _open(self, draft: Draft, journal: Journal) -> None:
        def left(key: str | None) -> None:
            self.query_one(ZoneTable).pick(key or "")

        self.app.push_screen(CanEntryScreen(draft, journal), left)

    def action_drop(self) -> None:
        kept = self._picked_kept()
        if kept is None or kept.is_elsewhere:
            return

        def answered(key: str | None) -> None:
            if key == "d" and self._dropped(kept):
                self.on_screen_resume()

        question = "Drop what was typed and never saved?"
        self.app.push_screen(AskScreen(question, {"d": "drop it"}, "keep"), answered)


def new_run_draft(draft: Draft, setup: Setup) -> Draft:
    """Draft of another run as the form has it, with nothing typed yet."""
    fresh = new_draft(draft.zone, setup, test=draft.test)
    return replace(fresh, digests=draft.digests)


def _first_texts(session: Session) -> dict[str, str]:
    """The form of a zone's first test: what is usual stands there to be changed."""
    date = str(session.today) if session.today is not None else ""
    return {"date": date, "condition": "as found", "unit": "mL"}


# --- rows --------------------------------------------------------------------


def _columns(session: Session, width: int) -> list[Column]:
    rate = unit_label("mm_per_h", session.units)
    fixed = [
        Column("run", 6 if width < WIDE else 7, is_right=False),
        Column("cans", 5),
        Column("DU", 5),
        Column("range", 10),
        Column(rate, 6),
        Column("wind", 15),
        Column("  findings", 12 if width < WIDE else 13, is_right=False),
    ]
    room = width - sum(one.width for one in fixed) - 11
    return [
        Column("date", 11, is_right=False),
        Column("condition", max(10, min(26, room)), is_right=False),
        *fixed,
    ]


def _kept_row(i: int, kept: Kept) -> tuple[str, list[str]]:
    draft = kept.draft
    typed = sum(bool(text) for row in draft.now.cells for text in row)
    run = draft.file.removesuffix(".csv") or "new"
    state = "ELSEWHERE" if kept.is_elsewhere else "NOT SAVED"
    cells = [str(draft.setup.date), state, run, f"{typed}", *[""] * 5]
    return f"{KEPT}{i}", cells


def _rows(session: Session, test: "CanTest") -> list[tuple[str, list[str]]]:
    found = _evaluation(session, test)
    rows = []
    for i, run in enumerate(test.runs):
        done = (
            next((r for r in found.runs if r.run == run.name), None) if found else None
        )
        said = [
            one
            for one in (found.findings if found else ())
            if run.where in one.where
            or (i == 0 and not one.where.startswith(test.where))
        ]
        head = [str(test.date), test.condition] if i == 0 else ["", ""]
        numbers = _numbers(session, done) if done else ["–"] * 5
        cells = [*head, run.name, *numbers, f"  {wording.flags(said, roomy=False)}"]
        rows.append((f"{test.name}/{run.name}", cells))
    if not test.runs:
        du = shown(test.stated.du_lq if test.stated else None, "", session.units)
        cells = [str(test.date), test.condition, "stated", "–", du, *["–"] * 3, ""]
        rows.append((test.name, cells))
    return rows


def _evaluation(session: Session, test: "CanTest") -> "TestEvaluation | None":
    tests = session.evaluations or ()
    return next((one for one in tests if one.test == test.name), None)


def _numbers(session: Session, run: "RunEvaluation") -> list[str]:
    units = session.units
    span, wind = "…", "–"
    if run.ranges is not None:
        low, high = run.ranges.du_lq.low, run.ranges.du_lq.high
        span = f"{shown(low, '', units)}–{shown(high, '', units)}"
    if run.wind is not None and run.wind.mean_m_per_s is not None:
        wind = f"{shown(run.wind.mean_m_per_s, 'm_per_s', units)} {run.wind.band}"
    return [
        f"{run.catch.n_cans}",
        shown(run.uniformity.du_lq, "", units),
        span,
        shown(run.catch.net_rate_mm_per_h, "mm_per_h", units, with_unit=False),
        wind,
    ]
