"""What a face shows of a number."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.seen import seen
from scheduler.units import System, shown


def test_a_uniformity_is_seen_in_two_digits() -> None:
    assert seen(0.860438, "", "us") == 0.86


@pytest.mark.parametrize("system", ["us", "metric"])
@given(value=st.floats(0.1, 500.0))
def test_what_is_seen_is_shown_alike(system: System, value: float) -> None:
    assert shown(seen(value, "m", system), "m", system) == shown(value, "m", system)
