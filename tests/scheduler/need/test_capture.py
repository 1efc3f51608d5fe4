"""What one pot catches over its open top."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.need.capture import BY_CANOPY, capture_of
from scheduler.site import Pots

TOUCHING_SQUARE = 4 / math.pi  # ground of a touching pot over its round top


def pots(capture: float | None = None, **given: float | str) -> Pots:
    made = {"top_diameter_mm": 254.0, "capture_factor": capture, **given}
    return Pots(**made)  # type: ignore[arg-type]


def test_a_measured_factor_is_taken_as_it_is() -> None:
    # 600 mL with plant over 250 mL empty: Million and Yeager 2015, HortScience 50
    found = capture_of(pots(600 / 250))
    assert (found.factor, found.findings) == (2.4, ())


def test_touching_pots_cannot_catch_more_than_their_ground() -> None:
    # balance of water; published: capture falls when pots stand closer than a diameter
    found = capture_of(pots(2.4, gap_m=0.0), "Z4")
    assert found.factor == pytest.approx(TOUCHING_SQUARE)
    assert "2.4 is more than falls on the ground of one pot" in found.findings[0].what


def test_pots_moved_apart_catch_their_own_factor_again() -> None:
    assert capture_of(pots(2.4, gap_m=0.254)).factor == 2.4


@pytest.mark.parametrize("shape", sorted(BY_CANOPY))
def test_a_factor_by_canopy_is_flagged_as_a_guess(shape: str) -> None:
    found = capture_of(pots(canopy=shape), "Z4")
    assert "is a guess" in found.findings[0].what
    assert 1.0 <= found.factor <= 4.0  # Million and Yeager 2015: 1 to 4


def test_an_unknown_factor_is_1_and_a_warning() -> None:
    found = capture_of(pots(), "Z4")
    assert (found.factor, found.findings[0].level) == (1.0, "warning")


@given(st.floats(0.1, 6), st.floats(0, 1))
def test_pots_never_catch_more_than_falls(capture: float, gap_m: float) -> None:
    made = pots(capture, gap_m=gap_m)
    top = math.pi / 4 * 0.254**2
    assert capture_of(made).factor * top <= (0.254 + gap_m) ** 2 * (1 + 1e-9)


def test_a_guess_beyond_the_ground_of_one_pot_says_what_is_used() -> None:
    # 2 for a spreading canopy, but touching pots have 4 / pi = 1.27 of their top
    found = capture_of(pots(canopy="spreading", gap_m=0.0), "Z4")
    assert found.factor == pytest.approx(TOUCHING_SQUARE)
    assert [one.level for one in found.findings] == ["note", "note"]
    assert "1.27 is used" in found.findings[1].what
