"""A plant and dates in; crop coefficients, on the plant's own area basis, out."""

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from scheduler.arrays import DateArray, FloatArray
from scheduler.errors import Finding
from scheduler.site import Plant, StageCurve, Zone

# Wet soil and a full canopy together evaporate at most about this much of ETo: FAO-56
# equation 72 gives Kc max 1.05 to 1.30, and p. 124 suggests 1.1 to 1.3 for small plants
# that are wetted every few days. Above it, the coefficient is on another area.
MOST_ON_BED = 1.3
# A pot's own leaves use several times ETo on the small top; below this, the coefficient
# was most likely meant for the bed (common practice, no source).
LEAST_ON_POT_TOP = 0.3

# Bounds of the climate adjustment, FAO-56 p. 121 and p. 136
WIND_BOUNDS_M_PER_S = (1.0, 6.0)
RH_BOUNDS = (0.20, 0.80)
HEIGHT_BOUNDS_M = (0.1, 10.0)
LEAST_ADJUSTED_KC = 0.45


class Stages(NamedTuple):
    """Days of the four stages: initial, development, mid-season, late."""

    initial: int
    development: int
    mid: int
    late: int


def stage_curve_kc(
    day: npt.ArrayLike,
    stages: Stages,
    *,
    kc_initial: float,
    kc_mid: float,
    kc_end: float,
) -> FloatArray:
    """Crop coefficient on days of the season, from the four-stage curve.

    Parameters
    ----------
    day : int or array
        Day of the season; 1 is the first day. [-]
    stages : Stages
        Lengths of the four stages. [days]
    kc_initial, kc_mid, kc_end : float
        Coefficients of the initial stage, of mid-season and of the last day. [-]

    Returns
    -------
    array of the shape of `day`
        Crop coefficient; before the season the initial one, after it the last one. [-]

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 132, equation 66.

    Examples
    --------
    >>> kc = stage_curve_kc(
    ...     [20, 40, 70, 95], Stages(25, 25, 30, 20),
    ...     kc_initial=0.15, kc_mid=1.19, kc_end=0.35,
    ... )
    >>> kc.round(2).tolist()
    [0.15, 0.77, 1.19, 0.56]
    """
    corners = np.cumsum(stages)
    levels = (kc_initial, kc_mid, kc_mid, kc_end)
    return np.asarray(np.interp(np.asarray(day, dtype=np.float64), corners, levels))


def kc_climate_adjusted(
    kc_tab: npt.ArrayLike,
    *,
    wind_2m_m_per_s: npt.ArrayLike,
    rh_min: npt.ArrayLike,
    height_m: npt.ArrayLike,
) -> FloatArray:
    """Tabled crop coefficient, moved from the standard climate to this one.

    Parameters
    ----------
    kc_tab : float or array
        Coefficient of the table: mid-season, end of season, or basal. [-]
    wind_2m_m_per_s : float or array
        Mean wind at 2 m during the stage; counted within 1 to 6. [m/s]
    rh_min : float or array
        Mean lowest humidity during the stage, 0 to 1; counted within 0.2 to 0.8. [-]
    height_m : float or array
        Mean height of the plants during the stage; counted up to 10. [m]

    Returns
    -------
    array of the broadcast shape
        Adjusted coefficient. [-]

    Notes
    -----
    Tables are for 2 m/s and 45 %. Coefficients below 0.45 and plants below 0.1 m stay
    as they are.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equations 62 (p. 121), 65 (p. 125), 70 (p. 136).

    Examples
    --------
    >>> kc = kc_climate_adjusted(1.2, wind_2m_m_per_s=1.3, rh_min=0.75, height_m=2.0)
    >>> round(float(kc), 2)
    1.07
    """
    tabled = np.asarray(kc_tab, dtype=np.float64)
    wind = np.clip(np.asarray(wind_2m_m_per_s, dtype=np.float64), *WIND_BOUNDS_M_PER_S)
    dry_pct = 100.0 * np.clip(np.asarray(rh_min, dtype=np.float64), *RH_BOUNDS)
    height = np.asarray(height_m, dtype=np.float64)
    tall = (np.clip(height, *HEIGHT_BOUNDS_M) / 3.0) ** 0.3
    move = (0.04 * (wind - 2.0) - 0.004 * (dry_pct - 45.0)) * tall
    counts = (tabled >= LEAST_ADJUSTED_KC) & (height >= HEIGHT_BOUNDS_M[0])
    return np.asarray(tabled + np.where(counts, move, 0.0))


def kc_on(plant: Plant, dates: DateArray) -> FloatArray:
    """Crop coefficient of a plant on dates, on the plant's own area basis.

    Parameters
    ----------
    plant : Plant
        With one coefficient, twelve by month, or a stage curve.
    dates : array of shape (n_days,)
        Days. [datetime64[D]]

    Returns
    -------
    array of shape (n_days,)
        Crop coefficient. [-]

    Notes
    -----
    Monthly values are steps. Before its start a stage curve holds the initial value,
    after its end the last one; `kc_findings` says so.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 132, equation 66.

    Examples
    --------
    >>> from scheduler.site import Plant
    >>> box = Plant(name="boxwood", kc=0.8, kc_area="bed")
    >>> kc_on(box, np.array(["2026-06-01", "2026-06-02"], "datetime64[D]")).tolist()
    [0.8, 0.8]
    """
    days = dates.astype("datetime64[D]")
    if plant.stages is not None:
        curve = plant.stages
        return stage_curve_kc(
            _day_of_season(curve, days),
            _stages(curve),
            kc_initial=curve.kc_initial,
            kc_mid=curve.kc_mid,
            kc_end=curve.kc_end,
        )
    if plant.kc_by_month is not None:
        month = days.astype("datetime64[M]").astype(np.int64) % 12
        return np.asarray(np.array(plant.kc_by_month)[month])
    return np.full(days.shape, plant.kc, dtype=np.float64)


def _stages(curve: StageCurve) -> Stages:
    return Stages(
        curve.initial_days, curve.development_days, curve.mid_days, curve.late_days
    )


def _day_of_season(curve: StageCurve, days: DateArray) -> npt.NDArray[np.int64]:
    since = days - np.datetime64(curve.start, "D")
    return np.asarray(since.astype(np.int64) + 1)


def kc_findings(zone: Zone, dates: DateArray) -> tuple[Finding, ...]:
    """What is odd about a zone's crop coefficient on those dates.

    Parameters
    ----------
    zone : Zone
        The zone; without plant there is nothing to say.
    dates : array of shape (n_days,)
        Days that are planned. [datetime64[D]]

    Returns
    -------
    tuple of Finding
        Warnings for a coefficient that does not fit its area basis, and for days
        outside the stage curve; a note where nobody wrote where it came from.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 124 and equation 72 (upper end on the bed);
       the lower end on the pot top is common practice, no source.

    Examples
    --------
    >>> from scheduler.site import Plant, Zone
    >>> box = Plant(name="boxwood", kc=3.1, kc_area="bed", kc_from="weighed pots")
    >>> zone = Zone(id="Z4", name="box", area_m2=100.0, grown_in="soil", plant=box)
    >>> day = np.array(["2026-06-01"], "datetime64[D]")
    >>> [finding.level for finding in kc_findings(zone, day)]
    ['warning']
    """
    plant = zone.plant
    if plant is None or dates.size == 0:
        return ()
    found = [_basis_finding(zone, plant, kc_on(plant, dates))]
    if plant.stages is not None:
        found.append(_season_finding(zone, plant.stages, dates))
    if not plant.kc_from:
        found.append(
            Finding(
                "note",
                f"zone {zone.id}: kc",
                f"nobody wrote where the coefficient of {plant.name} comes from",
                "write kc_from, and correct it by weighing pots or a leaching check",
            )
        )
    return tuple(one for one in found if one is not None)


def _basis_finding(zone: Zone, plant: Plant, kc: FloatArray) -> Finding | None:
    where, high, low = f"zone {zone.id}: kc", float(kc.max()), float(kc.min())
    if plant.kc_area == "bed" and high > MOST_ON_BED:
        return Finding(
            "warning",
            where,
            f"{high:g} on the bed is more than wet ground can use ({MOST_ON_BED:g})",
            "if it was measured on pots, write kc_area = 'pot top' (or 'canopy')",
        )
    if plant.kc_area == "pot top" and low < LEAST_ON_POT_TOP:
        return Finding(
            "warning",
            where,
            f"{low:g} on the pot top is less than plants in pots use "
            f"({LEAST_ON_POT_TOP:g} and up)",
            "if it was meant for the bed with pots and gaps, write kc_area = 'bed'",
        )
    return None


def _season_finding(zone: Zone, curve: StageCurve, dates: DateArray) -> Finding | None:
    day = _day_of_season(curve, dates.astype("datetime64[D]"))
    length = sum(_stages(curve))
    if int(day.max()) <= length and int(day.min()) >= 1:
        return None
    is_over = int(day.max()) > length
    last = np.datetime64(curve.start, "D") + np.timedelta64(length - 1, "D")
    held = curve.kc_end if is_over else curve.kc_initial
    return Finding(
        "warning",
        f"zone {zone.id}: stages",
        f"the season of the curve runs from {curve.start} to {last}; "
        f"{'after' if is_over else 'before'} it {held:g} is used",
        "set a new start, or give kc or kc_by_month for the rest of the year",
    )
