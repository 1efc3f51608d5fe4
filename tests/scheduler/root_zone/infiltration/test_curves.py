"""Intake curves: depths and times that undo each other, capacities that fall."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.root_zone.infiltration import (
    Curve,
    GreenAmpt,
    Horton,
    Kostiakov,
    Steady,
    intake_family,
)
from scheduler.tables import green_ampt_row

CURVES: dict[str, Curve] = {
    "steady": Steady(8.0),
    "Horton": Horton(75.0, 10.0, 2.0),
    "Green-Ampt": GreenAmpt(6.5, 57.0),
    "Kostiakov": Kostiakov(30.0, 0.6),
    "Kostiakov with a steady part": Kostiakov(30.0, 0.6, 4.0),
    "family": intake_family(0.5),
}
# later, the falling part of Horton is below what a double can hold
hours = st.floats(0.01, 5.0)


def test_horton_takes_in_the_first_rate_at_first() -> None:
    assert float(Horton(75.0, 10.0, 2.0).infiltrated_mm(1e-4)) == pytest.approx(
        0.0075, rel=1e-3
    )


def test_horton_ends_at_its_last_rate() -> None:
    soil = Horton(75.0, 10.0, 2.0)
    assert float(soil.infiltrated_mm(21.0) - soil.infiltrated_mm(20.0)) == (
        pytest.approx(10.0)
    )


# Chow, Maidment and Mays (1988), Applied Hydrology: silt loam at 30 % saturation takes
# in 3.17 cm in its first hour under water (book value from memory)
def test_green_ampt_takes_in_the_depth_of_the_textbook_example() -> None:
    row = green_ampt_row("silt loam")
    lacking = 0.7 * float(row["effective_porosity"])
    soil = GreenAmpt(float(row["conductivity_mm_per_h"]), 167.0 * lacking)
    assert float(soil.infiltrated_mm(1.0)) == pytest.approx(31.7, abs=0.1)


@pytest.mark.parametrize("name", CURVES)
@given(time_h=hours)
def test_depth_and_time_undo_each_other(name: str, time_h: float) -> None:
    curve = CURVES[name]
    depth = curve.infiltrated_mm(time_h)
    assert float(curve.ponded_h(depth)) == pytest.approx(time_h, rel=1e-6)


@pytest.mark.parametrize("name", [name for name in CURVES if name != "steady"])
@given(time_h=hours)
def test_the_capacity_where_the_room_ends_is_the_rate(name: str, time_h: float) -> None:
    curve, step = CURVES[name], 1e-5 * time_h
    near = curve.infiltrated_mm(np.array([time_h - step, time_h + step]))
    rate = float(near[1] - near[0]) / (2 * step)
    room = float(curve.room_mm(rate))
    assert room == pytest.approx(
        float(curve.infiltrated_mm(time_h)), rel=1e-3, abs=0.02
    )


@pytest.mark.parametrize("name", CURVES)
def test_a_slow_rate_never_finds_the_room_full(name: str) -> None:
    slow = {"Kostiakov": 0.0, "family": 0.0, "Kostiakov with a steady part": 4.0}
    assert np.isinf(CURVES[name].room_mm(slow.get(name, 5.0)))


def test_a_family_that_is_not_held_is_refused() -> None:
    with pytest.raises(KeyError):
        intake_family(0.7)
