"""Gauge readings of a test in; spread, nominal and what must be said out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.field.hydraulics.laws import flow_ratio, pressure_of_rise_kpa
from scheduler.field.hydraulics.measured import (
    effective_kpa,
    head_readings,
    noted_kpa,
)
from scheduler.record import CanTest, PressureReading
from scheduler.site import Package
from scheduler.units import System, shown

# Common practice, no source: pressure within 20 % over a zone. Jarrett, 2000, Water
# Management, pp. 336-337, gives the same: 20 % of pressure goes with 10 % of flow.
MAX_SPREAD = 0.20
# Common practice, no source: without a stated range a nozzle is taken to work within
# this part of its nominal pressure.
AROUND_NOMINAL = 0.20
# Common practice, no source: a regulator needs about 5 psi more in than it lets out,
# and holds its outlet within about a tenth.
REGULATOR_NEEDS_KPA = 34.5
REGULATOR_HOLDS = 0.10
# Two gauges apart by more than this tell two stories (common practice, no source).
NOTED_OFF = 0.10


@dataclass(frozen=True, slots=True)
class PressureCheck:
    """Running pressure at the heads of a test.

    Attributes
    ----------
    n_heads : int
        Heads that were read; 0 where only the run's own pressure is known.
    mean_kpa, min_kpa, max_kpa : float
        Over the heads. [kPa]
    effective_kpa : float
        Pressure that gives the mean flow of the heads by the square root. [kPa]
    spread_over_mean, spread_over_nominal, flow_spread : float or None
        Highest less lowest over the mean, over the nominal, and what the square root
        makes of it in flow; None for one head. [-]
    rise_kpa : float or None
        Part of highest less lowest that the rise between these heads explains. [kPa]
    static_kpa : float or None
        Highest reading with no water running. [kPa]
    """

    n_heads: int
    mean_kpa: float
    min_kpa: float
    max_kpa: float
    effective_kpa: float
    lowest: str
    highest: str
    spread_over_mean: float | None
    spread_over_nominal: float | None
    flow_spread: float | None
    nominal_kpa: float | None
    mean_over_nominal: float | None
    regulator_kpa: float | None
    rise_kpa: float | None = None
    static_kpa: float | None = None
    findings: tuple[Finding, ...] = ()


def pressure_check(
    test: CanTest, package: Package | None, *, run: str | None = None, units: System
) -> PressureCheck | None:
    """Pressures at the heads against each other, the nominal and the regulator.

    Parameters
    ----------
    test : CanTest
        The test.
    package : Package or None
        For nominal pressure, range and regulator.
    run : str, optional
        Only what belongs to this run or to all runs.
    units : {'us', 'metric'}
        Units of the findings.

    Returns
    -------
    PressureCheck or None
        None where no pressure was entered. Without heads, that of the runs.

    References
    ----------
    .. [1] Common practice, no source: pressure within 20 % over a zone.
    .. [2] Jarrett, 2000, Water Management, pp. 336-337, as paraphrased on a teaching
       page: 20 % of pressure goes with 10 % of flow.

    Examples
    --------
    >>> import datetime as dt
    >>> gauges = tuple(PressureReading("t", f"{place} head", place, kpa)
    ...                for place, kpa in (("first", 330.0), ("last", 270.0)))
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None, pressures=gauges)
    >>> round(pressure_check(test, None, units="metric").spread_over_mean, 2)
    0.2
    """
    heads = head_readings(test, run)
    pressures = [one.pressure_kpa for one in heads] or noted_kpa(test, run, package)
    if not pressures:
        return None
    found = _measured(np.asarray(pressures), heads, test, package)
    said = (
        *_spread(found, heads, test.where, units),
        *_regulated(found, test, package, units),
        *_nominal(found, test.where, package, units),
        *_alone(heads, test),
        *_noted_otherwise(found, noted_kpa(test, run, package), test.where, units),
    )
    return replace(found, findings=said)


def _measured(
    kpa: FloatArray,
    heads: Sequence[PressureReading],
    test: CanTest,
    package: Package | None,
) -> PressureCheck:
    mean, low, high = float(kpa.mean()), float(kpa.min()), float(kpa.max())
    root = np.sqrt(kpa)
    several = len(heads) > 1
    nominal = package.pressure_kpa if package else None
    least, most = (int(kpa.argmin()), int(kpa.argmax()))
    static = [one.pressure_kpa for one in test.pressures if one.is_static]
    rise = None
    if several:
        down, up = heads[least].rise_m, heads[most].rise_m
        if down is not None and up is not None:
            rise = pressure_of_rise_kpa(down - up)
    return PressureCheck(
        n_heads=len(heads),
        mean_kpa=mean,
        min_kpa=low,
        max_kpa=high,
        effective_kpa=effective_kpa(kpa.tolist()),
        lowest=heads[least].name if heads else "",
        highest=heads[most].name if heads else "",
        spread_over_mean=(high - low) / mean if several else None,
        spread_over_nominal=(high - low) / nominal if several and nominal else None,
        flow_spread=float(np.ptp(root) / root.mean()) if several else None,
        nominal_kpa=nominal,
        mean_over_nominal=mean / nominal if nominal else None,
        regulator_kpa=package.regulator_kpa if package else None,
        rise_kpa=rise,
        static_kpa=max(static) if static else None,
    )


def _spread(
    found: PressureCheck,
    heads: Sequence[PressureReading],
    where: str,
    units: System,
) -> Iterator[Finding]:
    spread, flow = found.spread_over_mean, found.flow_spread
    if spread is None or flow is None or spread <= MAX_SPREAD:
        return
    low, high, gap = (
        shown(one, "kpa", units)
        for one in (found.min_kpa, found.max_kpa, found.max_kpa - found.min_kpa)
    )
    what = (
        f"pressure runs from {low} ({found.lowest}) to {high} ({found.highest}), "
        f"{100 * spread:.0f} % of the mean; common practice is within "
        f"{100 * MAX_SPREAD:.0f} %. By the square root the flows then differ by "
        f"{100 * flow:.0f} %"
    )
    if found.rise_kpa is not None and found.rise_kpa > 0:
        part = shown(found.rise_kpa, "kpa", units)
        what += f". The rise between the two explains {part} of the {gap}"
    if found.rise_kpa is not None and found.rise_kpa > (
        0.5 * (found.max_kpa - found.min_kpa)
    ):
        fix = "most of it is height: regulators at the heads, or split the zone by it"
    elif all(one.rise_m is None for one in heads):
        fix = (
            "look for a valve not fully open, a clogged filter, too many heads on the "
            "line; enter rise_ft or rise_m to see what height explains"
        )
    else:
        fix = "most of it is friction: valve fully open? filter clean? pipe too small?"
    yield Finding("warning", where, what, fix)


def _regulated(
    found: PressureCheck, test: CanTest, package: Package | None, units: System
) -> Iterator[Finding]:
    outlet = package.regulator_kpa if package else None
    if outlet is None:
        return
    needs = outlet + REGULATOR_NEEDS_KPA
    wanted, set_to = shown(needs, "kpa", units), shown(outlet, "kpa", units)
    for one in test.pressures:
        if (
            one.place == "regulator inlet"
            and not one.is_static
            and (one.pressure_kpa < needs)
        ):
            yield Finding(
                "warning",
                one.where,
                f"{shown(one.pressure_kpa, 'kpa', units)} before a regulator of "
                f"{set_to}: it needs about {wanted} to hold",
                "raise the line pressure, run fewer heads, or take a lower regulator",
            )
    if not found.n_heads:
        return
    if found.min_kpa < outlet * (1 - REGULATOR_HOLDS):
        yield Finding(
            "warning",
            test.where,
            f"{found.lowest} has {shown(found.min_kpa, 'kpa', units)}, below what its "
            f"regulator is set to ({set_to}): too little reaches it",
            f"read the pressure before the regulator; about {wanted} is needed there",
        )
    if found.max_kpa > outlet * (1 + REGULATOR_HOLDS):
        yield Finding(
            "warning",
            test.where,
            f"{found.highest} has {shown(found.max_kpa, 'kpa', units)} behind a "
            f"regulator of {set_to}: it does not hold",
            "clean or replace the regulator, or correct regulator_psi (or _kpa)",
        )


def _nominal(
    found: PressureCheck, where: str, package: Package | None, units: System
) -> Iterator[Finding]:
    low, high, stated = nozzle_range_kpa(package)
    if low is None or high is None or low <= found.mean_kpa <= high:
        return
    ends = " to ".join(
        (shown(low, "kpa", units, with_unit=False), shown(high, "kpa", units))
    )
    if high == np.inf:
        ends = f"{shown(low, 'kpa', units)} and more"
    whose = "its stated range" if stated else "20 % around its nominal pressure"
    mean = shown(found.mean_kpa, "kpa", units)
    nominal = found.nominal_kpa
    by = ""
    if nominal:
        part = flow_ratio(found.mean_kpa / nominal)
        by = f"; flow is then about {100 * part:.0f} % of the nominal"
    if found.mean_kpa < low:
        what = (
            f"the mean pressure is {mean}, below {ends} ({whose}){by}. Too little "
            "throws weak: large drops, a ring around each head, dry between"
        )
        fix = (
            "open the valve, clean the filter, run fewer heads at once, check the pump"
        )
    else:
        what = (
            f"the mean pressure is {mean}, above {ends} ({whose}){by}. Too much mists: "
            "fine drops that drift, and wear"
        )
        fix = "throttle or regulate the pressure, or a nozzle for this pressure"
    yield Finding("warning", where, what, fix)


def nozzle_range_kpa(
    package: Package | None,
) -> tuple[float | None, float | None, bool]:
    """Pressures that a nozzle is made for: as stated, else around the nominal.

    Parameters
    ----------
    package : Package or None
        Head and nozzle.

    Returns
    -------
    low, high : float or None
        Ends of the range. [kPa]
    is_stated : bool
        Whether packages.toml states any end of it.

    References
    ----------
    .. [1] Common practice, no source: 20 % around the nominal pressure.

    Examples
    --------
    >>> nozzle_range_kpa(Package(id="p", pressure_kpa=300.0))
    (240.0, 360.0, False)
    """
    if package is None:
        return None, None, False
    low, high = package.lowest_pressure_kpa, package.highest_pressure_kpa
    stated = low is not None or high is not None
    nominal = package.pressure_kpa
    if nominal is not None:
        low = nominal * (1 - AROUND_NOMINAL) if low is None else low
        high = nominal * (1 + AROUND_NOMINAL) if high is None else high
    if stated:
        low, high = 0.0 if low is None else low, np.inf if high is None else high
    return low, high, stated


def _alone(heads: Sequence[PressureReading], test: CanTest) -> Iterator[Finding]:
    if len(heads) == 1:
        yield Finding(
            "note",
            test.where,
            "pressure was read at one head, so the spread over the zone is not known",
            "read the first, middle and last head, and the highest and lowest ground",
        )


def _noted_otherwise(
    found: PressureCheck, noted: Sequence[float], where: str, units: System
) -> Iterator[Finding]:
    """Say so where a run's noted pressure is not that of its heads."""
    off = [kpa for kpa in noted if abs(kpa / found.mean_kpa - 1.0) > NOTED_OFF]
    if found.n_heads and off:
        yield Finding(
            "note",
            where,
            f"a run notes {shown(off[0], 'kpa', units)}, and the heads have "
            f"{shown(found.mean_kpa, 'kpa', units)}: the heads count",
            "say where the run's pressure was read, or take it out",
        )
