"""The coefficient that weighing pots gives."""

import datetime as dt
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from scheduler.need.weighed import weighed_kc, weighed_plant
from scheduler.need.zone_use import zone_use
from scheduler.site import Plant, Pots, WeighedUse, Zone

POTS = Pots(top_diameter_mm=254.0, capture_factor=1.0)
DAY = np.array(["2026-06-08"], "datetime64[D]")


def holly(loss_ml: float, eto_mm: float = 5.0) -> Zone:
    use = WeighedUse(daily_loss_ml=loss_ml, eto_mm=eto_mm, on=dt.date(2026, 6, 1))
    plant = Plant(name="holly", weighed=use, kc_area="pot top")
    return Zone(
        id="Z4", name="yard", area_m2=9.0, grown_in="pots", plant=plant, pots=POTS
    )


def test_half_a_litre_from_a_10_inch_pot_at_5_mm_is_a_kc_of_2() -> None:
    # by hand: 500 mL / 506.7 cm2 = 9.87 mm; / 5 mm = 1.97
    assert weighed_kc(
        WeighedUse(daily_loss_ml=500.0, eto_mm=5.0), POTS
    ) == pytest.approx(1.9735, abs=1e-3)


@given(st.floats(10, 400), st.floats(1, 10))
def test_the_pot_gets_back_what_it_lost_at_the_same_weather(
    loss_ml: float, eto_mm: float
) -> None:
    use, _ = zone_use(holly(loss_ml, eto_mm), DAY)
    assert use is not None
    on_bed_mm = use.etc_mm_per_day(np.array([eto_mm]), DAY)[0]
    assert on_bed_mm * math.pi / 4 * 25.4**2 / 10 == pytest.approx(loss_ml)


def test_the_weighing_is_where_the_coefficient_came_from() -> None:
    made = weighed_plant(holly(500.0))
    assert made is not None
    assert made.kc_from.startswith("weighing on 2026-06-01: 500 mL")


def test_a_weighing_on_the_bed_is_refused() -> None:
    use = WeighedUse(daily_loss_ml=500.0, eto_mm=5.0)
    with pytest.raises(ValidationError, match="needs kc_area = 'pot top'"):
        Plant(name="holly", weighed=use, kc_area="bed")


def test_a_weighing_without_pots_is_refused() -> None:
    plant = holly(500.0).plant
    with pytest.raises(ValidationError, match="weighed use needs"):
        Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", plant=plant)


def test_a_loss_of_fifty_litres_a_day_is_refused_with_what_was_entered() -> None:
    use, (found,) = zone_use(holly(50000.0), DAY)
    assert use is None
    assert found.level == "stop"
    assert "50000 mL a pot and day at 5.0 mm" in found.what
