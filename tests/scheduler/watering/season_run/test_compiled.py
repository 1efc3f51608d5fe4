"""The compiled season agrees with the one in numpy."""

import numpy as np
import pytest

from scheduler.watering.season_run.compiled import is_compiled, season_compiled
from scheduler.watering.season_run.lanes import season_lanes
from tests.scheduler.watering.season_run.made import season

pytestmark = pytest.mark.skipif(not is_compiled(), reason="the extra fast is missing")
NAMES = ("applied_mm", "used_mm", "percolation_mm", "end_mm", "stress_days",
         "waterings", "minutes", "watering_mm")  # fmt: skip


# 64 zones are a block, four days are run at once: fewer, more, and just as many
@pytest.mark.parametrize("n_days", [3, 40, 43])
@pytest.mark.parametrize("n_zones", [1, 63, 64, 65, 130])
@pytest.mark.parametrize("name", NAMES)
def test_it_gives_what_numpy_gives(name: str, n_zones: int, n_days: int) -> None:
    one = season(n_days=n_days, n_zones=n_zones, seed=n_zones)
    made = getattr(season_compiled(one), name)
    assert made == pytest.approx(getattr(season_lanes(one), name), abs=1e-9)


@pytest.mark.parametrize("name", NAMES)
def test_shares_by_day_and_fixed_zones_give_the_same_too(name: str) -> None:
    rng = np.random.default_rng(3)
    fixed = np.full(70, np.nan)
    fixed[[1, 66]] = 2.5
    one = season(
        n_days=40, n_zones=70, share=rng.uniform(0.3, 1.7, (40, 8, 70)), fixed_mm=fixed
    )
    made = getattr(season_compiled(one), name)
    assert made == pytest.approx(getattr(season_lanes(one), name), abs=1e-9)


def test_every_position_closes() -> None:
    assert season_compiled(season(n_days=365, n_zones=80)).closure_error_mm < 1e-9


def test_threads_share_out_zones_without_changing_them() -> None:
    one = season(n_days=40, n_zones=150, seed=5)
    alone, shared = season_compiled(one), season_compiled(one, threads=2)
    assert np.array_equal(alone.percolation_mm, shared.percolation_mm)


@pytest.mark.parametrize("threads", [1, 2])
def test_no_zones_are_no_positions(threads: int) -> None:
    none = season(n_zones=2).of_zones(0, 0)
    assert season_compiled(none, threads=threads).applied_mm.shape == (8, 0)
