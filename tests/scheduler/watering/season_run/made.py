"""Seasons made up for tests."""

from typing import Any

import numpy as np

from scheduler.watering.season_run import SeasonInput


def season(n_days: int = 60, n_positions: int = 8, n_zones: int = 1, seed: int = 0,
           **given: Any) -> SeasonInput:  # fmt: skip
    """Random but plausible; every array can be given instead."""
    rng = np.random.default_rng(seed)
    share = np.clip(rng.normal(1.0, 0.25, (1, n_positions, n_zones)), 0.1, None)
    ones = np.ones(n_zones)
    base: dict[str, Any] = {
        "share": share / share.mean(axis=1, keepdims=True),
        "served_share": 0.8 * ones,
        "etc_mm_per_day": rng.uniform(1.0, 7.0, (n_days, n_zones)),
        "rain_mm": np.where(rng.random((n_days, n_zones)) < 0.2, 8.0, 0.0),
        "is_open": rng.random((n_days, n_zones)) < 0.6,
        "is_always": rng.random(n_zones) < 0.3,
        "fixed_mm": np.full(n_zones, np.nan),
        "total_mm": rng.uniform(20.0, 80.0, n_zones),
        "allowed_mm": rng.uniform(5.0, 18.0, n_zones),
        "start_mm": rng.uniform(0.0, 5.0, n_zones),
        "min_per_mm": rng.uniform(3.0, 8.0, n_zones),
        "longest_min": np.where(rng.random(n_zones) < 0.5, 16.2, np.inf),
    }
    return SeasonInput(**(base | given))


def even(n_days: int, *, etc_mm: float, **given: Any) -> SeasonInput:
    """One zone, four equal positions, the same use every day, no rain."""
    one = np.ones(1)
    base: dict[str, Any] = {
        "share": np.ones((1, 4, 1)),
        "served_share": one,
        "etc_mm_per_day": np.full((n_days, 1), etc_mm),
        "rain_mm": np.zeros((n_days, 1)),
        "is_open": np.ones((n_days, 1), dtype=bool),
        "is_always": np.zeros(1, dtype=bool),
        "total_mm": 40.0 * one,
        "allowed_mm": 16.0 * one,
        "start_mm": 0.0 * one,
        "min_per_mm": 5.0 * one,
        "longest_min": np.inf * one,
    }
    return season(n_days, 4, 1, **(base | given))
