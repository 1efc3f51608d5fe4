"""How often the ranges of one run hold the truth; makes `range_level.csv`.

A long campaign. Bell-shaped catches of independent cans with a known true uniformity
are drawn, each is given its ranges, and the share of ranges that hold the truth is
counted. Ratios say how far the packaged table is from what was measured now.
"""

from collections.abc import Iterator
from pathlib import Path

import numpy as np

from scheduler.field import ranges
from scheduler.field.bell import cv_from_low_quarter
from tests.bench.harness import Ratio, at_most, report

COUNTS = (4, 6, 8, 12, 16, 24, 36, 48, 60)
SPREADS = (0.15, 0.225, 0.3)
TESTS = 2000  # of each count and spread
RESAMPLES = 2000
SEED = 7
TABLE = Path(ranges.__file__).parent.parent / "tables" / "range_level.csv"
HEAD = f"""\
# How often a range of one run holds the truth, for independent cans.
# Made by: python -m tests.bench coverage (seed {SEED})
# {TESTS} simulated tests of each CV in {SPREADS}, bell-shaped, {RESAMPLES} resamples.
n_cans,measure,level
"""


def _truths(cv: float) -> tuple[float, float, float]:
    """DU low quarter, CU and mean of a bell-shaped catch; normal theory."""
    return 1 - cv / cv_from_low_quarter(0.0), 1 - cv * (2 / np.pi) ** 0.5, 1.0


def measured_levels(n_cans: int) -> tuple[float, float, float]:
    """Share of ranges that hold the truth, for the three measures."""
    rng = np.random.default_rng((SEED, n_cans))
    held = np.zeros(3)
    for cv in SPREADS:
        for number in range(TESTS):
            depth = np.maximum(rng.normal(1.0, cv, n_cans), 0.0)
            found = ranges.cell_ranges(depth, resamples=RESAMPLES, seed=number)
            three = zip((found.du_lq, found.cu, found.mean), _truths(cv), strict=True)
            held += [one.low <= truth <= one.high for one, truth in three]
    du_lq, cu, mean = held / (TESTS * len(SPREADS))
    return float(du_lq), float(cu), float(mean)


def _rows() -> Iterator[tuple[int, str, float]]:
    for n_cans in COUNTS:
        levels = measured_levels(n_cans)
        for measure, level in zip(("du_lq", "cu", "mean"), levels, strict=True):
            yield n_cans, measure, level


def run(*, json: bool) -> None:
    rows = list(_rows())
    before = [ranges.range_level(n, measure) for n, measure, _ in rows]
    text = "".join(f"{n},{measure},{level:.3f}\n" for n, measure, level in rows)
    TABLE.write_text(HEAD + text, encoding="utf-8")
    gap = max(abs(old - row[2]) for old, row in zip(before, rows, strict=True))
    ratios: list[Ratio] = [at_most("largest change of a packaged level", gap, 0.02)]
    report("coverage", ratios, as_json=json)
