"""Millilitres in one pot."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.capture import pot_volume_ml
from scheduler.site import Pots
from scheduler.watering.pot_water import pot_water

POTS = Pots(top_diameter_mm=254.0, capture_factor=1.5, gap_m=0.3)


def test_half_an_hour_at_12_mm_an_hour_by_hand() -> None:
    # 6 mm x 506.7 cm2 / 10 x 1.5 = 456 mL
    made = pot_water(POTS, 30, net_rate_mm_per_h=12.0, driest_share=0.72)
    assert made.mean_ml == pytest.approx(456.0, abs=0.1)
    assert made.driest_ml == pytest.approx(456.0 * 0.72, abs=0.1)
    assert made.ml_per_min == pytest.approx(15.2, abs=0.01)


@given(st.integers(1, 300), st.floats(1, 60))
def test_it_is_what_the_depth_on_the_bed_brings_into_the_pot(
    minutes: int, rate: float
) -> None:
    made = pot_water(POTS, minutes, net_rate_mm_per_h=rate, driest_share=1.0)
    assert made.mean_ml == pytest.approx(pot_volume_ml(rate * minutes / 60, POTS))


def test_pots_that_cannot_stand_so_tell_no_gaps() -> None:
    # 254 mm pots 150 mm apart would cover 225 % of the bed
    tight = Pots(top_diameter_mm=254.0, capture_factor=1.0, spacing_m=0.15)
    made = pot_water(tight, 30, net_rate_mm_per_h=12.0, driest_share=1.0)
    assert made.gaps_of_bed is None
