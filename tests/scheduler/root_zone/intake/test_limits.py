"""How long water can run before it runs off."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.root_zone.intake import (
    IntakeModel,
    clearing_min,
    longest_cycle_min,
)
from scheduler.site import Zone
from scheduler.trace import entered
from scheduler.units import MM_PER_INCH
from tests.scheduler.root_zone.made import soil_zone


def steady(rate_in_per_h: float, storage_in: float | None) -> IntakeModel:
    stands = None if storage_in is None else storage_in * MM_PER_INCH
    leaf = entered("intake_model", "test")
    return IntakeModel("constant intake", None, rate_in_per_h * 25.4, stands, leaf)


def clay_bay(**soil: Any) -> Zone:
    return soil_zone(**({"texture": "clay loam", "slope": 0.02} | soil))


# --- the longest run ----------------------------------------


def test_a_field_bay_above_its_intake_runs_off_after_sixteen_minutes() -> None:
    # 0.62 in/h on soil that takes 0.25 in/h and holds 0.10 in on its surface
    limit = longest_cycle_min(steady(0.25, 0.10), 0.62 * MM_PER_INCH)
    assert limit == pytest.approx(16.2, abs=0.05)


# surface storage formula of landscape scheduling manuals, values from memory
@pytest.mark.parametrize(
    ("rate", "intake", "storage", "minutes"),
    [(1.6, 0.2, 0.26, 11.14285714), (1.6, 0.1, 0.2, 8.0)],
)
def test_the_surface_storage_formula_comes_out(
    rate: float, intake: float, storage: float, minutes: float
) -> None:
    limit = longest_cycle_min(steady(intake, storage), rate * MM_PER_INCH)
    assert limit == pytest.approx(minutes, abs=0.01)


def test_a_rate_below_the_intake_never_runs_off() -> None:
    assert longest_cycle_min(steady(0.5, 0.1), 0.5 * MM_PER_INCH) == math.inf


def test_no_surface_storage_runs_off_at_once() -> None:
    assert longest_cycle_min(steady(0.25, 0.0), 20.0) == 0.0


def test_unknown_surface_storage_sets_no_limit() -> None:
    assert longest_cycle_min(steady(0.25, None), 20.0) == math.inf


@given(rate=st.floats(0.1, 200.0))
def test_a_first_runoff_that_was_seen_is_never_scaled(rate: float) -> None:
    seen = IntakeModel("first runoff", 18.0, None, None, entered("x", 18.0))
    assert longest_cycle_min(seen, rate) == 18.0


@given(
    rate=st.floats(0.1, 200.0),
    more=st.floats(0.0, 100.0),
    intake=st.floats(0.01, 4.0),
    storage=st.floats(0.0, 1.0),
)
def test_a_wetter_position_never_runs_longer(
    rate: float, more: float, intake: float, storage: float
) -> None:
    model = steady(intake, storage)
    assert longest_cycle_min(model, rate + more) <= longest_cycle_min(model, rate)


# --- clearing ----------------------------------------


def test_what_stands_after_a_cycle_clears_at_the_intake() -> None:
    # (0.62 - 0.25) x 15 / 60 = 0.0925 in stand; at 0.25 in/h they take 22.2 min
    clear = clearing_min(steady(0.25, 0.10), 0.62 * MM_PER_INCH, 15.0)
    assert clear == pytest.approx(22.2, abs=0.01)


def test_a_published_shape_of_cycle_clears_in_seventy_minutes() -> None:
    # 1.6 in/h, intake 0.20, cycles of 10 min; landscape manuals, from memory
    clear = clearing_min(steady(0.2, 0.26), 1.6 * MM_PER_INCH, 10.0)
    assert clear == pytest.approx(70.0)


def test_nothing_stands_below_the_intake() -> None:
    assert clearing_min(steady(0.5, 0.1), 5.0, 60.0) == 0.0


def test_without_a_steady_intake_nobody_knows_when_it_clears() -> None:
    seen = IntakeModel("first runoff", 18.0, None, None, entered("x", 18.0))
    assert clearing_min(seen, 20.0, 15.0) is None
