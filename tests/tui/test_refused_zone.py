"""Pictures of one zone do not stay under the name of another one."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import Static

from scheduler.errors import SchedulerError
from tests.tui.pilots import WIDE, Text, dashboard, pressed, session_of, settled
from tui import field_state, proof_state, season_state
from tui.app import Dashboard
from tui.screens.doors import LEFT, Page
from tui.screens.proof import ProofScreen
from tui.screens.season import SeasonScreen
from tui.screens.spacing import SpacingScreen
from tui.widgets.canvas import Chart
from tui.widgets.season_lines import SeasonLines
from tui.widgets.spacing_map import SpacingMap
from tui.widgets.work_line import WorkLine
from tui.widgets.zone_table import ZoneTable

pytestmark = pytest.mark.usefixtures("prepared")
WHY = "the log is torn; mend it"


def refused_once(
    patch: pytest.MonkeyPatch, module: Any, name: str
) -> Callable[[], None]:
    """Refuse every question of a kind from when it is called."""
    work = getattr(module, name)
    torn: list[bool] = []

    def asked(*given: Any) -> Any:
        if torn:
            raise SchedulerError("the log is torn", "mend it")
        return work(*given)

    patch.setattr(module, name, asked)
    return lambda: torn.append(True)


def told(pilot: Pilot[int], what: str) -> str:
    return str(pilot.app.screen.query_one(what, Static).content)


def said(pilot: Pilot[int]) -> set[str]:
    """All that the pictures of the page say, in words."""
    return {line for chart in pilot.app.screen.query(Chart) for line in chart.words()}


async def test_a_refused_proof_leaves_no_picture_of_the_zone_before(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    tear = refused_once(monkeypatch, proof_state, "zone_proof")
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "down", "down", "down", "l")
        tear()
        await pressed(pilot, "right")
        assert told(pilot, "#head").startswith(f"Z5  proof: {WHY}")
        assert said(pilot) == {WHY}
        assert told(pilot, "#said") == WHY
        await pressed(pilot, "e")  # nothing to explain is left either
        assert isinstance(pilot.app.screen, ProofScreen)


async def test_a_refused_proof_of_the_same_zone_keeps_the_last_good_one(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    tear = refused_once(monkeypatch, proof_state, "zone_proof")
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "down", "down", "down", "l")
        before = said(pilot)
        tear()
        screen = pilot.app.screen
        assert isinstance(screen, ProofScreen)
        screen.show(session_of(pilot))
        await settled(pilot)
        assert said(pilot) == before
        assert "What is shown is of before" in told(pilot, "#head")


async def test_a_page_carried_to_another_zone_shows_nothing_of_the_one_before(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    tear = refused_once(monkeypatch, proof_state, "zone_proof")
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "down", "down", "down", "l", "escape")
        tear()
        await pressed(pilot, "up", "l")
        assert told(pilot, "#head").startswith("Z3  proof")
        assert said(pilot) == {WHY}


async def test_refused_packages_leave_no_picture_of_the_zone_before(
    demo: Path, screen_text: Text, monkeypatch: pytest.MonkeyPatch
) -> None:
    tear = refused_once(monkeypatch, field_state, "packages")
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "w")
        tear()
        await pressed(pilot, "n")
        assert said(pilot) == {WHY}
        assert told(pilot, "#said") == WHY
        assert not pilot.app.screen.query_one(ZoneTable).row_count
        assert "yard-30" not in screen_text(pilot.app).replace("\u00a0", " ")


async def test_a_wind_that_was_refused_is_not_asked_for_on_the_next_zone(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "w", "a", *"3 mph", "enter")
        await pressed(pilot, "a", *"300 mph", "enter")
        await pressed(pilot, "n")
        said = [one.message for one in pilot.app._notifications]
        assert sum("out of range" in one for one in said) == 1
        assert "▼ 3.0 mph" in screen_text(pilot.app)


async def test_a_map_that_is_refused_leaves_none_of_the_package_before(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    tear = refused_once(monkeypatch, field_state, "spacing_map")
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "s")
        shown = pilot.app.screen.query_one(SpacingMap)
        site = session_of(pilot).site
        assert site is not None
        two = site.packages[:2]
        monkeypatch.setattr(field_state, "profiled_packages", lambda _: two)
        tear()
        await pressed(pilot, "l")  # the same sprinkler in other rows
        assert shown.field is not None
        await pressed(pilot, "n")
        assert said(pilot) == {WHY}
        assert told(pilot, "#head").startswith("shade-25")
        assert told(pilot, "#numbers") == ""


async def test_a_map_goes_with_the_last_package_that_has_a_profile(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "s")
        assert isinstance(pilot.app, Dashboard)
        monkeypatch.setattr(field_state, "profiled_packages", lambda _: ())
        pilot.app.session = replace(session_of(pilot))
        await pressed(pilot, "l", "right", "n")  # keys that need a map
        assert told(pilot, "#head") == "Spacing"
        assert {one.split(".")[0] for one in said(pilot)} == {
            "No package has a profile yet"
        }


async def test_leaving_the_season_of_another_zone_leaves_no_picture_of_the_first(
    demo: Path,
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "y")
        screen = pilot.app.screen
        assert isinstance(screen, SeasonScreen)
        screen.left_off()  # of the same zone: it stays
        assert screen.query_one(SeasonLines).year is not None
        screen._zone_id = "Z2"
        screen.left_off()
        assert said(pilot) >= {LEFT}
        assert told(pilot, "#numbers") == ""
        assert screen.query_one(SeasonLines).year is None


async def test_nothing_is_said_to_be_of_before_where_nothing_is_shown_yet(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    told_of: list[bool] = []
    begin = WorkLine.begin

    def begun(line: WorkLine, *given: Any, is_of_before: bool = True) -> None:
        told_of.append(is_of_before)
        begin(line, *given, is_of_before=is_of_before)

    async with dashboard(demo, WIDE) as pilot:
        monkeypatch.setattr(WorkLine, "begin", begun)
        await pressed(pilot, "y")
        await pressed(pilot, "right")
        screen = pilot.app.screen
        assert isinstance(screen, SeasonScreen)
        assert told_of == [False, True]
        screen.take_off(WHY)
        screen.left_off()
        await pilot.pause()
        assert LEFT in {one.message for one in pilot.app._notifications}


async def test_a_season_that_is_still_of_the_zone_before_says_so_and_is_not_taken(
    demo: Path,
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "y")
        screen = pilot.app.screen
        assert isinstance(screen, SeasonScreen)
        assert screen.whole_table is not None
        screen.action_zone(1)
        assert told(pilot, "#head") == "Z2  running the season …   below: Z1"
        assert screen.whole_table is None
        await settled(pilot)
        assert screen.whole_table is not None
        assert "below" not in told(pilot, "#head")


async def test_a_picture_that_is_awaited_is_not_said_not_to_be(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        monkeypatch.setattr(Page, "ask", lambda *_: None)  # no answer comes
        for page in (SeasonScreen("Z4"), ProofScreen("Z4"), SpacingScreen("Z4")):
            await pilot.app.push_screen(page)
            assert said(pilot) == {""}


async def test_a_season_that_breaks_leaves_no_picture_of_the_zone_before(
    demo: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "y")
        monkeypatch.setattr(season_state, "zone_year", lambda *_: 1 // 0)
        await pressed(pilot, "right")
        year = pilot.app.screen.query_one(SeasonLines)
        assert "Not worked out: ZeroDivisionError" in year.words()[0]


@pytest.mark.parametrize("keys", [("b",), ("enter", "v")])
async def test_without_a_week_no_picture_of_an_earlier_one_stays(
    demo: Path, keys: tuple[str, ...], screen_text: Text
) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, *keys)
        assert isinstance(pilot.app, Dashboard)
        pilot.app.session = replace(session_of(pilot), plan=None)
        await settled(pilot)
        drawn = [one for one in pilot.app.screen.query(Chart) if one.id != "cans"]
        why = "No week is planned; see the findings."
        assert sum(one.words() == [why] for one in drawn) >= 3
        assert "Z1" not in told(pilot, "#name")


async def test_from_a_zone_that_is_gone_a_step_leads_to_the_first(demo: Path) -> None:
    async with dashboard(demo, WIDE) as pilot:
        await pressed(pilot, "down", "enter")
        session = session_of(pilot)
        assert session.plan is not None
        others = tuple(one for one in session.plan.zones if one.zone.id != "Z2")
        assert isinstance(pilot.app, Dashboard)
        pilot.app.session = replace(session, plan=replace(session.plan, zones=others))
        await settled(pilot)
        assert told(pilot, "#name") == "There is no zone Z2."
        await pressed(pilot, "n")
        assert told(pilot, "#name").startswith("Z1")
