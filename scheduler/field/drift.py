"""Weather and spray in, published wind drift and evaporation losses as a range out.

For planning only. A net rate from cans already contains the loss of its hour, so
nothing here is ever taken off a net rate.

One published equation is left out: number 10 of Playan et al. (2005), in humidity
alone, because its coefficients are garbled in the transcription.
"""

from collections.abc import Callable
from dataclasses import dataclass, fields
from typing import Literal

from scheduler.errors import Finding, SchedulerError

TimeOfDay = Literal["day", "night"]
Covers = Literal["day", "night", "day and night", "not stated"]

PLANNING_ONLY = (
    "for planning only: a net rate from cans already contains these losses, so they "
    "are never taken off it again"
)
UNKNOWN_LIMITS = (
    "the weather each equation was fitted to is not stated in the copies it was read "
    "from; in a field test of twelve such models the measured losses ran from 0.03 to "
    "0.49 (Sarwar, Peters and Mohamed 2019)"
)
M_PER_S_TO_KM_PER_H = 3.6
COARSEST, FINEST = 7.0, 17.0  # limits of the coarseness index, by its source


@dataclass(frozen=True, slots=True)
class Spraying:
    """Weather and spray of one hour; None where it is not known.

    Attributes
    ----------
    wind_m_per_s : float
        Mean wind speed. [m/s]
    rh : float, optional
        Relative humidity, 0 to 1.
    temperature_degc : float, optional
        Air temperature. [degc]
    vapour_pressure_deficit_kpa : float, optional
        Saturation less actual vapour pressure. [kPa]
    pressure_kpa : float, optional
        At the nozzle. [kPa]
    nozzle_mm : float, optional
        Diameter of the nozzle. [mm]
    et_mm_per_day : float, optional
        Reference evapotranspiration of the day. [mm/day]
    """

    wind_m_per_s: float
    rh: float | None = None
    temperature_degc: float | None = None
    vapour_pressure_deficit_kpa: float | None = None
    pressure_kpa: float | None = None
    nozzle_mm: float | None = None
    et_mm_per_day: float | None = None


@dataclass(frozen=True, slots=True)
class Bounds:
    """Ends of what a value can be, and how people name it."""

    low: float
    high: float
    unit: str
    words: str


# Wider than any sprinkling; a value outside is a slip of the pen or of the unit.
POSSIBLE: dict[str, Bounds] = {
    "wind_m_per_s": Bounds(0.0, 30.0, "m/s", "the wind"),
    "rh": Bounds(0.0, 1.0, "(a fraction: 0.5 is 50 %)", "the relative humidity"),
    "temperature_degc": Bounds(-5.0, 55.0, "°C", "the air temperature"),
    "vapour_pressure_deficit_kpa": Bounds(
        0.0, 12.0, "kPa", "the vapour pressure deficit"
    ),
    "pressure_kpa": Bounds(30.0, 1500.0, "kPa", "the nozzle pressure"),
    "nozzle_mm": Bounds(0.5, 50.0, "mm", "the nozzle diameter"),
    "et_mm_per_day": Bounds(0.0, 20.0, "mm/day", "the reference ET"),
}


@dataclass(frozen=True, slots=True)
class Equation:
    """One published equation: what it needs, what it covers, its loss in percent."""

    name: str
    source: str
    needs: tuple[str, ...]
    covers: Covers
    formula: str
    loss_pct: Callable[..., float]
    note: str = "solid set"


_PLAYAN = (
    "Playan et al. 2005, Agric. Water Manage. 76:139-159, equation {} (transcribed)"
)
_OTHERS = "as transcribed beside Playan et al. 2005 and Aminpour et al. 2023"
_U, _RH = "wind_m_per_s", "rh"
_VPD, _P, _DN = "vapour_pressure_deficit_kpa", "pressure_kpa", "nozzle_mm"
_T = "temperature_degc"


def _playan(
    number: int,
    needs: tuple[str, ...],
    covers: Covers,
    formula: str,
    loss_pct: Callable[..., float],
) -> Equation:
    return Equation(
        f"Playan {number}", _PLAYAN.format(number), needs, covers, formula, loss_pct
    )


# In the formulas, as printed: U wind [m/s], RH humidity [%], VPD [kPa], P [kPa],
# Dn nozzle [mm], T [degc]; the functions take rh as a fraction.
EQUATIONS: tuple[Equation, ...] = (
    _playan(1, (_U,), "day", "13.0 + 0.246 U²", lambda u: 13.0 + 0.246 * u**2),
    _playan(2, (_U,), "night", "3.7 + 1.31 U²", lambda u: 3.7 + 1.31 * u**2),
    _playan(3, (_RH,), "night", "29.9 - 0.300 RH", lambda rh: 29.9 - 30.0 * rh),
    _playan(4, (_U,), "day and night", "5.2 + 2.90 U", lambda u: 5.2 + 2.9 * u),
    _playan(5, (_RH,), "day and night", "38.6 - 0.407 RH", lambda rh: 38.6 - 40.7 * rh),
    _playan(12, (_U, _RH), "day", "24.1 + 1.41 U - 0.216 RH",
            lambda u, rh: 24.1 + 1.41 * u - 21.6 * rh),
    _playan(13, (_U, _RH), "day", "20.7 + 0.185 U² - 0.00214 RH²",
            lambda u, rh: 20.7 + 0.185 * u**2 - 21.4 * rh**2),
    _playan(14, (_U, _RH), "day and night", "26.1 + 1.64 U - 0.274 RH",
            lambda u, rh: 26.1 + 1.64 * u - 27.4 * rh),
    _playan(15, (_U, _RH), "day and night", "20.3 + 0.214 U² - 0.00229 RH²",
            lambda u, rh: 20.3 + 0.214 * u**2 - 22.9 * rh**2),
    Equation("Trimmer", f"Trimmer 1987, {_OTHERS}", (_DN, _VPD, _P, _U),
             "not stated",
             "(1.98 Dn^-0.72 + 0.22 VPD^0.63 + 0.00036 P^1.16 + 0.4 U^0.7)^4.2",
             lambda dn, vpd, p, u: (1.98 * dn**-0.72 + 0.22 * vpd**0.63
                                    + 0.00036 * p**1.16 + 0.4 * u**0.7) ** 4.2,
             "sprinklers; steep in small nozzles and high pressure"),
    Equation("Faci and Bercero", f"Faci and Bercero 1991, {_OTHERS}", (_U,),
             "not stated", "20.44 + 0.75 U", lambda u: 20.44 + 0.75 * u,
             "wind alone; 20 % in still air, humid or dry"),
    Equation("Montero", f"Montero 1999, {_OTHERS}", (_VPD, _U), "not stated",
             "7.63 VPD^0.5 + 1.62 U",
             lambda vpd, u: 7.63 * vpd**0.5 + 1.62 * u, "sprinklers"),
    Equation("Tarjuelo", f"Tarjuelo et al. 2000, {_OTHERS}", (_P, _VPD, _U),
             "not stated", "0.007 P + 7.38 VPD^0.5 + 0.844 U",
             lambda p, vpd, u: 0.007 * p + 7.38 * vpd**0.5 + 0.844 * u, "sprinklers"),
    Equation("Faci", f"Faci et al. 2001, {_OTHERS}", (_DN, _U, _T), "not stated",
             "-0.74 Dn + 2.58 U + 0.47 T",
             lambda dn, u, t: -0.74 * dn + 2.58 * u + 0.47 * t,
             "sprinklers; falls below 0 for large nozzles in cool still air"),
    Equation("Dechmi", f"Dechmi et al. 2003, {_OTHERS}", (_U,), "not stated",
             "7.479 + 5.287 U", lambda u: 7.479 + 5.287 * u, "wind alone"),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class DriftLoss:
    """What one equation says: the loss as fraction of what leaves the nozzles.

    `is_counted` tells whether it makes up the range; if not, `note` says why.
    """

    name: str
    loss: float
    is_counted: bool
    covers: str
    formula: str
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class DriftRange:
    """All results side by side; `low` and `high` of those that count."""

    time_of_day: TimeOfDay
    losses: tuple[DriftLoss, ...]
    low: float
    high: float
    findings: tuple[Finding, ...]


def _checked(spraying: Spraying) -> dict[str, float]:
    """Known values by name, after the one check at the door."""
    known = {}
    for name in (one.name for one in fields(spraying)):
        value = getattr(spraying, name)
        if value is None:
            continue
        can = POSSIBLE[name]
        if not can.low <= value <= can.high:
            raise SchedulerError(
                f"{can.words} is {value:g}, which cannot be",
                f"give {can.low:g} to {can.high:g} {can.unit}",
                name,
            )
        known[name] = float(value)
    return known


def coarseness_index(*, pressure_kpa: float, nozzle_mm: float) -> float:
    """Coarseness of a spray: the higher, the finer the drops.

    Parameters
    ----------
    pressure_kpa : float
        At the nozzle. [kPa]
    nozzle_mm : float
        Diameter of the nozzle. [mm]

    Returns
    -------
    float
        Between 7 (coarse) and 17 (fine), the limits the source sets.

    Raises
    ------
    SchedulerError
        If a value cannot be.

    References
    ----------
    .. [1] Keller and Bliesner, 1990, Sprinkle and Trickle Irrigation. Limits seen in
       a copy; the formula is from memory.

    Examples
    --------
    >>> round(coarseness_index(pressure_kpa=300.0, nozzle_mm=4.0), 1)
    13.3
    >>> coarseness_index(pressure_kpa=600.0, nozzle_mm=3.0)
    17.0
    """
    _checked(Spraying(0.0, pressure_kpa=pressure_kpa, nozzle_mm=nozzle_mm))
    fineness = 0.032 * float(pressure_kpa**1.3) / nozzle_mm
    return min(max(fineness, COARSEST), FINEST)


def effective_portion(
    *, et_mm_per_day: float, wind_m_per_s: float, coarseness: float
) -> float:
    """Portion of the discharge that reaches the ground, by Keller and Bliesner.

    Parameters
    ----------
    et_mm_per_day : float
        Reference evapotranspiration. [mm/day]
    wind_m_per_s : float
        Mean wind speed. [m/s]
    coarseness : float
        Coarseness index, 7 to 17.

    Returns
    -------
    float
        Re, at most 1.

    Raises
    ------
    SchedulerError
        If a value cannot be.

    Notes
    -----
    Coefficients are from memory. One copy prints 0.0018 for 0.00018, which would
    make the portion larger than 1.

    References
    ----------
    .. [1] Keller and Bliesner, 1990, Sprinkle and Trickle Irrigation; form of the
       CIGR handbook.

    Examples
    --------
    >>> re = effective_portion(
    ...     et_mm_per_day=8.0, wind_m_per_s=20 / 3.6, coarseness=17.0
    ... )
    >>> round(re, 3)
    0.988
    """
    _checked(Spraying(wind_m_per_s, et_mm_per_day=et_mm_per_day))
    if not COARSEST <= coarseness <= FINEST:
        raise SchedulerError(
            f"{coarseness:g} is no coarseness index", "give 7 to 17", "coarseness"
        )
    et, w = et_mm_per_day, wind_m_per_s * M_PER_S_TO_KM_PER_H
    spray = 0.00043 * et - 0.00018 * w + 0.000016 * et * w
    re = 0.976 + 0.005 * et - 0.00017 * et**2 + 0.0012 * w - coarseness * spray
    return min(re, 1.0)


def _one_loss(
    equation: Equation, known: dict[str, float], time_of_day: TimeOfDay
) -> DriftLoss:
    loss = equation.loss_pct(*(known[name] for name in equation.needs)) / 100
    note, is_counted = equation.note, True
    if equation.covers in ("day", "night") and equation.covers != time_of_day:
        note, is_counted = f"{note}; fitted to the {equation.covers}", False
    elif not 0.0 <= loss <= 1.0:
        note, is_counted = f"{note}; outside 0 to 1 here, so it cannot be", False
    return DriftLoss(
        equation.name, loss, is_counted, equation.covers, equation.formula,
        equation.source, note,
    )  # fmt: skip


def _handbook_loss(known: dict[str, float]) -> DriftLoss | None:
    """Keller and Bliesner beside the others; never part of the range."""
    if not {"et_mm_per_day", _P, _DN} <= set(known):
        return None
    ci = coarseness_index(pressure_kpa=known[_P], nozzle_mm=known[_DN])
    re = effective_portion(
        et_mm_per_day=known["et_mm_per_day"], wind_m_per_s=known[_U], coarseness=ci
    )
    return DriftLoss(
        "Keller and Bliesner", 1.0 - re, False, "day and night",
        "1 - Re(ET, wind, coarseness)", "Keller and Bliesner 1990",
        "coefficients from memory, not verified: shown, not counted",
    )  # fmt: skip


def _findings(known: set[str]) -> tuple[Finding, ...]:
    """What must be said beside every range, and which equations had to be left out."""
    where = "drift and evaporation"
    test = "set out cans for a rate, and use this to choose an hour or a nozzle"
    found = [
        Finding("note", where, PLANNING_ONLY, test),
        Finding("note", where, UNKNOWN_LIMITS, "read the range, not one equation"),
    ]
    left = [one for one in EQUATIONS if not set(one.needs) <= known]
    if left:
        wanted = {name for one in left for name in one.needs} - known
        what = f"left out: {', '.join(one.name for one in left)}"
        words = [POSSIBLE[name].words for name in POSSIBLE if name in wanted]
        found.append(Finding("note", where, what, f"give {', '.join(words)}"))
    return tuple(found)


def drift_range(spraying: Spraying, *, time_of_day: TimeOfDay) -> DriftRange:
    """Wind drift and evaporation loss by every published equation that applies.

    Parameters
    ----------
    spraying : Spraying
        Weather and spray. Equations that need what is not known are left out.
    time_of_day : {'day', 'night'}
        Which equations count; those of the other time are shown beside them.

    Returns
    -------
    DriftRange
        Losses as fraction of the discharge, with the lowest and the highest.

    Raises
    ------
    SchedulerError
        If a value cannot be.

    Notes
    -----
    At 3 m/s, 25 °C and half humidity the equations run from 0.14 to 0.25: only the
    range means anything, and none of it applies to a net rate from cans.

    References
    ----------
    .. [1] Playan et al., 2005, Agric. Water Manage. 76:139-159.
    .. [2] Aminpour et al., 2023, which sets the older equations side by side.

    Examples
    --------
    >>> calm_night = Spraying(wind_m_per_s=1.0, rh=0.8)
    >>> found = drift_range(calm_night, time_of_day="night")
    >>> round(found.low, 3), round(found.high, 3)
    (0.05, 0.212)
    """
    known = _checked(spraying)
    usable = [one for one in EQUATIONS if set(one.needs) <= set(known)]
    losses = [_one_loss(one, known, time_of_day) for one in usable]
    counted = [one.loss for one in losses if one.is_counted]
    handbook = _handbook_loss(known)
    shown = (*losses, *([] if handbook is None else [handbook]))
    found = _findings(set(known))
    return DriftRange(time_of_day, shown, min(counted), max(counted), found)
