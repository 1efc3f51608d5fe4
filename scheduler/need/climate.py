"""A site's weather files in, the mean wind and lowest humidity of some days out."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import DateArray, FloatArray, IntArray
from scheduler.errors import WeatherError
from scheduler.need import air
from scheduler.need.weather import checked, day_of_year
from scheduler.record import DailySeries
from scheduler.trace import Trace

# fewer days say little of a stage (common practice, no source)
LEAST_DAYS = 10
DAYS_OF_YEAR = 366
CLIMATE_SOURCE = "measured; FAO-56 (1998) p. 121 to 127 asks for the mean of the stage"


@dataclass(frozen=True, slots=True)
class ClimateMean:
    """Air of some days, as far as crop coefficients follow it.

    Attributes
    ----------
    wind_2m_m_per_s : float
        Mean wind at 2 m. [m/s]
    rh_min : float
        Mean of the lowest humidities, 0 to 1. [-]
    n_days : int
        Days that both rest on.
    source : str
        Name of the station.
    """

    wind_2m_m_per_s: float
    rh_min: float
    n_days: int
    source: str

    def traces(self, stage: str) -> tuple[Trace, Trace]:
        """Both means, named after the stage."""
        where = f"{self.n_days} days of {self.source}"
        return (
            Trace(
                f"wind_2m_{stage}_m_per_s",
                self.wind_2m_m_per_s,
                f"mean wind at 2 m over the {stage} days",
                CLIMATE_SOURCE,
                (),
                where,
            ),
            Trace(
                f"rh_min_{stage}",
                self.rh_min,
                f"mean lowest humidity over the {stage} days",
                CLIMATE_SOURCE,
                (),
                where,
            ),
        )


@dataclass(frozen=True, slots=True, eq=False)
class _Days:
    """One station's days with both wind and lowest humidity."""

    name: str
    day_of_year: IntArray
    wind_2m_m_per_s: FloatArray
    rh_min: FloatArray


@dataclass(frozen=True, slots=True, eq=False)
class Climate:
    """Wind and lowest humidity of every station, by day of the year."""

    stations: tuple[_Days, ...]

    def mean_on(self, dates: DateArray) -> ClimateMean | None:
        """Mean over the same days of every year on record; None where too few."""
        wanted = np.zeros(DAYS_OF_YEAR + 1, dtype=bool)
        wanted[day_of_year(dates)] = True
        needed = min(LEAST_DAYS, int(wanted.sum()))
        for one in self.stations:
            hit = wanted[one.day_of_year]
            if hit.sum() >= max(needed, 1):
                return ClimateMean(
                    float(one.wind_2m_m_per_s[hit].mean()),
                    float(one.rh_min[hit].mean()),
                    int(hit.sum()),
                    one.name,
                )
        return None


def site_climate(weather: Iterable[DailySeries]) -> Climate:
    """Wind and lowest humidity that a site's stations measured.

    Parameters
    ----------
    weather : iterable of DailySeries
        As read, in the order of the site file.

    Returns
    -------
    Climate
        Only days on which both were measured; a guess would move the coefficient
        away from the table for nothing.

    Notes
    -----
    Lowest humidity: as measured, else the vapour pressure (stated, or of the dew
    point) over saturation at the highest temperature.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 121 and equation 63; wind at 2 m: equation 47.

    Examples
    --------
    >>> site_climate(()).mean_on(np.array(["2026-06-01"], "datetime64[D]")) is None
    True
    """
    happened = (one for one in weather if one.origin.issued is None)  # no forecast
    return Climate(tuple(_days(checked(one)[0]) for one in happened))


def _days(series: DailySeries) -> _Days:
    top = air.saturation_vapour_pressure_kpa(series.tmax_degc)
    dew = air.saturation_vapour_pressure_kpa(series.dew_point_degc)
    vapour = np.where(
        np.isfinite(series.vapour_pressure_kpa), series.vapour_pressure_kpa, dew
    )
    rh = np.where(np.isfinite(series.rh_min), series.rh_min, vapour / top)
    wind = _at_2m(series)
    known = np.isfinite(rh) & np.isfinite(wind)
    return _Days(
        series.name,
        np.asarray(day_of_year(series.date)[known]),
        np.asarray(wind[known]),
        np.asarray(np.clip(rh[known], 0.0, 1.0)),
    )


def _at_2m(series: DailySeries) -> FloatArray:
    """Wind at 2 m; a height that is not known or cannot be counts as 2 m."""
    # the weather of the site says so once, with what to do
    if series.wind_height_m is None:
        return series.wind_m_per_s
    try:
        return air.wind_at_2m_m_per_s(
            series.wind_m_per_s, height_m=series.wind_height_m
        )
    except WeatherError:
        return series.wind_m_per_s
