"""What a plant takes for its water use, and what it refuses."""

import datetime as dt
from typing import Any

import pytest
from pydantic import ValidationError

from scheduler.site import Plant, Soil, StageCurve, Zone
from scheduler.tables import read_table

START = dt.date(2026, 5, 1)


def _plant(**given: Any) -> Plant:
    return Plant.model_validate({"name": "bed 4"} | given)


def _curve(**changes: Any) -> dict[str, Any]:
    return {
        "start": START,
        "initial_days": 25,
        "development_days": 25,
        "mid_days": 30,
        "late_days": 20,
        "kc_initial": 0.15,
        "kc_mid": 1.19,
        "kc_end": 0.35,
    } | changes


def test_exactly_one_crop_coefficient_is_wanted() -> None:
    with pytest.raises(ValidationError, match=r"exactly one.*found kc, kc_by_month"):
        _plant(kc=0.8, kc_by_month=(0.8,) * 12, kc_area="bed")


def test_a_plant_without_any_use_is_refused() -> None:
    with pytest.raises(ValidationError, match="exactly one"):
        _plant(kc_area="bed")


def test_a_crop_of_the_table_is_on_the_bed_without_saying_so() -> None:
    assert _plant(crop="turf cool season").kc_area == "bed"


def test_an_entered_coefficient_still_needs_its_area() -> None:
    with pytest.raises(ValidationError, match="kc_area"):
        _plant(kc=0.8)


def test_a_table_coefficient_on_the_pot_top_is_refused() -> None:
    with pytest.raises(ValidationError, match="crop gives a coefficient for the bed"):
        _plant(crop="turf cool season", kc_area="pot top")


def test_an_unknown_crop_is_told_every_name_of_the_table() -> None:
    with pytest.raises(ValidationError, match="did you mean tomato") as refused:
        _plant(crop="tomatoe")
    names = [row["crop"] for row in read_table("crops.csv")]
    assert [one for one in names if one not in str(refused.value)] == []


def test_a_crop_is_kept_under_the_table_s_own_name() -> None:
    assert _plant(crop="Turf_Cool_Season").crop == "turf cool season"


def test_a_crop_with_stages_needs_the_day_it_begins() -> None:
    with pytest.raises(ValidationError, match="give planted"):
        _plant(crop="tomato")


def test_a_crop_without_stage_lengths_takes_no_planting_day() -> None:
    with pytest.raises(ValidationError, match="no stage lengths"):
        _plant(crop="strawberry", planted=START)


def test_own_stage_lengths_stand_in_for_those_of_the_table() -> None:
    own = {"initial": 20, "development": 30, "mid": 60, "late": 30}
    plant = _plant(crop="strawberry", planted=START, stage_days=own)
    assert plant.crop_days == (20, 30, 60, 30)


def test_a_crop_beside_an_own_coefficient_leaves_the_coefficient() -> None:
    plant = _plant(crop="tomato", kc=0.9, kc_area="bed")
    assert plant.source == "kc"


def test_a_planting_day_without_a_crop_is_refused() -> None:
    with pytest.raises(ValidationError, match="need crop"):
        _plant(kc=0.8, kc_area="bed", planted=START)


def test_a_curve_longer_than_a_year_cannot_begin_anew_each_year() -> None:
    with pytest.raises(ValidationError, match="370 days"):
        StageCurve.model_validate(_curve(mid_days=300))


def test_a_curve_of_one_planting_may_be_longer_than_a_year() -> None:
    curve = StageCurve.model_validate(_curve(mid_days=300, every_year=False))
    assert curve.mid_days == 300


@pytest.mark.parametrize("given", [{}, {"species": "low", "species_factor": 0.2}])
def test_a_landscape_names_its_species_once(given: dict[str, Any]) -> None:
    with pytest.raises(ValidationError, match="one of the two"):
        _plant(landscape=given)


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"plant_factor": "moderate"}, "dual = true needs kc"),
        ({"kc": 0.3, "kc_area": "pot top"}, "dual = true needs kc"),
        ({"kc": 0.3, "kc_area": "bed"}, "needs height"),
    ],
)
def test_a_dual_coefficient_says_what_it_needs(
    given: dict[str, Any], message: str
) -> None:
    with pytest.raises(ValidationError, match=message):
        _plant(dual=True, **given)


def test_ground_cover_is_for_the_dual_coefficient() -> None:
    with pytest.raises(ValidationError, match="needs dual"):
        _plant(kc=0.8, kc_area="bed", ground_cover=0.5)


def test_a_dual_coefficient_is_for_soil() -> None:
    plant = _plant(crop="turf cool season", dual=True)
    with pytest.raises(ValidationError, match="beds in soil"):
        Zone(id="Z1", name="a", area_m2=9.0, grown_in="pots", plant=plant)


def test_a_what_if_coefficient_keeps_the_crop_s_roots() -> None:
    plant = _plant(crop="tomato", planted=START, dual=True)
    tried = Plant.model_validate(plant.with_kc(0.9, "what-if"))
    assert (tried.source, tried.crop, tried.dual) == ("kc", "tomato", False)


def test_stage_one_water_of_the_soil_has_bounds() -> None:
    with pytest.raises(ValidationError, match="readily_evaporable_mm"):
        Soil(texture="loam", readily_evaporable_mm=300.0)


def test_a_factor_corrects_whatever_gives_the_coefficient() -> None:
    turf = _plant(turf="cool season, California", kc_factor=1.2)
    assert Plant.model_validate(turf.times(0.5)).kc_factor == pytest.approx(0.6)


def test_an_entered_coefficient_replaces_the_factor_as_well() -> None:
    turf = _plant(turf="cool season, California", kc_factor=1.2)
    assert Plant.model_validate(turf.with_kc(0.9, "what-if")).kc_factor == 1.0


@pytest.mark.parametrize("factor", [0.0, 0.1, 12.0])
def test_a_factor_that_is_a_slip_is_refused(factor: float) -> None:
    with pytest.raises(ValidationError, match="kc_factor"):
        _plant(kc=0.8, kc_area="bed", kc_factor=factor)
