"""How long water can run before it runs off."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.root_zone.intake import (
    IntakeModel,
    clearing_min,
    intake_model,
    longest_cycle_min,
    usda_max_rate_mm_per_h,
    usda_rate_limit,
)
from scheduler.site import Intake, Soil, Zone
from scheduler.trace import entered
from scheduler.units import MM_PER_INCH
from tests.scheduler.root_zone.made import pot_zone, soil_zone, zone


def steady(rate_in_per_h: float, storage_in: float | None) -> IntakeModel:
    stands = None if storage_in is None else storage_in * MM_PER_INCH
    leaf = entered("intake_model", "test")
    return IntakeModel("constant intake", None, rate_in_per_h * 25.4, stands, leaf)


def clay_bay(**soil: Any) -> Zone:
    return soil_zone(**({"texture": "clay loam", "slope": 0.02} | soil))


# --- the longest run ----------------------------------------


def test_a_field_bay_above_its_intake_runs_off_after_sixteen_minutes() -> None:
    # 0.62 in/h on soil that takes 0.25 in/h and holds 0.10 in on its surface
    limit = longest_cycle_min(steady(0.25, 0.10), 0.62 * MM_PER_INCH)
    assert limit == pytest.approx(16.2, abs=0.05)


# surface storage formula of landscape scheduling manuals, values from memory
@pytest.mark.parametrize(
    ("rate", "intake", "storage", "minutes"),
    [(1.6, 0.2, 0.26, 11.14285714), (1.6, 0.1, 0.2, 8.0)],
)
def test_the_surface_storage_formula_comes_out(
    rate: float, intake: float, storage: float, minutes: float
) -> None:
    limit = longest_cycle_min(steady(intake, storage), rate * MM_PER_INCH)
    assert limit == pytest.approx(minutes, abs=0.01)


def test_a_rate_below_the_intake_never_runs_off() -> None:
    assert longest_cycle_min(steady(0.5, 0.1), 0.5 * MM_PER_INCH) == math.inf


def test_no_surface_storage_runs_off_at_once() -> None:
    assert longest_cycle_min(steady(0.25, 0.0), 20.0) == 0.0


def test_unknown_surface_storage_sets_no_limit() -> None:
    assert longest_cycle_min(steady(0.25, None), 20.0) == math.inf


@given(rate=st.floats(0.1, 200.0))
def test_a_first_runoff_that_was_seen_is_never_scaled(rate: float) -> None:
    seen = IntakeModel("first runoff", 18.0, None, None, entered("x", 18.0))
    assert longest_cycle_min(seen, rate) == 18.0


@given(
    rate=st.floats(0.1, 200.0),
    more=st.floats(0.0, 100.0),
    intake=st.floats(0.01, 4.0),
    storage=st.floats(0.0, 1.0),
)
def test_a_wetter_position_never_runs_longer(
    rate: float, more: float, intake: float, storage: float
) -> None:
    model = steady(intake, storage)
    assert longest_cycle_min(model, rate + more) <= longest_cycle_min(model, rate)


# --- clearing ----------------------------------------


def test_what_stands_after_a_cycle_clears_at_the_intake() -> None:
    # (0.62 - 0.25) x 15 / 60 = 0.0925 in stand; at 0.25 in/h they take 22.2 min
    clear = clearing_min(steady(0.25, 0.10), 0.62 * MM_PER_INCH, 15.0)
    assert clear == pytest.approx(22.2, abs=0.01)


def test_a_published_shape_of_cycle_clears_in_seventy_minutes() -> None:
    # 1.6 in/h, intake 0.20, cycles of 10 min; landscape manuals, from memory
    clear = clearing_min(steady(0.2, 0.26), 1.6 * MM_PER_INCH, 10.0)
    assert clear == pytest.approx(70.0)


def test_nothing_stands_below_the_intake() -> None:
    assert clearing_min(steady(0.5, 0.1), 5.0, 60.0) == 0.0


def test_without_a_steady_intake_nobody_knows_when_it_clears() -> None:
    seen = IntakeModel("first runoff", 18.0, None, None, entered("x", 18.0))
    assert clearing_min(seen, 20.0, 15.0) is None


# --- the rate table ----------------------------------------


# USDA maximum precipitation rates, reprinted in Landscape Management, 19 March 2018
@pytest.mark.parametrize(
    ("texture", "slope", "cover", "inches"),
    [
        ("sand", 0.02, "cover", 2.0),
        ("sand", 0.02, "bare", 2.0),
        ("sand", 0.06, "cover", 2.0),
        ("sand", 0.10, "cover", 1.5),
        ("sandy loam", 0.02, "cover", 1.75),
        ("sandy loam", 0.02, "bare", 1.0),
        ("sandy loam", 0.06, "cover", 1.25),
        ("sandy loam", 0.06, "bare", 0.8),
        ("sandy loam", 0.10, "cover", 1.0),
        ("sandy loam", 0.10, "bare", 0.6),
        ("silt loam", 0.02, "cover", 1.0),
        ("silt loam", 0.02, "bare", 0.5),
        ("silt loam", 0.06, "bare", 0.4),
        ("silt loam", 0.10, "cover", 0.6),
        ("clay", 0.02, "cover", 0.2),
        ("clay", 0.02, "bare", 0.15),
        ("clay loam", 0.10, "bare", 0.08),
    ],
)
def test_the_usda_table_is_read_as_printed(
    texture: Any, slope: float, cover: Any, inches: float
) -> None:
    rate = usda_max_rate_mm_per_h(Soil(texture=texture, slope=slope, cover=cover))
    assert rate == pytest.approx(inches * MM_PER_INCH, abs=0.01)


@pytest.mark.parametrize("slope", [0.05, 0.08, 0.12])
def test_a_slope_on_a_boundary_belongs_to_the_steeper_class(slope: float) -> None:
    at = usda_max_rate_mm_per_h(Soil(texture="loam", slope=slope))
    above = usda_max_rate_mm_per_h(Soil(texture="loam", slope=slope + 0.01))
    assert at == above


def test_no_texture_has_no_rate() -> None:
    soil = Soil(field_capacity=0.3, wilting_point=0.1)
    assert usda_max_rate_mm_per_h(soil) is None


def test_the_steepest_class_is_marked_as_from_memory() -> None:
    limit = usda_rate_limit(Soil(texture="loam", slope=0.2))
    assert limit is not None
    assert limit.is_from_memory
    assert "from memory" in limit.trace.source


# --- which knowledge is used ----------------------------------------


def test_a_first_runoff_is_believed_before_the_texture() -> None:
    bay = clay_bay().model_copy(update={"intake": Intake(first_runoff_min=18.0)})
    model, found = intake_model(bay)
    assert (model.kind, model.first_runoff_min, found) == ("first runoff", 18.0, ())


def test_a_stated_intake_is_believed_before_the_texture() -> None:
    own = Intake(intake_mm_per_h=6.35, surface_storage_mm=2.54)
    model, _ = intake_model(clay_bay().model_copy(update={"intake": own}))
    assert (model.kind, model.intake_mm_per_h) == ("constant intake", 6.35)
    assert model.surface_storage_mm == 2.54
    assert model.storage_said == ()


def test_a_texture_gives_the_rate_of_the_table() -> None:
    model, found = intake_model(clay_bay())
    assert model.kind == "usda rate"
    assert model.intake_mm_per_h == pytest.approx(0.15 * MM_PER_INCH, abs=0.01)
    assert found == ()


def test_surface_storage_from_the_table_carries_its_remark() -> None:
    model, _ = intake_model(clay_bay())
    assert model.surface_storage_mm == 6.60
    assert "from memory" in model.storage_said[0].what


@pytest.mark.parametrize("soil", [{"slope": 0.04}, {"slope": None}])
def test_ground_that_is_not_known_to_be_level_lends_no_storage(soil: Any) -> None:
    assert intake_model(clay_bay(**soil))[0].surface_storage_mm is None


def test_a_texture_without_tabled_storage_lends_none() -> None:
    assert intake_model(clay_bay(texture="silt loam"))[0].surface_storage_mm is None


def test_a_missing_slope_is_noted() -> None:
    _, found = intake_model(clay_bay(slope=None))
    assert [one.level for one in found] == ["note"]
    assert "slope is not entered" in found[0].what


def test_a_rate_from_memory_is_noted() -> None:
    _, found = intake_model(clay_bay(slope=0.2))
    assert "from memory" in found[0].what


def test_soil_of_which_nothing_is_known_is_a_warning_to_watch_for_runoff() -> None:
    model, found = intake_model(zone())
    assert model.kind == "none"
    assert found[0].level == "warning"
    assert "first runoff" in found[0].fix


def test_soil_with_own_water_numbers_but_no_texture_has_no_rate_either() -> None:
    bay = soil_zone(field_capacity=0.3, wilting_point=0.1)
    assert intake_model(bay)[0].kind == "none"


def test_pots_are_spoken_of_as_absorption_not_as_soil() -> None:
    model, found = intake_model(pot_zone())
    assert model.word == "absorption"
    assert "absorption, not soil intake" in found[0].what
    assert "pre-wet" in found[0].fix


def test_a_zone_with_fixed_minutes_is_not_asked_about_its_intake() -> None:
    mist = zone(watered="fixed minutes", fixed_minutes=5.0)
    assert intake_model(mist)[1] == ()
