"""Folding one rasterised sprinkler, against adding up every head at every place."""

import math
import statistics
from functools import partial
from itertools import product

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.fold import STEPS, Layout, cell_rate_mm_per_h
from scheduler.field.overlap import SWEEP_STEPS, Sweep, sweep
from scheduler.field.profile import Profile, radial_profile
from scheduler.field.uniformity import (
    christiansen_uniformity,
    low_quarter_uniformity,
)
from tests.bench.harness import (
    Ratio,
    at_least,
    at_most,
    cpu_seconds,
    median_ratio,
    report,
)

At = tuple[float, float, Layout]  # spacing, row spacing

THROW_M = 12.0
SPACINGS_M = np.linspace(6.0, 18.0, 50)
N_SAMPLE = 25


def _profile() -> Profile:
    # a made-up leg of 24 cans with a wet ring half way out
    distance = np.linspace(0.5, THROW_M, 24)
    part = distance / THROW_M
    depth = (1 - part) * (6 + 5 * np.exp(-(((part - 0.55) / 0.2) ** 2)))
    found, _ = radial_profile(distance, depth, minutes=60)
    assert found is not None
    return found


def _naive(profile: Profile, at: At, *, steps: int, skip: bool = False) -> FloatArray:
    """Radius and interpolation for every neighbour up to a throw outside the cell.

    With `skip`, heads that reach no place of the cell are dropped beforehand.
    """
    x_m, y_m, layout = at
    n_deep = 2 if layout == "triangular" else 1
    x, y = np.meshgrid(
        (np.arange(steps) + 0.5) * x_m / steps,
        (np.arange(steps * n_deep) + 0.5) * y_m / steps,
    )
    rate = np.zeros(x.shape)
    reach_x, reach_y = (math.ceil(THROW_M / one) for one in (x_m, y_m))
    columns, rows = range(-reach_x, reach_x + 2), range(-reach_y, reach_y + n_deep + 1)
    for i, j in product(columns, rows):
        head_x = (i + 0.5 * (layout == "triangular") * (j % 2)) * x_m
        off_x = max(-head_x, head_x - x_m, 0.0)
        off_y = max(-j * y_m, j * y_m - n_deep * y_m, 0.0)
        if skip and math.hypot(off_x, off_y) >= THROW_M:
            continue
        radius = np.hypot(x - head_x, y - j * y_m)
        rate += np.interp(radius, profile.distance_m, profile.rate_mm_per_h, right=0.0)
    return rate


def _folded(profile: Profile, at: At, *, steps: int) -> FloatArray:
    x_m, y_m, layout = at
    return cell_rate_mm_per_h(
        profile, spacing_m=x_m, row_spacing_m=y_m, layout=layout, steps=steps
    )


def _naive_sample_s(profile: Profile) -> float:
    """CPU time of all spacings the naive way, scaled from some of them."""
    rng = np.random.default_rng(25)
    drawn = rng.choice(SPACINGS_M, (N_SAMPLE, 2))

    def sample() -> None:
        for x, y in drawn:
            rate = _naive(profile, (x, y, "rectangular"), steps=SWEEP_STEPS).ravel()
            low_quarter_uniformity(rate), christiansen_uniformity(rate)

    return cpu_seconds(sample) * SPACINGS_M.size**2 / N_SAMPLE


def _swept(profile: Profile) -> Sweep:
    return sweep(
        profile,
        spacings_m=SPACINGS_M,
        row_spacings_m=SPACINGS_M,
        layout="rectangular",
        steps=SWEEP_STEPS,
    )


def run(*, json: bool) -> None:
    profile = _profile()
    layouts: tuple[Layout, ...] = ("square", "triangular")
    ratios = []
    for layout in layouts:
        at: At = (THROW_M, THROW_M, layout)
        fold = partial(_folded, profile, at, steps=STEPS)
        slow = partial(_naive, profile, at, steps=STEPS)
        what = f"naive over fold, CPU, one {layout} layout, throw = spacing"
        ratios.append(at_least(what, median_ratio(slow, fold), 20))
        # stated beside it, no target set
        spare = median_ratio(partial(slow, skip=True), fold)
        ratios.append(Ratio(f"{what}, far heads dropped first", spare, "none", True))
        coarse = median_ratio(
            partial(slow, steps=SWEEP_STEPS), partial(fold, steps=SWEEP_STEPS)
        )
        ratios.append(Ratio(f"{what}, {SWEEP_STEPS} steps", coarse, "none", True))
    naive, ours = [], []
    for _ in range(5):
        naive.append(_naive_sample_s(profile))
        ours.append(cpu_seconds(partial(_swept, profile)))
    each = (slow_s / fast_s for slow_s, fast_s in zip(naive, ours, strict=True))
    what = "naive (scaled from 25) over sweep, CPU, 50 x 50 spacings"
    ratios.append(at_least(what, statistics.median(each), 20))
    ratios.append(at_most("CPU seconds of the sweep", statistics.median(ours), 0.25))
    report("overlap", ratios, as_json=json)
