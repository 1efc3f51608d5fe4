"""A station's alfalfa reference ET in, the same days as grass reference out.

Crop coefficients here are for short grass. Alfalfa reference is 10 to 25 % above it
(common practice, no source), by wind and dryness of the day, so it is never used as it
stands: it is divided by the station keeper's own ratio, else by the ratio of the two
standardized equations in that day's weather.
"""

from dataclasses import replace

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding, Level
from scheduler.need.penman_monteith import DAILY_INPUTS, penman_monteith_eto_mm_per_day
from scheduler.need.weather import Weather, day_of_year
from scheduler.record import Origin

# Fewer days say too little of a station's usual ratio (common practice, no source).
LEAST_DAYS = 7


def alfalfa_over_grass(weather: Weather) -> FloatArray:
    """Ratio of the two standardized references in the weather of each day.

    Parameters
    ----------
    weather : Weather
        Days as filled in.

    Returns
    -------
    array of shape (n_days,)
        Alfalfa (ETrs) over grass (ETos), about 1.1 to 1.4; NaN on days without
        temperatures, or on which grass uses nothing. [-]

    References
    ----------
    .. [1] ASCE-EWRI, 2005, The ASCE standardized reference evapotranspiration
       equation, equation 1 with table 1.

    Examples
    --------
    >>> day, one = np.array(["2026-07-08"], dtype="datetime64[D]"), np.ones(1)
    >>> greeley = Weather(
    ...     "greeley", "g.csv", False, 40.41, 1462.4, day, 35.5 * one, 16.7 * one,
    ...     1.13 * one, 23.2 * one, 2.24 * one, one, one, {}, one > 2, one > 2)
    >>> alfalfa_over_grass(greeley).round(2).tolist()
    [1.36]
    """
    known = np.stack([getattr(weather, name) for name in DAILY_INPUTS])
    is_whole = np.isfinite(known).all(axis=0)
    ratio = np.full(weather.date.shape, np.nan)
    given = {
        name: getattr(weather, name)[is_whole] for name in DAILY_INPUTS
    }  # by keyword, as the equation takes them
    tall, short = (
        penman_monteith_eto_mm_per_day(
            **given,
            latitude_deg=weather.latitude_deg,
            elevation_m=weather.elevation_m,
            day_of_year=day_of_year(weather.date)[is_whole],
            is_tall=is_tall,
        )
        for is_tall in (True, False)
    )
    ratio[is_whole] = np.where(
        short > 0, tall / np.where(short > 0, short, 1.0), np.nan
    )
    return ratio


def as_grass(weather: Weather, origin: Origin) -> tuple[Weather, tuple[Finding, ...]]:
    """Weather whose reported ET is for short grass, whatever the station reports.

    Parameters
    ----------
    weather : Weather
        Days as filled in, with the ET that the station reports.
    origin : Origin
        Which reference that is, and the ratio where somebody gave one.

    Returns
    -------
    weather : Weather
        The same days; the reported ET is for grass, NaN where no ratio is known.
    findings : tuple of Finding
        How it was converted, or that the reference is taken for granted.

    Notes
    -----
    Days without weather take the ratio of the station's other days, if there are seven
    or more; without any weather the alfalfa reference is not used at all.

    References
    ----------
    .. [1] ASCE-EWRI, 2005, equation 1 with table 1, for the ratio of a day.

    Examples
    --------
    >>> day, no = np.array(["2026-07-08"], dtype="datetime64[D]"), np.array([np.nan])
    >>> county = Weather(
    ...     "county", "c.csv", False, 36.0, 270.0, day, *[no] * 6, np.array([6.0]), {},
    ...     np.array([False]), np.array([False]))
    >>> told = Origin(reference="alfalfa", alfalfa_over_grass=1.2)
    >>> as_grass(county, told)[0].stated_eto_mm_per_day.tolist()
    [5.0]
    """
    stated = weather.stated_eto_mm_per_day
    reported = np.isfinite(stated)
    if not reported.any() or origin.reference == "grass":
        return weather, ()
    if origin.reference == "unsaid":
        return weather, (_taken_for_grass(weather),)
    if origin.alfalfa_over_grass is not None:
        grass = stated / origin.alfalfa_over_grass
        said = _by_entered_ratio(weather, origin.alfalfa_over_grass)
    else:
        ratio, guessed = _ratio_each_day(weather)
        grass = stated / ratio
        said = _by_weather(weather, ratio[reported], int(guessed[reported].sum()))
    return replace(weather, stated_eto_mm_per_day=frozen(grass)), (said,)


def _ratio_each_day(weather: Weather) -> tuple[FloatArray, FloatArray]:
    """Ratio of each day, and where it rests on filled-in weather or on other days."""
    ratio = alfalfa_over_grass(weather)
    known = np.isfinite(ratio)
    if known.sum() >= LEAST_DAYS:
        ratio = np.where(known, ratio, float(ratio[known].mean()))
    return ratio, np.asarray(weather.guessed | ~known, dtype=np.float64)


def _taken_for_grass(weather: Weather) -> Finding:
    return Finding(
        "warning",
        f"{weather.where}: ETo",
        "nothing says whether the reported ET is for grass (ETo) or alfalfa (ETr), "
        "which is 10 to 25 % higher; it is taken for grass",
        f"write reference = 'grass' or 'alfalfa' for station {weather.name!r} in "
        "site.toml",
    )


def _by_entered_ratio(weather: Weather, ratio: float) -> Finding:
    return Finding(
        "note",
        f"{weather.where}: ETr",
        f"the reported alfalfa reference is divided by {ratio:g}: grass reference",
        "nothing to do; alfalfa_over_grass in site.toml holds the ratio",
    )


def _by_weather(weather: Weather, ratio: FloatArray, n_guessed: int) -> Finding:
    known = ratio[np.isfinite(ratio)]
    fix = (
        f"give alfalfa_over_grass for station {weather.name!r} in site.toml, or the "
        "missing weather columns"
    )
    if not known.size:
        what = (
            f"the station reports alfalfa reference on {ratio.size} days, and neither "
            "a ratio nor weather turns it into grass reference; it is not used"
        )
        return Finding("warning", f"{weather.where}: ETr", what, fix)
    what = (
        "the reported alfalfa reference is turned into grass reference by the two "
        f"standardized equations, ratio {known.min():.2f} to {known.max():.2f}"
    )
    if n_guessed:
        what += f"; on {n_guessed} of {ratio.size} days in weather partly filled in"
    if known.size < ratio.size:
        what += f"; {ratio.size - known.size} days stay unknown"
    is_sure = not n_guessed and known.size == ratio.size
    level: Level = "note" if is_sure else "warning"
    return Finding(level, f"{weather.where}: ETr", what, fix)
