"""Radial profiles: integrals by hand, legs, where a leg ends, refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.errors import Finding
from scheduler.field.profile import Profile, radial_profile

LITRES_PER_MINUTE = 1 / 60  # of one mm/h on one square metre


def _made(*given: object, minutes: float = 60.0, **more: object) -> Profile:
    profile, _ = radial_profile(*given, minutes=minutes, **more)  # type: ignore[arg-type]
    assert profile is not None
    return profile


def _said(*given: object, minutes: float = 60.0, **more: object) -> tuple[Finding, ...]:
    return radial_profile(*given, minutes=minutes, **more)[1]  # type: ignore[arg-type]


def test_a_cone_holds_a_third_of_its_cylinder() -> None:
    # geometry: volume of a cone
    cone = _made([0.0, 9.0], [6.0, 0.0])
    assert cone.flow_l_per_min == pytest.approx(np.pi * 81 * 6 / 3 * LITRES_PER_MINUTE)


def test_ground_inside_the_first_can_gets_its_reading() -> None:
    # geometry: a cylinder of radius 2 and a frustum from 2 to 5
    profile = _made([2.0, 5.0], [3.0, 0.0])
    frustum = 2 * np.pi * 3 * ((5 * 25 / 2 - 125 / 3) - (5 * 4 / 2 - 8 / 3)) / 3
    expected = (np.pi * 4 * 3 + frustum) * LITRES_PER_MINUTE
    assert profile.flow_l_per_min == pytest.approx(expected)


def test_the_raster_is_the_profile_at_squared_distances() -> None:
    cone = _made([0.0, 9.0], [6.0, 0.0])
    half_way = cone.raster_mm_per_h[cone.raster_mm_per_h.size // 4]
    assert half_way == pytest.approx(3.0, abs=1e-3)


def test_depth_and_minutes_give_the_same_profile_as_rates() -> None:
    half_hour = _made([0.0, 5.0], [2.0, 0.0], minutes=30.0)
    assert half_hour.rate_mm_per_h[0] == 4.0


def test_legs_are_averaged_can_by_can() -> None:
    profile = _made([0.0, 4.0, 8.0], [[4.0, 2.0, 0.0], [2.0, 4.0, 0.0]])
    assert profile.rate_mm_per_h.tolist() == [3.0, 3.0, 0.0]


def test_a_blank_reading_leaves_the_other_leg_to_speak() -> None:
    profile = _made([0.0, 4.0, 8.0], [[4.0, np.nan, 0.0], [2.0, 1.5, 0.0]])
    assert profile.rate_mm_per_h.tolist() == [3.0, 1.5, 0.0]


def test_a_place_without_any_reading_is_bridged_and_said() -> None:
    profile = _made([0.0, 4.0, 8.0], [4.0, np.nan, 0.0])
    notes = _said([0.0, 4.0, 8.0], [4.0, np.nan, 0.0])
    assert profile.distance_m.tolist() == [0.0, 8.0]
    assert [one.level for one in notes] == ["note"]


def test_no_can_by_the_head_is_said() -> None:
    (note,) = _said([1.0, 5.0], [2.0, 0.0])
    assert "1 m" in note.what


def test_the_pattern_ends_at_the_first_dry_can() -> None:
    profile = _made([0.0, 4.0, 6.0, 8.0], [4.0, 2.0, 0.0, 0.0])
    assert (profile.throw_m, profile.is_sharp) == (6.0, False)


def test_a_dry_ring_inside_the_pattern_is_kept() -> None:
    profile = _made([0.0, 2.0, 4.0, 6.0], [4.0, 0.0, 2.0, 0.0])
    assert profile.rate_mm_per_h.tolist() == [4.0, 0.0, 2.0, 0.0]


def test_a_leg_that_stops_inside_the_pattern_is_a_warning() -> None:
    (warning,) = _said([0.0, 4.0], [4.0, 2.0])
    assert warning.level == "warning"
    assert "stops inside the pattern" in warning.what
    assert "4 m" in warning.what


def test_a_stated_throw_closes_a_leg_with_a_straight_line() -> None:
    profile, said = radial_profile([0.0, 4.0], [4.0, 2.0], minutes=60, throw_m=6.0)
    assert profile is not None
    assert (profile.distance_m[-1], profile.rate_mm_per_h[-1]) == (6.0, 0.0)
    assert said == ()


def test_a_throw_at_the_last_wet_can_is_a_sharp_edge() -> None:
    disc = _made([0.0, 4.0], [2.0, 2.0], throw_m=4.0)
    assert disc.is_sharp
    assert disc.flow_l_per_min == pytest.approx(np.pi * 16 * 2 * LITRES_PER_MINUTE)


def test_a_dry_can_inside_the_stated_throw_is_a_warning() -> None:
    (warning,) = _said([0.0, 4.0, 6.0], [4.0, 2.0, 0.0], throw_m=7.0)
    assert "stayed dry" in warning.what


@pytest.mark.parametrize(
    ("distance", "depth", "words"),
    [
        ([0.0, 4.0], [1.0], "do not match"),
        ([0.0], [1.0], "do not match"),
        ([0.0, np.nan], [1.0, 0.0], "nan"),
        ([-1.0, 4.0], [1.0, 0.0], "-1"),
        ([0.0, 4.0, 3.0], [1.0, 1.0, 0.0], "at 3 m comes after the one at 4 m"),
        ([0.0, 4.0, 4.0], [1.0, 1.0, 0.0], "4 m comes after the one at 4 m"),
        ([0.0, 4.0], [1.0, -2.0], "-2"),
        ([0.0, 4.0], [1.0, np.inf], "inf"),
        ([0.0, 4.0], [1.0, np.nan], "fewer than two"),
        ([0.0, 4.0], [0.0, 0.0], "no can caught water"),
    ],
)
def test_a_leg_that_cannot_be_stops_and_names_the_value(
    distance: list[float], depth: list[float], words: str
) -> None:
    profile, (stop,) = radial_profile(distance, depth, minutes=60)
    assert profile is None
    assert stop.level == "stop"
    assert words in stop.what


@pytest.mark.parametrize("minutes", [0.0, -5.0, np.nan, 2000.0])
def test_minutes_that_cannot_be_stop(minutes: float) -> None:
    profile, (stop,) = radial_profile([0.0, 4.0], [1.0, 0.0], minutes=minutes)
    assert profile is None
    assert "minutes" in stop.what


@pytest.mark.parametrize("throw_m", [0.0, 3.0, np.inf, np.nan])
def test_a_throw_short_of_a_wet_can_stops(throw_m: float) -> None:
    profile, found = radial_profile(
        [0.0, 4.0], [2.0, 1.0], minutes=60, throw_m=throw_m, where="leg.csv"
    )
    assert profile is None
    assert [(one.level, one.where) for one in found] == [("stop", "leg.csv")]


def test_arrays_of_a_profile_are_frozen() -> None:
    with pytest.raises(ValueError, match="read-only"):
        _made([0.0, 4.0], [1.0, 0.0]).rate_mm_per_h[0] = 2.0


@settings(max_examples=50, deadline=None)
@given(st.floats(0.5, 20.0), st.floats(0.1, 30.0))
def test_flow_grows_with_depth_and_with_the_square_of_distance(
    times: float, depth: float
) -> None:
    plain = _made([0.0, 3.0, 7.0], [1.0, 2.0, 0.0])
    wetter = _made([0.0, 3.0, 7.0], [depth, 2 * depth, 0.0])
    wider = _made([0.0, 3.0 * times, 7.0 * times], [1.0, 2.0, 0.0])
    assert wetter.flow_l_per_min == pytest.approx(plain.flow_l_per_min * depth)
    assert wider.flow_l_per_min == pytest.approx(plain.flow_l_per_min * times**2)
