"""A season of a site: every catch position by itself."""

import dataclasses
import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.record import CanLayout, DailySeries, History
from scheduler.season import SeasonPlan, run_season
from scheduler.site import (
    Plant,
    PlantGroup,
    PotMove,
    Pots,
    Site,
    Soil,
    Supply,
    Window,
    Zone,
)
from tests.scheduler.need.made import series
from tests.scheduler.test_plan import PACKAGE, PLACE, can_test

TODAY = dt.date(2026, 6, 8)


def year_of_weather(eto: float = 4.0, rain: float = 0.0) -> DailySeries:
    """A year whose station reports its own reference ET (made up)."""
    return series(
        365, date=np.datetime64("2025-01-01") + np.arange(365), rain_mm=rain,
        eto_mm_per_day=eto,
    )  # fmt: skip


def zone(**given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": "Z4", "name": "bay", "area_m2": 1000.0, "grown_in": "soil",
        "package": "p", "watered": "when due",
        "plant": Plant(name="box", kc=1.0, kc_area="bed", kc_from="table"),
        "soil": Soil(texture="loam", root_depth_m=0.4, slope=0.01),
        "rain_counted": 1.0,
    }  # fmt: skip
    return Zone(**(base | given))


def plant(kc: float, name: str = "box") -> Plant:
    return Plant(name=name, kc=kc, kc_area="bed", kc_from="table")


def season(
    *zones: Zone, weather: DailySeries | None = None, **given: Any
) -> SeasonPlan:
    site = Site(
        name="Tern Hollow", units="us", place=PLACE, zones=zones, packages=(PACKAGE,),
        windows=(Window(start=dt.time(22), end=dt.time(4, 30)),),
        supply=given.pop("supply", None),
    )  # fmt: skip
    tests = given.pop("tests", (can_test(),))
    history = History(tests=tests, weather=(weather or year_of_weather(),))
    return run_season(site, history, TODAY, **given)


def test_use_is_reference_et_times_the_coefficient() -> None:
    assert season(zone()).zones[0].etc_mm == pytest.approx(365 * 4.0)


def test_every_position_closes() -> None:
    one = season(zone(), weather=year_of_weather(4.0, 3.0)).zones[0]
    assert one.closure_error_mm < 1e-9


def test_quarters_average_to_the_zone() -> None:
    one = season(zone()).zones[0]
    mean = np.mean([quarter.applied_mm for quarter in one.quarters])
    assert mean == pytest.approx(one.applied_mm)


def test_volume_is_depth_on_the_area() -> None:
    one = season(zone()).zones[0]
    assert one.volume_m3 == pytest.approx(one.applied_mm)  # 1000 m2


def test_a_single_test_is_an_upper_bound_and_said() -> None:
    one = season(zone()).zones[0]
    assert one.is_upper_bound
    assert any("upper bound" in f.what for f in one.findings)


def test_runs_that_differ_make_a_season_more_even_than_either() -> None:
    wet_left = [[60] * 4 + [40] * 4] * 3
    wet_right = [[40] * 4 + [60] * 4] * 3
    first, second = can_test(wet_left), can_test(wet_right)
    both = first.runs[0], second.runs[0]
    test = dataclasses.replace(first, runs=both)
    one = season(zone(), tests=(test,)).zones[0]
    alone = season(zone(), tests=(first,)).zones[0]
    assert not one.is_upper_bound
    spread = [
        max(q.applied_mm for q in z.quarters) / z.applied_mm for z in (one, alone)
    ]
    assert spread[0] < 1.1 < 1.19 < spread[1]


def test_fewer_allowed_nights_mean_fewer_waterings() -> None:
    every = season(zone(watered="every allowed day")).zones[0].waterings
    few = season(zone(watered="every allowed day", days=("mon", "thu"))).zones[0]
    assert few.waterings < every / 3


def test_rain_is_not_watered_again() -> None:
    dry = season(zone()).zones[0].applied_mm
    wet = season(zone(), weather=year_of_weather(4.0, 2.0)).zones[0].applied_mm
    assert wet == pytest.approx(dry / 2, rel=0.1)


def test_only_the_zones_asked_for_are_run() -> None:
    plan = season(zone(), zone(id="Z5"), zone_ids=("z5",))
    assert [one.zone.id for one in plan.zones] == ["Z5"]


def test_the_same_site_gives_the_same_season() -> None:
    assert season(zone()).zones[0].applied_mm == season(zone()).zones[0].applied_mm


def test_an_off_zone_is_not_run_and_said() -> None:
    one = season(zone(watered="off", plant=None)).zones[0]
    assert one.input is None
    assert "is off" in one.findings[0].what


def test_a_zone_whose_water_is_unknown_says_why() -> None:
    one = season(zone(soil=None)).zones[0]
    assert one.input is None
    assert any("no season can be run" in f.what for f in one.findings)


def test_a_year_without_weather_stops() -> None:
    some = series(30, eto_mm_per_day=4.0)
    plan = season(zone(), weather=some)
    assert plan.zones == ()
    assert any(f.level == "stop" for f in plan.findings)


def test_fixed_minutes_are_run_as_they_are() -> None:
    one = season(zone(watered="fixed minutes", fixed_minutes=10.0)).zones[0]
    assert one.minutes == 10 * 365


def _spread(spread_m: float | None, can_spacing_m: float | None = None) -> SeasonPlan:
    soil = Soil(texture="loam", root_depth_m=0.4, slope=0.01, root_spread_m=spread_m)
    layout = CanLayout(can_spacing_m=can_spacing_m)
    test = dataclasses.replace(can_test(), layout=layout)
    return season(zone(soil=soil), tests=(test,))


def test_roots_that_spread_even_out_what_quarters_get() -> None:
    wide = _spread(3.0, can_spacing_m=1.5).zones[0]
    none = _spread(None).zones[0]
    assert wide.quarters[0].share > none.quarters[0].share


def test_roots_cannot_spread_over_unknown_distances() -> None:
    one = _spread(3.0).zones[0]
    assert any("roots cannot be spread" in f.what for f in one.findings)


def test_the_leached_rule_puts_on_its_leaching_through_the_season() -> None:
    soil = Soil(
        texture="loam", root_depth_m=0.4, slope=0.01, target_ec_ds_per_m=1.0
    )  # LR 0.9 / (5 - 0.9) = 0.22, FAO-29
    water = Supply(source="well", water_ec_ds_per_m=0.9)
    plain = season(zone(rule="low quarter", soil=soil), supply=water).zones[0]
    leached = season(zone(rule="low quarter, leached", soil=soil), supply=water)
    salty = leached.zones[0]
    assert salty.factor == pytest.approx((plain.factor or 0.0) * 4.1 / 3.2)
    # every watering is that much deeper, up to its whole minutes
    assert salty.applied_mm == pytest.approx(
        (plain.applied_mm or 0.0) * 4.1 / 3.2, rel=0.02
    )
    assert salty.quarters[0].deep_percolation_mm > plain.quarters[0].deep_percolation_mm


def test_the_leached_rule_without_salt_runs_no_season() -> None:
    [one] = season(zone(rule="low quarter, leached")).zones
    assert one.input is None
    assert any(f.level == "stop" for f in one.findings)


def test_the_thirstiest_group_rules_the_season() -> None:
    thirsty = PlantGroup(name="fern", plant=plant(1.0, "fern"))
    alone = season(zone(plant=plant(1.0)))
    shared = season(zone(plant=plant(0.5), group=(thirsty,)))
    assert shared.zones[0].etc_mm == pytest.approx(alone.zones[0].etc_mm)


def test_pots_that_move_are_said_to_stand_all_season() -> None:
    move = PotMove(on=dt.date(2025, 6, 2), gap_m=0.3)
    pots = Pots(top_diameter_mm=254.0, gap_m=0.0, available_water_ml=2300.0,
                capture_factor=1.0, moved=(move,))  # fmt: skip
    found = season(zone(grown_in="pots", soil=None, pots=pots)).zones[0]
    assert any("pots stand all season" in one.what for one in found.findings)


# FAO-56 equation 69: basal 0.90 (Table 17) and wet ground, at most 1.2 a night
def test_wet_ground_adds_to_the_use_of_a_season() -> None:
    lawn = {"name": "lawn", "crop": "turf cool season"}
    nightly: dict[str, Any] = {"watered": "every allowed day"}
    plain = season(zone(plant=Plant.model_validate(lawn), **nightly)).zones[0]
    wet = season(
        zone(plant=Plant.model_validate(lawn | {"dual": True}), **nightly)
    ).zones[0]
    assert plain.etc_mm == pytest.approx(365 * 4.0 * 0.95)
    assert wet.etc_mm == pytest.approx(365 * 4.0 * 1.2)


def test_ground_wetted_when_due_evaporates_less_in_a_season() -> None:
    lawn = Plant.model_validate(
        {"name": "lawn", "crop": "turf cool season", "dual": True}
    )
    nightly = season(zone(plant=lawn, watered="every allowed day")).zones[0]
    due = season(zone(plant=lawn)).zones[0]
    assert 365 * 4.0 * 0.9 < due.etc_mm < nightly.etc_mm


def test_the_use_of_a_season_is_traced_to_its_coefficient() -> None:
    trace = season(zone()).zones[0].trace
    assert trace is not None
    kc = trace.find("kc")
    assert kc is not None
    assert (kc.value, kc.source) == (1.0, "table")


def test_a_curve_of_one_year_serves_the_seasons_of_others() -> None:
    stages = {
        "start": dt.date(2027, 4, 1),
        "initial_days": 30,
        "development_days": 40,
        "mid_days": 80,
        "late_days": 30,
        "kc_initial": 0.4,
        "kc_mid": 1.0,
        "kc_end": 0.6,
    }
    plant = {"name": "liners", "kc_area": "bed", "kc_from": "own", "stages": stages}
    one = season(zone(plant=Plant.model_validate(plant))).zones[0]
    # 30 and 80 days of a level, halves of the ramps, 185 days of rest around 0.5
    days = 30 * 0.4 + 40 * 0.7 + 80 * 1.0 + 30 * 0.8 + 185 * 0.5
    assert one.etc_mm == pytest.approx(4.0 * days, rel=0.005)


def test_a_more_even_zone_is_given_less_through_the_season() -> None:
    own = season(zone(rule="low quarter")).zones[0]
    tried = season(zone(rule="low quarter"), tried_du={"Z4": 0.95}).zones[0]
    assert tried.applied_mm < own.applied_mm
    assert tried.catch is not None
    assert tried.catch.du_lq == pytest.approx(0.95)


def test_every_number_of_a_quarter_can_be_explained() -> None:
    one = season(zone()).zones[0]
    value = {trace.name: trace.value for trace in one.chains}
    driest = one.quarters[0]
    assert value["applied_mm[driest]"] == driest.applied_mm
    assert value["stress_days[driest]"] == driest.stress_days
    assert value["volume_m3"] == one.volume_m3
    assert value["season_min"] == one.minutes


def test_a_zone_without_season_explains_nothing() -> None:
    assert season(zone(watered="off")).zones[0].chains == ()
