"""A season for the dashboard, with and without what-ifs."""

from pathlib import Path

import pytest

from scheduler.errors import SchedulerError
from tui import session as state
from tui.season_state import season_zones, zone_year
from tui.session import Edit

DEMO = Path("demo_sites/tern_hollow")


def test_without_a_what_if_nothing_stands_beside() -> None:
    assert zone_year(state.open_session(DEMO, None), "Z4", 0.85).before is None


def test_a_what_if_is_run_beside_the_site_as_it_is() -> None:
    opened = state.open_session(DEMO, None)
    session = state.with_edits(opened, (Edit("rule", "average", "Z4"),))
    found = zone_year(session, "Z4", 0.85)
    assert found.before is not None
    assert found.now.applied_mm < found.before.applied_mm


def test_another_uniformity_is_tried_in_the_season() -> None:
    opened = state.open_session(DEMO, None)
    session = state.with_edits(opened, (Edit("du", 0.95, "Z4"),))
    found = zone_year(session, "Z4", 0.85)
    assert found.before is not None
    assert found.now.applied_mm < found.before.applied_mm


def test_zones_that_are_off_have_no_season() -> None:
    assert "Z4" in season_zones(state.open_session(DEMO, None))


def test_a_folder_without_site_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SchedulerError, match="no site"):
        zone_year(state.open_session(tmp_path, None), "Z4", 0.85)
