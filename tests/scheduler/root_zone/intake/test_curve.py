"""Intake constants of a zone, and the curve they make."""

from typing import Any

import pytest

from scheduler.root_zone.infiltration import GreenAmpt, Horton, Kostiakov
from scheduler.root_zone.intake import intake_model, longest_cycle_min
from scheduler.root_zone.intake.curve import stated_curve
from scheduler.site import (
    GreenAmptIntake,
    HortonIntake,
    Intake,
    KostiakovIntake,
    Zone,
)
from tests.scheduler.root_zone.made import soil_zone


def bay(intake: dict[str, Any], **soil: Any) -> Zone:
    made = soil_zone(**({"texture": "silt loam", "slope": 0.02} | soil))
    return made.model_copy(update={"intake": Intake(**intake)})


FALLING = HortonIntake(initial_mm_per_h=75.0, final_mm_per_h=10.0, decay_per_h=2.0)


def test_horton_numbers_make_their_curve() -> None:
    stated = stated_curve(bay({"horton": FALLING}))
    assert stated is not None
    assert stated.curve == Horton(75.0, 10.0, 2.0)


def test_kostiakov_numbers_make_their_curve() -> None:
    own = KostiakovIntake(first_hour_mm=30.0, exponent=0.6, steady_mm_per_h=4.0)
    stated = stated_curve(bay({"kostiakov": own}))
    assert stated is not None
    assert stated.curve == Kostiakov(30.0, 0.6, 4.0)


def test_an_intake_family_says_that_nobody_checked_it() -> None:
    stated = stated_curve(bay({"family": 0.5}))
    assert stated is not None
    assert "unverified" in stated.findings[0].what


# Rawls, Brakensiek and Miller (1983), Table 2: silt loam 166.8 mm, 6.5 mm/h
def test_green_ampt_takes_conductivity_and_suction_from_the_texture() -> None:
    own = GreenAmptIntake(moisture_deficit=0.3)
    stated = stated_curve(bay({"green_ampt": own}))
    assert stated is not None
    assert stated.curve == GreenAmpt(6.5, 166.8 * 0.3)


def test_a_constant_of_the_texture_names_its_table_and_not_the_user() -> None:
    stated = stated_curve(bay({"green_ampt": GreenAmptIntake(suction_mm=150.0)}))
    assert stated is not None
    sources = {one.name: one.source for one in stated.trace.inputs}
    assert "Table 2" in sources["conductivity_mm_per_h"]
    assert sources["suction_mm"] == "entered"
    assert "no source" in sources["moisture_deficit"]


def test_green_ampt_without_a_deficit_says_what_it_took() -> None:
    stated = stated_curve(bay({"green_ampt": GreenAmptIntake()}))
    assert stated is not None
    # porosity 0.501 less (0.330 - half of 0.197)
    assert "0.27 is assumed" in stated.findings[0].what


def test_green_ampt_without_texture_or_numbers_is_said() -> None:
    zone = bay(
        {"green_ampt": GreenAmptIntake()},
        texture=None, field_capacity=0.3, wilting_point=0.1,
    )  # fmt: skip
    _, findings = intake_model(zone)
    assert "needs the soil's texture" in findings[0].what


def test_a_curve_without_known_storage_takes_ponding_as_runoff() -> None:
    model, findings = intake_model(bay({"horton": FALLING}, slope=0.06))
    assert longest_cycle_min(model, 40.0) == pytest.approx(32.05, abs=0.01)
    assert any("none is assumed" in one.what for one in findings)


def test_later_cycles_on_a_curve_run_off_sooner() -> None:
    model, _ = intake_model(bay({"horton": FALLING}))
    later = longest_cycle_min(model, 40.0, infiltrated_mm=20.0)
    assert later < longest_cycle_min(model, 40.0)


def test_an_unknown_family_is_refused() -> None:
    with pytest.raises(ValueError, match="no intake family held here"):
        Intake(family=0.7)
