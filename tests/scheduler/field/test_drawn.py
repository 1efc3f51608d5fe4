"""A map drawn together or apart to another uniformity."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.field.drawn import drawn_catch, drawn_together
from scheduler.field.guess import ZoneCatch, assumed
from scheduler.site import Zone


def caught(du_lq: float = 0.7) -> ZoneCatch:
    zone = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off",
                assumed_net_rate_mm_per_h=12.0, assumed_du_lq=du_lq)  # fmt: skip
    found = assumed(zone, None)[0]
    assert found is not None
    return found


def test_half_the_distance_from_the_mean_halves_what_du_lacks() -> None:
    share = np.array([0.6, 0.8, 1.2, 1.4])
    assert drawn_together(share, 0.5).tolist() == pytest.approx([0.8, 0.9, 1.1, 1.2])


@given(st.floats(0.6, 1.0))
def test_a_catch_takes_the_du_that_is_asked_for(du_lq: float) -> None:
    assert drawn_catch(caught(), du_lq).du_lq == pytest.approx(du_lq)


@given(st.floats(0.05, 1.0))
def test_what_falls_is_not_changed(du_lq: float) -> None:
    assert drawn_catch(caught(), du_lq).share.mean() == pytest.approx(1.0)


def test_an_even_catch_has_no_map_to_draw() -> None:
    even = caught(1.0)
    assert drawn_catch(even, 0.8) is even
