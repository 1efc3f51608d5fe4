"""What the ground takes in: the USDA table, surface storage, a runoff that was seen."""

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
)
from scheduler.site import Intake, Plant, Soil, Zone
from scheduler.trace import entered

BAY = IntakeModel("constant intake", None, 6.35, 2.54, entered("x", None))
# USDA maximum rates, in/h, as reprinted in Landscape Management, 19 March 2018
USDA = [
    ("sand", 0.03, "cover", 2.0),
    ("sand", 0.06, "bare", 1.5),
    ("sandy loam", 0.03, "bare", 1.0),
    ("sandy loam", 0.10, "cover", 1.0),
    ("loam", 0.06, "bare", 0.4),
    ("clay", 0.10, "bare", 0.08),
]


def zone(**given: Any) -> Zone:
    plant = Plant(name="oaks", kc=0.8, kc_area="bed")
    base: dict[str, Any] = {
        "id": "Z1", "name": "bay", "area_m2": 100.0, "grown_in": "soil", "plant": plant,
    }  # fmt: skip
    return Zone(**(base | given))


@pytest.mark.parametrize(("texture", "slope", "cover", "rate"), USDA)
def test_the_usda_table(texture: Any, slope: float, cover: Any, rate: float) -> None:
    found = usda_max_rate_mm_per_h(Soil(texture=texture, slope=slope, cover=cover))
    assert found is not None
    assert found / 25.4 == pytest.approx(rate, abs=0.001)


def test_the_worked_bay_runs_16_minutes_before_runoff() -> None:
    # 0.62 in/h, intake 0.25 in/h, 0.10 in on the surface: 60 x 0.10 / 0.37
    assert longest_cycle_min(BAY, 0.62 * 25.4) == pytest.approx(16.2, abs=0.05)


def test_the_worked_bay_clears_in_22_minutes() -> None:
    found = clearing_min(BAY, 0.62 * 25.4, 15.0)
    assert found == pytest.approx(22.2, abs=0.05)


def test_a_rate_below_intake_has_no_limit() -> None:
    assert longest_cycle_min(BAY, 6.0) == math.inf


def test_a_runoff_that_was_seen_is_not_scaled_by_the_wet_positions() -> None:
    seen = IntakeModel("first runoff", 12.0, None, None, entered("x", None))
    assert longest_cycle_min(seen, 10.0) == longest_cycle_min(seen, 99.0) == 12.0


@given(st.floats(7.0, 60.0), st.floats(0.0, 30.0))
def test_a_wetter_position_is_never_allowed_longer(rate: float, more: float) -> None:
    assert longest_cycle_min(BAY, rate + more) <= longest_cycle_min(BAY, rate)


def test_what_was_entered_wins_over_the_texture() -> None:
    soil = Soil(texture="clay", slope=0.02)
    model, _ = intake_model(zone(soil=soil, intake=Intake(first_runoff_min=9.0)))
    assert (model.kind, model.first_runoff_min) == ("first runoff", 9.0)


def test_texture_and_slope_give_a_limit_on_the_rate() -> None:
    model, _ = intake_model(zone(soil=Soil(texture="loam", slope=0.02)))
    assert model.kind == "usda rate"


def test_nothing_known_sets_no_limit_and_says_so() -> None:
    model, findings = intake_model(zone())
    assert longest_cycle_min(model, 50.0) == math.inf
    assert "first_runoff_min" in findings[0].fix


def test_pots_absorb_and_do_not_take_in() -> None:
    model, findings = intake_model(zone(grown_in="pots"))
    assert model.word == "absorption"
    assert "absorption" in findings[0].what
