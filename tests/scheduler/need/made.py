"""Weather made up for the tests of these rooms."""

import datetime as dt
from typing import Any

import numpy as np

from scheduler.need.reference_et import Method, ReferenceET
from scheduler.record import DailySeries
from scheduler.site import Place

# A calm summer day that no check objects to.
PLAIN = {
    "tmax_degc": 28.0,
    "tmin_degc": 15.0,
    "rh_max": 0.9,
    "rh_min": 0.45,
    "radiation_mj_per_m2_day": 22.0,
    "wind_m_per_s": 2.0,
    "rain_mm": 0.0,
}
MEASURED = (
    "tmax_degc", "tmin_degc", "rh_max", "rh_min", "rh_mean", "dew_point_degc",
    "vapour_pressure_kpa", "radiation_mj_per_m2_day", "sunshine_h", "wind_m_per_s",
    "rain_mm", "eto_mm_per_day",
)  # fmt: skip


def series(n_days: int = 3, **changes: Any) -> DailySeries:
    """Days from 1 July 2026, of which only what is named was measured."""
    given: dict[str, Any] = {
        "name": "mast",
        "where": "weather/mast.csv",
        "is_typical_year": False,
        "wind_height_m": 2.0,
        "latitude_deg": 36.0,
        "elevation_m": 270.0,
        "date": np.datetime64("2026-07-01") + np.arange(n_days),
        "line": tuple(range(2, n_days + 2)),
    } | changes
    for name in MEASURED:
        values = np.asarray(given.get(name, np.nan), dtype=float)
        given[name] = np.array(np.broadcast_to(values, n_days))
    return DailySeries(**given)


def plain(n_days: int = 3, **changes: Any) -> DailySeries:
    """Days with everything measured; `field=None` takes a measurement away."""
    kept = {
        name: value
        for name, value in (PLAIN | changes).items()
        if value is not None or name not in MEASURED
    }
    return series(n_days, **kept)


def place(**changes: Any) -> Place:
    given: dict[str, Any] = {
        "latitude_deg": 36.0,
        "longitude_deg": -80.0,
        "elevation_m": 270.0,
        "time_zone": "America/New_York",
    }
    return Place(**(given | changes))


def station(first: str, eto: Any, **changes: Any) -> ReferenceET:
    """Reference ET of consecutive days from a date; NaN is a day without."""
    values = np.atleast_1d(np.asarray(eto, dtype=float))
    method: tuple[Method, ...] = tuple(
        "missing" if gone else "penman-monteith" for gone in np.isnan(values)
    )
    given: dict[str, Any] = {
        "name": "county",
        "is_typical_year": False,
        "date": np.datetime64(first) + np.arange(values.size),
        "eto_mm_per_day": values,
        "method": method,
        "rain_mm": np.full(values.size, np.nan),
        "trace_note": "",
    }
    return ReferenceET(**(given | changes))


def days(first: str, n: int = 7) -> Any:
    return np.datetime64(first) + np.arange(n)


def day(text: str) -> dt.date:
    return dt.date.fromisoformat(text)
