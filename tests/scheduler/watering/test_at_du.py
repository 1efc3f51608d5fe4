"""A catch as if it were of another uniformity."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import QuantityError
from scheduler.field.guess import ZoneCatch
from scheduler.trace import entered
from scheduler.watering.at_du import catch_at_du

SHARE = np.array([0.6, 0.8, 1.2, 1.4])
CATCH = ZoneCatch(
    "Z4", "measured", SHARE, None, None, 12.0, 0.6, 0.7, 0.7, 4, 1, "a test",
    "as found", dt.date(2026, 6, 8), entered("net_rate_mm_per_h", 12.0),
    entered("du_lq", 0.6),
)  # fmt: skip


# 1 - DU from 0.4 to 0.2: every place comes half way to the mean
def test_half_the_unevenness_brings_every_place_half_way_to_the_mean() -> None:
    found = catch_at_du(CATCH, 0.8)
    assert found.share == pytest.approx([0.8, 0.9, 1.1, 1.2])
    assert found.du_lq == pytest.approx(0.8)


def test_the_low_half_is_of_the_drawn_shares() -> None:
    assert catch_at_du(CATCH, 0.8).du_lh == pytest.approx(0.85)


def test_every_tested_run_is_drawn() -> None:
    runs = np.array([[0.5, 0.8, 1.2, 1.5], [0.7, 0.8, 1.2, 1.3]])
    found = catch_at_du(replace(CATCH, tested=runs), 0.8)
    assert found.run_share.shape == (2, 4)
    assert found.run_share[0, 0] == pytest.approx(0.75)


def test_the_rate_stays() -> None:
    assert catch_at_du(CATCH, 0.9).net_rate_mm_per_h == 12.0


def test_the_trace_says_that_it_is_tried_and_keeps_what_was_tested() -> None:
    trace = catch_at_du(CATCH, 0.8).du_trace
    assert "tried" in trace.formula
    assert trace.inputs == (CATCH.du_trace,)


def test_nothing_asked_changes_nothing() -> None:
    assert catch_at_du(CATCH, None) is CATCH
    assert catch_at_du(None, 0.8) is None


@given(st.floats(0.05, 1.0))
def test_shares_stay_a_catch_with_mean_one(du: float) -> None:
    found = catch_at_du(CATCH, du)
    assert (found.share >= 0).all()
    assert found.share.mean() == pytest.approx(1.0)


@pytest.mark.parametrize("du", [0.0, -0.1, 1.01])
def test_a_uniformity_that_cannot_be_is_refused(du: float) -> None:
    with pytest.raises(QuantityError, match="cannot be tried"):
        catch_at_du(CATCH, du)
