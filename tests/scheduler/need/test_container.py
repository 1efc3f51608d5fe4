from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.capture import pot_volume_ml
from scheduler.need.container import bed_factor, held_ml
from scheduler.need.pot_layout import pot_top_area_cm2
from scheduler.site import Basis, Plant, Pots, Zone


def _pots(**changes: Any) -> Pots:
    given: dict[str, Any]
    given = {"top_diameter_mm": 254.0, "spacing_m": 0.4, "capture_factor": 1.0}
    return Pots(**{k: v for k, v in (given | changes).items() if v is not None})


def _zone(kc_area: Basis, *, pots: Pots | None = None, **plant: Any) -> Zone:
    given: dict[str, Any] = {"name": "viburnum", "kc": 3.0, "kc_area": kc_area}
    return Zone(
        id="P1",
        name="block 1",
        area_m2=400.0,
        grown_in="soil" if pots is None else "pots",
        plant=Plant(**(given | plant)),
        pots=pots,
    )


# --- water in the pot ----------------------------------------------------------------


def test_a_millimetre_on_a_square_centimetre_is_a_tenth_of_a_millilitre() -> None:
    pots = _pots()
    expected = pot_top_area_cm2(pots) / 10.0
    assert pot_volume_ml(1.0, pots) == pytest.approx(expected)


def test_an_unknown_capture_factor_counts_as_1() -> None:
    unknown = pot_volume_ml(10.0, _pots(capture_factor=None))
    assert unknown == pot_volume_ml(10.0, _pots(capture_factor=1.0))


def test_a_measured_available_water_wins_over_a_computed_one() -> None:
    pots = _pots(
        available_water_ml=1800.0, substrate_volume_ml=10000.0,
        container_capacity=0.5, unavailable_water=0.25,
    )  # fmt: skip
    assert held_ml(pots) == 1800.0


@pytest.mark.parametrize(
    "gone", ["substrate_volume_ml", "container_capacity", "unavailable_water"]
)
def test_a_pot_with_an_unknown_holds_an_unknown(gone: str) -> None:
    known = {
        "substrate_volume_ml": 10000.0,
        "container_capacity": 0.5,
        "unavailable_water": 0.25,
    }
    assert held_ml(_pots(**(known | {gone: None}))) is None


# --- from the plant's area to the bed ---------------------------------------------


def test_a_coefficient_on_the_bed_needs_no_factor() -> None:
    found, findings = bed_factor(_zone("bed"))
    assert found is not None
    assert (found.factor, findings) == (1.0, ())


def test_a_pot_coefficient_of_3_with_capture_2_is_1_and_a_half_on_the_bed() -> None:
    zone = _zone("pot top", pots=_pots(capture_factor=2.0))
    found, findings = bed_factor(zone)
    assert found is not None
    assert (3.0 * found.factor, findings) == (1.5, ())


@given(st.floats(0.5, 8), st.floats(0.5, 4), st.floats(0.3, 1.2))
def test_the_depth_on_the_bed_puts_the_plants_water_into_the_pot(
    etc_mm: float, capture: float, spacing: float
) -> None:
    pots = _pots(capture_factor=capture, spacing_m=spacing)
    found, _ = bed_factor(_zone("pot top", pots=pots))
    assert found is not None
    used_ml = etc_mm * pot_top_area_cm2(pots) / 10.0
    assert pot_volume_ml(etc_mm * found.factor, pots) == pytest.approx(used_ml)


def test_a_canopy_twice_as_wide_as_the_pot_needs_four_times_the_depth() -> None:
    zone = _zone("canopy", pots=_pots(spacing_m=0.6), canopy_width_m=0.508)
    found, findings = bed_factor(zone)
    assert found is not None
    assert found.factor == pytest.approx(4.0)
    assert findings == ()


def test_a_canopy_counts_at_most_the_ground_its_pot_has() -> None:
    zone = _zone("canopy", pots=_pots(spacing_m=0.3), canopy_width_m=2.0)
    found, _ = bed_factor(zone)
    assert found is not None
    # 0.09 m2 of ground over 0.05067 m2 of pot top
    assert found.factor == pytest.approx(0.09 / 0.0506707, rel=1e-4)


def test_an_unknown_capture_factor_is_guessed_with_a_warning() -> None:
    found, findings = bed_factor(_zone("pot top", pots=_pots(capture_factor=None)))
    assert found is not None
    assert found.factor == 1.0
    assert [one.level for one in findings] == ["warning"]
    assert found.trace.find("capture_factor") is not None


@pytest.mark.parametrize(
    ("pots", "width"), [(_pots(), None), (_pots(spacing_m=None), 0.5)]
)
def test_a_canopy_of_unknown_size_or_spacing_stops(
    pots: Pots, width: float | None
) -> None:
    found, findings = bed_factor(_zone("canopy", pots=pots, canopy_width_m=width))
    assert found is None
    assert [one.level for one in findings] == ["stop"]


@pytest.mark.parametrize("kc_area", ["pot top", "canopy"])
def test_soil_has_no_pot_top_and_no_spacing(kc_area: Basis) -> None:
    found, findings = bed_factor(_zone(kc_area, canopy_width_m=0.5))
    assert found is None
    assert f"on the {kc_area}" in findings[0].what


def test_a_zone_without_plant_stops() -> None:
    off = Zone(id="Z9", name="empty", area_m2=10.0, grown_in="soil", watered="off")
    found, findings = bed_factor(off)
    assert found is None
    assert findings[0].level == "stop"


@pytest.mark.parametrize(
    "pots",
    [
        _pots(spacing_m=0.15),
        _pots(spacing_m=0.3, row_spacing_m=0.1, pattern="offset"),
    ],
)
def test_pots_that_would_overlap_are_told_about_rims_and_centres(pots: Pots) -> None:
    _, findings = bed_factor(_zone("pot top", pots=pots))
    assert "centre to centre" in findings[0].fix


def test_offset_rows_may_stand_closer_than_the_pots_are_wide() -> None:
    pots = _pots(spacing_m=0.26, pattern="offset")
    assert bed_factor(_zone("pot top", pots=pots))[1] == ()


def test_the_trace_of_a_canopy_reaches_what_was_entered() -> None:
    found, _ = bed_factor(_zone("canopy", pots=_pots(), canopy_width_m=0.3))
    assert found is not None
    names = [one.name for one in found.trace.chain()]
    assert names[-1] == "bed_factor"
    assert {"canopy_width_m", "top_diameter_mm", "capture_factor"} <= set(names)


def test_pots_that_would_overlap_are_told_for_a_coefficient_on_the_bed_too() -> None:
    tight = Pots(top_diameter_mm=254.0, spacing_m=0.15)
    _, findings = bed_factor(_zone("bed").model_copy(update={"pots": tight}))
    assert [one.level for one in findings] == ["warning"]
    assert "150 mm" in findings[0].what
