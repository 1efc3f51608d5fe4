"""How pots stand: ground per pot, and the share of the bed under their tops."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from scheduler.need.pot_layout import (
    centres_m,
    crowded,
    interception_share,
    pots_per_m2,
)
from scheduler.site import Pots


def _pots(**changes: Any) -> Pots:
    given: dict[str, Any]
    given = {"top_diameter_mm": 254.0, "spacing_m": 0.4, "capture_factor": 1.0}
    return Pots(**{k: v for k, v in (given | changes).items() if v is not None})


def test_published_pots_on_one_by_two_feet_intercept_27_per_cent() -> None:
    # University of Maryland nursery irrigation course, p. 4.4.1; unrounded 0.27271
    pots = _pots(spacing_m=0.3048, row_spacing_m=0.6096)
    assert interception_share(pots) == pytest.approx(0.2727076956, abs=1e-5)


def test_touching_pots_in_a_square_intercept_pi_over_4() -> None:
    # geometry
    assert interception_share(_pots(spacing_m=0.254)) == pytest.approx(0.7853981634)


def test_touching_offset_pots_intercept_the_densest_packing() -> None:
    # geometry: pi / (2 sqrt 3)
    pots = _pots(spacing_m=0.254, pattern="offset")
    assert interception_share(pots) == pytest.approx(0.9068996821)


def test_offset_pots_of_16_cm_on_30_cm_intercept_a_quarter() -> None:
    # geometry
    pots = _pots(top_diameter_mm=160.0, spacing_m=0.30, pattern="offset")
    assert interception_share(pots) == pytest.approx(0.2579625762)


def test_a_stated_row_spacing_wins_over_the_pattern() -> None:
    assert pots_per_m2(_pots(pattern="offset", row_spacing_m=0.5)) == pytest.approx(5.0)


def test_without_spacing_the_share_is_not_known() -> None:
    assert interception_share(_pots(spacing_m=None)) is None
    assert pots_per_m2(_pots(spacing_m=None)) is None


@pytest.mark.parametrize(("gap_in", "share"), [(6, 0.32), (12, 0.17)])
def test_pots_of_10_and_a_half_inches_with_gaps_cover_a_third_or_a_sixth(
    gap_in: int, share: float
) -> None:
    # geometry: pi/4 x 10.5^2 / (10.5 + gap)^2
    pots = Pots(top_diameter_mm=10.5 * 25.4, gap_m=gap_in * 0.0254)
    assert interception_share(pots) == pytest.approx(share, abs=0.005)


@given(st.floats(50, 500), st.floats(0, 1))
def test_a_gap_is_a_spacing_less_the_diameter(top_mm: float, gap_m: float) -> None:
    by_gap = Pots(top_diameter_mm=top_mm, gap_m=gap_m)
    by_centre = Pots(top_diameter_mm=top_mm, spacing_m=top_mm / 1000 + gap_m)
    assert centres_m(by_gap) == pytest.approx(centres_m(by_centre))


def test_touching_pots_are_not_crowded() -> None:
    assert crowded("Z4", Pots(top_diameter_mm=254.0, gap_m=0.0)) == ()


def test_pots_nearer_than_they_can_stand_are_pointed_to_gap() -> None:
    found = crowded("Z4", _pots(spacing_m=0.15))
    assert "write gap for rim to rim" in found[0].fix


def test_spacing_and_gap_together_are_refused() -> None:
    with pytest.raises(ValidationError, match="not both"):
        _pots(gap_m=0.1)


def test_a_row_spacing_alone_is_refused() -> None:
    with pytest.raises(ValidationError, match="row_spacing needs spacing"):
        _pots(spacing_m=None, row_spacing_m=0.5)
