"""What a zone learned, its meters and what is due: its proof."""

import datetime as dt

import pytest

from scheduler.errors import Finding
from scheduler.log import Entry
from scheduler.proof.due import Due, Kind
from scheduler.proof.meter import PlanAgainstMeter, plan_against_meter
from scheduler.proof.zone_learning import learned_use
from scheduler.proof.zone_proof import ZoneProof, zone_proof
from tests.scheduler.proof import made
from tests.scheduler.proof.yard import (
    DAY,
    SIX,
    TODAY,
    catch,
    lessons,
    pots_of_check,
    use_of,
    yard,
)

NO_METER = PlanAgainstMeter((), ())
EVEN = dict.fromkeys(SIX, (400.0, 80.0))


def proof(
    *entries: Entry,
    minutes: int | None = 24,
    due: tuple[Due, ...] = (),
    today: dt.date = TODAY,
    metered: PlanAgainstMeter = NO_METER,
) -> ZoneProof:
    from_log = lessons(*entries, today=today)
    _, learnt = learned_use(yard(), use_of(yard()), catch(), from_log)
    planned = (minutes, 7)
    return zone_proof(yard(), learnt, metered, due, planned=planned, today=today)


def due_of(kind: Kind, of: str) -> Due:
    return Due(kind, of, None, Finding("note", "log.csv", "is due", "do it"))


def test_every_check_is_there_by_date() -> None:
    early = DAY - dt.timedelta(days=7)
    found = proof(*pots_of_check(SIX), *pots_of_check(EVEN, day=early, line=40))
    assert [one.check.date for one in found.checks] == [early, DAY]


def test_the_last_of_several_checks_is_the_newest() -> None:
    early = DAY - dt.timedelta(days=7)
    found = proof(*pots_of_check(SIX), *pots_of_check(EVEN, day=early, line=40))
    assert found.learnt is not None
    assert found.learnt.check is found.checks[-1]


def test_a_check_without_minutes_is_shown_and_does_not_count() -> None:
    early = DAY - dt.timedelta(days=7)
    found = proof(
        *pots_of_check(EVEN),
        *pots_of_check(EVEN, day=early, minutes=None, line=40),
    )
    assert found.counting == (False, True)


def test_the_drift_begins_four_weeks_before_the_first_look() -> None:
    found = proof(*pots_of_check(EVEN))
    # looked at on the evening of 2 June; a Monday each week up to 8 June
    assert [one.on.isoformat() for one in found.kc] == [
        "2026-05-11", "2026-05-18", "2026-05-25", "2026-06-01", "2026-06-08",
    ]  # fmt: skip


def test_the_drift_ends_with_what_is_believed_today() -> None:
    found = proof(*pots_of_check(EVEN))
    assert found.learnt is not None
    assert found.kc[-1].factor == pytest.approx(found.learnt.kc.factor)
    assert found.rate[-1].low == pytest.approx(found.learnt.rate.low)


def test_kc_over_rate_is_the_correction_of_the_minutes() -> None:
    found = proof(*pots_of_check(EVEN))
    assert found.learnt is not None
    quotient = found.kc[-1].log_mean - found.rate[-1].log_mean
    assert quotient == pytest.approx(found.learnt.minutes.log_mean)


def test_without_a_look_there_is_no_drift() -> None:
    assert (proof().kc, proof().rate) == ((), ())


def test_only_what_is_due_of_the_zone_is_kept() -> None:
    every = (due_of("test", "Z4"), due_of("test", "Z5"), due_of("leaching check", "Z4"))
    assert [one.kind for one in proof(due=every).due] == ["test", "leaching check"]


def test_a_site_without_a_meter_is_due_on_every_zone() -> None:
    assert len(proof(due=(due_of("meter reading", ""),)).due) == 1


def test_the_reading_of_another_zones_meter_is_not_due_here() -> None:
    assert proof(due=(due_of("meter reading", "far pump"),)).due == ()


def test_a_check_against_et_names_its_causes() -> None:
    # the plan gives more than the 24 min of the check, which asks for less
    found = proof(*pots_of_check(SIX), minutes=33)
    assert found.conflict is not None
    assert "ET asks for more" in found.conflict.what
    assert found.causes[0].fix == found.conflict.fix


def test_where_both_ask_for_less_there_is_no_conflict() -> None:
    found = proof(*pots_of_check(SIX), minutes=20)
    assert (found.conflict, found.causes) == (None, ())


def test_an_old_check_is_no_conflict_any_more() -> None:
    later = DAY + dt.timedelta(days=60)
    found = proof(*pots_of_check(SIX), minutes=33, today=later)
    assert found.conflict is None


def test_meters_of_other_zones_are_left_out() -> None:
    other = plan_against_meter(
        made.site(), made.history(made.dial(1, 100.0), made.dial(8, 107.0))
    )
    assert len(other.intervals) == 1
    assert proof(metered=other).intervals == ()


def test_a_meter_of_one_zone_watches_it_alone() -> None:
    metered = plan_against_meter(
        made.site(), made.history(made.dial(1, 100.0), made.dial(8, 107.0))
    )
    mine = made.site().zones[0]
    found = zone_proof(mine, None, metered, (), planned=(10, 7), today=TODAY)
    assert found.is_watched_alone
    assert found.last_reading is metered.intervals[-1].dial.stop
