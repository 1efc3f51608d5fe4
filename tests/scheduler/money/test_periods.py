"""Week, season so far and year side by side."""

import datetime as dt

import pytest

from scheduler.money.periods import periods
from scheduler.money.week_cost import week_cost
from tests.scheduler.money.made_week import cost, plan


def test_zones_of_every_span_add_up_to_the_site() -> None:
    *zones, site = periods(week_cost(plan(), cost()), cost())
    for span in ("week", "so_far", "year"):
        for name in ("volume_m3", "above_need_m3", "above_need_money"):
            parts = sum(getattr(getattr(one, span), name) for one in zones)
            assert getattr(getattr(site, span), name) == pytest.approx(parts)


def test_the_season_so_far_is_the_weeks_that_ended_before_the_planned_one() -> None:
    found = periods(week_cost(plan(), cost()), cost())[0]
    weekly = cost().zones[0].weekly
    # weeks begin on 1 January; the 22nd ends on 3 June, the 23rd on 10 June
    assert weekly.start[21].astype(dt.date) == dt.date(2026, 5, 28)
    assert found.so_far.volume_m3 == pytest.approx(weekly.volume_m3[:22].sum())


def test_the_year_is_the_run_season() -> None:
    found = periods(week_cost(plan(), cost()), cost())[0]
    assert found.year.volume_m3 == cost().zones[0].own.volume_m3


def test_the_site_stands_last_and_has_no_id() -> None:
    found = periods(week_cost(plan(), cost()), cost())
    assert [one.zone for one in found] == ["Z4", "Z5", "Z6", ""]


def test_steady_weather_makes_a_week_a_share_of_the_year() -> None:
    # 5 mm every day: seven days of 365, whole minutes and full roots at the start aside
    found = periods(week_cost(plan(), cost()), cost())[-1]
    assert found.week.volume_m3 is not None
    assert found.year.volume_m3 is not None
    share = found.week.volume_m3 / found.year.volume_m3
    assert share == pytest.approx(7 / 365, rel=0.5)
