"""The weekly walk under a pilot: three keys in a quiet week."""

import shutil
from pathlib import Path
from types import SimpleNamespace

import pytest

from scheduler.files.demo import demo_source
from tests.tui.pilots import Text, dashboard, pressed, session_of
from tui.app import Dashboard
from tui.screens.walk import WalkScreen, columns
from tui.screens.zone import ZoneScreen
from tui.session import issue_week, open_session
from tui.week_walk import Walk
from tui.widgets.zone_table import ZoneTable


@pytest.fixture(scope="module")
def quiet(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site whose last week was issued; it is a week later."""
    folder = tmp_path_factory.mktemp("walk") / "alder_flat"
    shutil.copytree(demo_source() / "alder_flat", folder)
    assert issue_week(open_session(folder)).startswith("Issued")
    site = folder / "site.toml"
    text = site.read_text("utf-8")
    assert "2015-06-08" in text
    site.write_text(text.replace("2015-06-08", "2015-06-15", 1), "utf-8")
    return folder


@pytest.mark.slow
async def test_a_quiet_week_is_issued_with_three_keys(quiet: Path) -> None:
    async with dashboard(quiet) as pilot:
        await pressed(pilot, "space", "a", "i")
    assert len(list((quiet / "weeks").glob("*.json"))) == 2


@pytest.mark.usefixtures("prepared")
async def test_what_was_accepted_and_the_place_are_there_again(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo) as pilot:
        await pressed(pilot, "space", "a", "down", "down", "space")
        before = screen_text(pilot.app).splitlines()[:-2]
        assert "✔ Z4" in screen_text(pilot.app)
        assert "✖ Z9" in screen_text(pilot.app)
        await pressed(pilot, "enter")
        assert isinstance(pilot.app.screen, ZoneScreen)
        await pressed(pilot, "escape")
        assert isinstance(pilot.app.screen, WalkScreen)
        await pressed(pilot, "escape", "space")
        assert screen_text(pilot.app).splitlines()[:-2] == before


@pytest.mark.slow
@pytest.mark.usefixtures("prepared")
async def test_a_stop_keeps_the_week_until_it_is_looked_at_and_a_reason_given(
    own_demo: Path, screen_text: Text
) -> None:
    weeks = own_demo / "weeks"
    async with dashboard(own_demo) as pilot:
        await pressed(pilot, "space", "a", "i")
        assert not weeks.exists()
        table = pilot.app.screen.query_one(ZoneTable)
        for zone in ("Z9", "Z7"):
            table.pick(zone)
            await pressed(pilot, "space")
        app = pilot.app
        assert isinstance(app, Dashboard)
        await pressed(pilot, "i")
        accepted, app.walk = app.walk, Walk()  # as if another week came meanwhile
        await pressed(pilot, *"dry", "enter")
        assert not weeks.exists()
        app.walk = accepted
        await pressed(pilot, "i", *"dry", "enter")
        assert [one.name for one in weeks.glob("*")] == ["2026-W24.json"]
        assert '"forced": "dry"' in (weeks / "2026-W24.json").read_text("utf-8")
        assert session_of(pilot).history.issued  # type: ignore[union-attr]
        # what stops it passed; the same week is not asked about once more
        await pressed(pilot, "i")
        said = [one.message for one in pilot.app._notifications]
        assert any("issued already" in one for one in said)
        assert "1 zone changes, 8 do not" in screen_text(pilot.app)
        assert len(list(weeks.glob("*"))) == 1


@pytest.mark.usefixtures("prepared")
async def test_an_override_stands_with_its_reason(
    demo: Path, screen_text: Text
) -> None:
    async with dashboard(demo, (120, 36)) as pilot:
        await pressed(pilot, "space")
        pilot.app.screen.query_one(ZoneTable).pick("Z5")
        await pressed(pilot)
        assert "leaves rolled at the far end by noon" in screen_text(pilot.app)


def test_a_name_has_sixteen_cells_on_the_least_width() -> None:
    zone = SimpleNamespace(id="Z10", name="Propagation bench, fertigated")
    row = SimpleNamespace(plan=SimpleNamespace(zone=zone))
    made = columns(80, [row], is_narrow=True)  # type: ignore[list-item]
    widths = {one.head.strip(): one.width for one in made}
    assert widths["name"] == 16 + 1  # and the gap behind it
    assert widths["why"] >= len(" plan again, after override of 26 Jun")
    assert sum(widths.values()) == 80
