"""The proof of a zone for the dashboard."""

from pathlib import Path

import pytest

from scheduler.errors import SchedulerError
from tui import session as state
from tui.proof_state import everything_due, zone_proof, zones_of
from tui.session import Edit, Session


def test_every_zone_has_a_proof(opened: Session) -> None:
    assert len([zone_proof(opened, one) for one in zones_of(opened)]) == 9


def test_a_checked_zone_has_its_check_and_its_conflict(opened: Session) -> None:
    found = zone_proof(opened, "Z4")
    assert len(found.checks) == 1
    assert found.conflict is not None


def test_the_meter_of_the_pump_stands_on_every_zone(opened: Session) -> None:
    assert len(zone_proof(opened, "Z1").intervals) == 9


def test_a_what_if_leaves_the_past_as_it_was(opened: Session) -> None:
    tried = state.with_edits(opened, (Edit("days", ("mon",), "Z5"),))
    before, after = (zone_proof(one, "Z5").intervals for one in (opened, tried))
    assert after is before or [one.plan_m3 for one in after] == [
        one.plan_m3 for one in before
    ]


def test_what_was_measured_is_held_against_what_is_entered(opened: Session) -> None:
    tried = state.with_edits(opened, (Edit("kc factor", 1.2, "Z4"),))
    before, after = (zone_proof(one, "Z4") for one in (opened, tried))
    plan = state.zone_plan(tried, "Z4")
    assert plan is not None
    assert plan.learned != before.learnt  # what is tried would be doubted otherwise
    assert after.learnt == before.learnt
    assert after.conflict == before.conflict


def test_what_is_due_is_worked_out_once(opened: Session) -> None:
    assert everything_due(opened) is everything_due(opened)


def test_what_is_due_stays_under_another_pump(opened: Session) -> None:
    tried = state.with_edits(opened, (Edit("pump", 600.0),))
    assert everything_due(tried) is everything_due(opened)


def test_what_is_due_follows_a_zone_that_is_tried_otherwise(opened: Session) -> None:
    tried = state.with_edits(opened, (Edit("kc factor", 1.2, "Z4"),))
    assert everything_due(tried) == everything_due(opened)
    assert everything_due(tried) is not everything_due(opened)


def test_no_such_zone_is_refused(opened: Session) -> None:
    with pytest.raises(SchedulerError, match="no zone 'Z99'"):
        zone_proof(opened, "Z99")


def test_a_folder_without_site_has_nothing_due(tmp_path: Path) -> None:
    assert everything_due(state.open_session(tmp_path, None)) == ()
