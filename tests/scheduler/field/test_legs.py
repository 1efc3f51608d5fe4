"""Legs of one head become one profile: means of lines, never of holes."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import SchedulerError
from scheduler.field.legs import RadialLeg, averaged_profile, legs_at_common_places
from scheduler.field.profile import Profile, radial_profile


def leg(places: list[float], rates: list[float], where: str = "leg") -> RadialLeg:
    return RadialLeg(where, np.array(places), np.array(rates))


def profile(*legs: RadialLeg) -> Profile:
    found, _ = averaged_profile(legs)
    assert found is not None
    return found


def test_one_leg_is_its_own_profile() -> None:
    alone, _ = radial_profile([0.0, 3.0, 6.0], [9.0, 5.0, 0.0], minutes=60)
    assert alone is not None
    one = profile(leg([0.0, 3.0, 6.0], [9.0, 5.0, 0.0]))
    np.testing.assert_array_equal(one.raster_mm_per_h, alone.raster_mm_per_h)


def test_legs_with_equal_places_are_averaged_can_by_can() -> None:
    both = profile(leg([1.0, 3.0], [8.0, 0.0]), leg([1.0, 3.0], [6.0, 0.0]))
    assert both.rate_mm_per_h.tolist() == [7.0, 0.0]


def test_a_can_without_a_reading_is_bridged_along_its_own_leg() -> None:
    _, rate = legs_at_common_places(
        [leg([0.0, 2.0, 4.0], [8.0, np.nan, 0.0]), leg([0.0, 2.0, 4.0], [8.0, 6.0, 0])]
    )
    assert rate[0].tolist() == [8.0, 4.0, 0.0]


def test_a_leg_that_stayed_dry_at_its_end_counts_as_dry_beyond() -> None:
    _, rate = legs_at_common_places(
        [leg([0.0, 4.0], [8.0, 0.0]), leg([0.0, 6.0], [8.0, 0.0])]
    )
    assert rate[0, -1] == 0.0


def test_a_leg_that_ends_wet_is_not_known_beyond_and_says_so() -> None:
    short, long = leg([0.0, 4.0], [8.0, 3.0], "east"), leg([0.0, 6.0], [8.0, 0.0])
    _, said = averaged_profile([short, long])
    (warning,) = (one for one in said if one.level == "warning")
    assert warning.where == "east"
    assert "stops at 4 m" in warning.what


def test_findings_speak_in_the_units_asked_for() -> None:
    wet = leg([0.0, 3.048], [8.0, 3.0])
    _, said = averaged_profile([wet], units="us")
    assert any("10 ft still caught water" in one.what for one in said)


@given(
    st.lists(
        st.tuples(
            st.lists(st.floats(0.5, 12.0), min_size=1, max_size=6, unique=True),
            st.floats(0.1, 40.0),
        ),
        min_size=1,
        max_size=4,
    )
)
def test_the_water_of_the_average_is_the_average_of_the_waters(
    drawn: list[tuple[list[float], float]],
) -> None:
    legs = [
        leg([*sorted(places), 13.0], [wet] * len(places) + [0.0])
        for places, wet in drawn
    ]
    alone = [profile(one).flow_l_per_min for one in legs]
    assert profile(*legs).flow_l_per_min == pytest.approx(np.mean(alone), rel=1e-9)


def test_the_order_of_the_legs_does_not_matter() -> None:
    one, two = leg([0.0, 4.0], [8.0, 0.0]), leg([1.0, 6.0], [5.0, 0.0])
    np.testing.assert_allclose(
        profile(one, two).raster_mm_per_h, profile(two, one).raster_mm_per_h
    )


def test_a_leg_without_any_reading_is_refused_by_name() -> None:
    with pytest.raises(SchedulerError, match="west: the leg has no reading"):
        legs_at_common_places([leg([0.0, 1.0], [np.nan, np.nan], "west")])


def test_no_leg_at_all_is_refused() -> None:
    with pytest.raises(SchedulerError, match="give one leg of cans"):
        legs_at_common_places([])
