"""Weeks of plants whose use comes from a table, classes, a canopy or wet ground."""

import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.plan import ZonePlan, build_week
from scheduler.record import DailySeries, History
from scheduler.site import Plant
from tests.scheduler.need.made import plain
from tests.scheduler.test_plan import TODAY, can_test, site, weather, zone

LOAM = {"texture": "loam", "root_depth_m": 0.3}


def _week(
    plant: dict[str, Any], *, days: DailySeries | None = None, **given: Any
) -> ZonePlan:
    one = zone(
        grown_in="soil",
        soil=LOAM,
        plant=Plant.model_validate({"name": "bed"} | plant),
        **given,
    )
    history = History(tests=(can_test(),), weather=(days or weather(5.0),))
    return build_week(site(one), history, TODAY).zones[0]


def _value(plan: ZonePlan, name: str) -> float:
    found = plan.trace.find(name)
    assert found is not None
    assert isinstance(found.value, float)
    return found.value


# FAO-56 Table 12: cool season turf 0.95; equation 58 over seven days of 5 mm
def test_a_week_of_turf_uses_the_coefficient_of_the_table() -> None:
    plan = _week({"crop": "turf cool season"})
    assert plan.kc == pytest.approx(0.95)
    assert plan.etc_mm == pytest.approx(33.25)


# FAO-56 Table 22, footnote 2 by hand: 0.40 + 0.04 (5 - 4.75) = 0.41
def test_the_allowed_part_of_a_week_follows_its_use() -> None:
    assert _value(_week({"crop": "turf cool season"}), "allowed_depletion") == (
        pytest.approx(0.41)
    )


def test_the_air_of_the_site_moves_the_table_s_coefficient() -> None:
    windy = plain(
        60,
        date=np.datetime64(TODAY) - 60 + np.arange(60),
        wind_m_per_s=5.0,
        rh_min=0.2,
    )
    plan = _week({"crop": "turf cool season"}, days=windy)
    # equation 62: 0.95 + 0.22 x (0.1 / 3)^0.3
    assert plan.kc == pytest.approx(1.029, abs=0.001)
    assert _value(plan, "kc_mid_table") == 0.95


# FAO-56 equation 69: basal 0.90 and wet ground up to 1.2, dry on one night in seven
def test_a_bed_wetted_nightly_needs_more_than_its_plants() -> None:
    dual = {"crop": "turf cool season", "dual": True}
    plan = _week(dual, watered="every allowed day")
    assert plan.kc is not None
    assert 1.15 < plan.kc <= 1.2


def test_the_chain_of_a_wet_bed_reaches_soil_and_nights() -> None:
    plan = _week({"crop": "turf cool season", "dual": True})
    ke = plan.trace.find("ke")
    assert ke is not None
    assert "nights of a first plan" in ke.note
    assert _value(plan, "total_evaporable_mm") == 19.0
    assert _value(plan, "kcb") == pytest.approx(0.90)


def test_a_guess_from_the_canopy_is_a_warning_of_the_week() -> None:
    plan = _week({"closure": "half closed"})
    said = [one for one in plan.findings if "guess from a canopy" in one.what]
    assert [one.level for one in said] == ["warning"]
    assert plan.kc == pytest.approx(0.717, abs=0.001)


def test_a_landscape_is_traced_to_its_three_factors() -> None:
    plan = _week({"landscape": {"species": "moderate", "density": "high"}})
    names = {one.name for one in plan.trace.chain()}
    assert {"species_factor", "density_factor", "microclimate_factor"} <= names


def test_a_bed_in_its_second_year_does_not_run_out_of_stages() -> None:
    stages = {
        "start": dt.date(2025, 5, 1),
        "initial_days": 20,
        "development_days": 30,
        "mid_days": 60,
        "late_days": 40,
        "kc_initial": 0.4,
        "kc_mid": 1.0,
        "kc_end": 0.6,
    }
    plan = _week({"stages": stages, "kc_area": "bed", "kc_from": "own"})
    assert not [one for one in plan.findings if "stages" in one.where]
    # 8 June is day 39 of the season: 19 of 30 days into the development stage
    assert plan.kc == pytest.approx(0.4 + 0.6 * np.mean(np.arange(19, 26)) / 30)


@pytest.mark.parametrize("dual", [False, True])
def test_more_reference_et_never_needs_less_water(dual: bool) -> None:
    plant = {"crop": "turf cool season", "dual": dual}
    use = [_week(plant, days=weather(eto)).etc_mm or 0.0 for eto in (2.0, 4.0, 6.0)]
    assert use == sorted(use)


def test_the_nights_that_wet_the_ground_are_those_of_the_plan() -> None:
    plan = _week({"crop": "turf cool season", "dual": True}, watered="when due")
    ke = plan.trace.find("ke")
    assert ke is not None
    assert f"on the {len(plan.days)} nights of a first plan of 7" in ke.note


def test_a_second_plan_says_nothing_twice() -> None:
    plan = _week({"crop": "turf cool season", "dual": True}, watered="when due")
    assert len(set(plan.findings)) == len(plan.findings)
