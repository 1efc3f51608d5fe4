"""What a planned week holds for every face."""

import datetime as dt

from scheduler.plan import build_week
from scheduler.record import History
from scheduler.week_plan import ZonePlan
from tests.scheduler.test_plan import can_test, planned, site, weather, zone

TODAY = dt.date(2026, 6, 8)


def _names(plan: ZonePlan) -> set[str]:
    return {one.name for chain in plan.chains for one in chain.chain()}


def test_minutes_and_skips_can_be_explained() -> None:
    assert {"minutes_per_day", "skip_rain_mm"} <= _names(planned(zone(), can_test()))


def test_the_minutes_are_the_first_chain() -> None:
    plan = planned(zone(), can_test())
    assert plan.chains[0] is plan.trace


def test_fixed_minutes_have_their_minutes_and_change_alone_to_explain() -> None:
    one = zone(watered="fixed minutes", fixed_minutes=6.0, plant=None)
    assert [chain.name for chain in planned(one).chains] == [
        "minutes_per_day",
        "change",
    ]


def test_a_range_can_be_explained() -> None:
    here = site(zone()).model_copy(update={"demand_from": "week ahead"})
    history = History(tests=(can_test(),), weather=(weather(4.0, n_days=1500),))
    found = _names(build_week(here, history, TODAY).zones[0])
    assert {"need_low_mm", "need_high_mm", "eto_hot_mm"} <= found


def test_findings_of_the_site_come_before_those_of_its_zones() -> None:
    plan = build_week(site(zone()), History(), TODAY)
    assert plan.all_findings == (*plan.findings, *plan.zones[0].findings)
