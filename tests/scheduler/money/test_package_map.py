"""A package's own map: counted by hand on a cone, never mixed with the zone's."""

from dataclasses import replace

import numpy as np
import pytest

from scheduler.field.overlap import pattern
from scheduler.field.profile import Profile, radial_profile
from scheduler.money.economics import SiteCost, site_cost
from scheduler.money.option_nights import option_nights
from scheduler.money.package_map import catch_of_map, package_map, season_of_map
from scheduler.money.retrofit import OptionResult
from scheduler.site import Package, Site
from tests.scheduler.money.made import TODAY
from tests.scheduler.money.made_week import HISTORY, better, cost, plan, week_site


def cone() -> Profile:
    """10 mm/h at the head, nothing 10 m from it."""
    found, _ = radial_profile([0.0, 10.0], [10.0, 0.0], minutes=60)
    assert found is not None
    return found


CONE = cone()
CONED = Package(
    id="coned", nozzle_flow_l_per_min=17.4, spacing_m=10.0, row_spacing_m=14.0,
    layout="rectangular",
)  # fmt: skip


def site(**given: object) -> Site:
    options = (better(package="coned", du_lq=None, du_lq_low=None, du_lq_high=None),)
    made = week_site(*options)
    other = CONED.model_copy(update=given)
    return made.model_copy(update={"packages": (*made.packages, other)})


@pytest.fixture(scope="module")
def mapped() -> SiteCost:
    return site_cost(site(), HISTORY, TODAY, profiles={"coned": CONE})


def only(found: SiteCost) -> OptionResult:
    return found.options[0]


def test_its_uniformity_is_that_of_the_pattern_at_its_spacing() -> None:
    found = package_map(site(), "coned", {"coned": CONE})
    there = pattern(CONE, spacing_m=10.0, row_spacing_m=14.0, layout="rectangular")
    assert found is not None
    assert found.du_lq == pytest.approx(there.du_lq, abs=1e-9)
    assert found.share.mean() == pytest.approx(1.0)


def test_a_closer_spacing_has_another_map() -> None:
    wide = package_map(site(), "coned", {"coned": CONE})
    close = package_map(site(row_spacing_m=10.0), "coned", {"coned": CONE})
    assert wide is not None
    assert close is not None
    assert close.du_lq > wide.du_lq


def test_without_legs_of_cans_or_a_spacing_there_is_no_map() -> None:
    assert package_map(site(), "coned", {}) is None
    bare = site(spacing_m=None, row_spacing_m=None, layout=None)
    assert package_map(bare, "coned", {"coned": CONE}) is None


def test_the_zone_s_cans_are_not_in_it() -> None:
    found = package_map(site(), "coned", {"coned": CONE})
    now = plan().zones[0].evidence
    assert found is not None
    assert now is not None
    then = catch_of_map(found, now)
    other = replace(now, share=now.share[::-1].copy(), du_lq=0.3)
    assert np.array_equal(catch_of_map(found, other).share, then.share)
    assert (then.test, then.n_cans, then.tested) == ("", 0, None)


def test_a_season_of_the_map_keeps_its_days_and_its_storage() -> None:
    found = package_map(site(), "coned", {"coned": CONE})
    season = cost().zones[0].season
    assert found is not None
    assert season.catch is not None
    there = season_of_map(season, catch_of_map(found, season.catch))
    assert there is not None
    assert there.input is not None
    assert season.input is not None
    assert there.input.share.shape == (1, 48, 1)
    assert there.input.rain_mm is season.input.rain_mm


def test_where_nothing_was_tested_the_map_tells_the_uniformity_then(
    mapped: SiteCost,
) -> None:
    _, _, then = only(mapped).known[0]
    assert then.source.startswith("map of coned: its legs of cans at its spacing")
    assert (then.low, then.n_days) == (None, 0)
    assert only(mapped).own is not None


def test_a_map_in_still_air_proves_nothing(mapped: SiteCost) -> None:
    assert {one.verdict for one in only(mapped).returns} == {"not proven"}


def test_each_quarter_then_gets_what_the_map_gives_it(mapped: SiteCost) -> None:
    found = package_map(site(), "coned", {"coned": CONE})
    told = only(mapped).quarters[0]
    assert found is not None
    parts = found.share.reshape(4, 12).mean(axis=1)
    depths = np.array(told.then_mm)
    assert depths / depths.mean() == pytest.approx(parts, rel=1e-6)
    assert told.map_from == "legs of cans of the package at its spacing"


def test_quarters_now_are_of_the_zone_s_own_cans(mapped: SiteCost) -> None:
    season = mapped.zones[0].season
    told = only(mapped).quarters[0]
    assert told.now_mm == pytest.approx([one.applied_mm for one in season.quarters])


def test_without_legs_the_zone_s_own_map_is_drawn() -> None:
    told = cost().options[0].quarters[0]
    assert told.map_from == "its own map, drawn to the DU then"


def test_its_night_is_planned_by_its_map(mapped: SiteCost) -> None:
    found = option_nights(plan(), HISTORY, mapped)[0]
    assert found.why == ""
    assert found.week_then is not None
    assert found.full_then is not None


def test_the_same_service_on_another_map_is_not_told(mapped: SiteCost) -> None:
    assert only(mapped).same_service_saved_m3 is None
