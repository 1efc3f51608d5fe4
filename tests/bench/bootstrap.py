"""Three ranges of one run of 36 cans, against a general bootstrap library."""

import statistics

import numpy as np
from scipy.stats import bootstrap

from scheduler.arrays import FloatArray
from scheduler.field.ranges import RESAMPLES, cell_ranges
from tests.bench.harness import at_least, at_most, cpu_seconds, report

SEEDS = range(5)
N_CANS = 36


def _du_lq(depth: FloatArray, axis: int = -1) -> FloatArray:
    ordered = np.sort(depth, axis=axis)
    low = ordered[..., : N_CANS // 4].mean(axis=axis)
    return np.asarray(low / ordered.mean(axis=axis))


def _cu(depth: FloatArray, axis: int = -1) -> FloatArray:
    mean = depth.mean(axis=axis, keepdims=True)
    deviation = np.abs(depth - mean).mean(axis=axis)
    return np.asarray(1 - deviation / np.squeeze(mean, axis))


def _library(depth: FloatArray, seed: int) -> None:
    for statistic in (_du_lq, _cu, np.mean):
        bootstrap(
            (depth,),
            statistic,
            n_resamples=RESAMPLES,
            vectorized=True,
            method="BCa",
            rng=np.random.default_rng(seed),
        )


def run(*, json: bool) -> None:
    faster, ours = [], []
    for seed in SEEDS:
        depth = np.random.default_rng(seed).normal(10, 2, N_CANS)
        ours.append(cpu_seconds(lambda d=depth: cell_ranges(d)))  # type: ignore[misc]
        library = cpu_seconds(lambda d=depth, s=seed: _library(d, s))  # type: ignore[misc]
        faster.append(library / ours[-1])
    report(
        "bootstrap",
        [
            at_least(
                "general library over ours, CPU, three ranges of 36 cans",
                statistics.median(faster),
                1.5,
            ),
            at_most("CPU milliseconds", 1e3 * statistics.median(ours), 20),
        ],
        as_json=json,
    )
