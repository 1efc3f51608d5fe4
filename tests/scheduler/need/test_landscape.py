"""Landscape coefficients, plant factors and guesses from the canopy."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.landscape import (
    CLOSED_SHARE,
    canopy_coefficient,
    canopy_kc,
    landscape_coefficient,
    landscape_kc,
    plant_factor_kc,
)
from scheduler.plant import Closure, Landscape, PlantFactor


# Costello, Matheny and Clark (2000), chapter 3, example 7: a new planting
def test_a_new_planting_of_low_water_users_needs_a_tenth() -> None:
    kl = landscape_coefficient(0.2, density_factor=0.5, microclimate_factor=1.0)
    assert kl == pytest.approx(0.1)


# WUCOLS IV: high 70 to 90 %, moderate 40 to 60 %, low 10 to 30 % of reference ET
@pytest.mark.parametrize(
    ("species", "taken"), [("high", 0.8), ("moderate", 0.5), ("low", 0.2)]
)
def test_a_species_class_takes_the_middle_of_its_range(
    species: Any, taken: float
) -> None:
    made = landscape_kc(Landscape(species=species), "zone Z1")
    assert made.kc == pytest.approx(taken)
    assert made.findings == ()


def test_the_three_factors_stand_in_the_trace() -> None:
    made = landscape_kc(
        Landscape(species="low", density="high", microclimate="low"), "zone Z1"
    )
    names = [one.name for one in made.trace.inputs]
    assert names == ["species_factor", "density_factor", "microclimate_factor"]
    assert made.kc == pytest.approx(0.2 * 1.2 * 0.7)


def test_a_range_from_memory_is_said() -> None:
    made = landscape_kc(Landscape(species="low", density="high"), "zone Z1")
    (found,) = made.findings
    assert found.where == "zone Z1: density_factor"
    assert "from memory" in found.what


def test_an_own_number_is_traced_as_entered() -> None:
    made = landscape_kc(Landscape(species_factor=0.55), "zone Z1")
    assert (made.kc, made.trace.inputs[0].source) == (0.55, "entered")


def test_an_own_number_outside_every_class_is_said() -> None:
    made = landscape_kc(Landscape(species_factor=1.2), "zone Z1")
    (found,) = made.findings
    assert found.level == "warning"
    assert "1.2 lies outside every class (0 to 0.9)" in found.what


@pytest.mark.parametrize(
    ("factor", "kc", "said"), [("moderate", 0.5, 0), ("desert plants", 0.3, 1)]
)
def test_a_plant_factor_is_the_value_of_its_class(
    factor: PlantFactor, kc: float, said: int
) -> None:
    made = plant_factor_kc(factor, "zone Z1")
    assert (made.kc, len(made.findings)) == (kc, said)


# FAO-56 equations 98 and 99 by hand: full 1.05, 0.5 ^ (1 / 1.5) = 0.63
def test_half_closed_shrubs_of_half_a_metre() -> None:
    assert canopy_coefficient(0.5, height_m=0.5) == pytest.approx(0.717, abs=0.001)


def test_bare_ground_uses_the_least() -> None:
    assert canopy_coefficient(0.0, height_m=0.5) == pytest.approx(0.15)


def test_a_closed_canopy_uses_more_the_taller_it_is() -> None:
    assert canopy_coefficient(1.0, height_m=2.0) == pytest.approx(1.2)


@given(st.floats(0.0, 0.9), st.floats(0.05, 6.0))
def test_a_canopy_that_closes_never_needs_less(closed: float, height: float) -> None:
    low = canopy_coefficient(closed, height_m=height)
    high = canopy_coefficient(closed + 0.1, height_m=height)
    assert 0.15 <= low <= high <= 1.2


@pytest.mark.parametrize("word", CLOSED_SHARE)
def test_every_word_for_a_canopy_is_a_guess_that_says_so(word: Closure) -> None:
    made = canopy_kc(word, None, 0.5, "zone Z1")
    (found,) = made.findings
    assert found.level == "warning"
    assert "guess" in found.what
    assert "leaching checks" in found.fix


def test_an_estimated_share_is_taken_as_it_is() -> None:
    made = canopy_kc(None, 0.5, 0.5, "zone Z1")
    assert made.kc == pytest.approx(canopy_coefficient(0.5, height_m=0.5))


def test_a_height_that_nobody_entered_is_traced_as_assumed() -> None:
    height = canopy_kc("closed", None, None, "zone Z1").trace.find("height_m")
    assert height is not None
    assert (height.value, height.formula) == (0.5, "assumed")
