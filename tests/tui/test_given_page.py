"""The page of what is given, by keys and with the mouse: typed, undone, saved, kept."""

import os
import signal
import subprocess
import sys
import threading
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import pytest
from textual.events import AppFocus
from textual.pilot import Pilot
from textual.screen import ModalScreen

from scheduler.files.edit_journal import NAME
from scheduler.files.folder_edits import read_texts
from tests.small_site import ZONES, small_site
from tests.tui.pilots import NARROW, WIDE, Text, dashboard, pressed, session_of, settled
from tui import session as session_state
from tui.app import Dashboard
from tui.keeper import Keeper
from tui.screens.difference import DifferenceScreen
from tui.screens.given import GivenScreen

AREA = ("right", "down", "down", "down", "enter")  # from the zone to its area


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return small_site(tmp_path / "yard")


@asynccontextmanager
async def given_page(
    site: Path, size: tuple[int, int] = (100, 24)
) -> AsyncIterator[Pilot[int]]:
    async with dashboard(site, size) as pilot:
        await pressed(pilot, "g")
        yield pilot


async def type_area(pilot: Pilot[int], text: str) -> None:
    await pressed(pilot, *AREA, *text, "enter")


def zones(site: Path) -> str:
    return (site / "zones.toml").read_text("utf-8")


def area_m2(pilot: Pilot[int]) -> float:
    site = session_of(pilot).site
    assert site is not None
    return round(site.zones[0].area_m2, 1)


# --- looking -----------------------------------------------------------------


@pytest.mark.parametrize("size", [NARROW, WIDE])
async def test_the_zone_at_hand_is_shown_as_its_file_has_it(
    site: Path, size: tuple[int, int], screen_text: Text
) -> None:
    async with dashboard(site, size) as pilot:
        await pressed(pilot, "down", "g")
        seen = screen_text(pilot.app)
        assert "zones.toml:14" in seen
        assert "9000 ft²" in seen
        assert "0.9  default" in seen


async def test_a_folder_that_is_no_site_can_be_looked_at_and_mended(
    site: Path, screen_text: Text
) -> None:
    (site / "zones.toml").write_text("area = .5\n", "utf-8")
    (site / "site.toml").write_text(
        (site / "site.toml").read_text("utf-8").replace("36.1", "361"), "utf-8"
    )
    async with given_page(site) as pilot:
        assert "not readable: zones.toml" in screen_text(pilot.app)
        await pilot.resize_terminal(80, 24)
        await pressed(pilot)
        assert "not readable: zones.toml" in screen_text(pilot.app)
        await pressed(pilot, "b")  # no zone, no page of one
        assert isinstance(pilot.app.screen, GivenScreen)
        screen = pilot.app.screen
        screen.right.focus()
        screen.right.pick("place/latitude_deg")
        await pressed(pilot, "enter", *"36.1", "enter")
        assert session_of(pilot).site is not None


@pytest.mark.parametrize("size", [NARROW, WIDE])
async def test_a_broken_line_is_mended_in_its_place_and_saved(
    site: Path, size: tuple[int, int], screen_text: Text
) -> None:
    broken = ZONES.replace('name = "Old beds"', 'name = "Old beds')
    (site / "zones.toml").write_text(broken, "utf-8")
    async with given_page(site, size) as pilot:
        screen = pilot.app.screen
        assert isinstance(screen, GivenScreen)
        screen.left.pick("line/zones.toml/16")
        await pressed(pilot, "right")
        seen = " ".join(screen_text(pilot.app).split())
        assert "broken lines" in seen
        assert 'put " behind the text' in seen
        await pressed(pilot, "enter", "enter")  # as it is, it is refused
        assert screen.right.is_typing
        await pressed(pilot, '"', "enter")
        assert "broken lines" not in screen_text(pilot.app)
        made = session_of(pilot).site
        assert made is not None
        assert [one.id for one in made.zones] == ["Z1", "Z2"]
        await pressed(pilot, "ctrl+z")
        assert "not readable: zones.toml" in screen_text(pilot.app)
        await pressed(pilot, "ctrl+y", "ctrl+s")
        assert "zones.toml line 16" in " ".join(screen_text(pilot.app).split())
        await pressed(pilot, "s")
        assert zones(site) == ZONES


# --- typing ------------------------------------------------------------------


async def test_a_wrong_value_stays_open_and_a_right_one_is_followed_everywhere(
    site: Path, screen_text: Text
) -> None:
    async with given_page(site) as pilot:
        await type_area(pilot, "-4")
        seen = screen_text(pilot.app)
        assert "is -4; it must be above 0; write area_ft2 above" in seen
        assert isinstance(pilot.app.screen, GivenScreen)
        assert pilot.app.screen.right.is_typing
        assert (zones(site), (site / NAME).exists()) == (ZONES, False)
        await pressed(pilot, "backspace", "backspace", *"9 m2", "enter")
        assert "9 m²   was 2400 ft²" in screen_text(pilot.app)
        assert area_m2(pilot) == 9.0
        await pressed(pilot, "escape", "escape")
        # in front of the name, which is cut where it is long
        assert screen_text(pilot.app).strip().startswith("● not saved")
        assert (zones(site), (site / NAME).exists()) == (ZONES, True)


async def test_edits_and_what_ifs_are_undone_and_redone_in_one_order(
    site: Path,
) -> None:
    async with given_page(site) as pilot:
        await type_area(pilot, "9 m2")
        await pressed(pilot, "u")
        steps = []
        for key in ("ctrl+z", "ctrl+z", "ctrl+y", "ctrl+y"):
            await pressed(pilot, key)
            steps.append((area_m2(pilot), session_of(pilot).units))
        old = 223.0
        assert steps == [(9.0, "us"), (old, "us"), (9.0, "us"), (9.0, "metric")]


async def test_a_save_writes_the_line_and_can_be_undone(
    site: Path, screen_text: Text
) -> None:
    async with given_page(site) as pilot:
        await type_area(pilot, "2500")
        await pressed(pilot, "ctrl+s")
        assert "zones.toml  Z1 area_ft2  2400 → 2500" in screen_text(pilot.app)
        assert zones(site) == ZONES
        await pressed(pilot, "s")
        assert zones(site) == ZONES.replace("2400 ", "2500 ")
        assert not (site / NAME).exists()
        await pressed(pilot, "ctrl+z", "ctrl+s", "s")
        assert zones(site) == ZONES


@pytest.mark.slow  # what stops a save is tested without a screen
async def test_what_does_not_go_together_is_not_saved(
    site: Path, screen_text: Text
) -> None:
    async with given_page(site) as pilot:
        await pressed(pilot, "right", *["down"] * 7, "enter", *"when due", "enter")
        assert "fixed_minutes needs watered" in screen_text(pilot.app)
        await pressed(pilot, "ctrl+s")
        assert isinstance(pilot.app.screen, GivenScreen)
        assert zones(site) == ZONES


# --- things ------------------------------------------------------------------


async def test_things_come_and_go_by_keys(site: Path) -> None:
    async with given_page(site) as pilot:
        await pressed(pilot, "o")  # the zone once more
        await pressed(pilot, "left", "down", "a")  # the packages, of which none is
        await pressed(pilot, "left", "up", "up", "r")  # the second zone goes
        given = session_of(pilot).given
        assert given is not None
        text = given.now["zones.toml"]
        assert [line for line in text.splitlines() if line.startswith("id")] == [
            'id = "Z1"', 'id = "Z3"'
        ]  # fmt: skip
        assert given.changed == ("zones.toml", "packages.toml")


async def test_what_the_layout_of_a_file_does_not_allow_is_said_with_the_remedy(
    site: Path,
) -> None:
    written = 'option = [{id = "O1", name = "one", package = "rotor"}]\n'
    (site / "options.toml").write_text(written, "utf-8")
    async with given_page(site) as pilot:
        screen = pilot.app.screen
        assert isinstance(screen, GivenScreen)
        screen.left.focus()
        screen.left.pick("option/0")
        await pressed(pilot, "o", "a")
        said = [one.message for one in pilot.app._notifications]
        assert len(said) == 2
        assert all("change this place in the file by hand" in one for one in said)
        given = session_of(pilot).given
        assert given is not None
        assert given.now["options.toml"] == written


async def test_a_click_picks_a_thing_and_a_field(site: Path) -> None:
    async with given_page(site) as pilot:
        screen = pilot.app.screen
        assert isinstance(screen, GivenScreen)
        await pilot.click("#things", offset=(6, 1))  # water and pump
        await settled(pilot)
        await pilot.click("#given", offset=(35, 2))  # its flow
        await settled(pilot)
        assert screen.right.picked == "/flow_l_per_min"
        assert screen.right.is_typing


# --- somebody else -----------------------------------------------------------


async def test_a_file_changed_meanwhile_is_a_difference_and_mine_goes_on_top(
    site: Path, screen_text: Text
) -> None:
    async with given_page(site) as pilot:
        await type_area(pilot, "2500")
        theirs = ZONES.replace("Old beds", "New beds")
        (site / "zones.toml").write_text(theirs, "utf-8")
        await pressed(pilot, "ctrl+s")
        assert isinstance(pilot.app.screen, DifferenceScreen)
        seen = screen_text(pilot.app)
        assert '+name = "New beds"' in seen
        assert "+area_ft2 = 2500" in seen
        assert zones(site) == theirs
        await pressed(pilot, "m")
        await pressed(pilot, "ctrl+s", "s")
        assert zones(site) == theirs.replace("2400 ", "2500 ")


@pytest.mark.slow  # the same page as above, another way to it
async def test_on_return_of_focus_theirs_can_be_taken(site: Path) -> None:
    async with given_page(site) as pilot:
        await type_area(pilot, "2500")
        theirs = ZONES.replace("2400 ", "3000 ")
        (site / "zones.toml").write_text(theirs, "utf-8")
        pilot.app.post_message(AppFocus())
        await settled(pilot)
        assert isinstance(pilot.app.screen, DifferenceScreen)
        await pressed(pilot, "t")
        assert area_m2(pilot) == 278.7
        assert not (site / NAME).exists()


# --- kept --------------------------------------------------------------------

TYPED = """
import asyncio, sys
from pathlib import Path
from typing import Any
from tests.tui.test_given_page import given_page, type_area

async def main():
    async with given_page(Path(sys.argv[1])) as pilot:
        await type_area(pilot, "2500")
        print("typed", flush=True)
        await asyncio.sleep(60)

asyncio.run(main())
"""


@pytest.mark.slow  # a second dashboard; the journal alone is killed in each run
@pytest.mark.skipif(sys.platform == "win32", reason="no SIGKILL")
async def test_edits_of_a_killed_dashboard_are_offered_back(
    site: Path, screen_text: Text
) -> None:
    command = [sys.executable, "-c", TYPED, str(site)]
    top = Path(__file__).parents[2]
    with subprocess.Popen(command, stdout=subprocess.PIPE, cwd=top) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == b"typed\n"
        os.kill(process.pid, signal.SIGKILL)
    assert zones(site) == ZONES
    async with dashboard(site, WIDE) as pilot:
        assert "zones.toml  Z1 area_ft2  2400 → 2500" in screen_text(pilot.app)
        await pressed(pilot, "r")
        assert area_m2(pilot) == 232.3
        await pressed(pilot, "ctrl+s", "s")
        assert zones(site) == ZONES.replace("2400 ", "2500 ")


async def test_edits_of_another_dashboard_that_is_open_are_named(site: Path) -> None:
    edits = read_texts(site)
    other = Keeper(site)
    other.keep(edits.with_text("zones.toml", ZONES.replace("2400 ", "2500 ")))
    async with dashboard(site, NARROW) as pilot:
        said = [one.message for one in pilot.app._notifications]
        assert any(one.startswith("Another dashboard has unsaved") for one in said)
        assert not isinstance(pilot.app.screen, ModalScreen)


@pytest.mark.slow  # the journal behind it is tested without a screen
async def test_quitting_asks_and_keeps_for_next_time(site: Path) -> None:
    async with given_page(site) as pilot:
        await type_area(pilot, "2500")
        await pressed(pilot, "escape", "q", "k")
        assert pilot.app.return_code == 0
    assert (site / NAME).exists()


# --- what is asked for meanwhile ---------------------------------------------


class Gate:
    """Holds a calculation back until it is opened."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch, name: str) -> None:
        self.opened, work = threading.Event(), getattr(session_state, name)

        def slow(*given: Any) -> Any:
            assert self.opened.wait(30)
            return work(*given)

        monkeypatch.setattr(session_state, name, slow)


async def test_an_edit_whose_planning_is_left_can_be_redone(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with given_page(site) as pilot:
        app = pilot.app
        assert isinstance(app, Dashboard)
        gate = Gate(monkeypatch, "with_edits")
        await pilot.press(*AREA, *"9 m2", "enter")
        await pilot.pause()
        app.leave_busy()
        assert (app.is_unsaved, (site / NAME).exists()) == (False, False)
        gate.opened.set()
        await settled(pilot)
        assert area_m2(pilot) == 223.0
        await pressed(pilot, "ctrl+y")
        assert (area_m2(pilot), app.is_unsaved) == (9.0, True)


async def test_a_step_made_while_the_folder_is_read_does_not_hide_what_is_read(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with given_page(site) as pilot:
        gate = Gate(monkeypatch, "open_session")
        (site / "zones.toml").write_text(ZONES.replace("2400 ", "9999 "), "utf-8")
        await pilot.press("ctrl+r")
        await pilot.press("u")
        gate.opened.set()
        await settled(pilot)
        assert session_of(pilot).units == "metric"
        assert area_m2(pilot) == 928.9  # 9999 ft2 of 0.09290304 m2


async def test_edits_of_before_outlive_a_planning_that_is_left(site: Path) -> None:
    killed = Keeper(site)
    killed.keep(read_texts(site).with_text("zones.toml", ZONES.replace("2400", "2500")))
    killed.let_go()
    async with dashboard(site, NARROW) as pilot:
        assert isinstance(pilot.app, Dashboard)
        await pressed(pilot, "escape")  # later
        pilot.app.leave_busy()
        await settled(pilot)
    assert (site / NAME).exists()


async def test_the_page_looks_at_edits_that_were_dropped_when_it_comes_back(
    site: Path, screen_text: Text
) -> None:
    async with given_page(site) as pilot:
        assert isinstance(pilot.app, Dashboard)
        await type_area(pilot, "2500")
        assert "1 not saved" in screen_text(pilot.app)
        await pressed(pilot, "escape")
        pilot.app._edits = ()  # as after a planning that was left
        pilot.app.steps += 1
        await pressed(pilot, "g")
        assert "1 not saved" not in screen_text(pilot.app)
