"""A site's tests and wind logs in; every pair of packages compared at one wind out."""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.errors import Finding, QuantityError, SchedulerError
from scheduler.field.evaluation import RunEvaluation, TestEvaluation, evaluated_site
from scheduler.field.irrigation_wind import irrigation_wind
from scheduler.field.trial import LEAST_DAYS, Comparison, PackageRuns, comparison
from scheduler.field.wind_during import wind_height_findings
from scheduler.record import CanTest, History
from scheduler.site import Site

# No wind that anybody waters in (common practice, no source). [m/s]
MOST_WIND_M_PER_S = 30.0


@dataclass(frozen=True, slots=True, eq=False)
class PackageTests:
    """What was tested of one package.

    Attributes
    ----------
    package, name : str
        Id and name.
    runs : PackageRuns
        Runs with known wind.
    n_unknown : int
        Runs whose wind is not known; they are left out.
    n_refused : int
        Runs without uniformity; they are left out.
    conditions : tuple of str
        Conditions that the runs were found in.
    why : str
        Why no line of DU against wind can be drawn; empty where it can.
    """

    package: str
    name: str
    runs: PackageRuns
    n_unknown: int
    n_refused: int
    conditions: tuple[str, ...]
    heights_m: tuple[float, ...]
    why: str

    @property
    def n_days(self) -> int:
        """Days with a run of known wind."""
        return int(np.unique(self.runs.day).size)


@dataclass(frozen=True, slots=True)
class Pair:
    """Two packages; `found` is None where one of them gives no line against wind.

    Attributes
    ----------
    days_needed, runs_needed : int or None
        More days, and runs of both packages together, that would settle it; None where
        it is settled or no number in reach would do.
    """

    a: str
    b: str
    found: Comparison | None
    why: str
    days_needed: int | None
    runs_needed: int | None

    @property
    def tie_wind_m_per_s(self) -> float | None:
        """Wind at which both are equal; None where the lines cross at no wind."""
        tie = self.found.tie_wind_m_per_s if self.found else None
        return tie if tie is not None and tie >= 0 else None


@dataclass(frozen=True, slots=True, eq=False)
class PackageTrial:
    """All packages of a site at one wind.

    Attributes
    ----------
    wind_m_per_s : float
        Wind that is compared at. [m/s]
    wind_from : str
        Where it comes from.
    """

    wind_m_per_s: float
    wind_from: str
    packages: tuple[PackageTests, ...]
    pairs: tuple[Pair, ...]
    findings: tuple[Finding, ...]


def package_trial(
    site: Site, history: History, *, wind_m_per_s: float | None = None
) -> PackageTrial:
    """Every pair of a site's packages, compared at one wind.

    Parameters
    ----------
    site : Site
        Packages, zones and hours of watering.
    history : History
        Tests and wind logs.
    wind_m_per_s : float, optional
        Wind to compare at, 0 to 30; else that of the irrigation hours, from the logs.
        [m/s]

    Returns
    -------
    PackageTrial
        Packages in the order of the site, and pairs of those that were tested.

    Raises
    ------
    QuantityError
        If the wind is out of range, or not given and not to be had from the logs.

    Notes
    -----
    A test is of the package that it names, else of its zone's. Runs of unknown wind
    are counted and left out. Conditions are not told apart; that is said.

    References
    ----------
    Source: definition; `trial.comparison` names its own.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> empty = Site(name="a", units="us", place=place)
    >>> package_trial(empty, History(), wind_m_per_s=2.0).pairs
    ()
    """
    if wind_m_per_s is not None:
        if not 0 <= wind_m_per_s <= MOST_WIND_M_PER_S:
            raise QuantityError(
                f"a wind of {wind_m_per_s:g} m/s is out of range",
                f"give one from 0 to {MOST_WIND_M_PER_S:g} m/s",
            )
        wind, source, height = wind_m_per_s, "as asked", None
    else:
        usual = irrigation_wind(site, history.wind)
        if usual.mean_m_per_s is None:
            raise QuantityError(
                f"the wind to compare at is not known: {usual.why}",
                'give the wind to compare at, such as --wind "4 mph"',
            )
        wind, source, height = usual.mean_m_per_s, usual.source, usual.height_m
    tests = evaluated_site(site, history, with_ranges=False)
    packages = _packages(site, tests, history.tests)
    tested = [one for one in packages if one.runs.du_lq.size + one.n_unknown]
    pairs = tuple(_pair(a, b, wind) for a, b in itertools.combinations(tested, 2))
    heights = [one for package in packages for one in package.heights_m]
    findings = (
        *_without_package(tests),
        *(said for one in packages for said in _said(one)),
        *wind_height_findings([*heights, height], "winds"),
        *_clock_findings(tests),
    )
    return PackageTrial(wind, source, packages, pairs, findings)


# --- packages ----------------------------------------------------------------


def _packages(
    site: Site, tests: Sequence[TestEvaluation], read: Sequence[CanTest]
) -> tuple[PackageTests, ...]:
    names = {one.id: one.name for one in site.packages}
    for test in tests:
        if test.package:
            names.setdefault(test.package, "")
    n_read = {test.name: len(test.runs) for test in read}
    return tuple(
        _of_package(
            package, name, [one for one in tests if one.package == package], n_read
        )
        for package, name in names.items()
    )


def _of_package(
    package: str, name: str, tests: list[TestEvaluation], n_read: dict[str, int]
) -> PackageTests:
    runs = [(test, run) for test in tests for run in test.runs]
    known = [
        (run, run.wind.mean_m_per_s, _day(test, run), run.wind.height_m)
        for test, run in runs
        if run.wind is not None and run.wind.mean_m_per_s is not None
    ]
    found = PackageRuns(
        package,
        np.array([wind for _, wind, _, _ in known], dtype=np.float64),
        np.array([run.uniformity.du_lq for run, _, _, _ in known], dtype=np.float64),
        np.array([day for _, _, day, _ in known], dtype=np.int64),
    )
    return PackageTests(
        package=package,
        name=name,
        runs=found,
        n_unknown=len(runs) - len(known),
        n_refused=sum(n_read.get(test.test, 0) for test in tests) - len(runs),
        conditions=tuple(dict.fromkeys(test.condition for test, _ in runs)),
        heights_m=tuple(one for _, _, _, one in known if one is not None),
        why=_no_line(found),
    )


def _day(test: TestEvaluation, run: RunEvaluation) -> int:
    start = run.catch.run.start
    return (start.date() if start else test.date).toordinal()


def _no_line(runs: PackageRuns) -> str:
    if not runs.du_lq.size:
        return "no run of known wind"
    if runs.du_lq.size < 2:
        return "one run of known wind; a line needs two different winds"
    if np.ptp(runs.wind_m_per_s) < 1e-9:
        return "all runs in one wind; a line needs two different winds"
    return ""


def _said(package: PackageTests) -> Iterator[Finding]:
    where = f"package {package.package}"
    if package.n_unknown:
        what = f"{_runs(package.n_unknown)} of unknown wind left out"
        fix = "enter the wind of these runs in test.toml, or log it"
        yield Finding("warning", where, what, fix)
    if package.n_refused:
        what = f"{_runs(package.n_refused)} without uniformity left out"
        yield Finding("warning", where, what, "see: lowquarter evaluate")
    if len(package.conditions) > 1:
        what = f"runs of {', '.join(package.conditions)} are taken together"
        fix = "a tune-up changes DU like a package does: compare tests of one condition"
        yield Finding("warning", where, what, fix)
    if package.why:
        fix = "test it in at least two different winds, on three days or more"
        yield Finding("note", where, package.why, fix)


def _runs(count: int) -> str:
    return "1 run" if count == 1 else f"{count} runs"


def _without_package(tests: Sequence[TestEvaluation]) -> Iterator[Finding]:
    for test in tests:
        if test.package is None and test.runs:
            what = "names no package, nor does its zone; it is left out"
            fix = 'write package = "..." in test.toml'
            yield Finding("note", f"tests/{test.test}", what, fix)


def _clock_findings(tests: Sequence[TestEvaluation]) -> Iterator[Finding]:
    """What makes the winds doubtful makes the comparison doubtful."""
    for test in tests:
        for run in test.runs:
            if test.package and run.wind:
                yield from (one for one in run.wind.findings if one.level != "note")


# --- pairs -------------------------------------------------------------------


def _pair(a: PackageTests, b: PackageTests, wind_m_per_s: float) -> Pair:
    both = np.unique(np.concatenate([a.runs.day, b.runs.day])).size
    a_day = math.ceil((a.runs.du_lq.size + b.runs.du_lq.size) / max(both, 1))
    try:
        found = comparison(a.runs, b.runs, wind_m_per_s=wind_m_per_s)
    except SchedulerError:
        why = "; ".join(f"{one.package}: {one.why}" for one in (a, b) if one.why)
        days = max(1, LEAST_DAYS - both)
        return Pair(a.package, b.package, None, why, days, days * max(2, a_day))
    days_needed = found.days_needed
    runs = None if days_needed is None else days_needed * max(2, a_day)
    return Pair(a.package, b.package, found, found.why, days_needed, runs)
