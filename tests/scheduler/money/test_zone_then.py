"""A zone's week once an option is done: rate, minutes, heads, what is refused."""

import pytest

from scheduler.errors import QuantityError
from scheduler.money.zone_then import hardware_then, rate_ratio, zone_then
from scheduler.plan import build_week
from scheduler.week_plan import ZonePlan
from tests.scheduler.money.made import TODAY, bay
from tests.scheduler.money.made_week import HISTORY, better, plan, week_site


def z4() -> ZonePlan:
    return plan().zones[0]


def test_the_same_uniformity_and_package_plan_the_same_minutes() -> None:
    now = z4()
    assert now.evidence is not None
    then = zone_then(better(), week_site(), now, now.evidence.du_lq)
    assert then.minutes_per_day == now.minutes_per_day
    assert (then.cycles, then.days) == (now.cycles, now.days)


def test_half_the_rate_takes_twice_the_minutes() -> None:
    now = z4()
    assert now.evidence is not None
    then = zone_then(better(package="gentle"), week_site(), now, now.evidence.du_lq)
    assert now.minutes_exact is not None
    assert then.minutes_exact == pytest.approx(2 * now.minutes_exact)


def test_a_more_even_zone_takes_fewer_minutes() -> None:
    now, then = z4(), zone_then(better(), week_site(), z4(), 0.9)
    assert now.minutes_per_day is not None
    assert then.minutes_per_day is not None
    assert then.minutes_per_day < now.minutes_per_day


def test_counted_heads_stay_where_each_waters_as_much_ground() -> None:
    counted = bay(heads=12)
    site = week_site()
    assert hardware_then(better(package="gentle"), site, counted).heads == 12
    wider = site.packages[1].model_copy(update={"spacing_m": 12.0})
    site = site.model_copy(update={"packages": (site.packages[0], wider)})
    assert hardware_then(better(package="gentle"), site, counted).heads is None


def test_without_the_flow_of_a_package_the_rate_is_refused() -> None:
    site = week_site()
    bare = site.packages[1].model_copy(update={"nozzle_flow_l_per_min": None})
    site = site.model_copy(update={"packages": (site.packages[0], bare)})
    with pytest.raises(QuantityError, match="not entered of package gentle"):
        rate_ratio(better(package="gentle"), site, bay())


def test_fixed_minutes_follow_no_need_and_are_refused() -> None:
    fixed = bay(watered="fixed minutes", fixed_minutes=20.0)
    site = week_site().model_copy(update={"zones": (fixed,), "options": ()})
    one = build_week(site, HISTORY, TODAY).zones[0]
    with pytest.raises(QuantityError, match="zone Z4 follows no need"):
        zone_then(better(), site, one, 0.9)
