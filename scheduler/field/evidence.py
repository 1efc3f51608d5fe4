"""A zone's tests in, the rate and the shares that feed its week out."""

import datetime as dt
from collections.abc import Sequence

import numpy as np

from scheduler.arrays import frozen
from scheduler.errors import Finding, ReadingsError
from scheduler.field.catch import Catch, catch, package_gross_rate_mm_per_h
from scheduler.field.guess import ZoneCatch, assumed, rate_without_cans, stated_catch
from scheduler.field.ranges import cell_ranges
from scheduler.field.screening import net_gross_findings, screened
from scheduler.field.uniformity import uniformity
from scheduler.record import CanRun, CanTest
from scheduler.site import Package, Zone
from scheduler.trace import Trace, entered


def zone_catch(
    zone: Zone,
    package: Package | None,
    tests: Sequence[CanTest],
    today: dt.date,
) -> tuple[ZoneCatch | None, tuple[Finding, ...]]:
    """Which runs feed the week, pooled into one rate and one set of shares.

    Parameters
    ----------
    zone : Zone
        The zone.
    package : Package or None
        For the gross rate.
    tests : sequence of CanTest
        Tests of this zone, in any order.
    today : date
        Tests of later days are left out.

    Returns
    -------
    catch : ZoneCatch or None
        None where a stop finding forbids planning.
    findings : tuple of Finding
        What must be said about it.

    Notes
    -----
    The newest hardware condition counts: runs of the newest date under the condition
    that was named last. Runs on one grid are pooled by position. A net rate surely
    above the gross rate blocks the zone. Without any test the uniformity and the rate
    are assumed, as a warning.

    References
    ----------
    .. [1] Haman and Yeager, Univ. Florida AE194 (below 0.60 is low).
    .. [2] Common practice, no source: net is 70 to 100 % of gross.

    Examples
    --------
    >>> from scheduler.site import Plant
    >>> plant = Plant(name="holly", kc=0.85, kc_area="bed")
    >>> zone = Zone(id="Z1", name="yard", area_m2=100.0, grown_in="pots", plant=plant,
    ...             assumed_net_rate_mm_per_h=12.0)
    >>> found, findings = zone_catch(zone, None, [], dt.date(2026, 6, 8))
    >>> found.basis, found.du_lq
    ('assumed', 0.6)
    """
    past = [test for test in tests if test.date <= today]
    gross = package_gross_rate_mm_per_h(package)
    if not past:
        return assumed(zone, gross)
    newest = max(past, key=lambda test: test.date)
    same = [
        t for t in past if t.condition == newest.condition and t.date == newest.date
    ]
    if newest.stated is not None:
        return stated_catch(zone, newest, gross)
    findings: list[Finding] = []
    usable: list[tuple[CanTest, CanRun, Catch]] = []
    blocked = False
    for test in same:
        for run in test.runs:
            said, caught = _worked(test, run, gross)
            findings += said
            blocked |= any(
                "delivered" in one.what and one.level == "stop" for one in said
            )
            if caught is not None:
                usable.append((test, run, caught))
    if blocked or not usable:
        return None, tuple(findings)
    return _measured(zone, newest, usable, gross, findings)


def _worked(
    test: CanTest, run: CanRun, gross: float | None
) -> tuple[list[Finding], Catch | None]:
    """Screen and weigh one run; no catch where a stop finding forbids it."""
    said = list(screened(test, run))
    if any(one.level == "stop" for one in said):
        return said, None
    try:
        caught = catch(
            run, mouth_area_cm2=test.mouth_area_cm2, gross_rate_mm_per_h=gross
        )
    except ReadingsError as problem:
        return [*said, problem.finding(run.where)], None
    net_low = None
    if caught.net_over_gross is not None and caught.net_over_gross > 1.0:
        mean = float(caught.depth_mm.mean())
        net = caught.net_rate_mm_per_h or 0.0
        net_low = net * cell_ranges(caught.depth_mm).mean.low / mean
    found = net_gross_findings(caught, run.where, net_low)
    said += found
    return said, None if any(one.level == "stop" for one in found) else caught


def _measured(
    zone: Zone,
    test: CanTest,
    usable: list[tuple[CanTest, CanRun, Catch]],
    gross: float | None,
    findings: list[Finding],
) -> tuple[ZoneCatch | None, tuple[Finding, ...]]:
    """Shares and rate of the usable runs, pooled by position on one grid."""
    rated = [one for one in usable if one[2].net_rate_mm_per_h is not None]
    pooled = rated or usable
    if len({run.reading.shape for _, run, _ in pooled}) > 1:
        last = pooled[-1]
        findings.append(
            Finding(
                "warning",
                test.where,
                "the runs stood on different grids, so only the last one is used",
                "repeat runs on the same grid",
            )
        )
        pooled = [last]
    grids = []
    for _, run, caught in pooled:
        grid = np.full(run.reading.shape, np.nan)
        grid[caught.row, caught.column] = caught.depth_mm / (run.minutes or 1.0)
        grids.append(grid)
    total = np.mean(grids, axis=0)
    row, column = np.nonzero(np.isfinite(total))
    rate = total[row, column]
    measured = uniformity(rate)
    net: float | None = None
    if rated:
        net = float(rate.mean() * 60.0)
        rate_trace = _net_trace(test, pooled, net)
    else:
        net, rate_trace, said = rate_without_cans(zone, gross)
        findings += said
        if net is None:
            return None, tuple(findings)
    names = tuple(run.name for _, run, _ in pooled)
    cans = entered("cans", f"{measured.n_cans} of {', '.join(names)}", test.where)
    du_trace = Trace(
        "du_lq",
        measured.du_lq,
        "mean of the driest quarter (last can by fraction) over the mean of all cans",
        "Univ. Florida; UC Davis",
        (cans,),
        f"newest condition: {test.condition}, {test.date.isoformat()}",
    )
    return (
        ZoneCatch(
            zone.id,
            "measured",
            frozen(rate / rate.mean()),
            frozen(row, np.int64),
            frozen(column, np.int64),
            net,
            measured.du_lq,
            measured.du_lh,
            measured.cu,
            measured.n_cans,
            len(pooled),
            test.name,
            test.condition,
            test.date,
            rate_trace,
            du_trace,
        ),
        tuple(findings),
    )


def _net_trace(
    test: CanTest, pooled: list[tuple[CanTest, CanRun, Catch]], net: float
) -> Trace:
    run, caught = pooled[-1][1], pooled[-1][2]
    inputs = [
        entered("mean_ml", caught.mean_ml, f"{run.where}, {caught.n_cans} cans"),
        entered("mouth_area_cm2", caught.mouth_area_cm2, test.where),
        Trace(
            "mean_depth_mm",
            caught.mean_depth_mm,
            "mean volume over mouth area x 10",
            "definition",
        ),
        entered("run_min", run.minutes, test.where),
    ]
    if caught.gross_rate_mm_per_h is not None:
        inputs.append(
            Trace(
                "gross_rate_mm_per_h",
                caught.gross_rate_mm_per_h,
                "nozzle flow over the ground of one head",
                "definition",
            )
        )
        inputs.append(
            Trace(
                "net_over_gross",
                caught.net_over_gross,
                "net rate over gross rate, 0.7 to 1 is usual",
                "common practice, no source",
            )
        )
    return Trace(
        "net_rate_mm_per_h",
        net,
        "mean depth over the minutes x 60",
        "Univ. Maryland irrigation-audit course, page 4.7",
        tuple(inputs),
        f"pooled by position: {', '.join(r.name for _, r, _ in pooled)}",
    )
