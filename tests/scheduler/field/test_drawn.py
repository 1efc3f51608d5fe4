"""A map drawn together or apart to another uniformity."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import QuantityError
from scheduler.field.drawn import drawn_catch, drawn_together, tried_catch
from scheduler.field.guess import ZoneCatch, assumed
from scheduler.site import Zone
from scheduler.trace import entered


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


# --- a uniformity that is tried ----------------------------------------------

SHARE = np.array([0.6, 0.8, 1.2, 1.4])
RUNS = np.array([[0.5, 0.8, 1.2, 1.5], [0.7, 0.8, 1.2, 1.3]])
CATCH = ZoneCatch(
    "Z4", "measured", SHARE, None, None, 12.0, 0.6, 0.7, 0.7, 4, 1, "a test",
    "as found", dt.date(2026, 6, 8), entered("net_rate_mm_per_h", 12.0),
    entered("du_lq", 0.6),
)  # fmt: skip


# 1 - DU from 0.4 to 0.2: every place comes half way to the mean
def test_half_the_unevenness_brings_every_place_half_way_to_the_mean() -> None:
    found = tried_catch(CATCH, 0.8)
    assert found.share == pytest.approx([0.8, 0.9, 1.1, 1.2])
    assert found.du_lq == pytest.approx(0.8)


def test_the_low_half_is_of_the_drawn_shares() -> None:
    assert tried_catch(CATCH, 0.8).du_lh == pytest.approx(0.85)


def test_every_tested_run_is_drawn() -> None:
    found = tried_catch(replace(CATCH, tested=RUNS), 0.8)
    assert found.run_share.shape == (2, 4)
    assert found.run_share[0, 0] == pytest.approx(0.75)


@given(st.floats(0.05, 1.0))
def test_every_drawn_run_keeps_its_water(du: float) -> None:
    found = drawn_catch(replace(CATCH, tested=RUNS), du)
    assert found.run_share.mean(axis=1) == pytest.approx([1.0, 1.0])


def test_trying_what_was_tested_changes_nothing() -> None:
    # the shares of a week weigh the runs by their water: not the mean of their shares
    uneven = replace(CATCH, tested=np.array([[0.5, 0.8, 1.2, 1.5], SHARE]))
    found = tried_catch(uneven, 0.6)
    assert found.share == pytest.approx(SHARE)
    assert found.run_share == pytest.approx(uneven.run_share)


def test_the_rate_stays() -> None:
    assert tried_catch(CATCH, 0.9).net_rate_mm_per_h == 12.0


def test_the_trace_says_that_it_is_tried_and_keeps_what_was_tested() -> None:
    trace = tried_catch(CATCH, 0.8).du_trace
    assert "tried" in trace.formula
    assert trace.inputs == (CATCH.du_trace,)


def test_nothing_asked_changes_nothing() -> None:
    assert tried_catch(CATCH, None) is CATCH
    assert tried_catch(None, 0.8) is None


@given(st.floats(0.05, 1.0))
def test_shares_stay_a_catch_with_mean_one(du: float) -> None:
    found = tried_catch(CATCH, du)
    assert (found.share >= 0).all()
    assert found.share.mean() == pytest.approx(1.0)


@pytest.mark.parametrize("du", [0.0, -0.1, 1.01])
def test_a_uniformity_that_cannot_be_is_refused(du: float) -> None:
    with pytest.raises(QuantityError, match="cannot be tried"):
        tried_catch(CATCH, du)
