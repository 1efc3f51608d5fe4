"""A planned week with less water than it needs."""

import datetime as dt
from typing import Any

import pytest

from scheduler.plan import build_week
from scheduler.record import History
from scheduler.site import Shortage, Site, Zone
from scheduler.week_plan import WeekPlan
from tests.scheduler.test_plan import LAST_WEEK, PACKAGE, PLACE, TODAY, can_test
from tests.scheduler.test_plan import zone as yard


def week(*zones: Zone, short: Shortage | None) -> WeekPlan:
    site = Site(
        name="Tern Hollow", units="metric", place=PLACE, zones=zones,
        packages=(PACKAGE,), shortage=short,
    )  # fmt: skip
    history = History(tests=(can_test(),), weather=(LAST_WEEK,))
    return build_week(site, history, TODAY)


def two(**given: Any) -> tuple[Zone, Zone]:
    """A tested yard of pots, and one more that an order keeps or gives up first."""
    other = yard(id="Z5", assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.7, **given)
    return yard(), other


WHOLE = week(*two(), short=None)


def drawn(plan: WeekPlan) -> float:
    assert plan.short is not None
    return plan.short.allotted_m3


def test_a_cut_keeps_the_week_within_its_part_of_the_plan() -> None:
    plan = week(*two(), short=Shortage(cut=0.3))
    assert plan.short is not None
    assert plan.short.most_m3 == pytest.approx(0.7 * plan.short.planned_m3)
    assert drawn(plan) <= plan.short.most_m3
    one_minute = max(
        one.volume_before_m3 / one.minutes_before for one in plan.short.cuts
    )
    assert drawn(plan) > plan.short.most_m3 - one_minute


def test_a_zone_that_gives_up_tells_what_its_driest_quarter_loses() -> None:
    plan = week(*two(priority=9), short=Shortage(cut=0.1))
    assert plan.short is not None
    (cut,) = plan.short.cuts
    assert cut.zone == "Z5"
    assert cut.driest is not None
    assert cut.driest_before is not None
    part = cut.minutes / cut.minutes_before
    assert cut.driest == pytest.approx(cut.driest_before * part)


def test_the_zone_that_keeps_its_water_is_planned_as_before() -> None:
    plan = week(*two(priority=9), short=Shortage(cut=0.1))
    assert plan.zones[0].minutes_per_day == WHOLE.zones[0].minutes_per_day


def test_a_volume_that_is_enough_changes_no_minute_and_is_said() -> None:
    plan = week(*two(), short=Shortage(volume_m3=1e6))
    minutes = [one.minutes_per_day for one in plan.zones]
    assert minutes == [one.minutes_per_day for one in WHOLE.zones]
    assert any("keeps within" in one.what for one in plan.findings)


def test_a_shortage_that_is_over_changes_nothing() -> None:
    over = Shortage(cut=0.5, end=TODAY - dt.timedelta(1))
    assert week(*two(), short=over).short is None


def test_fixed_minutes_over_the_volume_are_a_stop() -> None:
    mist = yard(id="M1", watered="fixed minutes", fixed_minutes=30.0)
    plan = week(yard(), mist, short=Shortage(volume_m3=1.0))
    assert any(
        one.level == "stop" and "fixed minutes are never cut" in one.what
        for one in plan.findings
    )


def test_the_chain_of_the_minutes_names_the_share_of_the_water() -> None:
    plan = week(*two(), short=Shortage(cut=0.3))
    assert plan.short is not None
    cut = plan.short.cuts[0].zone
    zone = next(one for one in plan.zones if one.zone.id == cut)
    assert "most_minutes" in {one.name for one in zone.trace.chain()}


def test_fewer_days_alone_move_nights_and_share_out_nothing() -> None:
    plan = week(yard(), short=Shortage(days=("mon", "thu")))
    assert plan.short is None
    assert {day.weekday() for day in plan.zones[0].days} <= {0, 3}


def test_an_order_that_leaves_three_nights_names_what_each_zone_keeps() -> None:
    plan = week(*two(), short=Shortage(days=("mon", "wed", "fri"), reason="drought"))
    (said,) = [one for one in plan.findings if "shortage" in one.where]
    assert said.level == "warning"
    assert "only on mon, wed, fri (drought)" in said.what
    assert "Z4 3 of 6, Z5 3 of 6" in said.what


def test_an_order_that_is_over_takes_no_night() -> None:
    over = Shortage(days=("mon",), end=TODAY - dt.timedelta(days=1))
    assert not [f for f in week(*two(), short=over).findings if "shortage" in f.where]
