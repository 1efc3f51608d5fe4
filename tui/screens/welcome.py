"""The first page where there is no site: make one, see a demo, read, open."""

from collections.abc import Callable
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Key
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from scheduler.errors import SchedulerError
from scheduler.reports.text import findings_text, run_text
from scheduler.units import System
from tui import first_run as state
from tui import imported
from tui.screens.filling import Blank, Checked, FillingScreen, Texts
from tui.widgets.bars import TopBar
from tui.widgets.key_line import KeyLine

CHOICES = (
    ("n", "new", "New site", "a commented folder to fill in, with your name and place"),
    ("d", "demo", "Demo", "an invented site, copied to a folder that you name"),
    ("i", "read", "Import readings", "a table or a pasted list: rate and uniformity"),
    ("o", "open", "Open a folder", "a site that is there already"),
)
NEW = (
    Blank("name", "what the site is called"),
    Blank("units", "us or metric", "us"),
    Blank("latitude", "40.25; south of the equator below 0"),
    Blank("longitude", "-75.10; west of Greenwich below 0"),
    Blank("elevation", "300 ft or 90 m; empty: the example's"),
    Blank("time zone", "America/New_York"),
)
READ = (
    Blank("readings", "a path, or a list: 41 52 - 66 k | 55 48 …", is_long=True),
    Blank("unit", "mL, fl oz, mm or in; empty: the table's, else mL"),
    Blank("mouth", "4.25 in, inside the rim"),
    Blank("minutes", "30"),
    Blank("table", "where asked: total=row decimal=comma labels=no …"),
    Blank("folder", "a site, or a new folder for one"),
    Blank("zone", "zone of that site; empty: its first"),
)


class WelcomeScreen(Screen[Path]):
    """Four ways to a site; gives the folder to open."""

    help_subject = "the first page, where there is no site"
    CSS_PATH = "welcome.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [
        *(Binding(key, f"choose('{what}')", name) for key, what, name, _ in CHOICES),
        Binding("j", "cursor('cursor_down')", show=False),
        Binding("k", "cursor('cursor_up')", show=False),
        Binding("question_mark,f1", "app.help", "Help", key_display="?"),
        Binding("q,escape", "app.quit", "Quit", key_display="q"),
    ]

    def __init__(self, why: str = "") -> None:
        super().__init__()
        self._why = why
        self._recent = state.recent_sites()

    def compose(self) -> ComposeResult:
        yield TopBar()
        yield Static(self._why, id="why", markup=False)
        rows = [Option(_row(k, name, does), what) for k, what, name, does in CHOICES]
        for i, folder in enumerate(self._recent, 1):
            rows.append(Option(_row(str(i), folder.name, str(folder)), f"recent {i}"))
        yield OptionList(*rows, id="choices")
        yield KeyLine()

    def on_mount(self) -> None:
        self.query_one(TopBar).show("lowquarter", "from the cans to the minutes")

    def on_key(self, event: Key) -> None:
        if event.key.isdigit() and 0 < int(event.key) <= len(self._recent):
            event.stop()
            self._leave(self._recent[int(event.key) - 1])

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        what = event.option.id or ""
        if what.startswith("recent"):
            self._leave(self._recent[int(what.split()[1]) - 1])
        else:
            self.action_choose(what)

    def action_cursor(self, how: str) -> None:
        getattr(self.query_one(OptionList), f"action_{how}")()

    def action_choose(self, what: str) -> None:
        if what == "new":
            self._ask_site("", self._leave)
        elif what == "demo":
            names = " or ".join(state.demo_sites())
            blanks = (
                Blank("demo", names, next(iter(state.demo_sites()))),
                Blank("folder", "where the copy shall lie"),
            )
            self._ask("Open a demo", blanks, _check_demo, self._copied)
        elif what == "read":
            self._ask("Import readings", READ, _check_readings, self._imported)
        else:
            there = (Blank("folder", "path of a site folder"),)
            self._ask("Open a folder", there, _check_open, self._opened)

    # --- what was filled in -------------------------------------------------
    def _ask(
        self,
        title: str,
        blanks: tuple[Blank, ...],
        check: Callable[[Texts], Checked],
        then: Callable[[Texts], None],
    ) -> None:
        def filled(texts: Texts | None) -> None:
            if texts is None:
                return
            try:
                then(texts)
            except SchedulerError as problem:
                self.notify(str(problem), severity="error", markup=False, timeout=20)

        self.app.push_screen(FillingScreen(title, blanks, check), filled)

    def _ask_site(self, folder: str, then: Callable[[Path], None]) -> None:
        """A new site; what is to happen with its folder afterwards."""
        blanks = (*NEW, Blank("folder", "where it shall lie, such as my_site", folder))

        def made(texts: Texts) -> None:
            new, _ = state.read_site(texts)
            assert new is not None, "checked before it was given"
            then(state.make_site(new))

        self._ask("A new site", blanks, _check_site, made)

    def _copied(self, texts: Texts) -> None:
        folder = state.folder_of(texts["folder"])
        self._leave(state.copied_demo(texts["demo"].strip(), folder))

    def _opened(self, texts: Texts) -> None:
        self._leave(state.folder_of(texts["folder"]))

    def _imported(self, texts: Texts) -> None:
        read = imported.read_readings(texts)

        def keep(folder: Path) -> None:
            zone = texts["zone"].strip() or imported.first_zone(folder)
            imported.kept_readings(folder, zone, read)
            self._leave(folder)

        folder = state.folder_of(texts["folder"])
        if state.is_site(folder):
            keep(folder)
        else:
            self._ask_site(texts["folder"], keep)

    def _leave(self, folder: Path) -> None:
        self.app.exit(folder)


# --- what is said while it is typed -------------------------------------------


def _check_site(texts: Texts) -> Checked:
    new, wrong = state.read_site(texts)
    return Checked(wrong, f"ctrl+s makes {new.folder.resolve()}" if new else "")


def _check_demo(texts: Texts) -> Checked:
    wrong: Texts = {}
    name = texts["demo"].strip()
    about = state.demo_sites().get(name, "")
    if not about:
        wrong["demo"] = f"{name!r} is none of {', '.join(state.demo_sites())}"
    try:
        folder = state.folder_of(texts["folder"])
        if not state.is_site(folder):
            state.free_folder(texts["folder"])
    except SchedulerError as problem:
        return Checked({**wrong, "folder": state.trouble(problem)}, about)
    does = "opens the copy in" if state.is_site(folder) else "copies it to"
    return Checked(wrong, f"{about}\nenter {does} {folder.resolve()}")


def _check_open(texts: Texts) -> Checked:
    try:
        folder = state.folder_of(texts["folder"])
    except SchedulerError as problem:
        return Checked({"folder": state.trouble(problem)})
    if not state.is_site(folder):
        return Checked({"folder": f"there is no site.toml in {folder}"})
    return Checked(said=f"enter opens {folder.resolve()}")


def _check_readings(texts: Texts) -> Checked:
    wrong: Texts = {}
    try:
        folder = state.folder_of(texts["folder"])
        if not state.is_site(folder):
            state.free_folder(texts["folder"])
    except SchedulerError as problem:
        wrong["folder"] = state.trouble(problem)
    try:
        read = imported.read_readings(texts)
    except SchedulerError as problem:
        return Checked({"readings": state.trouble(problem), **wrong})
    # mm, cm and m end alike
    is_metric = texts["mouth"].strip().casefold().endswith("m")
    units: System = "metric" if is_metric else "us"
    said = [run_text(read.result, units)] if read.result is not None else []
    stops = [one for one in read.findings if one.level == "stop"]
    if read.findings:
        said.append(findings_text(read.findings))
    if read.run is None:
        wrong["readings"] = "; ".join(f"{one.what}: {one.fix}" for one in stops)
    return Checked(wrong, "\n".join(said))


def _row(key: str, name: str, does: str) -> Content:
    return Content.assemble(
        (f" {key}  ", "bold"), (f"{name:<18}", "bold"), (does, "$text-muted")
    )
