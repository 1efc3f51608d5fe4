"""Rain in, the part of it that counts out: rules by publication.

Only zones without a balance need a rule: a balance stores what fits and drains the
rest. The monthly rules are for monthly totals of planning tables; fed with days they
are wrong, which is why their argument is called `month_rain_mm`.
"""

import numpy as np
import numpy.typing as npt

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.units import MM_PER_INCH


def _checked(rain_mm: npt.ArrayLike) -> FloatArray:
    rain = np.asarray(rain_mm, dtype=np.float64)
    if not np.all(rain >= 0):
        wrong = rain[~(rain >= 0)].flat[0]
        raise SchedulerError(
            f"rain of {wrong:g} mm", "give 0 or more, and leave unknown days out"
        )
    return rain


def counted_rain_mm(rain_mm_per_day: npt.ArrayLike, share: float) -> FloatArray:
    """Rain that reaches the roots when a fixed share of it is counted.

    Parameters
    ----------
    rain_mm_per_day : array of any shape
        Rain of each day. [mm]
    share : float
        Part that counts, 0 to 1: none under cover, less where leaves shed it. [-]

    Returns
    -------
    array of the same shape
        Counted rain. [mm]

    Raises
    ------
    SchedulerError
        If rain is negative or unknown, or the share is outside 0 to 1.

    References
    ----------
    Source: definition; a fixed share is common practice, no source.

    Examples
    --------
    >>> counted_rain_mm([0.0, 8.0], 0.5).tolist()
    [0.0, 4.0]
    """
    if not 0 <= share <= 1:
        raise SchedulerError(f"a share of rain of {share:g}", "give 0 to 1")
    return _checked(rain_mm_per_day) * share


def agrilife_event_rain_mm(event_rain_mm: npt.ArrayLike) -> FloatArray:
    """Effective rain of single events by the rule of Texas A&M AgriLife.

    Parameters
    ----------
    event_rain_mm : array of any shape
        Rain of one event, or of one day. [mm]

    Returns
    -------
    array of the same shape
        Effective rain. [mm]

    Raises
    ------
    SchedulerError
        If rain is negative or unknown.

    Notes
    -----
    The first 0.1 in is lost, then all counts up to 1 in, two thirds from 1 to 2 in,
    nothing above. The loss is taken once.

    References
    ----------
    .. [1] Texas A&M AgriLife Extension, page on effective rainfall.

    Examples
    --------
    >>> float(agrilife_event_rain_mm(25.4).round(2))
    22.86
    """
    rain = _checked(event_rain_mm) / MM_PER_INCH
    full = np.clip(rain, 0.1, 1.0) - 0.1
    part = (np.clip(rain, 1.0, 2.0) - 1.0) * 2 / 3
    return np.asarray((full + part) * MM_PER_INCH)


def agrilife_event_for_mm(effective_mm: npt.ArrayLike) -> FloatArray:
    """Rain of a single event of which that much is effective: the rule backwards.

    Parameters
    ----------
    effective_mm : array of any shape
        Effective rain that is asked for. [mm]

    Returns
    -------
    array of the same shape
        Least rain that brings it; infinite above 1.567 in, which no event reaches. [mm]

    Raises
    ------
    SchedulerError
        If the asked rain is negative or unknown.

    References
    ----------
    .. [1] Texas A&M AgriLife Extension, page on effective rainfall.

    Examples
    --------
    >>> float(agrilife_event_for_mm(22.86).round(2)), float(agrilife_event_for_mm(50))
    (25.4, inf)
    """
    wanted = _checked(effective_mm) / MM_PER_INCH
    rain = np.where(wanted <= 0.9, wanted + 0.1, 1.0 + (wanted - 0.9) * 1.5)
    rain = np.where(wanted > 0.9 + 2 / 3, np.inf, rain)
    return np.asarray(np.where(wanted > 0, rain, 0.0) * MM_PER_INCH)


def scs_storage_factor(storage_mm: npt.ArrayLike) -> FloatArray:
    """Factor for soil storage in the monthly rule of USDA-SCS.

    Parameters
    ----------
    storage_mm : float or array
        Usable soil water storage, D: 40 to 60 % of the available water. [mm]

    Returns
    -------
    array of the same shape
        1 at about 75 mm. [-]

    References
    ----------
    .. [1] USDA-NRCS, 1993, National Engineering Handbook part 623, chapter 2,
       equation 2-85 (from TR-21).

    Examples
    --------
    >>> round(float(scs_storage_factor(76.2)), 6)
    1.000674
    """
    d = np.asarray(storage_mm, dtype=np.float64) / MM_PER_INCH
    return np.asarray(0.531747 + 0.295164 * d - 0.057697 * d**2 + 0.003804 * d**3)


def scs_month_rain_mm(
    month_rain_mm: npt.ArrayLike,
    *,
    month_etc_mm: npt.ArrayLike,
    storage_mm: npt.ArrayLike,
) -> FloatArray:
    """Effective rain of a whole month by the full rule of USDA-SCS.

    Parameters
    ----------
    month_rain_mm : array of any shape
        Rain of one month, never of a day or an event. [mm]
    month_etc_mm : array
        Water use of that month. [mm]
    storage_mm : array
        Usable soil water storage. [mm]

    Returns
    -------
    array of the broadcast shape
        Effective rain, at most the rain and at most the water use. [mm]

    Raises
    ------
    SchedulerError
        If rain is negative or unknown.

    Notes
    -----
    SF (0.70917 P^0.82416 - 0.11556) 10^(0.02426 ETc), all in inches. It knows nothing
    of runoff or intake.

    References
    ----------
    .. [1] USDA-NRCS, 1993, National Engineering Handbook part 623, chapter 2,
       equation 2-84 (from TR-21).

    Examples
    --------
    >>> month = scs_month_rain_mm(101.6, month_etc_mm=152.4, storage_mm=76.2)
    >>> round(float(month) / 25.4, 2)
    2.95
    """
    rain = _checked(month_rain_mm)
    use = np.asarray(month_etc_mm, dtype=np.float64)
    inches = 0.70917 * (rain / MM_PER_INCH) ** 0.82416 - 0.11556
    grown = inches * 10 ** (0.02426 * use / MM_PER_INCH)
    effective = scs_storage_factor(storage_mm) * grown * MM_PER_INCH
    return np.asarray(np.clip(effective, 0.0, np.minimum(rain, use)))


def scs_simplified_month_rain_mm(month_rain_mm: npt.ArrayLike) -> FloatArray:
    """Effective rain of a whole month by the simplified USDA-SCS formula.

    Parameters
    ----------
    month_rain_mm : array of any shape
        Rain of one month, never of a day or an event. [mm]

    Returns
    -------
    array of the same shape
        P (125 - 0.2 P) / 125 up to 250 mm, then 125 + 0.1 P. [mm]

    Raises
    ------
    SchedulerError
        If rain is negative or unknown.

    References
    ----------
    .. [1] FAO / USDA-SCS simplified monthly formula, as widely reprinted.

    Examples
    --------
    >>> scs_simplified_month_rain_mm([100.0, 300.0]).tolist()
    [84.0, 155.0]
    """
    rain = _checked(month_rain_mm)
    low = rain * (125.0 - 0.2 * rain) / 125.0
    return np.where(rain <= 250.0, low, 125.0 + 0.1 * rain)


def fao_manual_3_month_rain_mm(month_rain_mm: npt.ArrayLike) -> FloatArray:
    """Effective rain of a whole month by FAO Training Manual 3.

    Parameters
    ----------
    month_rain_mm : array of any shape
        Rain of one month, never of a day or an event. [mm]

    Returns
    -------
    array of the same shape
        0.8 P - 25 above 75 mm, else 0.6 P - 10, never below 0. [mm]

    Raises
    ------
    SchedulerError
        If rain is negative or unknown.

    Notes
    -----
    For slopes up to 4 or 5 %.

    References
    ----------
    .. [1] Brouwer and Heibloem, 1986, FAO Irrigation Water Management Training
       Manual 3.

    Examples
    --------
    >>> fao_manual_3_month_rain_mm([10.0, 50.0, 100.0]).tolist()
    [0.0, 20.0, 55.0]
    """
    rain = _checked(month_rain_mm)
    rule = np.where(rain > 75.0, 0.8 * rain - 25.0, 0.6 * rain - 10.0)
    return np.maximum(rule, 0.0)


def dependable_month_rain_mm(month_rain_mm: npt.ArrayLike) -> FloatArray:
    """Dependable rain of a whole month, FAO/AGLW rule.

    Parameters
    ----------
    month_rain_mm : array of any shape
        Rain of one month, never of a day or an event. [mm]

    Returns
    -------
    array of the same shape
        0.6 P - 10 up to 70 mm, else 0.8 P - 24, never below 0. [mm]

    Raises
    ------
    SchedulerError
        If rain is negative or unknown.

    References
    ----------
    .. [1] FAO/AGLW dependable rainfall rule, as reprinted.

    Examples
    --------
    >>> dependable_month_rain_mm([50.0, 100.0]).tolist()
    [20.0, 56.0]
    """
    rain = _checked(month_rain_mm)
    rule = np.where(rain <= 70.0, 0.6 * rain - 10.0, 0.8 * rain - 24.0)
    return np.maximum(rule, 0.0)
