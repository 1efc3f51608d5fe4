"""Pots, soil and intake: what they refuse."""

from typing import Any

import pytest
from pydantic import ValidationError

from scheduler.growing import HortonIntake, Intake, Pots, Soil


def test_water_that_roots_cannot_take_stays_below_what_the_pot_holds() -> None:
    with pytest.raises(ValidationError, match="below container_capacity"):
        Pots(top_diameter_mm=200.0, container_capacity=0.3, unavailable_water=0.3)


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({}, "give texture"),
        ({"field_capacity": 0.2, "wilting_point": 0.3}, "below field_capacity"),
    ],
)
def test_soil_water_is_known_or_refused(given: dict[str, Any], message: str) -> None:
    with pytest.raises(ValidationError, match=message):
        Soil(**given)


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"first_runoff_min": 16.0, "intake_mm_per_h": 6.0}, "not several"),
        ({"surface_storage_mm": 2.5}, "needs intake_mm_per_h"),
    ],
)
def test_intake_is_told_in_one_way(given: dict[str, Any], message: str) -> None:
    with pytest.raises(ValidationError, match=message):
        Intake(**given)


@pytest.mark.parametrize("size", [1e-300, 1e300])
def test_a_pot_that_no_bed_can_hold_is_refused(size: float) -> None:
    with pytest.raises(ValidationError):
        Pots(top_diameter_mm=size)


def test_an_intake_that_does_not_fall_is_refused() -> None:
    with pytest.raises(ValidationError, match="below the initial"):
        HortonIntake(initial_mm_per_h=10.0, final_mm_per_h=10.0, decay_per_h=2.0)


def test_leaching_is_told_in_one_way() -> None:
    with pytest.raises(ValidationError, match="not both"):
        Pots(top_diameter_mm=200.0, leaching_target=0.15, leachate_ec_ds_per_m=2.0)
    with pytest.raises(ValidationError, match="not both"):
        Soil(texture="loam", target_ec_ds_per_m=2.0, salt_crop="bean")


def test_a_crop_outside_the_salt_table_is_refused_with_the_nearest() -> None:
    with pytest.raises(ValidationError, match="did you mean bean"):
        Soil(texture="loam", salt_crop="beans")


@pytest.mark.parametrize("slip", [0.0009, 850.0])
def test_a_slip_between_micro_and_milli_siemens_is_refused(slip: float) -> None:
    with pytest.raises(ValidationError):
        Pots(top_diameter_mm=200.0, leachate_ec_ds_per_m=slip)


@pytest.mark.parametrize("root_depth_m", [25.0, 0.0025])
def test_roots_deeper_than_any_or_of_a_hair_are_a_slip_of_unit(
    root_depth_m: float,
) -> None:
    with pytest.raises(ValidationError, match="root_depth_m"):
        Soil(texture="loam", root_depth_m=root_depth_m)
