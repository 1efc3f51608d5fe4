"""Every page of the demo read in every way: colours, ASCII, words, numbers, text."""

import asyncio
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import pytest
from textual.color import Color
from textual.pilot import Pilot

from tests.tui.pilots import Text, dashboard, pressed, settled
from tui import session as state
from tui.app import Dashboard
from tui.screens.explain import ExplainScreen
from tui.screens.page_text import page_pictures, page_table, page_text
from tui.screens.take_away import TakeAwayScreen
from tui.session import Session
from tui.themes import FACES, READABLE, STARK_READABLE, contrast, is_word
from tui.widgets.canvas import Chart, plain
from tui.widgets.work_line import WorkLine

KEYS = {
    "zones": "", "zone": "enter", "field": "c", "packages": "w", "spacing": "s",
    "need": "b", "season": "y", "week": "h", "proof": "l", "cost": "m", "tests": "t",
    "given": "g", "findings": "f down",
}  # fmt: skip

# the rest of the pages is walked by hand: with -m slow
LONG = {"field", "packages", "spacing", "season", "cost", "tests", "proof", "findings"}
EVERY = [
    pytest.param(one, marks=pytest.mark.slow) if one in LONG else one for one in KEYS
]
NUMBERED = [one for one in EVERY if one != "given"]  # there nothing is computed


@dataclass
class Seen:
    """One page: its words by face with both colours, glyphs, charts, numbers, text."""

    words: dict[str, set[tuple[str, str, str]]] = field(default_factory=dict)
    glyphs: set[str] = field(default_factory=set)
    charts: list[tuple[str, tuple[str, ...]]] = field(default_factory=list)
    explained: str = ""
    text: str = ""


def look(app: Dashboard, seen: Seen, face: str) -> None:
    found = seen.words.setdefault(face, set())
    for strip in app.screen._compositor.render_strips():
        for one in strip:
            seen.glyphs |= set(one.text)
            if one.style is None or not any(map(is_word, one.text)):
                continue
            assert one.style.color is not None
            assert one.style.bgcolor is not None
            pair = (Color.from_rich_color(c).hex
                    for c in (one.style.color, one.style.bgcolor))  # fmt: skip
            found.add((*pair, one.text.strip()))  # type: ignore[arg-type]


async def visit(pilot: Pilot[int], app: Dashboard, key: str) -> Seen:
    seen = Seen()
    await pressed(pilot, *key.split())
    for face in FACES:
        app.put_on(face)
        await pilot.pause()
        look(app, seen, face)
    seen.charts = [
        (type(one).__name__, tuple(one.words())) for one in app.screen.query(Chart)
    ]
    seen.text = page_text(app.screen)
    await pressed(pilot, "e")
    if isinstance(app.screen, ExplainScreen):
        seen.explained = str(app.screen.query_one("#asked").content)  # type: ignore[attr-defined]
    while len(app.screen_stack) > 1:
        app.pop_screen()
    await pilot.pause()
    return seen


async def walk(folder: Path, names: list[str]) -> dict[str, Seen]:
    async with dashboard(folder, (140, 40)) as pilot:
        app = pilot.app
        assert isinstance(app, Dashboard)
        await pilot.press("down", "down", "down")  # Z4 has all there is
        return {name: await visit(pilot, app, KEYS[name]) for name in names}


@pytest.fixture(scope="module")
def pages(
    request: pytest.FixtureRequest, demo: Path, opened: Session, rated: Session
) -> Iterator[dict[str, Seen]]:
    by_hand = any(one.get_closest_marker("slow") for one in request.session.items)
    names = [one for one in KEYS if by_hand or one not in LONG]
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(state, "open_session", lambda *_: opened)
        patch.setattr(state, "evaluated", lambda *_: rated)
        yield asyncio.run(walk(demo, names))


# --- every page ----------------------------------------------------------------
@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("page", EVERY)
def test_every_word_can_be_read_on_its_ground(
    pages: dict[str, Seen], page: str, face: str
) -> None:
    least = STARK_READABLE if face == "contrast" else READABLE
    for ink, ground, text in pages[page].words[face]:
        ratio = contrast(Color.parse(ink), Color.parse(ground))
        assert ratio > least - 0.005, f"{text!r}: {ink} on {ground}"


@pytest.mark.parametrize("page", EVERY)
def test_every_glyph_has_a_twin_in_ascii(pages: dict[str, Seen], page: str) -> None:
    strange = {one for one in pages[page].glyphs if not one.isascii()}
    assert {one for one in strange if plain(one) == "?"} == set()
    assert plain("".join(strange)).isascii()


@pytest.mark.parametrize("page", EVERY)
def test_every_picture_says_its_numbers_in_words(
    pages: dict[str, Seen], page: str
) -> None:
    for name, words in pages[page].charts:
        said = " ".join(words)
        assert re.search(r"\d", said), name
        unit = r"\b(in|in/h|mL|min|mph|gal|gpm|%|DU|Kc)(?!\w)|%"
        assert re.search(unit, said), f"{name}: {said}"


@pytest.mark.parametrize("page", NUMBERED)
def test_a_number_of_every_page_is_explained(pages: dict[str, Seen], page: str) -> None:
    assert re.search(r"\d", pages[page].explained)


@pytest.mark.parametrize("page", EVERY)
def test_a_page_as_text_begins_with_the_site_and_its_week(
    pages: dict[str, Seen], page: str
) -> None:
    first, *rest = pages[page].text.splitlines()
    assert first.startswith("Tern Hollow Nursery")
    assert "8 Jun" in first
    assert len(rest) > 4


# --- one page ------------------------------------------------------------------


async def taken(pilot: Pilot[int], folder: Path, digit: str) -> Path:
    """What a digit of the list writes into an empty folder."""
    app = pilot.app
    assert isinstance(app, Dashboard)
    app.take_to = folder
    before = set(folder.iterdir())
    await pressed(pilot, "ctrl+e", digit)
    for _ in range(400):
        new = set(folder.iterdir()) - before
        if new and all(one.stat().st_size for one in new):
            break
        await pilot.pause(0.02)
    [path] = new
    return path


@pytest.mark.usefixtures("prepared")
async def test_a_table_is_copied_and_saved(demo: Path, tmp_path: Path) -> None:
    async with dashboard(demo) as pilot:
        path = await taken(pilot, tmp_path, "2")
        assert path.name == "tern-hollow-nursery_zones_table_2026-06-08.tsv"
        table = page_table(pilot.app.screen)
        assert table is not None
        lines = path.read_text(encoding="utf-8").splitlines()
        assert lines[0].split("\t") == list(table.heads)
        assert len(lines) == 1 + len(table.rows)
        assert pilot.app.clipboard.splitlines() == lines
        again = await taken(pilot, tmp_path, "2")
        assert again.name == "tern-hollow-nursery_zones_table_2026-06-08-2.tsv"


@pytest.mark.usefixtures("prepared")
async def test_a_picture_is_saved_by_itself(demo: Path, tmp_path: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter")
        path = await taken(pilot, tmp_path, "2")
        assert path.name == "tern-hollow-nursery_zone-z1_zone_cans_2026-06-08.svg"
        root = ET.fromstring(path.read_text(encoding="utf-8"))
        [first, *_] = page_pictures(pilot.app.screen)
        assert root.findtext("{http://www.w3.org/2000/svg}title") == first.title
        assert {one.tag.partition("}")[2] for one in root.iter()} >= {"rect", "text"}


@pytest.mark.usefixtures("prepared")
async def test_the_screen_is_saved_without_fonts_from_elsewhere(
    demo: Path, tmp_path: Path
) -> None:
    async with dashboard(demo) as pilot:
        path = await taken(pilot, tmp_path, "4")
        svg = path.read_text(encoding="utf-8")
        assert "Liner beds" in svg.replace("&#160;", " ")
        assert "url(" not in svg.replace("url(#", "")


@pytest.mark.slow
@pytest.mark.usefixtures("prepared")
async def test_escape_takes_nothing(demo: Path, tmp_path: Path) -> None:
    async with dashboard(demo) as pilot:
        assert isinstance(pilot.app, Dashboard)
        pilot.app.take_to = tmp_path
        await pressed(pilot, "ctrl+e")
        assert isinstance(pilot.app.screen, TakeAwayScreen)
        await pressed(pilot, "escape")
        assert not list(tmp_path.iterdir())


@pytest.mark.usefixtures("prepared")
async def test_a_folder_that_cannot_be_written_is_said(
    demo: Path, tmp_path: Path
) -> None:
    async with dashboard(demo) as pilot:
        assert isinstance(pilot.app, Dashboard)
        (tmp_path / "file").write_text("", encoding="utf-8")
        pilot.app.take_to = tmp_path / "file" / "folder"
        await pressed(pilot, "ctrl+e", "1")
        assert any("Not saved" in one.message for one in pilot.app._notifications)


@pytest.mark.usefixtures("prepared")
async def test_for_a_screen_reader_a_page_opens_in_words(
    demo: Path, screen_text: Text
) -> None:
    app = Dashboard(demo, in_words=True)
    async with app.run_test(size=(140, 40)) as pilot:
        await settled(pilot)
        await pressed(pilot, "enter")
        assert all(one.is_in_words for one in app.screen.query(Chart))
        assert "Rows of cans in mL" in screen_text(app)
        assert app.animation_level == "none"
        app.action_in_words()
        await pilot.pause()
        assert not any(one.is_in_words for one in app.screen.query(Chart))


@pytest.mark.slow
@pytest.mark.usefixtures("prepared")
async def test_a_console_of_plain_letters_gets_only_ascii(
    demo: Path, screen_text: Text, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LOWQUARTER_ASCII", "1")
    async with dashboard(demo, (140, 40)) as pilot:
        await pressed(pilot, "enter")
        assert screen_text(pilot.app).isascii()


@pytest.mark.usefixtures("prepared")
async def test_where_no_colour_is_wanted_every_colour_is_a_grey(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    seen = Seen()
    async with dashboard(demo) as pilot:
        assert isinstance(pilot.app, Dashboard)
        look(pilot.app, seen, "dark")
    for ink, ground, text in seen.words["dark"]:
        for colour in (ink, ground):
            assert len(set(Color.parse(colour).rgb)) == 1, text


@pytest.mark.usefixtures("prepared")
async def test_another_number_of_a_page_is_picked_from_a_list(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "e", "n", "down", "enter")
        screen = pilot.app.screen
        assert isinstance(screen, ExplainScreen)
        assert screen._trace.name == "need_mm"


# --- work that is left ----------------------------------------------------------
@pytest.mark.usefixtures("prepared")
async def test_work_that_is_left_changes_nothing(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    import threading

    release = threading.Event()
    compute = state.with_edits

    def slow(session: Session, edits: Any) -> Session:
        assert release.wait(30)
        return compute(session, edits)

    async with dashboard(demo) as pilot:
        app = pilot.app
        assert isinstance(app, Dashboard)
        before = app.session
        monkeypatch.setattr(state, "with_edits", slow)
        app.action_units()
        line = app.screen.query_one(WorkLine)
        while not line.is_shown:
            await pilot.pause(0.05)
        await pilot.press("escape")
        assert app.busy == ""
        release.set()
        await settled(pilot)
        assert app.session is before
        assert app.edits_asked == ()


@pytest.mark.usefixtures("prepared")
async def test_a_season_that_is_left_is_never_drawn(
    demo: Path, monkeypatch: pytest.MonkeyPatch, screen_text: Text
) -> None:
    import threading

    from scheduler.errors import SchedulerError
    from tui import season_state

    release = threading.Event()

    def slow(*_: Any) -> Any:
        assert release.wait(30)
        raise SchedulerError("too late", "nothing")

    async with dashboard(demo) as pilot:
        monkeypatch.setattr(season_state, "zone_year", slow)
        await pilot.press("y")
        await pilot.pause()
        while "running the season of Z1" not in screen_text(pilot.app):
            await pilot.pause(0.05)
        await pilot.press("escape")
        release.set()
        await settled(pilot)
        assert "too late" not in screen_text(pilot.app)
        assert "season not run" in screen_text(pilot.app)


@pytest.mark.slow
@pytest.mark.usefixtures("prepared")
async def test_another_size_loses_neither_zone_nor_words_nor_what_is_tried(
    demo: Path,
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "b", "x", "minus")
        before = page_text(pilot.app.screen)
        for size in ((200, 60), (80, 24)):
            await pilot.resize_terminal(*size)
            await settled(pilot)
            charts = pilot.app.screen.query(Chart)
            assert all(one.is_in_words for one in charts)
        assert page_text(pilot.app.screen) == before
        assert "what-if, not saved: Z2" in before


@pytest.mark.usefixtures("prepared")
async def test_a_click_on_the_top_line_opens_the_commands(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pilot.click("TopBar")
        await pilot.pause()
        assert type(pilot.app.screen).__name__ == "CommandPalette"


async def test_a_page_said_in_words_stays_so_after_a_face_over_it(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "b", "x", "question_mark", "escape")
        charts = pilot.app.screen.query(Chart)
        assert all(one.is_in_words for one in charts)
