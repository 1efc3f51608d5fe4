"""Bucket tests at heads in; flow, wear and what must be said out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.errors import Finding
from scheduler.field.hydraulics.laws import (
    flow_at_pressure_l_per_min,
    nozzle_flow_l_per_min,
)
from scheduler.field.hydraulics.measured import head_readings
from scheduler.field.hydraulics.pressure import PressureCheck
from scheduler.record import BucketFlow, CanTest
from scheduler.site import Package
from scheduler.units import System, shown

# Jarrett, 2000, Water Management, pp. 336-337: each head within 10 % of the mean flow.
OFF_MEAN = 0.10
# Common practice, no source: replace a nozzle that gives 10 % more than a new one.
WORN = 1.10
# Common practice, no source: less than this is a clogged nozzle or too little pressure.
SHORT = 0.90
# A thumb on a stopwatch is about half a second off (common practice, no source), which
# is 5 % of ten seconds.
QUICK_S = 10.0


@dataclass(frozen=True, slots=True)
class HeadFlow:
    """One head: its bucket flow, and what a new nozzle gives at its pressure.

    `new_from` says where the new flow is known from; `is_carried` that it was carried
    to the measured pressure by the square root, an estimate.
    """

    name: str
    flow_l_per_min: float
    pressure_kpa: float | None
    new_flow_l_per_min: float | None
    flow_over_new: float | None
    new_from: str
    is_carried: bool


@dataclass(frozen=True, slots=True)
class FlowCheck:
    """Flow of the heads that were caught in a bucket.

    Attributes
    ----------
    mean_l_per_min, min_l_per_min, max_l_per_min : float
        Over the heads. [L/min]
    spread_over_mean : float or None
        Highest less lowest over the mean; None for one head. [-]
    package_flow_l_per_min : float or None
        The package's flow, carried to the measured pressure where it is known. [L/min]
    flow_over_package, flow_over_new : float or None
        Mean flow over the package's; mean over the heads of flow over new. [-]
    n_worn : int
        Heads that give more than a tenth over new.
    """

    n_heads: int
    mean_l_per_min: float
    min_l_per_min: float
    max_l_per_min: float
    spread_over_mean: float | None
    package_flow_l_per_min: float | None
    is_package_carried: bool
    flow_over_package: float | None
    flow_over_new: float | None
    n_worn: int
    heads: tuple[HeadFlow, ...]
    findings: tuple[Finding, ...] = ()


def flow_check(
    test: CanTest,
    package: Package | None,
    pressure: PressureCheck | None,
    *,
    run: str | None = None,
    units: System,
) -> FlowCheck | None:
    """Bucket flows against each other, the package and new nozzles.

    Parameters
    ----------
    test : CanTest
        The test.
    package : Package or None
        Flow at nominal pressure.
    pressure : PressureCheck or None
        Pressure at the heads.
    run : str, optional
        Only what belongs to this run or to all runs.
    units : {'us', 'metric'}
        Units of the findings.

    Returns
    -------
    FlowCheck or None
        None where no bucket was filled.

    References
    ----------
    .. [1] Jarrett, 2000, Water Management, pp. 336-337, as paraphrased on a teaching
       page: each head within 10 % of the mean flow.
    .. [2] Common practice, no source: replace a nozzle above 10 % over new.

    Examples
    --------
    >>> import datetime as dt
    >>> buckets = tuple(BucketFlow("t", f"head {i}", "head", 10.0, seconds)
    ...                 for i, seconds in enumerate((30.0, 40.0)))
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "", None, flows=buckets)
    >>> flow_check(test, None, None, units="metric").mean_l_per_min
    17.5
    """
    buckets = [one for one in test.flows if run is None or one.run in (None, run)]
    if not buckets:
        return None
    at = {
        one.name: one.pressure_kpa
        for one in head_readings(test, run)
        if one.name != "a head"
    }
    mean_kpa = pressure.effective_kpa if pressure else None
    heads = tuple(
        _head(one, one.pressure_kpa or at.get(one.name, mean_kpa), package)
        for one in buckets
    )
    flow = np.array([one.flow_l_per_min for one in heads])
    mean = float(flow.mean())
    whole, carried = _package_flow(package, mean_kpa)
    over_new = [one.flow_over_new for one in heads if one.flow_over_new is not None]
    found = FlowCheck(
        n_heads=len(heads),
        mean_l_per_min=mean,
        min_l_per_min=float(flow.min()),
        max_l_per_min=float(flow.max()),
        spread_over_mean=float(np.ptp(flow)) / mean if len(heads) > 1 else None,
        package_flow_l_per_min=whole,
        is_package_carried=carried,
        flow_over_package=mean / whole if whole else None,
        flow_over_new=float(np.mean(over_new)) if over_new else None,
        n_worn=sum(one > WORN for one in over_new),
        heads=heads,
    )
    said = (
        *_uneven(found, pressure, test.where, units),
        *_worn(found, test.where, units),
        *_short(found, test.where, units),
        *_bucket_notes(buckets, found, test.where),
    )
    return replace(found, findings=said)


def _head(one: BucketFlow, kpa: float | None, package: Package | None) -> HeadFlow:
    new, new_from, carried = _new_flow(one, kpa, package)
    flow = one.flow_l_per_min
    ratio = flow / new if new else None
    return HeadFlow(one.name, flow, kpa, new, ratio, new_from, carried)


def _new_flow(
    one: BucketFlow, kpa: float | None, package: Package | None
) -> tuple[float | None, str, bool]:
    """What a new nozzle gives at this head: as entered, by its bore, by the package."""
    nominal = package.pressure_kpa if package else None
    if one.new_flow_l_per_min is not None:
        flow, at, source = (
            one.new_flow_l_per_min,
            one.new_pressure_kpa or nominal,
            "new flow as entered",
        )
    elif one.nozzle_mm is not None and kpa is not None:
        flow = nozzle_flow_l_per_min(one.nozzle_mm, pressure_kpa=kpa)
        return flow, "stamped bore", True
    elif package is not None and package.nozzle_flow_l_per_min is not None:
        flow, at, source = package.nozzle_flow_l_per_min, nominal, "package"
    else:
        return None, "", False
    if at is None or kpa is None:
        return flow, source, False
    return flow_at_pressure_l_per_min(flow, from_kpa=at, to_kpa=kpa), source, at != kpa


def _package_flow(
    package: Package | None, kpa: float | None
) -> tuple[float | None, bool]:
    if package is None or package.nozzle_flow_l_per_min is None:
        return None, False
    flow, at = package.nozzle_flow_l_per_min, package.pressure_kpa
    if at is None or kpa is None:
        return flow, False
    return flow_at_pressure_l_per_min(flow, from_kpa=at, to_kpa=kpa), at != kpa


def _uneven(
    found: FlowCheck, pressure: PressureCheck | None, where: str, units: System
) -> Iterator[Finding]:
    mean = found.mean_l_per_min
    off = [
        one for one in found.heads if abs(one.flow_l_per_min / mean - 1.0) > OFF_MEAN
    ]
    if not off:
        return
    each = ", ".join(
        f"{one.name} {shown(one.flow_l_per_min, 'l_per_min', units)}" for one in off
    )
    what = (
        f"{len(off)} of {found.n_heads} heads are more than {100 * OFF_MEAN:.0f} % off "
        f"the mean flow of {shown(mean, 'l_per_min', units)}: {each}"
    )
    fix = "look at these nozzles: mixed sizes, wear or dirt; read the pressure at them"
    by_pressure = pressure.flow_spread if pressure else None
    if by_pressure is not None and found.spread_over_mean is not None:
        what += (
            f". Flow spreads by {100 * found.spread_over_mean:.0f} %; pressure alone "
            f"makes {100 * by_pressure:.0f} %"
        )
        if by_pressure >= 0.7 * found.spread_over_mean:
            fix = "pressure makes most of it: even out the pressure before the nozzles"
        else:
            fix = "pressure does not explain it: mixed nozzle sizes, wear or dirt"
    yield Finding("warning", where, what, fix)


def _worn(found: FlowCheck, where: str, units: System) -> Iterator[Finding]:
    ratio = found.flow_over_new
    if ratio is None or not found.n_worn:
        return
    news = sorted(
        one.new_flow_l_per_min for one in found.heads if one.new_flow_l_per_min
    )
    new = shown(float(np.mean(news)), "l_per_min", units)
    how = ", estimated" if any(one.is_carried for one in found.heads) else ""
    source = _new_source(found.heads)
    count = f"{found.n_worn} of {found.n_heads} nozzles give"
    what = (
        f"{count} more than {100 * (WORN - 1):.0f} % over new; on average "
        f"{shown(found.mean_l_per_min, 'l_per_min', units)} against {new} "
        f"({source}{how}), {100 * ratio:.0f} %. Wear shows as a higher rate, often "
        "not as a lower DU"
    )
    yield Finding(
        "warning",
        where,
        what,
        "replace the set (common practice above 10 %), then test again: the rate falls "
        "and the minutes must rise",
    )


def _short(found: FlowCheck, where: str, units: System) -> Iterator[Finding]:
    ratio = found.flow_over_package
    if ratio is None or ratio >= SHORT or found.package_flow_l_per_min is None:
        return
    at = "at the measured pressure" if found.is_package_carried else "as stated"
    what = (
        f"the buckets give {shown(found.mean_l_per_min, 'l_per_min', units)} a head, "
        f"{100 * ratio:.0f} % of the package's "
        f"{shown(found.package_flow_l_per_min, 'l_per_min', units)} {at}"
    )
    fix = (
        "clogged nozzles, another nozzle size than in packages.toml, or a hose that "
        "holds water back (its end above the nozzle, kinked or narrow)"
    )
    yield Finding("warning", where, what, fix)


def _new_source(heads: Sequence[HeadFlow]) -> str:
    return " and ".join(dict.fromkeys(one.new_from for one in heads if one.new_from))


def _bucket_notes(
    buckets: Sequence[BucketFlow], found: FlowCheck, where: str
) -> Iterator[Finding]:
    yield Finding(
        "note",
        where,
        "a hose over the nozzle holds a little water back, so a bucket reads low "
        "rather than high",
        "keep the hose short and wide, its end no higher than the nozzle",
    )
    for one in buckets:
        if one.seconds < QUICK_S:
            part = 0.5 / one.seconds
            yield Finding(
                "note",
                one.where,
                f"the bucket of {one.name} was full in {one.seconds:g} s; half a "
                f"second on the stopwatch is {100 * part:.0f} %",
                "take a larger bucket, or the mean of three",
            )
    if all(one.pressure_kpa is None for one in found.heads):
        yield Finding(
            "note",
            where,
            "no pressure was read at the buckets, so wear and pressure cannot be told "
            "apart",
            "read the pressure at the same heads with the hose off",
        )
