"""The season over many zones at once agrees with the plain one."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.watering.season_run.lanes import season_lanes, whole_minutes_of
from scheduler.watering.season_run.loop import season_loop
from tests.scheduler.watering.season_run.made import season


@pytest.mark.parametrize("name", [
    "applied_mm", "used_mm", "percolation_mm", "end_mm", "stress_days", "waterings",
    "minutes", "watering_mm", "depletion_mm",
])  # fmt: skip
@given(seed=st.integers(0, 10_000))
def test_it_gives_what_the_plain_loop_gives(name: str, seed: int) -> None:
    one = season(n_days=40, n_zones=4, seed=seed)
    lanes = getattr(season_lanes(one, with_trace=True), name)
    loop = getattr(season_loop(one, with_trace=True), name)
    assert lanes == pytest.approx(loop, abs=1e-9)


def test_shares_by_day_and_fixed_zones_give_the_same_too() -> None:
    rng = np.random.default_rng(3)
    one = season(
        n_days=40, n_zones=3, share=rng.uniform(0.3, 1.7, (40, 8, 3)),
        fixed_mm=np.array([np.nan, 2.5, np.nan]),
    )  # fmt: skip
    assert season_lanes(one).percolation_mm == pytest.approx(
        season_loop(one).percolation_mm, abs=1e-9
    )


@given(
    minutes=st.floats(0.01, 300.0),
    longest=st.one_of(st.floats(1.0, 60.0), st.just(np.inf)),
)
def test_no_cycle_is_longer_than_the_limit(minutes: float, longest: float) -> None:
    whole = float(whole_minutes_of(np.array([minutes]), np.array([longest]))[0])
    limit = max(np.floor(longest + 1e-9), 1.0)
    assert whole == int(whole)
    assert any(
        whole % cycles == 0 and whole / cycles <= limit
        for cycles in range(1, int(whole) + 1)
    )
