"""Stations made by hand: they report reference ET and nothing else."""

import numpy as np

from scheduler.arrays import DateArray, FloatArray
from scheduler.record import DailySeries


def station(date: DateArray, eto_mm_per_day: float | FloatArray) -> DailySeries:
    unknown = np.full(date.size, np.nan)
    return DailySeries(
        name="station",
        where="weather/station.csv",
        is_typical_year=False,
        wind_height_m=2.0,
        latitude_deg=36.1,
        elevation_m=273.0,
        date=date,
        tmax_degc=unknown,
        tmin_degc=unknown,
        rh_max=unknown,
        rh_min=unknown,
        rh_mean=unknown,
        dew_point_degc=unknown,
        vapour_pressure_kpa=unknown,
        radiation_mj_per_m2_day=unknown,
        sunshine_h=unknown,
        wind_m_per_s=unknown,
        rain_mm=unknown,
        eto_mm_per_day=np.broadcast_to(eto_mm_per_day, date.shape).astype(float),
        line=tuple(range(2, date.size + 2)),
    )
