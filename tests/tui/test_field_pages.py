"""The pages of the field test under a pilot: what is on them after which keys."""

import datetime as dt
import shutil
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from scheduler.units import shown
from tests.tui.pilots import (
    NARROW,
    SIZES,
    WIDE,
    Text,
    dashboard,
    pressed,
    session_of,
    settled,
)
from tui import field_state
from tui.screens.field import FieldScreen
from tui.screens.packages import PackagesScreen
from tui.screens.spacing import SpacingScreen
from tui.screens.zone import ZoneScreen
from tui.screens.zones import ZonesScreen
from tui.widgets.spacing_map import SpacingMap
from tui.widgets.zone_table import ZoneTable

pytestmark = pytest.mark.usefixtures("prepared")


def told(pilot: Pilot[int]) -> str:
    """Everything that was notified."""
    return " ".join(one.message for one in pilot.app._notifications)


PAGES = [("c", FieldScreen), ("w", PackagesScreen), ("s", SpacingScreen)]


# --- ways in and out ------------------------------------------------------------


@pytest.mark.parametrize(("key", "page"), PAGES)
async def test_a_page_opens_from_the_zones_and_escape_comes_back(
    demo: Path, key: str, page: type
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", key)
        assert isinstance(pilot.app.screen, page)
        await pressed(pilot, "escape")
        assert isinstance(pilot.app.screen, ZonesScreen)
        assert pilot.app.screen.query_one(ZoneTable).picked == "Z3"


@pytest.mark.parametrize(("key", "page"), PAGES)
async def test_a_page_opens_from_a_zone_and_escape_comes_back(
    demo: Path, key: str, page: type
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "enter", key)
        assert isinstance(pilot.app.screen, page)
        await pressed(pilot, "escape")
        assert isinstance(pilot.app.screen, ZoneScreen)


async def test_one_page_takes_the_place_of_another(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "c", "w", "s", "c", "escape")
        assert isinstance(pilot.app.screen, ZonesScreen)


async def test_the_palette_knows_the_pages(demo: Path) -> None:
    async with dashboard(demo) as pilot:
        commands = pilot.app.get_system_commands(pilot.app.screen)
        (command,) = [one for one in commands if one.title == "Spacing"]
        command.callback()
        await settled(pilot)
        assert isinstance(pilot.app.screen, SpacingScreen)


@pytest.mark.parametrize(("key", "page"), PAGES)
@pytest.mark.parametrize("size", SIZES)
async def test_no_page_runs_over_its_lines_in_either_system(
    demo: Path, key: str, page: type, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(demo, size) as pilot:
        await pressed(pilot, key, "u")
        assert isinstance(pilot.app.screen, page)
        lines = screen_text(pilot.app).splitlines()
        assert len(lines) == size[1]
        assert "metric" in lines[0]


# --- tests and wind -------------------------------------------------------------


@pytest.mark.parametrize(
    ("key", "words"),
    [("1", "mean of the driest quarter"), ("2", "36 cans"), ("3", "shaded: runs")],
)
async def test_a_narrow_field_page_shows_one_picture_a_key(
    demo: Path, key: str, words: str, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "c", key)
        assert words in screen_text(pilot.app)


async def test_a_wide_field_page_shows_all_three(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "c")
        text = screen_text(pilot.app)
        for words in ("driest quarter", "36 cans", "shaded: runs", "run1", "run2"):
            assert words in text


async def test_right_shows_the_next_run_and_left_comes_back(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "c")
        before = screen_text(pilot.app)
        await pressed(pilot, "right")
        assert "run2 of Tue 28 Apr 2026" in screen_text(pilot.app)
        await pressed(pilot, "left")
        assert screen_text(pilot.app) == before


async def test_the_wind_of_the_day_is_on_the_clock_of_the_site(
    demo: Path, screen_text: Text
) -> None:
    # the demo's first run began at 05:40 local, and its logger is on UTC
    async with dashboard(demo) as pilot:
        await pressed(pilot, "c", "3")
        text = screen_text(pilot.app)
        assert "05:00" in text
        assert "09:00" not in text


async def test_a_map_whose_layout_is_known_shows_heads_and_north(
    demo: Path, screen_text: Text
) -> None:
    # the demo's test of Z5 has heads at its corners and rows from west to east
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "down", "down", "c", "right", "2")
        text = screen_text(pilot.app)
        assert text.count("⊕") == 5, "four heads and the legend"
        assert "north ↑" in text


async def test_a_zone_without_a_test_says_how_to_add_one(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "down", "down", "c")
        assert "tests/DATE-Z3" in screen_text(pilot.app)


async def test_a_site_without_a_wind_log_says_how_to_add_one(
    own_demo: Path, screen_text: Text
) -> None:
    async with dashboard(without_wind_logs(own_demo)) as pilot:
        await pressed(pilot, "c", "3")
        assert "[[wind_log]]" in screen_text(pilot.app)


@pytest.mark.parametrize(("key", "page"), PAGES)
async def test_words_take_the_place_of_pictures_and_back(
    demo: Path, key: str, page: type, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, key)
        assert isinstance(pilot.app.screen, page)
        drawn = screen_text(pilot.app)
        await pressed(pilot, "x")
        assert "└" not in screen_text(pilot.app)
        assert screen_text(pilot.app) != drawn
        await pressed(pilot, "x")
        assert screen_text(pilot.app) == drawn


# --- packages against wind --------------------------------------------------------


def without_wind_logs(folder: Path) -> Path:
    toml = folder / "site.toml"
    text = toml.read_text(encoding="utf-8")
    begin, end = text.index("[[wind_log]]"), text.index("[[window]]")
    toml.write_text(text[:begin] + text[end:], encoding="utf-8")
    return folder


async def test_an_unknown_wind_is_asked_for_and_the_runs_are_drawn(
    own_demo: Path, screen_text: Text
) -> None:
    async with dashboard(without_wind_logs(own_demo), WIDE) as pilot:
        await pressed(pilot, "w")
        text = screen_text(pilot.app)
        assert "Not compared" in text
        assert "Press a" in text
        assert "●" in text


async def test_without_a_typed_wind_it_is_that_of_the_irrigation_hours(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "w")
        text = screen_text(pilot.app)
        assert "irrigation hours" in text
        found = field_state.packages(session_of(pilot), None)
        wind = shown(found.trial.wind_m_per_s, "m_per_s", "us")
        assert f"▼ {wind}" in text


async def test_a_typed_wind_compares_the_pairs(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "w", "a", *"3 mph", "enter")
        text = screen_text(pilot.app)
        assert "compared at 3.0 mph" in text
        assert "▼ 3.0 mph" in text
        assert "not proven" in text
        assert "more days" in text
        assert "same day" in text


async def test_a_wind_without_a_unit_is_refused(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "w", "a", "3", "enter")
        assert "no unit" in told(pilot)


async def test_a_wind_out_of_range_leaves_the_last_picture(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "w", "a", *"3 mph", "enter")
        await pressed(pilot, "a", *"300 mph", "enter")
        assert "out of range" in told(pilot)
        assert "▼ 3.0 mph" in screen_text(pilot.app)


async def test_another_pair_is_drawn_when_it_is_picked(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "w", "a", *"3 mph", "enter")
        await pressed(pilot, "down")
        said = pilot.app.screen.query_one("#said", Static).visual
        assert "yard-30 and shade-25 cannot be compared yet" in str(said)


@pytest.mark.parametrize(
    ("times", "words"),
    [(0, "against wind:"), (1, "range tie mph"), (2, "not proven at")],
)
async def test_a_narrow_packages_page_shows_one_thing_at_a_time(
    demo: Path, times: int, words: str, screen_text: Text
) -> None:
    keys = ["w", *(["a", *"3 mph", "enter"] if times == 1 else [])]
    async with dashboard(demo, NARROW) as pilot:
        await pressed(pilot, *keys, *["right"] * times)
        assert words in " ".join(screen_text(pilot.app).split())


async def test_a_site_without_tests_says_what_a_package_needs(
    own_demo: Path, screen_text: Text
) -> None:
    shutil.rmtree(own_demo / "tests")
    async with dashboard(own_demo) as pilot:
        await pressed(pilot, "w")
        assert "test.toml" in screen_text(pilot.app)


# --- spacing ----------------------------------------------------------------------


async def test_the_map_opens_at_the_spacing_as_built(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "s")
        text = screen_text(pilot.app)
        assert "30 × 30 ft" in text
        # as `lowquarter spacing` prints for the same cans
        assert "0.87" in text
        assert "0.47" in text
        assert "48.4" in text


async def test_arrows_move_both_spacings_and_the_numbers_follow(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "s", "right", "right", "up")
        assert "32 × 31 ft" in screen_text(pilot.app)
        await pressed(pilot, "left", "down", "o")
        assert "32 × 31 ft" not in screen_text(pilot.app)


async def test_the_map_stops_at_its_edges(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "s", *["left"] * 60, *["down"] * 60)
        assert "14 × 14 ft" in screen_text(pilot.app)


async def test_rows_can_be_staggered_at_the_same_place(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "s", "right", "l")
        text = screen_text(pilot.app)
        assert "staggered rows" in text
        assert "31 × 30 ft" in text


async def test_the_target_moves_the_contour(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "s", "plus")
        assert "◦ 0.85" in screen_text(pilot.app)
        await pressed(pilot, "minus", "minus")
        assert "◦ 0.75" in screen_text(pilot.app)


async def test_units_change_the_steps_of_the_map(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "s", "u")
        assert "per ha" in screen_text(pilot.app)
        assert "between rows, m" in screen_text(pilot.app)


async def test_nothing_of_the_what_if_is_kept(demo: Path, screen_text: Text) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "s", "right", "escape", "s")
        assert "30 × 30 ft" in screen_text(pilot.app)
        assert "what-if " not in screen_text(pilot.app)


async def test_a_site_without_a_profile_says_how_to_add_one(
    own_demo: Path, screen_text: Text
) -> None:
    toml = own_demo / "packages.toml"
    text = toml.read_text(encoding="utf-8")
    begin = text.index("[package.profile]")
    end = text.index("[[package]]", begin)
    toml.write_text(text[:begin] + text[end:], encoding="utf-8")
    async with dashboard(own_demo) as pilot:
        await pressed(pilot, "s")
        assert "[package.profile]" in screen_text(pilot.app)


async def test_an_overtaken_map_does_not_land(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "s")
        page = pilot.app.screen
        assert isinstance(page, SpacingScreen)
        late = page.Answered("late", page._number - 1)
        seen: list[Any] = []
        monkeypatch.setattr(page, "answered", seen.append)
        page.post_message(late)
        await pilot.pause()
        assert seen == []


# --- what is kept -----------------------------------------------------------------


def test_a_map_is_worked_out_once_for_one_reading_of_the_folder(opened: Any) -> None:
    first = field_state.spacing_map(opened, "yard-30", "rectangular")
    assert field_state.spacing_map(opened, "yard-30", "rectangular") is first


def test_a_run_on_another_day_has_no_window_on_this_one(opened: Any) -> None:
    (test, *_) = field_state.zone_tests(opened, "Z1")
    day = field_state.day_of_run(opened, test, test.runs[0])
    assert [name for name, _, _ in day.windows] == ["run1", "run2"]
    # test.toml: run1 at 05:40 for 30 minutes
    assert day.windows[0][1:] == (5 * 60 + 40, 30.0)
    assert day.wind is not None
    assert day.wind.date == dt.date(2026, 4, 28)


async def test_the_map_follows_the_chosen_place(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "s", "right")
        chosen = pilot.app.screen.query_one(SpacingMap).chosen
        assert chosen is not None
        assert chosen.own is not None
        assert chosen.at == (chosen.own[0] + 1, chosen.own[1])
