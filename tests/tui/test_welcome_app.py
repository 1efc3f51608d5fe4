"""The first page under a pilot: by keys and by mouse to a site that opens."""

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input, Static, TextArea

from tests.tui.pilots import Text
from tui import first_run
from tui.draft_journal import kept_drafts
from tui.screens.welcome import READ, _check_readings
from tui.welcome_app import WelcomeApp


@pytest.fixture(autouse=True)
def no_list(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(first_run, "recent_file", lambda: tmp_path / "recent.txt")


def fill(pilot: Pilot[Path], **texts: str) -> None:
    for name, text in texts.items():
        widget = pilot.app.screen.query_one(f"#{name.replace('_', '-')}")
        if isinstance(widget, TextArea):
            widget.text = text
        else:
            assert isinstance(widget, Input)
            widget.value = text


OAKS = {
    "name": "Oaks", "latitude": "40", "longitude": "-75",
    "time_zone": "America/New_York",
}  # fmt: skip


async def test_a_new_site_is_made_and_opened(tmp_path: Path) -> None:
    async with WelcomeApp().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        fill(pilot, **OAKS, folder=str(tmp_path / "oaks"))
        await pilot.press("ctrl+s")
        await pilot.pause()
    assert pilot.app.return_value == tmp_path / "oaks"
    assert first_run.is_site(tmp_path / "oaks")


async def test_a_slip_is_said_while_it_is_typed(screen_text: Text) -> None:
    async with WelcomeApp().run_test(size=(80, 24)) as pilot:
        await pilot.press("n")
        fill(pilot, latitude="95")
        await pilot.pause()
        said = str(pilot.app.screen.query_one("#said", Static).content)
        assert "latitude" in said
        await pilot.press("ctrl+s")
        assert pilot.app.focused is pilot.app.screen.query_one("#name")


async def test_a_demo_is_copied_by_mouse_to_the_folder_that_is_named(
    tmp_path: Path,
) -> None:
    async with WelcomeApp().run_test(size=(120, 36)) as pilot:
        await pilot.click("#choices", offset=(10, 2))
        await pilot.pause()
        fill(pilot, demo="alder_flat", folder=str(tmp_path / "demo"))
        await pilot.pause()
        await pilot.click("#done")
        await pilot.pause()
    assert first_run.is_site(tmp_path / "demo")


async def test_pasted_readings_are_answered_and_go_into_a_new_site(
    tmp_path: Path, screen_text: Text
) -> None:
    async with WelcomeApp().run_test(size=(100, 50)) as pilot:
        await pilot.press("i")
        fill(pilot, readings="41 52 60 48\n55 66 63 70", mouth="4.25 in", minutes="30")
        await pilot.pause()
        assert "DU" in screen_text(pilot.app)
        fill(pilot, folder=str(tmp_path / "oaks"))
        await pilot.press("ctrl+s")
        await pilot.pause()
        fill(pilot, **OAKS)
        await pilot.press("ctrl+s")
        await pilot.pause()
    (kept,) = kept_drafts(tmp_path / "oaks")
    assert (kept.draft.zone, kept.draft.now.cells[1][3]) == ("Z1", "70")


async def test_a_folder_opened_lately_has_a_number(tmp_path: Path, demo: Path) -> None:
    first_run.remember(demo)
    async with WelcomeApp("no site here").run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        await pilot.press("1")
        await pilot.pause()
    assert pilot.app.return_value == demo


async def test_a_folder_that_holds_no_site_is_not_opened(
    tmp_path: Path, screen_text: Text
) -> None:
    async with WelcomeApp().run_test(size=(80, 24)) as pilot:
        await pilot.press("o")
        fill(pilot, folder=str(tmp_path))
        await pilot.press("enter")
        await pilot.pause()
        assert "no site.toml" in screen_text(pilot.app)


@pytest.mark.parametrize(
    ("mouth", "unit"), [("100 mm", "mm/h"), ("10 cm", "mm/h"), ("4 in", "in/h")]
)
def test_readings_are_told_in_the_units_of_the_can(
    tmp_path: Path, mouth: str, unit: str
) -> None:
    texts = dict.fromkeys((one.name for one in READ), "")
    said = {"readings": "40 50 60 50", "mouth": mouth, "minutes": "30",
            "folder": str(tmp_path / "oaks")}  # fmt: skip
    assert unit in _check_readings({**texts, **said}).said
