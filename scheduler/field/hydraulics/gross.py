"""Package, pressures and buckets of a run in; its best known gross rate out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from scheduler.field.catch import (
    Catch,
    gross_rate_mm_per_h,
    package_gross_rate_mm_per_h,
)
from scheduler.field.hydraulics.laws import rate_at_pressure_mm_per_h
from scheduler.field.hydraulics.measured import measured_pressure_kpa
from scheduler.record import BucketFlow, CanRun, CanTest
from scheduler.site import Package, Zone
from scheduler.trace import Trace, entered

GrossBasis = Literal["buckets", "carried to measured pressure", "nominal", "unknown"]


@dataclass(frozen=True, slots=True)
class GrossRate:
    """What the nozzles deliver, by every way that is known; best known first.

    Attributes
    ----------
    rate_mm_per_h : float or None
        The best known: buckets, else the package carried to the measured pressure,
        else the package at its nominal pressure. [mm/h]
    basis : str
        Which of them.
    is_estimated : bool
        Carried by the square root of pressure, not measured.
    nominal_mm_per_h, carried_mm_per_h, bucket_mm_per_h : float or None
        Each of them. [mm/h]
    pressure_kpa, nominal_pressure_kpa : float or None
        Measured at the nozzles, and the package's nominal. [kPa]
    area_per_head_m2 : float or None
        Ground of one head. [m2]
    trace : Trace or None
        Where the best known came from, and what was passed over.
    """

    rate_mm_per_h: float | None
    basis: GrossBasis
    is_estimated: bool
    nominal_mm_per_h: float | None
    carried_mm_per_h: float | None
    bucket_mm_per_h: float | None
    pressure_kpa: float | None
    nominal_pressure_kpa: float | None
    area_per_head_m2: float | None
    trace: Trace | None

    def noted(self, caught: Catch) -> Catch:
        """Return the catch with word of where its gross rate came from."""
        return replace(caught, gross_from=self.basis, gross_trace=self.trace)


def area_per_head_m2(package: Package | None, zone: Zone | None) -> float | None:
    """Ground of one head: from the spacing, else the zone's area over its heads.

    Parameters
    ----------
    package : Package or None
        For the spacing.
    zone : Zone or None
        For area and heads.

    Returns
    -------
    float or None
        Ground. [m2]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> area_per_head_m2(Package(id="p", spacing_m=9.0), None)
    81.0
    """
    if package is not None and package.area_per_head_m2 is not None:
        return package.area_per_head_m2
    if zone is not None and zone.heads is not None:
        return zone.area_m2 / zone.heads
    return None


def best_gross_rate(
    test: CanTest, run: CanRun | None, package: Package | None, zone: Zone | None = None
) -> GrossRate:
    """The best known gross rate of a run, with its reasons.

    Parameters
    ----------
    test : CanTest
        The test.
    run : CanRun or None
        The run; None for what holds for all runs.
    package : Package or None
        Nozzle flow at nominal pressure, and spacing.
    zone : Zone, optional
        For the ground of one head where no spacing is known.

    Returns
    -------
    GrossRate
        Every way that is known, and the best.

    References
    ----------
    .. [1] Orifice law (Torricelli), for the rate at another pressure.

    Examples
    --------
    >>> import datetime as dt
    >>> package = Package(id="p", nozzle_flow_l_per_min=18.0, pressure_kpa=300.0,
    ...                   spacing_m=10.0)
    >>> bucket = BucketFlow("t", "first head", "first", 10.0, 30.0)
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None, flows=(bucket,))
    >>> best_gross_rate(test, None, package).basis
    'buckets'
    """
    ground = area_per_head_m2(package, zone)
    nominal = package_gross_rate_mm_per_h(package)
    if nominal is None and package is not None and ground is not None:
        flow = package.nozzle_flow_l_per_min
        nominal = gross_rate_mm_per_h(flow, area_per_head_m2=ground) if flow else None
    pressure, how = measured_pressure_kpa(test, run.name if run else None, package)
    stated = package.pressure_kpa if package else None
    carried = None
    if nominal is not None and pressure is not None and stated is not None:
        carried = rate_at_pressure_mm_per_h(nominal, from_kpa=stated, to_kpa=pressure)
    buckets = _buckets_of(test, run)
    caught = None
    if buckets and ground is not None:
        mean = float(np.mean([one.flow_l_per_min for one in buckets]))
        caught = gross_rate_mm_per_h(mean, area_per_head_m2=ground)
    rates = (nominal, carried, caught)
    trace: Trace | None = None
    basis: GrossBasis = "unknown"
    if caught is not None:
        basis, trace = "buckets", _bucket_trace(buckets, ground, rates)
    elif carried is not None:
        basis = "carried to measured pressure"
        trace = _carried_trace((nominal, carried), (stated, pressure, how))
    elif nominal is not None:
        basis, trace = "nominal", _nominal_trace(package, ground, nominal)
    return GrossRate(
        next((one for one in (caught, carried, nominal) if one is not None), None),
        basis,
        basis == "carried to measured pressure",
        *rates,
        pressure,
        stated,
        ground,
        trace,
    )


def of_run(trace: Trace, prefix: str) -> Trace:
    """A trace whose every name carries the run, where several runs differ.

    Parameters
    ----------
    trace : Trace
        The trace of a run.
    prefix : str
        What its names begin with.

    Returns
    -------
    Trace
        The same chain under other names.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> of_run(entered("gross_rate_mm_per_h", 12.0), "run 1 ").name
    'run 1 gross_rate_mm_per_h'
    """
    inputs = tuple(of_run(one, prefix) for one in trace.inputs)
    return replace(trace, name=f"{prefix}{trace.name}", inputs=inputs)


def _buckets_of(test: CanTest, run: CanRun | None) -> tuple[BucketFlow, ...]:
    name = run.name if run else None
    return tuple(one for one in test.flows if name is None or one.run in (None, name))


def _bucket_trace(
    buckets: Sequence[BucketFlow],
    ground: float | None,
    rates: tuple[float | None, float | None, float | None],
) -> Trace:
    flows = tuple(
        Trace(
            f"bucket {i} flow_l_per_min",
            one.flow_l_per_min,
            "volume over time",
            "measured",
            (),
            f"{one.name}, {one.seconds:g} s",
        )
        for i, one in enumerate(buckets, 1)
    )
    mean = Trace(
        "bucket_flow_l_per_min",
        float(np.mean([one.flow_l_per_min for one in buckets])),
        "mean over the heads of volume over time",
        "measured",
        flows,
    )
    passed = []
    if rates[1] is not None:
        passed.append("the package carried to the measured pressure")
    elif rates[0] is not None:
        passed.append("the package at its nominal pressure")
    note = "best known: buckets" + (f", before {passed[0]}" if passed else "")
    return Trace(
        "gross_rate_mm_per_h",
        rates[2],
        "mean bucket flow over the ground of one head",
        "definition",
        (mean, entered("ground_of_one_head_m2", ground, "packages.toml or zones.toml")),
        note,
    )


def _carried_trace(
    rates: tuple[float | None, float],
    pressures: tuple[float | None, float | None, str],
) -> Trace:
    stated, measured, how = pressures
    inputs = (
        Trace(
            "nominal_gross_rate_mm_per_h",
            rates[0],
            "nozzle flow over the ground of one head",
            "definition",
        ),
        entered("nominal_pressure_kpa", stated, "packages.toml"),
        Trace(
            "measured_pressure_kpa",
            measured,
            "square of the mean root over the heads, which gives their mean flow",
            "measured",
            (),
            how,
        ),
    )
    return Trace(
        "gross_rate_mm_per_h",
        rates[1],
        "nominal gross rate x square root of (measured over nominal pressure)",
        "orifice law",
        inputs,
        "estimated: best known without buckets; catch some heads in a bucket",
    )


def _nominal_trace(
    package: Package | None, ground: float | None, nominal: float
) -> Trace:
    flow = package.nozzle_flow_l_per_min if package else None
    return Trace(
        "gross_rate_mm_per_h",
        nominal,
        "nozzle flow over the ground of one head",
        "definition",
        (
            entered("nozzle_flow_l_per_min", flow, "packages.toml"),
            entered("ground_of_one_head_m2", ground, "packages.toml or zones.toml"),
        ),
        "at nominal pressure: neither pressure nor flow was measured",
    )
