"""A zone's tests in, the rate and the shares that feed its week out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from scheduler.arrays import FloatArray, IntArray, frozen
from scheduler.errors import Finding, ReadingsError
from scheduler.field.catch import Catch, catch, package_gross_rate_mm_per_h
from scheduler.field.feeding import feeding_tests, in_band
from scheduler.field.guess import ZoneCatch, assumed, rate_without_cans, stated_catch
from scheduler.field.hydraulics import best_gross_rate, hydraulics, of_run
from scheduler.field.ranges import cell_ranges
from scheduler.field.screening import net_gross_findings, screened
from scheduler.field.uniformity import MIN_CANS, uniformity
from scheduler.field.wind_during import SiteWind
from scheduler.record import CanRun, CanTest
from scheduler.said import date_text
from scheduler.site import Package, Zone
from scheduler.trace import Trace, entered
from scheduler.units import System

Worked = tuple[CanTest, CanRun, Catch]


def zone_catch(
    zone: Zone,
    package: Package | None,
    tests: Sequence[CanTest],
    today: dt.date,
    *,
    site_wind: SiteWind | None = None,
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
        Tests of later days are left out, and that is said.
    site_wind : SiteWind, optional
        Wind logs and the usual wind of the irrigation hours; without it all runs of the
        newest condition count.

    Returns
    -------
    catch : ZoneCatch or None
        None where a stop finding forbids planning.
    findings : tuple of Finding
        What must be said about it.

    Notes
    -----
    The newest hardware condition counts: runs under the condition that was named last,
    of the newest date and of a season before it. Of these, runs in the wind band of the
    irrigation hours count, where it is known. Runs on one grid are pooled by position.
    A net rate surely above the gross rate blocks the zone. Without any test the
    uniformity and the rate are assumed, as a warning.

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
    gross = package_gross_rate_mm_per_h(package)
    past = [test for test in tests if test.date <= today]
    early = [_not_yet(test, today) for test in tests if test.date > today]
    trials = [test for test in past if is_of_other_package(test, zone)]
    early += [_of_trial(test, zone) for test in trials]
    past = [test for test in past if not is_of_other_package(test, zone)]
    if not past:
        found, guessed = assumed(zone, gross)
        return found, (*early, *guessed)
    feeding = feeding_tests(past)
    newest = feeding.newest
    reported = [test for test in newest if test.stated is not None]
    if reported and not any(test.runs for test in newest):
        found, guessed = stated_catch(zone, reported[-1], gross)
        return found, (*early, *guessed)
    usable, said, blocked = _usable(newest, package, zone)
    findings = [*early, *said]
    if not any(test.runs for test in newest):
        findings.append(_no_run(newest[-1]))
    if blocked or not usable:
        return None, tuple(findings)
    # what is wrong with an earlier test is said by its evaluation, and blocks nothing
    earlier, _, _ = _usable(feeding.earlier, package, zone)
    every = [*earlier, *usable]
    chosen = in_band([run for _, run, _ in every], site_wind, newest[-1].where)
    findings += chosen.findings
    why = "; ".join(one for one in (chosen.why, *feeding.left_out) if one)
    used = [every[i] for i in chosen.chosen]
    measured, all_said = _measured(zone, used, gross, findings, why)
    winds = [chosen.wind_m_per_s[i] for i in chosen.chosen] if site_wind else []
    measured = _with_wind(measured, used, winds)
    system = (site_wind or SiteWind()).system
    measured, metered = _with_water(measured, (zone, package), used, system)
    return measured, (*all_said, *metered)


def _usable(
    tests: Sequence[CanTest], package: Package | None, zone: Zone
) -> tuple[list[Worked], list[Finding], bool]:
    """Runs that can be used, what is said of all, and whether one cannot be true."""
    usable: list[Worked] = []
    findings: list[Finding] = []
    blocked = False
    for test in tests:
        for run in test.runs:
            said, caught = _worked(test, run, package, zone)
            findings += said
            blocked |= any(
                "delivered" in one.what and one.level == "stop" for one in said
            )
            if caught is not None:
                usable.append((test, run, caught))
    return usable, findings, blocked


def _with_water(
    found: ZoneCatch | None,
    at: tuple[Zone, Package | None],
    used: list[Worked],
    system: System,
) -> tuple[ZoneCatch | None, tuple[Finding, ...]]:
    """Add the newest meter to the chain, and say where the water does not add up."""
    test = used[-1][0]
    caught = [one for theirs, _, one in used if theirs is test]
    water = hydraulics(test, *at, caught, units=system)
    if found is not None and water.meter is not None and water.meter.trace:
        rate = found.rate_trace
        metered = replace(rate, inputs=(*rate.inputs, water.meter.trace))
        found = replace(found, rate_trace=metered)
    return found, water.agreement.findings


def _with_wind(
    found: ZoneCatch | None, used: list[Worked], winds: Sequence[float | None]
) -> ZoneCatch | None:
    """Add the mean wind of the pooled runs, where that of each is known."""
    if found is None or not winds:
        return found
    rates = [caught.net_rate_mm_per_h for _, _, caught in used]
    has_rate = any(rate is not None for rate in rates)
    pooled = [
        wind
        for wind, rate in zip(winds, rates, strict=True)
        if rate is not None or not has_rate
    ][-found.n_runs :]  # of runs that could not be pooled the last one counts
    known = [one for one in pooled if one is not None]
    if len(known) < len(pooled):
        return found
    return replace(found, wind_m_per_s=float(np.mean(known)))


def _not_yet(test: CanTest, today: dt.date) -> Finding:
    what = (
        f"is dated {date_text(test.date)}, after today ({date_text(today)}): not used"
    )
    return Finding("note", test.where, what, "correct the date if it is wrong")


def is_of_other_package(test: CanTest, zone: Zone) -> bool:
    """Whether a test is of a package that does not stand in the zone.

    Parameters
    ----------
    test : CanTest
        A test of the zone.
    zone : Zone
        The zone.

    Returns
    -------
    bool
        True for a trial of another package, which tells nothing of the zone's week.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> zone = Zone(id="Z1", name="yard", area_m2=100.0, grown_in="pots",
    ...             watered="off", package="old")
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "trial", 91.5,
    ...                package="new")
    >>> is_of_other_package(test, zone)
    True
    """
    return None not in (test.package, zone.package) and test.package != zone.package


def _of_trial(test: CanTest, zone: Zone) -> Finding:
    what = (
        f"is of package {test.package}, the zone has {zone.package}: it does not feed "
        "the week"
    )
    return Finding("note", test.where, what, "change the zone's package when it is in")


def _no_run(test: CanTest) -> Finding:
    what = "is the newest test of its zone and holds no run that can be used"
    fix = "put its readings right, or move the folder away to use an older test"
    return Finding("stop", test.where, what, fix)


def _worked(
    test: CanTest, run: CanRun, package: Package | None, zone: Zone
) -> tuple[list[Finding], Catch | None]:
    """Screen and weigh one run; no catch where a stop finding forbids it."""
    said = list(screened(test, run))
    if any(one.level == "stop" for one in said):
        return said, None
    gross = best_gross_rate(test, run, package, zone)
    mouth, rate = test.mouth_area_cm2, gross.rate_mm_per_h
    try:
        caught = gross.noted(catch(run, mouth_area_cm2=mouth, gross_rate_mm_per_h=rate))
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
    usable: list[Worked],
    gross: float | None,
    findings: list[Finding],
    chosen: str,
) -> tuple[ZoneCatch | None, tuple[Finding, ...]]:
    """Shares and rate of the usable runs, pooled by position on one grid."""
    test = usable[-1][0]
    rated = [one for one in usable if one[2].net_rate_mm_per_h is not None]
    pooled = rated or usable
    why = _cannot_pool(pooled)
    if why:
        fix = "repeat runs on the same grid"
        findings.append(
            Finding("warning", test.where, f"{why}, so only the last one is used", fix)
        )
        pooled = pooled[-1:]
    total = np.mean([_by_position(one) for one in pooled], axis=0)
    row, column = np.nonzero(np.isfinite(total))
    rate = total[row, column]
    measured = uniformity(rate)
    net: float | None = None
    if rated:
        net = float(rate.mean() * 60.0)
        rate_trace = _net_trace(pooled, net)
    else:
        net, rate_trace, said = rate_without_cans(zone, gross)
        findings += said
        if net is None:
            return None, tuple(findings)
    cans = entered("cans", f"{measured.n_cans} of {_run_names(pooled)}", test.where)
    du_trace = Trace(
        "du_lq",
        measured.du_lq,
        "mean of the driest quarter (last can by fraction) over the mean of all cans",
        "Univ. Florida; UC Davis",
        (cans,),
        f"newest condition: {test.condition}, {test.date.isoformat()}"
        + (f"; {chosen}" if chosen else ""),
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
            _by_run(pooled, row, column),
        ),
        tuple(findings),
    )


def _by_run(runs: list[Worked], row: IntArray, column: IntArray) -> FloatArray:
    """Shares of each run at the pooled positions."""
    each = np.array([_by_position(one)[row, column] for one in runs])
    return frozen(each / each.mean(axis=1, keepdims=True))


def _run_names(runs: list[Worked]) -> str:
    """Names of runs, with their test where they come from several."""
    several = len({test.name for test, _, _ in runs}) > 1
    return ", ".join(f"{t.name} {r.name}" if several else r.name for t, r, _ in runs)


def _by_position(one: Worked) -> FloatArray:
    """Depth a minute where each can stood; NaN where there is none."""
    _, run, caught = one
    grid = np.full(run.reading.shape, np.nan)
    grid[caught.row, caught.column] = caught.depth_mm / (run.minutes or 1.0)
    return grid


def _cannot_pool(runs: list[Worked]) -> str:
    """Why runs cannot be pooled by position; empty where they can."""
    if len({run.reading.shape for _, run, _ in runs}) > 1:
        return "the runs stood on different grids"
    total = np.sum([_by_position(one) for one in runs], axis=0)
    both = total[np.isfinite(total)]
    if both.size < MIN_CANS or not both.any():
        return f"the runs share {both.size} places, too few to pool"
    return ""


def _net_trace(pooled: list[Worked], net: float) -> Trace:
    source = "Univ. Maryland irrigation-audit course, page 4.7"
    if len(pooled) == 1:
        run = pooled[0][1]
        inputs = _rate_inputs(pooled[0])
        formula = "mean depth over the minutes x 60"
        return Trace("net_rate_mm_per_h", net, formula, source, inputs, run.name)
    alike = len({caught.gross_trace for _, _, caught in pooled}) == 1
    each = tuple(
        Trace(
            f"run {i} net_rate_mm_per_h",
            caught.net_rate_mm_per_h,
            "mean depth over the minutes x 60",
            source,
            _rate_inputs((test, run, caught), f"run {i} ", alike),
        )
        for i, (test, run, caught) in enumerate(pooled, 1)
    )
    return Trace(
        "net_rate_mm_per_h",
        net,
        "mean over the runs of the rate at the places that all of them caught",
        source,
        each,
        f"pooled by position: {_run_names(pooled)}",
    )


def _rate_inputs(
    one: Worked, of: str = "", has_one_gross: bool = True
) -> tuple[Trace, ...]:
    """What one run's rate was made from; names carry the run when there are several."""
    test, run, caught = one
    inputs = [
        entered(f"{of}mean_ml", caught.mean_ml, f"{run.where}, {caught.n_cans} cans"),
        entered(f"{of}mouth_area_cm2", caught.mouth_area_cm2, test.where),
        Trace(
            f"{of}mean_depth_mm",
            caught.mean_depth_mm,
            "mean volume over mouth area x 10",
            "definition",
        ),
        entered(f"{of}run_min", run.minutes, test.where),
    ]
    gross = caught.gross_trace
    if gross is not None:
        inputs += [
            gross if has_one_gross else of_run(gross, of),
            Trace(
                f"{of}net_over_gross",
                caught.net_over_gross,
                "net rate over gross rate, 0.7 to 1 is usual",
                "common practice, no source",
            ),
        ]
    return tuple(inputs)
