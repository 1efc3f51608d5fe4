"""Wet ground counted apart from the plants, by the nights that wet it."""

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.climate import Climate, site_climate
from scheduler.need.dual_use import DualDays, DualUse, Wetting, dual_use
from scheduler.site import Plant, Soil
from tests.scheduler.need.made import days, plain

NO_AIR = Climate(())
NIGHTLY = Wetting((True,) * 7, None)
NEVER = Wetting((False,) * 7, None)
WEEK = days("2026-06-01", 14)


def _plant(**given: Any) -> Plant:
    base = {"name": "bed", "kc": 0.3, "kc_area": "bed", "dual": True, "height_m": 0.3}
    return Plant.model_validate(base | given)


def _use(wetting: Wetting = NIGHTLY, soil: Soil | None = None, **plant: Any) -> DualUse:
    made, _ = dual_use(
        _plant(**plant), soil or Soil(texture="loam"), wetting, NO_AIR, "zone Z1"
    )
    assert made is not None
    return made


def _days(
    use: DualUse, eto: float = 5.0, rain: float = 0.0, kcb: float = 0.3
) -> DualDays:
    n = WEEK.size
    return use.days(np.full(n, kcb), np.full(n, eto), np.full(n, rain), WEEK)


# wet every night: Kr is 1, so Kcb + Ke is Kc max, 1.2 in the air of the tables
def test_ground_wetted_every_night_uses_all_that_can_be_used() -> None:
    run = _days(_use())
    assert run.kcb + run.ke == pytest.approx(np.full(14, 1.2))


def test_ground_that_is_never_wetted_evaporates_nothing() -> None:
    assert _days(_use(NEVER)).ke == pytest.approx(np.zeros(14))


def test_rain_every_day_wets_the_ground_as_well() -> None:
    assert _days(_use(NEVER), rain=30.0).ke == pytest.approx(np.full(14, 0.9))


def test_watering_twice_a_week_lies_between() -> None:
    monday_and_thursday = Wetting((True, False, False, True, False, False, False), None)
    some = float(_days(_use(monday_and_thursday)).ke.mean())
    assert 0.1 < some < 0.85


def test_the_day_after_an_open_evening_is_wetted() -> None:
    # 1 June 2026 is a Monday: the night of Monday wets Tuesday
    mondays = Wetting((True, *(False,) * 6), None)
    run = _days(_use(mondays))
    assert np.flatnonzero(run.is_wetted).tolist() == [1, 8]


def test_an_allowed_depletion_spares_nights() -> None:
    seldom = _days(_use(Wetting((True,) * 7, 25.0)))
    assert 0 < seldom.is_wetted.sum() < 6


def test_a_depletion_that_a_day_would_pass_waters_every_night() -> None:
    assert _days(_use(Wetting((True,) * 7, 2.0))).is_wetted.all()


def test_entered_cover_leaves_less_ground_to_evaporate() -> None:
    shaded = _days(_use(ground_cover=0.9))
    # few x Kc max = 0.1 x 1.2
    assert shaded.ke == pytest.approx(np.full(14, 0.12))


# FAO-56 equation 72: 1.2 + [0.04 x 3 + 0.004 x 25] (0.3 / 3)^0.3 = 1.2 + 0.22 x 0.501
def test_the_air_of_the_month_moves_the_upper_limit() -> None:
    dry = site_climate(
        [plain(365, date=days("2026-01-01", 365), wind_m_per_s=5.0, rh_min=0.2)]
    )
    use, _ = dual_use(_plant(), Soil(texture="loam"), NIGHTLY, dry, "zone Z1")
    assert use is not None
    assert _days(use).most == pytest.approx(np.full(14, 1.310), abs=0.001)


# FAO-56 Table 19: loam 16 to 22 mm in all, 8 to 10 mm readily
def test_evaporable_water_of_a_texture_is_the_middle_of_its_range() -> None:
    skin = _use().skin
    assert (skin.total_mm, skin.readily_mm) == (19.0, 9.0)


# FAO-56 Example 35 (p. 154): 0.23 and 0.10 give 18 mm; 8 mm readily as stated there
def test_entered_water_contents_go_through_equation_73() -> None:
    soil = Soil(field_capacity=0.23, wilting_point=0.10, readily_evaporable_mm=8.0)
    skin = _use(soil=soil).skin
    assert skin.total_mm == pytest.approx(18.0)
    assert skin.readily_mm == 8.0


def test_a_texture_without_a_row_takes_its_neighbour_and_says_so() -> None:
    _, findings = dual_use(
        _plant(), Soil(texture="clay loam"), NIGHTLY, NO_AIR, "zone Z1"
    )
    assert "no row for clay loam: that of silty clay loam" in findings[0].what


def test_soil_without_a_texture_must_say_what_evaporates_readily() -> None:
    soil = Soil(field_capacity=0.23, wilting_point=0.10)
    use, (found,) = dual_use(_plant(), soil, NIGHTLY, NO_AIR, "zone Z1")
    assert use is None
    assert found.level == "stop"
    assert "give texture or readily_evaporable" in found.fix


def test_more_that_evaporates_readily_than_in_all_is_refused() -> None:
    soil = Soil(field_capacity=0.23, wilting_point=0.10, readily_evaporable_mm=20.0)
    use, (found,) = dual_use(_plant(), soil, NIGHTLY, NO_AIR, "zone Z1")
    assert use is None
    assert "20 mm evaporate readily, of 18.0 mm in all" in found.what


@given(st.floats(0.15, 1.1), st.floats(0.1, 10.0), st.floats(0.0, 20.0))
def test_plants_and_ground_never_pass_the_upper_limit(
    kcb: float, eto: float, rain: float
) -> None:
    run = _days(_use(Wetting((True,) * 7, 20.0)), eto, rain, kcb)
    assert (run.ke >= 0).all()
    assert (run.ke <= run.most - run.kcb + 1e-12).all()


@given(st.floats(0.5, 10.0), st.floats(0.0, 5.0))
def test_more_reference_et_never_needs_less_water(eto: float, more: float) -> None:
    def use(asked: float) -> float:
        run = _days(_use(Wetting((True, False) * 3 + (False,), None)), asked)
        return float(((run.kcb + run.ke) * asked).sum())

    assert use(eto + more) >= use(eto) - 1e-9


def test_air_that_nobody_measured_is_said() -> None:
    _, (found,) = dual_use(_plant(), Soil(texture="loam"), NIGHTLY, NO_AIR, "zone Z1")
    assert "2 m/s and 45 %" in found.what


def test_the_air_of_the_month_is_kept_for_the_trace() -> None:
    assert _days(_use()).rh_min == pytest.approx(np.full(14, 0.45))


def test_the_nights_of_a_plan_stand_above_the_pattern() -> None:
    # 1 June 2026 is day number 20605; the evenings of the 1st and the 3rd water
    planned = (True, False, True, *(False,) * 10)
    run = _days(_use(Wetting((True,) * 7, None, 20605, planned)))
    # the evening before the 1st is none of the plan's, and open
    assert np.flatnonzero(run.is_wetted).tolist() == [0, 1, 3]
