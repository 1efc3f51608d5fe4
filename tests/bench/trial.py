"""The difference of two packages from 10,000 resampled days, against a loop of fits."""

import statistics

import numpy as np

from scheduler.field.trial.resampled import RESAMPLES, day_bootstrap
from scheduler.field.trial.runs import PackageRuns
from tests.bench.harness import at_least, at_most, cpu_seconds, report
from tests.scheduler.field.trial.made import Made, made_trial

SEEDS = range(5)
N_DAYS = 10
AT_M_PER_S = 2.0
# The loop is timed on this part of the resamples and taken to grow with their number.
PART = 20


def _loop(pair: tuple[PackageRuns, PackageRuns], seed: int, resamples: int) -> None:
    rng = np.random.default_rng(seed)
    found = np.empty(resamples)
    for i in range(resamples):
        days = rng.integers(N_DAYS, size=N_DAYS)
        du = []
        for runs in pair:
            rows = np.concatenate([np.flatnonzero(runs.day == day) for day in days])
            line = np.polyfit(runs.wind_m_per_s[rows], runs.du_lq[rows], 1)
            du.append(np.polyval(line, AT_M_PER_S))
        found[i] = du[0] - du[1]
    np.quantile(found, [0.025, 0.975])


def run(*, json: bool) -> None:
    faster, ours = [], []
    for seed in SEEDS:
        pair = made_trial(seed, Made(n_days=N_DAYS))
        quick = cpu_seconds(
            lambda p=pair, s=seed: day_bootstrap(*p, wind_m_per_s=AT_M_PER_S, seed=s)  # type: ignore[misc]
        )
        loop = cpu_seconds(lambda p=pair, s=seed: _loop(p, s, RESAMPLES // PART))  # type: ignore[misc]
        faster.append(PART * loop / quick)
        ours.append(quick)
    report(
        "trial",
        [
            at_least(
                "loop of polyfit over ours, CPU, 10,000 resamples of 10 days",
                statistics.median(faster),
                100,
            ),
            at_most("CPU milliseconds", 1e3 * statistics.median(ours), 10),
        ],
        as_json=json,
    )
