"""Cans and tests made by hand for the tests of the field rooms."""

import datetime as dt
from typing import Any

import numpy as np

from scheduler.record import CanRun, CanTest, Exclusion

NONE = float("nan")
# A worked first visit: 24 cans, mouth 4.25 in, 30 minutes, heads 30 x 30 ft, 4.6 gpm.
FIRST_VISIT_ML = [
    [41, 52, 60, 48, 66, 71, 58, 39],
    [55, 63, 74, 69, 47, 36, 59, 68],
    [50, 44, 62, 57, 33, 53, 65, 70],
]
MOUTH_CM2 = float(np.pi * (4.25 * 2.54) ** 2 / 4)
GROSS_MM_PER_H = 96.25 * 4.6 / 900 * 25.4
# 24 places: one blank, one knocked over, and a zero among wet neighbours
MISSING_ML = [
    [38, 41, 36, 44, NONE, 0],
    [52, 47, 39, 35, 49, 55],
    [33, 42, 46, NONE, 40, 37],
    [51, 45, 43, 34, 48, 50],
]
MISSING_CODES = {(0, 4): "-", (2, 3): "k"}
# Metric cans read as depth, 45 minutes
METRIC_MM = [
    10.5, 12.0, 9.8, 14.2, 13.1, 11.4, 8.7, 12.6, 15.0, 13.8,
    10.1, 9.2, 12.9, 14.6, 11.8, 10.9, 13.3, 12.2, 9.5, 11.1,
]  # fmt: skip


def run(
    readings: Any = FIRST_VISIT_ML,
    *,
    codes: dict[tuple[int, int], str] | None = None,
    excluded: tuple[Exclusion, ...] = (),
    unit: Any = "ml",
    minutes: float | None = 30.0,
    name: str = "run1",
) -> CanRun:
    grid = np.atleast_2d(np.array(readings, dtype=float))
    marks: Any = tuple(
        tuple((codes or {}).get((i, j), "") for j in range(grid.shape[1]))
        for i in range(grid.shape[0])
    )
    label = tuple(
        tuple(f"{chr(65 + j)}{i + 1}" for j in range(grid.shape[1]))
        for i in range(grid.shape[0])
    )
    where = f"tests/2026-05-12-Z4/{name}.csv"
    return CanRun(name, where, grid, marks, label, unit, minutes, excluded=excluded)


def can_test(
    *runs: CanRun,
    date: dt.date = dt.date(2026, 5, 12),
    condition: str = "as found",
    mouth_area_cm2: float | None = MOUTH_CM2,
    **given: Any,
) -> CanTest:
    where = f"tests/{date.isoformat()}-Z4/test.toml"
    return CanTest(
        f"{date.isoformat()}-Z4", where, "Z4", date, condition, mouth_area_cm2, runs,
        **given,
    )  # fmt: skip
