"""How often a trial's ranges hold the truth, and how often its verdict is false.

A campaign: trials with known lines are drawn with what a site's trials have: 2 to 12
days, the same winds for both packages or others, days that differ, one bad run, and
packages that never share a day. Counted are the ranges that hold the truth, for the
difference (t on days, and the resampled days where there are eight), for the tie and
for the expected DU, and, with equal packages, the verdicts that are not "not proven".
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from scheduler.errors import SchedulerError
from scheduler.field.trial import LEAST_DAYS, comparison, expected_du
from tests.bench.harness import Ratio, at_least, at_most, report
from tests.scheduler.field.trial.made import Made, made_trial

AT_M_PER_S = 2.0
# 95 % less three errors of the 200 trials of a cell; there are over a hundred cells.
LEAST = 0.90
TRIALS = 200
EQUAL = ((0.80, -0.03), (0.80, -0.03))
# these meet at 4 m/s
CROSSING = ((0.88, -0.05), (0.76, -0.02))
TIE_M_PER_S = 4.0
DAYS = (2, 3, 4, 6, 8, 12)
# A range with a bad run in it is about another truth; only its verdicts are counted.
KINDS = {
    "equal winds": Made(lines=EQUAL),
    "unequal winds": Made(lines=EQUAL, winds="unequal"),
    "days that differ much": Made(lines=EQUAL, day_sd=0.04, own_sd=0.02),
    "one bad run": Made(lines=EQUAL, has_bad_run=True),
    "no day shared": Made(lines=EQUAL, shares_days=False),
}


@dataclass(frozen=True, slots=True)
class Held:
    """Shares of the trials; NaN where nothing was counted."""

    difference: float
    resampled: float
    tie: float
    expected: float
    false: float


def held(made: Made, *, trials: int = TRIALS, first_seed: int = 0) -> Held:
    """Shares of ranges that hold the truth, and of false verdicts."""
    counts = np.full((trials, 5), np.nan)
    truth = made.lines[0][0] + made.lines[0][1] * AT_M_PER_S
    for i in range(trials):
        a, b = made_trial(first_seed + i, made)
        crossing = made_trial(first_seed + i, replace(made, lines=CROSSING))
        try:
            found = comparison(a, b, wind_m_per_s=AT_M_PER_S)
            tie = comparison(*crossing, wind_m_per_s=AT_M_PER_S)
            own = expected_du(a, wind_m_per_s=AT_M_PER_S)
        except SchedulerError:
            continue  # all runs in one wind: the trial is refused
        again = found.bootstrap
        counts[i] = (
            found.low <= 0 <= found.high,
            again.low <= 0 <= again.high if again else np.nan,
            tie.tie_low_m_per_s <= TIE_M_PER_S <= tie.tie_high_m_per_s,
            np.nan
            if own.low is None or own.high is None
            else own.low <= truth <= own.high,
            found.verdict != "not proven",
        )
    known = np.isfinite(counts)
    total = np.where(known, counts, 0).sum(axis=0)
    number = known.sum(axis=0)
    shares = np.divide(total, number, out=np.full(5, np.nan), where=number > 0)
    return Held(*shares.tolist())


def _ratios() -> Iterator[Ratio]:
    for kind, made in KINDS.items():
        for n_days in DAYS:
            found = held(replace(made, n_days=n_days))
            what = f"{kind}, {n_days} days: "
            yield at_most(f"{what}false better or worse", found.false, 0.05)
            if made.has_bad_run:
                continue
            if n_days >= LEAST_DAYS:
                yield at_least(f"{what}difference, t on days", found.difference, LEAST)
            yield at_least(f"{what}tie", found.tie, LEAST)
            if np.isfinite(found.expected):
                yield at_least(f"{what}expected DU", found.expected, LEAST)
            if np.isfinite(found.resampled):
                # shown beside, never the verdict; the target is only that it is near
                yield at_least(
                    f"{what}difference, resampled days", found.resampled, 0.80
                )


def run(*, json: bool) -> None:
    report("trial_truth", list(_ratios()), as_json=json)
