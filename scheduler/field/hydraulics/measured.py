"""Gauge readings of a test in; the pressures that its nozzles had out."""

from collections.abc import Sequence

import numpy as np

from scheduler.record import CanTest, PressureReading
from scheduler.site import Package


def head_readings(test: CanTest, run: str | None = None) -> tuple[PressureReading, ...]:
    """Running pressures at nozzles; those read at a bucket where no gauge named it.

    Parameters
    ----------
    test : CanTest
        The test.
    run : str, optional
        Only what belongs to this run or to all runs.

    Returns
    -------
    tuple of PressureReading
        In the order of the file.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> gauge = PressureReading("t", "first head", "first", 310.0)
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None,
    ...                pressures=(gauge,))
    >>> head_readings(test)[0].pressure_kpa
    310.0
    """
    found = [one for one in test.pressures if one.is_running_head]
    named = {(one.name, one.run) for one in found}
    found += [
        PressureReading(one.where, one.name, one.place, one.pressure_kpa, run=one.run)
        for one in test.flows
        if one.pressure_kpa is not None and (one.name, one.run) not in named
    ]
    return tuple(one for one in found if run is None or one.run in (None, run))


def noted_kpa(test: CanTest, run: str | None, package: Package | None) -> list[float]:
    """Pressures noted for the runs, held down by what the regulator is set to.

    Parameters
    ----------
    test : CanTest
        The test.
    run : str or None
        Only this run.
    package : Package or None
        For the regulator.

    Returns
    -------
    list of float
        One for each run that has one. [kPa]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> noted_kpa(CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None), None, None)
    []
    """
    limit = package.regulator_kpa if package else None
    return [
        min(one.pressure_kpa, limit or one.pressure_kpa)
        for one in test.runs
        if one.pressure_kpa is not None and run in (None, one.name)
    ]


def measured_pressure_kpa(
    test: CanTest, run: str | None, package: Package | None
) -> tuple[float | None, str]:
    """Pressure that the nozzles of a run had, and how it is known.

    Parameters
    ----------
    test : CanTest
        The test, with readings at the heads.
    run : str or None
        Name of the run; None for all runs together.
    package : Package or None
        A regulator lets no more through than it is set to.

    Returns
    -------
    pressure_kpa : float or None
        Pressure that gives the mean flow of the heads by the square root. [kPa]
    how : str
        In words.

    Notes
    -----
    A pressure noted for the run may have been read before the regulator, so it counts
    up to what the regulator is set to. Readings at the heads count as they are.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None)
    >>> measured_pressure_kpa(test, None, None)
    (None, '')
    """
    heads = head_readings(test, run)
    if heads:
        how = "1 head" if len(heads) == 1 else f"{len(heads)} heads"
        return effective_kpa([one.pressure_kpa for one in heads]), f"read at {how}"
    noted = noted_kpa(test, run, package)
    return (effective_kpa(noted), "noted for the run") if noted else (None, "")


def effective_kpa(kpa: Sequence[float]) -> float:
    """Pressure that gives the mean flow of several heads by the square root.

    Parameters
    ----------
    kpa : sequence of float
        Pressure at each head. [kPa]

    Returns
    -------
    float
        At most the mean pressure. [kPa]

    References
    ----------
    .. [1] Orifice law (Torricelli).

    Examples
    --------
    >>> effective_kpa([100.0, 400.0])
    225.0
    """
    # flow goes with the root, so the mean flow goes with the mean root
    return float(np.sqrt(kpa).mean() ** 2)
