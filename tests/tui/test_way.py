"""The way through the pages: the same zone, and back to the same place."""

import itertools
from pathlib import Path

import pytest
from textual.pilot import Pilot

from tests.tui.pilots import NARROW, WIDE, Text, dashboard, pressed, settled
from tui.app import Dashboard
from tui.pages import ENTRIES, page_of
from tui.screens.zones import ZonesScreen
from tui.widgets.path_line import PathLine
from tui.widgets.zone_table import ZoneTable

pytestmark = pytest.mark.usefixtures("prepared")
ALONG = [one.page for one in ENTRIES]
LARGE = (200, 60)


def page(pilot: Pilot[int]) -> str:
    return page_of(type(pilot.app.screen))


def zone(pilot: Pilot[int]) -> str:
    return str(getattr(pilot.app.screen, "zone_here", ""))


def picked(pilot: Pilot[int]) -> str:
    assert isinstance(pilot.app.screen, ZonesScreen)
    return pilot.app.screen.query_one(ZoneTable).picked


async def test_the_path_leads_through_every_page_with_the_same_zone_and_back(
    demo: Path,
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down")
        seen = [(page(pilot), zone(pilot))]
        for _ in ALONG[1:]:
            await pressed(pilot, "right_square_bracket")
            seen.append((page(pilot), zone(pilot)))
        assert seen[:-1] == [(one, "Z3") for one in ALONG[:-1]]
        assert seen[-1][0] == "findings"
        for one in reversed(ALONG[:-1]):
            await pressed(pilot, "left_square_bracket")
            assert (page(pilot), zone(pilot)) == (one, "Z3")
        assert picked(pilot) == "Z3"


@pytest.mark.slow
async def test_every_page_opens_from_every_other_with_the_same_zone(
    demo: Path,
) -> None:
    async with dashboard(demo) as pilot:
        app = pilot.app
        assert isinstance(app, Dashboard)
        await pressed(pilot, "down")
        pairs = itertools.combinations(ALONG[:-1], 2)
        # there and back again between any two
        for there in itertools.chain.from_iterable((a, b, a) for a, b in pairs):
            app.open_page(there, zone(pilot))
            await pilot.pause()
            assert (page(pilot), zone(pilot)) == (there, "Z2")
        await pressed(pilot, "f2")
        assert picked(pilot) == "Z2"


async def test_back_leads_to_where_the_pages_were_opened(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "enter", "b", "y", "l", "escape")
        assert (page(pilot), zone(pilot)) == ("zone", "Z2")
        await pressed(pilot, "escape")
        assert picked(pilot) == "Z2"


async def test_the_zone_stepped_to_on_a_page_is_picked_in_the_table(
    demo: Path,
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "w", "n", "n", "t", "right", "b", "p", "n", "escape")
        assert picked(pilot) == "Z4"


async def test_findings_open_pages_and_escape_from_them_leads_back(
    demo: Path,
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "enter", "f", "escape")
        assert page(pilot) == "zone"
        await pressed(pilot, "f", "b")
        assert (page(pilot), zone(pilot)) == ("need", "Z2")
        await pressed(pilot, "escape", "f", "enter")
        assert (page(pilot), zone(pilot)) == ("zone", "Z9")  # of the finding


async def test_a_click_on_the_path_goes_there(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        line = pilot.app.screen.query_one(PathLine)
        await pilot.click(PathLine, offset=(line.pages_at["need"] + 2, 0))
        await settled(pilot)
        assert page(pilot) == "need"
        await pilot.click(PathLine, offset=(line.pages_at["zones"] + 2, 0))
        await settled(pilot)
        assert page(pilot) == "zones"


async def test_the_path_marks_the_page_and_names_the_zone(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, LARGE) as pilot:
        await pressed(pilot, "down", "w")
        line = screen_text(pilot.app).splitlines()[1]
        assert "F2 Zones › ↵ Zone › t Tests" in line
        assert line.rstrip().endswith("zone Z2")


async def test_a_low_terminal_keeps_the_line_for_the_page(demo: Path) -> None:
    async with dashboard(demo, NARROW) as pilot:
        assert not pilot.app.screen.query_one(PathLine).display


async def test_the_palette_lists_every_page_and_the_keys_of_the_one_in_front(
    demo: Path,
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "h")
        screen = pilot.app.screen
        found = {one.title: one for one in pilot.app.get_system_commands(screen)}
        for one in ENTRIES:
            assert one.name.casefold() in {title.casefold() for title in found}
        assert any(one.startswith("Issue the week") for one in found)
        found["Season of a zone"].callback()
        await settled(pilot)
        assert page(pilot) == "season"
        before = "The page before or the next one, in the order water flows"
        found[before].callback()
        await settled(pilot)
        assert page(pilot) == "week"


@pytest.mark.slow
@pytest.mark.parametrize("place", ALONG)
async def test_growing_and_shrinking_loses_nothing(
    demo: Path, place: str, screen_text: Text
) -> None:
    async with dashboard(demo, NARROW) as pilot:
        app = pilot.app
        assert isinstance(app, Dashboard)
        app.open_page(place, "Z4")
        await settled(pilot)
        before = screen_text(app)
        await pilot.resize_terminal(*LARGE)
        await settled(pilot)
        assert page(pilot) == place
        await pilot.resize_terminal(*NARROW)
        await settled(pilot)
        assert screen_text(app) == before


async def test_a_page_asked_for_too_early_says_that_the_site_is_being_read(
    demo: Path,
) -> None:
    async with dashboard(demo) as pilot:
        app = pilot.app
        assert isinstance(app, Dashboard)
        app.session = None
        await pressed(pilot, "b")
        (said,) = [one.message for one in app._notifications]
        assert "still being read" in said
        assert page(pilot) == "zones"


# --- pages that are made before they are asked for -----------------------------
async def prepared_pages(pilot: Pilot[int]) -> Dashboard:
    """Have every page made, and wait for it."""
    app = pilot.app
    assert isinstance(app, Dashboard)
    app.prepare_pages()
    while app.unmade:
        await pilot.pause(0.05)
    await pilot.pause()
    return app


@pytest.mark.parametrize("size", [NARROW, pytest.param(WIDE, marks=pytest.mark.slow)])
async def test_a_page_made_ahead_is_as_one_made_when_asked_for(
    demo: Path, size: tuple[int, int], screen_text: Text
) -> None:
    keys = "tcwsbhylmg"
    async with dashboard(demo, size) as pilot:
        anew = []
        for key in keys:
            await pressed(pilot, "down", key)
            await settled(pilot)
            anew.append(screen_text(pilot.app))
            await pressed(pilot, "escape")
    async with dashboard(demo, size) as pilot:
        await prepared_pages(pilot)
        for key, before in zip(keys, anew, strict=True):
            await pressed(pilot, "down", key)
            await settled(pilot)
            assert screen_text(pilot.app) == before, key
            await pressed(pilot, "escape")


async def test_making_pages_ahead_leaves_the_table_on_top(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        before = screen_text(pilot.app)
        app = await prepared_pages(pilot)
        assert isinstance(app.screen, ZonesScreen)
        assert screen_text(app) == before
