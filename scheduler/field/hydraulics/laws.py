"""Pressure, bore or rise in; the flow, rate or pressure that goes with it out."""

from scheduler.errors import ReadingsError
from scheduler.units import KPA_PER_PSI, L_PER_US_GALLON, MM_PER_INCH

# Water through a hole: flow goes with the square root of pressure.
ORIFICE = 0.5
# Vogt, 2010, golf trade article, part 2: gpm = 28.62 d^2 sqrt(P), d in, P psi.
NOZZLE_GPM = 28.62
# The same without any loss: area times sqrt(2 P / density), water of 1000 kg/m3.
# Fire-service handbooks print 29.83 or 29.84 (from memory); 28.62 is 0.96 of it.
LOSSLESS_GPM = 29.826
# Water of 1000 kg/m3 under standard gravity: 1 psi is 2.307 ft, printed 2.31.
KPA_PER_M = 9.80665


def flow_ratio(pressure_ratio: float, *, exponent: float = ORIFICE) -> float:
    """Flow over flow, from pressure over pressure.

    Parameters
    ----------
    pressure_ratio : float
        New pressure over old, above 0. [-]
    exponent : float
        0.5 for a plain nozzle; a flow-controlled one lies below. [-]

    Returns
    -------
    float
        New flow over old. [-]

    Raises
    ------
    ReadingsError
        If the ratio is 0 or below.

    References
    ----------
    .. [1] Orifice law (Torricelli).

    Examples
    --------
    >>> round(flow_ratio(0.8), 4)
    0.8944
    """
    if pressure_ratio <= 0:
        raise ReadingsError(
            f"a pressure ratio of {pressure_ratio:g} is not possible",
            "give pressures above 0",
        )
    return float(pressure_ratio**exponent)


def pressure_ratio(flow_over_flow: float, *, exponent: float = ORIFICE) -> float:
    """Pressure over pressure, from flow over flow.

    Parameters
    ----------
    flow_over_flow : float
        New flow over old, above 0. [-]
    exponent : float
        As in `flow_ratio`. [-]

    Returns
    -------
    float
        New pressure over old. [-]

    Raises
    ------
    ReadingsError
        If the ratio is 0 or below.

    References
    ----------
    .. [1] Jarrett, 2000, Water Management, pp. 336-337 (20 % of pressure goes with
       10 % of flow), as paraphrased on a teaching page.

    Examples
    --------
    >>> round(pressure_ratio(1.1), 2)
    1.21
    """
    if flow_over_flow <= 0:
        raise ReadingsError(
            f"a flow ratio of {flow_over_flow:g} is not possible", "give flows above 0"
        )
    return float(flow_over_flow ** (1.0 / exponent))


def flow_at_pressure_l_per_min(
    flow_l_per_min: float,
    *,
    from_kpa: float,
    to_kpa: float,
    exponent: float = ORIFICE,
) -> float:
    """Flow of a nozzle carried to another pressure; an estimate.

    Parameters
    ----------
    flow_l_per_min : float
        Flow at `from_kpa`. [L/min]
    from_kpa, to_kpa : float
        Pressures at the nozzle. [kPa]
    exponent : float
        As in `flow_ratio`. [-]

    Returns
    -------
    float
        Flow at `to_kpa`. [L/min]

    Raises
    ------
    ReadingsError
        If a pressure is 0 or below.

    Notes
    -----
    Holds for a nozzle of one bore. A regulator or flow control upstream, or wear,
    breaks it; a bucket tells.

    References
    ----------
    .. [1] Orifice law (Torricelli).

    Examples
    --------
    >>> round(flow_at_pressure_l_per_min(10.0, from_kpa=400.0, to_kpa=324.0), 6)
    9.0
    """
    if from_kpa <= 0:
        raise ReadingsError(
            f"a pressure of {from_kpa:g} kPa is not possible", "give it above 0"
        )
    return flow_l_per_min * flow_ratio(to_kpa / from_kpa, exponent=exponent)


def rate_at_pressure_mm_per_h(
    rate_mm_per_h: float,
    *,
    from_kpa: float,
    to_kpa: float,
    exponent: float = ORIFICE,
) -> float:
    """Precipitation rate carried to another pressure; an estimate.

    Parameters
    ----------
    rate_mm_per_h : float
        Rate at `from_kpa`. [mm/h]
    from_kpa, to_kpa : float
        Pressures at the nozzle. [kPa]
    exponent : float
        As in `flow_ratio`. [-]

    Returns
    -------
    float
        Rate at `to_kpa`. [mm/h]

    Raises
    ------
    ReadingsError
        If a pressure is 0 or below.

    Notes
    -----
    Carries the mean rate only: throw, drops and so uniformity change with pressure
    too, which no law here tells.

    References
    ----------
    .. [1] Orifice law (Torricelli).

    Examples
    --------
    >>> round(rate_at_pressure_mm_per_h(12.0, from_kpa=310.0, to_kpa=248.0), 2)
    10.73
    """
    return flow_at_pressure_l_per_min(
        rate_mm_per_h, from_kpa=from_kpa, to_kpa=to_kpa, exponent=exponent
    )


def nozzle_flow_l_per_min(
    bore_mm: float, *, pressure_kpa: float, discharge_coefficient: float | None = None
) -> float:
    """Flow of a round nozzle from its bore and pressure.

    Parameters
    ----------
    bore_mm : float
        Inside diameter of the nozzle. [mm]
    pressure_kpa : float
        Pressure at the nozzle. [kPa]
    discharge_coefficient : float, optional
        Flow over what would pass without loss; without it the printed constant 28.62,
        which is 0.96. [-]

    Returns
    -------
    float
        Flow. [L/min]

    Raises
    ------
    ReadingsError
        If a number is 0 or below.

    References
    ----------
    .. [1] Vogt, 2010, golf trade article, part 2: gpm = 28.62 d^2 sqrt(P).

    Examples
    --------
    >>> round(nozzle_flow_l_per_min(6.35, pressure_kpa=344.738), 2)
    47.88
    """
    if bore_mm <= 0 or pressure_kpa <= 0 or (discharge_coefficient or 1.0) <= 0:
        raise ReadingsError(
            "bore, pressure and coefficient must be above 0", "measure them again"
        )
    constant = NOZZLE_GPM
    if discharge_coefficient is not None:
        constant = LOSSLESS_GPM * discharge_coefficient
    psi, inches = pressure_kpa / KPA_PER_PSI, bore_mm / MM_PER_INCH
    return float(constant * inches**2 * psi**ORIFICE * L_PER_US_GALLON)


def pressure_of_rise_kpa(rise_m: float) -> float:
    """Pressure that water loses by rising.

    Parameters
    ----------
    rise_m : float
        Rise; below 0 for a fall. [m]

    Returns
    -------
    float
        Pressure lost; below 0 where it is gained. [kPa]

    References
    ----------
    .. [1] Univ. Florida EP469 nursery checklist (1 psi is about 2.3 ft of rise).

    Examples
    --------
    >>> round(pressure_of_rise_kpa(0.3048 * 2.31) / 6.894757, 3)
    1.001
    """
    return rise_m * KPA_PER_M
