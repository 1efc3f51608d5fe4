"""What is known of the intake of a zone."""

from typing import Any

import pytest

from scheduler.root_zone.intake import (
    IntakeModel,
    intake_model,
)
from scheduler.site import Intake, Zone
from scheduler.trace import entered
from scheduler.units import MM_PER_INCH
from tests.scheduler.root_zone.made import pot_zone, soil_zone, zone


def steady(rate_in_per_h: float, storage_in: float | None) -> IntakeModel:
    stands = None if storage_in is None else storage_in * MM_PER_INCH
    leaf = entered("intake_model", "test")
    return IntakeModel("constant intake", None, rate_in_per_h * 25.4, stands, leaf)


def clay_bay(**soil: Any) -> Zone:
    return soil_zone(**({"texture": "clay loam", "slope": 0.02} | soil))


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
