"""Water for the same driest quarter at another uniformity."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.field.uniformity import low_quarter_uniformity
from scheduler.watering.season_run import SeasonInput, season_run
from scheduler.watering.season_run.saved import (
    SAME_DAYS,
    at_another_du,
    driest_quarter_stress_days,
    stretched,
)
from tests.scheduler.watering.season_run.made import even

UNEVEN = np.array([0.6, 0.8, 1.2, 1.4]).reshape(1, 4, 1)


def yard(share: np.ndarray = UNEVEN, served: float = 0.6) -> SeasonInput:
    return even(120, etc_mm=5.0, share=share, served_share=np.array([served]))


@given(du=st.floats(0.5, 1.0))
def test_a_stretched_map_has_the_wanted_uniformity(du: float) -> None:
    share = stretched(UNEVEN, du)[0, :, 0]
    assert low_quarter_uniformity(share) == pytest.approx(du)


def test_the_driest_quarter_is_that_of_the_least_catch() -> None:
    one = yard(served=1.0)  # the mean is served, so the driest position dries out
    result = season_run(one)
    assert driest_quarter_stress_days(one, result) == result.stress_days[0, 0]


def test_better_uniformity_needs_less_water() -> None:
    assert at_another_du(yard(), 0.9).saved_mm > 0


def test_worse_uniformity_needs_more_water() -> None:
    assert at_another_du(yard(), 0.5).saved_mm < 0


def test_the_water_of_equal_cans_is_the_use() -> None:
    # 120 days x 5 mm; at its end the ground is at most one watering short of full
    other = at_another_du(yard(), 1.0)
    assert other.applied_mm == pytest.approx(600.0, abs=25.0)


@given(du=st.floats(0.5, 0.98), served=st.floats(0.55, 1.0))
def test_the_driest_quarter_is_never_worse_off(du: float, served: float) -> None:
    one = yard(served=served)
    now = driest_quarter_stress_days(one, season_run(one))
    assert at_another_du(one, du).stress_days <= now + SAME_DAYS
