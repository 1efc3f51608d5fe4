"""Trials of two packages with known lines, drawn for the tests and the benches."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.trial import PackageRuns

WIND = np.array([0.8, 1.6, 2.6, 3.8])
Line = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Made:
    """How a trial is drawn: lines, winds, and what varies.

    `day_sd` moves both packages of a day alike, `own_sd` each alone, `run_sd` each
    run. With `winds` unequal, each day has its own wind, that of b higher, and the
    number of runs differs. A bad run loses 0.3 of DU, as a shut valve might do.
    """

    n_days: int = 6
    lines: tuple[Line, Line] = ((0.84, -0.03), (0.78, -0.03))
    day_sd: float = 0.015
    own_sd: float = 0.0075
    run_sd: float = 0.02
    winds: Literal["equal", "unequal"] = "equal"
    has_bad_run: bool = False
    shares_days: bool = True


def made_trial(seed: int, made: Made) -> tuple[PackageRuns, PackageRuns]:
    """Both packages on each day, or each on days of its own."""
    rng = np.random.default_rng((seed, made.n_days))
    shared = rng.normal(0, made.day_sd, made.n_days)
    runs = []
    for which, (top, slope) in enumerate(made.lines):
        if not made.shares_days:
            shared = rng.normal(0, made.day_sd, made.n_days)
        own = shared + rng.normal(0, made.own_sd, made.n_days)
        wind, day = _winds(rng, made, which)
        du = top + slope * wind + own[day] + rng.normal(0, made.run_sd, wind.size)
        if made.has_bad_run and which:
            du[rng.integers(du.size)] -= 0.3
        apart = 0 if made.shares_days else 1000 * which
        runs.append(PackageRuns("ab"[which], wind, du, day + apart))
    return runs[0], runs[1]


def _winds(
    rng: np.random.Generator, made: Made, which: int
) -> tuple[FloatArray, np.typing.NDArray[np.int64]]:
    if made.winds == "equal":
        wind = np.tile(WIND, made.n_days)
        wind = wind + rng.normal(0, 0.2, wind.size)
        return wind, np.repeat(np.arange(made.n_days), WIND.size)
    count = rng.integers(1, WIND.size + 1, made.n_days)
    day = np.repeat(np.arange(made.n_days), count)
    usual = rng.uniform(0.8, 3.5, made.n_days) + 0.6 * which
    return np.abs(usual[day] + rng.normal(0, 0.6, day.size)) + 0.1, day
