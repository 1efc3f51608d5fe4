"""Rows of a wind log and one run's window in; the wind of that run out."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

from scheduler.arrays import BoolArray, FloatArray
from scheduler.errors import Finding, QuantityError
from scheduler.record import WindLog
from scheduler.units import converted

WindBand = Literal["calm", "usual", "windy", "unknown"]

# Irrigation Association, Recommended Audit Guidelines, 2009, step 2, which credits
# ASAE S398.1: no test above 5 mph (it prints 2.2 m/s; exactly 2.2352). [m/s]
CALM_UP_TO_M_PER_S = converted(5.0, "mph", to="m_per_s")
# Yacoubi et al., 2012, Engineering 4(10): stop sprinkling above 4 m/s. [m/s]
WINDY_ABOVE_M_PER_S = 4.0
# Common practice, no source: a run this near the usual wind of the irrigation hours
# tells of them. [m/s]
USUAL_WITHIN_M_PER_S = 1.0
# Common practice, no source: with less of the run logged, its wind counts as unknown.
NEEDED_SHARE = 0.75
_LONGEST_MIN = 24 * 60
# Shares are sums of whole seconds; this only absorbs rounding of the division.
_ROUNDING = 1e-9
# A resultant below this part of the mean speed is rounding, not a direction.
_NO_DIRECTION = 1e-6


@dataclass(frozen=True, slots=True)
class RunWind:
    """Wind of one run; a number is NaN where it cannot be known.

    Attributes
    ----------
    mean_m_per_s : float
        Mean speed over the window; NaN when too little of it is logged. [m/s]
    logged_mean_m_per_s : float
        Mean over the logged part alone, however small. [m/s]
    highest_m_per_s : float
        Highest row of the logged part. [m/s]
    gust_m_per_s : float
        Highest gust of the logged part. [m/s]
    direction_deg : float
        Direction of the mean wind vector, where it comes from. [deg]
    share_logged : float
        Part of the window that rows with a speed cover, 0 to 1.
    n_rows, n_expected : int
        Rows that were used, and rows of a window without gaps.
    height_m : float or None
        Height that the speeds stand for. [m]
    band : str
        `calm`, `usual`, `windy`, or `unknown`.
    findings : tuple of Finding
        What must be said about the window.
    """

    mean_m_per_s: float
    logged_mean_m_per_s: float
    highest_m_per_s: float
    gust_m_per_s: float
    direction_deg: float
    share_logged: float
    n_rows: int
    n_expected: int
    height_m: float | None
    band: WindBand
    findings: tuple[Finding, ...] = ()

    @property
    def is_known(self) -> bool:
        """Whether enough of the window is logged."""
        return bool(np.isfinite(self.mean_m_per_s))


def wind_band(mean_m_per_s: float, *, usual_m_per_s: float | None = None) -> WindBand:
    """Band that a run of that mean wind falls into.

    Parameters
    ----------
    mean_m_per_s : float
        Mean speed over the run; NaN when it is not known. [m/s]
    usual_m_per_s : float, optional
        Usual wind of the site's irrigation hours. [m/s]

    Returns
    -------
    {'calm', 'usual', 'windy', 'unknown'}
        Calm up to the limit for testing, windy above the limit for operating. Where the
        usual wind of the site is above the limit for testing, its band is that wind
        give or take 1 m/s: calm below it, windy above it.

    Notes
    -----
    A site whose usual wind is calm waters in the calm band; every run of that band
    tells of its irrigation hours.

    References
    ----------
    .. [1] Irrigation Association, Recommended Audit Guidelines, 2009, step 2 (5 mph).
    .. [2] Yacoubi et al., 2012, Engineering 4(10) (stop above 4 m/s).

    Examples
    --------
    >>> wind_band(2.2), wind_band(4.0), wind_band(4.1)
    ('calm', 'usual', 'windy')
    """
    if not np.isfinite(mean_m_per_s):
        return "unknown"
    calm, windy = CALM_UP_TO_M_PER_S, WINDY_ABOVE_M_PER_S
    if usual_m_per_s is not None and usual_m_per_s > calm:
        windy = usual_m_per_s + USUAL_WITHIN_M_PER_S
        calm = max(calm, usual_m_per_s - USUAL_WITHIN_M_PER_S)
    if mean_m_per_s <= calm + _ROUNDING:
        return "calm"
    return "usual" if mean_m_per_s <= windy + _ROUNDING else "windy"


def vector_mean_deg(
    direction_deg: npt.ArrayLike, speed_m_per_s: npt.ArrayLike, weight: npt.ArrayLike
) -> float:
    """Direction that the mean wind vector comes from.

    Parameters
    ----------
    direction_deg : array of shape (n,)
        Where the wind comes from, clockwise from north; NaN is left out. [deg]
    speed_m_per_s : array of shape (n,)
        Speeds; NaN is left out. [m/s]
    weight : array of shape (n,)
        Weights of the rows, such as seconds.

    Returns
    -------
    float
        0 up to 360; NaN when the vectors cancel or nothing is logged. [deg]

    References
    ----------
    Source: definition. Each direction counts by its speed, so a calm row has none.

    Examples
    --------
    >>> round(vector_mean_deg([350.0, 20.0], [2.0, 2.0], [1.0, 1.0]))
    5
    >>> vector_mean_deg([90.0, 270.0], [2.0, 2.0], [1.0, 1.0])
    nan
    """
    direction = np.asarray(direction_deg, dtype=np.float64)
    strength = np.asarray(speed_m_per_s, dtype=np.float64) * np.asarray(weight)
    is_logged = np.isfinite(direction) & np.isfinite(strength)
    angle, strength = np.radians(direction[is_logged]), strength[is_logged]
    east, north = strength @ np.sin(angle), strength @ np.cos(angle)
    if np.hypot(east, north) <= _NO_DIRECTION * strength.sum():
        return float("nan")
    # a tiny negative angle would round up to 360 itself
    return float(np.degrees(np.arctan2(east, north)) % 360.0 % 360.0)


def run_wind(
    log: WindLog,
    *,
    start_utc: np.datetime64,
    minutes: float,
    needed_share: float = NEEDED_SHARE,
) -> RunWind:
    """Wind over exactly the window of one run.

    Parameters
    ----------
    log : WindLog
        Rows in any order.
    start_utc : datetime64
        Start of the run in UTC.
    minutes : float
        Length of the run, above 0 and at most a day. [min]
    needed_share : float
        Part of the window that must be logged; exactly this part is enough.

    Returns
    -------
    RunWind
        Each row counts by the seconds that it shares with the window.

    Raises
    ------
    QuantityError
        If the minutes are not above 0 and at most a day.

    Notes
    -----
    Rows that begin at the same moment share their seconds, and a row ends where the
    next begins, so that no second counts twice. A row without a speed is a gap.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> rows = np.array(["2026-05-12T10:10", "2026-05-12T10:15"], "datetime64[s]")
    >>> none = np.full(2, np.nan)
    >>> mast = WindLog(rows, 300.0, np.array([2.0, 3.0]), none, none, 2.0, "m", "m.csv")
    >>> run_wind(mast, start_utc=rows[0], minutes=10.0).mean_m_per_s
    2.5
    """
    if not 0 < minutes <= _LONGEST_MIN:
        raise QuantityError(
            f"a run of {minutes:g} minutes has no wind",
            "give the minutes that the water ran, above 0 and at most 1440",
        )
    window_s = 60.0 * minutes
    begin_s = float(start_utc.astype("datetime64[s]").astype(np.int64))
    weight_s = _shared_s(log, (begin_s, begin_s + window_s))
    used = weight_s > 0
    speed, weight_s = log.speed_m_per_s[used], weight_s[used]
    share = min(float(weight_s.sum()) / window_s, 1.0)
    mean = float(weight_s @ speed / weight_s.sum()) if used.any() else float("nan")
    is_enough = used.any() and share >= needed_share - _ROUNDING
    known_mean = mean if is_enough else float("nan")
    n_expected = max(1, round(window_s / log.interval_s))
    return RunWind(
        mean_m_per_s=known_mean,
        logged_mean_m_per_s=mean,
        highest_m_per_s=_highest(speed),
        gust_m_per_s=_highest(log.gust_m_per_s[used]),
        direction_deg=vector_mean_deg(log.direction_deg[used], speed, weight_s),
        share_logged=share,
        n_rows=int(used.sum()),
        n_expected=n_expected,
        height_m=log.height_m,
        band=wind_band(known_mean),
        findings=tuple(_said(log, used, (share, needed_share), n_expected)),
    )


def _shared_s(log: WindLog, window: tuple[float, float]) -> FloatArray:
    """Seconds that each row shares with the window; 0 for a row without a speed."""
    begin_s, end_s = window
    starts = log.start_utc.astype("datetime64[s]").astype(np.int64)
    near = (starts < end_s) & (starts + log.interval_s > begin_s)
    near &= np.isfinite(log.speed_m_per_s)
    shared = np.zeros(starts.size)
    unique, place, count = np.unique(
        starts[near], return_inverse=True, return_counts=True
    )
    ends = unique + log.interval_s
    ends[:-1] = np.minimum(ends[:-1], unique[1:])
    seconds = np.clip(np.minimum(ends, end_s) - np.maximum(unique, begin_s), 0, None)
    shared[near] = (seconds / count)[place]
    return shared


def _highest(values: FloatArray) -> float:
    logged = values[np.isfinite(values)]
    return float(logged.max()) if logged.size else float("nan")


def _said(
    log: WindLog, used: BoolArray, shares: tuple[float, float], n_expected: int
) -> Iterator[Finding]:
    share, needed = shares
    if share >= 1.0 - _ROUNDING:
        return
    n_rows = int(used.sum())
    logged = f"{100 * share:.0f} % of the run is logged ({n_rows} of {n_expected} rows)"
    if share >= needed - _ROUNDING:
        fix = "the mean is that of the logged part; look why rows are missing"
        yield Finding("note", log.where, logged, fix)
        return
    yield Finding(
        "warning",
        log.where,
        f"{logged if n_rows else 'none of the run is logged'}, "
        f"{100 * needed:.0f} % are needed: wind unknown",
        "check the clock of the log and the start of the run, or enter the wind",
    )
