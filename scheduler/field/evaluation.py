"""Catch-can tests in, every run worked up with its ranges and findings out."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding, ReadingsError
from scheduler.field.before_after import Before, ZoneResult, before, same_condition
from scheduler.field.catch import Catch, catch
from scheduler.field.driest_window import DriestWindow, driest_windows
from scheduler.field.feeding import same_grid
from scheduler.field.hydraulics import Hydraulics, best_gross_rate, hydraulics
from scheduler.field.irrigation_wind import site_wind
from scheduler.field.ranges import RESAMPLES, CellRanges, cell_ranges
from scheduler.field.screening import net_gross_findings, screened
from scheduler.field.shape import RunMap, TestShape, shape_of_test
from scheduler.field.together import Together, runs_together
from scheduler.field.uniformity import Uniformity, uniformity
from scheduler.field.wind_during import SiteWind, WindDuring, wind_during
from scheduler.record import CanRun, CanTest, Code, History, StatedResult
from scheduler.site import Package, Site, Zone


@dataclass(frozen=True, slots=True, eq=False)
class RunEvaluation:
    """One run worked up; its wind is None where nobody asked for it."""

    run: str
    catch: Catch
    uniformity: Uniformity
    ranges: CellRanges | None
    net_low: float | None
    net_high: float | None
    as_kept: Uniformity | None
    depth_map_mm: FloatArray
    codes: tuple[tuple[Code, ...], ...]
    driest: tuple[tuple[int, int], ...] = ()
    wind: WindDuring | None = None
    driest_windows: tuple[DriestWindow, ...] = ()
    wettest: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class TestEvaluation:
    """One test worked up, run by run."""

    zone: str
    test: str
    date: dt.date
    condition: str
    runs: tuple[RunEvaluation, ...]
    pooled: Uniformity | None
    findings: tuple[Finding, ...]
    package: str | None = None
    stated: StatedResult | None = None
    together: Together | None = None
    shape: TestShape | None = None
    before: Before | None = None
    hydraulics: Hydraulics | None = None
    __test__ = False

    @property
    def du_lq(self) -> float | None:
        """Result: the runs taken together, else the last run, else as stated."""
        if self.pooled is not None:
            return self.pooled.du_lq
        if self.runs:
            return self.runs[-1].uniformity.du_lq
        return self.stated.du_lq if self.stated else None


def evaluated_run(
    run: CanRun,
    *,
    mouth_area_cm2: float | None,
    gross_rate_mm_per_h: float | None = None,
    with_ranges: bool = True,
    resamples: int = RESAMPLES,
) -> RunEvaluation:
    """Rate, uniformity and ranges of one run.

    Parameters
    ----------
    run : CanRun
        Readings that were screened.
    mouth_area_cm2 : float or None
        Inside area of the can mouth. [cm2]
    gross_rate_mm_per_h : float, optional
        What the nozzles deliver. [mm/h]
    with_ranges : bool
        Whether to resample (some milliseconds a run).
    resamples : int
        How many.

    Returns
    -------
    RunEvaluation
        All of it, and the result with excluded cans kept.

    Raises
    ------
    ReadingsError, TooFewCansError
        If no depth can be computed.

    References
    ----------
    Source: definition; each measure names its own.

    Examples
    --------
    >>> run = CanRun("1", "run1.csv", np.array([[50.0, 60.0, 40.0, 50.0]]),
    ...              (("", "", "", ""),), (("A1", "B1", "C1", "D1"),), "ml", 30.0)
    >>> evaluated_run(run, mouth_area_cm2=100.0).uniformity.du_lq
    0.8
    """
    caught = catch(
        run, mouth_area_cm2=mouth_area_cm2, gross_rate_mm_per_h=gross_rate_mm_per_h
    )
    measured = uniformity(caught.depth_mm)
    ranges = cell_ranges(caught.depth_mm, resamples=resamples) if with_ranges else None
    net_low, net_high = net_range(caught, ranges)
    kept = None
    if run.excluded:
        with_all = catch(run, mouth_area_cm2=mouth_area_cm2, keep_excluded=True)
        kept = uniformity(with_all.depth_mm)
    grid = np.full(run.reading.shape, np.nan)
    grid[caught.row, caught.column] = caught.depth_mm
    order, n_quarter = np.argsort(caught.depth_mm, kind="stable"), caught.n_cans // 4
    place = [(int(caught.row[i]), int(caught.column[i])) for i in order]
    return RunEvaluation(
        run.name,
        caught,
        measured,
        ranges,
        net_low,
        net_high,
        kept,
        frozen(grid),
        run.code,
        tuple(place[: max(1, n_quarter)]),
        driest_windows=driest_windows(grid),
        wettest=tuple(place[-max(1, n_quarter) :]),
    )


def net_range(
    caught: Catch, ranges: CellRanges | None
) -> tuple[float | None, float | None]:
    """Range of the net rate: that of the mean depth, at the same minutes.

    Parameters
    ----------
    caught : Catch
        One run.
    ranges : CellRanges or None
        Its ranges.

    Returns
    -------
    tuple of float or None
        Low and high end. [mm/h]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> run = CanRun("1", "run1.csv", np.array([[5.0, 5.0, 5.0, 5.0]]),
    ...              (("", "", "", ""),), (("A1", "B1", "C1", "D1"),), "mm", 30.0)
    >>> even = catch(run, mouth_area_cm2=None)
    >>> net_range(even, cell_ranges(even.depth_mm, resamples=10))
    (10.0, 10.0)
    """
    net = caught.net_rate_mm_per_h
    if net is None or ranges is None:
        return None, None
    mean = float(caught.depth_mm.mean())
    return net * ranges.mean.low / mean, net * ranges.mean.high / mean


def evaluated_test(
    test: CanTest,
    zone: Zone | None,
    package: Package | None,
    *,
    site_wind: SiteWind | None = None,
    with_ranges: bool = True,
    resamples: int = RESAMPLES,
) -> TestEvaluation:
    """Every run of a test, with what must be said about it.

    Parameters
    ----------
    test : CanTest
        The test.
    zone : Zone or None
        Its zone, where the site has it; for its area and heads.
    package : Package or None
        What stood there, for the gross rate.
    site_wind : SiteWind, optional
        The wind logs; without them the wind is as typed.
    with_ranges : bool
        Whether to resample.
    resamples : int
        How many.

    Returns
    -------
    TestEvaluation
        The runs that could be worked up, and the findings of all.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> test = CanTest("t", "test.toml", "Z1", dt.date(2026, 5, 12), "as found", 91.5)
    >>> evaluated_test(test, None, None).runs
    ()
    """
    wanted = resamples if with_ranges else None
    wind_of = site_wind or SiteWind()
    runs: list[RunEvaluation] = []
    sound: list[RunEvaluation] = []
    findings: list[Finding] = []
    for run in test.runs:
        said = screened(test, run)
        findings += said
        if any(one.level == "stop" for one in said):
            continue
        gross = best_gross_rate(test, run, package, zone)
        try:
            one = evaluated_run(
                run,
                mouth_area_cm2=test.mouth_area_cm2,
                gross_rate_mm_per_h=gross.rate_mm_per_h,
                with_ranges=with_ranges,
                resamples=resamples,
            )
        except ReadingsError as problem:
            findings.append(problem.finding(run.where))
            continue
        wind = wind_during(run, wind_of)
        one = replace(one, wind=wind, catch=gross.noted(one.catch))
        runs.append(one)
        found = net_gross_findings(one.catch, run.where, _net_low(one))
        findings += [*found, *wind.findings]
        if not any(said.level == "stop" for said in found):
            sound.append(one)
    summed = _summed(sound, wanted, test.date)
    caught = [one.catch for one in runs]
    water = hydraulics(test, zone, package, caught, units=wind_of.system)
    return TestEvaluation(
        test.zone,
        test.name,
        test.date,
        test.condition,
        tuple(runs),
        summed.measured if summed else None,
        (*findings, *water.findings),
        test.package or (package.id if package else None),
        test.stated,
        summed,
        hydraulics=water,
    )


def _net_low(one: RunEvaluation) -> float | None:
    """Low end of the rate; asked for even without ranges where much was caught."""
    ratio = one.catch.net_over_gross
    if one.ranges is None and ratio is not None and ratio > 1.0:
        # a quick look must not call a warning what the plan will call a stop
        return net_range(one.catch, cell_ranges(one.catch.depth_mm))[0]
    return one.net_low


def _summed(
    runs: Sequence[RunEvaluation], resamples: int | None, date: dt.date
) -> Together | None:
    """The runs pooled by position on one grid, as the week pools them."""
    rated = [one for one in runs if one.catch.net_rate_mm_per_h is not None] or runs
    caught = [(one.catch.run, one.depth_map_mm) for one in rated]
    return runs_together(caught, date=date, resamples=resamples)


def evaluated_site(
    site: Site,
    history: History,
    *,
    zone_id: str | None = None,
    with_ranges: bool = True,
    resamples: int = RESAMPLES,
) -> tuple[TestEvaluation, ...]:
    """Every test of a site, or of one zone.

    Parameters
    ----------
    site : Site
        For the packages.
    history : History
        For the tests and the wind logs.
    zone_id : str, optional
        Only this zone.
    with_ranges : bool
        Whether to resample.
    resamples : int
        How many.

    Returns
    -------
    tuple of TestEvaluation
        In the order of the history.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> evaluated_site(Site(name="a", units="us", place=place), History())
    ()
    """
    wanted = zone_id.casefold() if zone_id else None
    wind = site_wind(site, history.wind)
    found = []
    kept = []
    for test in history.tests:
        if wanted is not None and test.zone.casefold() != wanted:
            continue
        zone = site.zone(test.zone)
        package = site.package(test.package or (zone.package if zone else None))
        found.append(
            evaluated_test(
                test,
                zone,
                package,
                site_wind=wind,
                with_ranges=with_ranges,
                resamples=resamples,
            )
        )
        kept.append(test)
    return _beside_each_other(kept, found)


def _beside_each_other(
    tests: Sequence[CanTest], found: Sequence[TestEvaluation]
) -> tuple[TestEvaluation, ...]:
    """Tests with what their maps say together, and what was before them."""
    tested = [
        ZoneResult(
            one.zone,
            one.package,
            one.test,
            one.date,
            one.condition,
            one.du_lq,
            tuple(run.wind.band for run in one.runs if run.wind),
        )
        for one in found
    ]
    made = []
    for i, (test, one) in enumerate(zip(tests, found, strict=True)):
        like = [
            other
            for theirs, other in zip(tests, found, strict=True)
            if other is one or (_is_like(one, other) and same_grid(test, theirs))
        ]
        shape = shape_of_test(test, [_run_map(o, run) for o in like for run in o.runs])
        findings = (*one.findings, *(shape.findings if shape else ()))
        past = before(tested[i], tested)
        made.append(replace(one, shape=shape, before=past, findings=findings))
    return tuple(made)


def _is_like(one: TestEvaluation, other: TestEvaluation) -> bool:
    """Whether two tests are of one zone, package and hardware condition."""
    return (
        one.zone.casefold() == other.zone.casefold()
        and one.package == other.package
        and same_condition(one.condition, other.condition)
    )


def _run_map(test: TestEvaluation, run: RunEvaluation) -> RunMap:
    start = run.catch.run.start
    day = start.date() if start else test.date
    return RunMap(run.run, day.toordinal(), run.depth_map_mm, run.wind)
