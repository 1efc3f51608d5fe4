"""A site's tests and wind logs in; every pair of packages compared at one wind out."""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.errors import Finding, QuantityError, SchedulerError
from scheduler.field.evaluation import TestEvaluation, evaluated_site
from scheduler.field.irrigation_wind import IrrigationWind, irrigation_wind
from scheduler.field.package_tests import (
    PackageTests,
    package_findings,
    package_tests,
)
from scheduler.field.trial import (
    LEAST_DAYS,
    Comparison,
    ExpectedDu,
    comparison,
    expected_du,
)
from scheduler.record import History
from scheduler.site import Site
from scheduler.units import shown, typed

# No wind that anybody waters in (common practice, no source). [m/s]
MOST_WIND_M_PER_S = 30.0


@dataclass(frozen=True, slots=True)
class Expected:
    """DU to be expected of one package; None where it has no line against wind.

    Attributes
    ----------
    at_wind : ExpectedDu or None
        At the wind that is compared at.
    by_month : tuple of (int, ExpectedDu)
        At the usual wind of the irrigation hours, for each month, 1 to 12, that a log
        covers.
    """

    package: str
    at_wind: ExpectedDu | None
    by_month: tuple[tuple[int, ExpectedDu], ...]


@dataclass(frozen=True, slots=True)
class Pair:
    """Two packages; `found` is None where one of them gives no line against wind.

    Attributes
    ----------
    days_needed, runs_needed : int or None
        More days, and runs of both packages together, that would settle it; None where
        it is settled or no number in reach would do.
    conditions : tuple of str
        Condition of each.
    is_apart : bool
        They never stood in the same zone.
    """

    a: str
    b: str
    found: Comparison | None
    why: str
    days_needed: int | None
    runs_needed: int | None
    conditions: tuple[str, str]
    is_apart: bool

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
    usual : IrrigationWind or None
        Usual wind of the irrigation hours, where a log knows it.
    """

    wind_m_per_s: float
    wind_from: str
    usual: IrrigationWind | None
    packages: tuple[PackageTests, ...]
    expected: tuple[Expected, ...]
    pairs: tuple[Pair, ...]
    findings: tuple[Finding, ...]


def package_trial(
    site: Site,
    history: History,
    *,
    wind_m_per_s: float | None = None,
    condition: str | None = None,
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
    condition : str, optional
        Condition to compare in; else the newest of each package.

    Returns
    -------
    PackageTrial
        Packages in the order of the site, and pairs of those that were tested.

    Raises
    ------
    QuantityError
        If the wind is out of range, or not given and not to be had from the logs; if
        no test was found in the condition.

    Notes
    -----
    A test is of the package that it names, else of its zone's. Runs of unknown wind
    are counted and left out. All winds stand for 2 m where their height is known.

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
    wind, source, usual = _wind(site, history, wind_m_per_s)
    tests = evaluated_site(site, history, with_ranges=False)
    packages = package_tests(site, tests, history.tests, condition=condition)
    expected = tuple(_expected(one, wind, usual) for one in packages)
    tested = [one for one in packages if one.runs.du_lq.size + one.n_unknown]
    pairs = tuple(_pair(a, b, wind) for a, b in itertools.combinations(tested, 2))
    findings = (
        *_without_package(tests),
        *(said for one in packages for said in package_findings(one, asked=condition)),
        *_cut(expected),
        *(usual.findings if usual else ()),
        *_clock_findings(tests),
    )
    return PackageTrial(wind, source, usual, packages, expected, pairs, findings)


def _wind(
    site: Site, history: History, asked_m_per_s: float | None
) -> tuple[float, str, IrrigationWind | None]:
    """Wind to compare at, where it comes from, and the usual wind if it is known."""
    usual = irrigation_wind(site, history.wind)
    known = None if usual.mean_m_per_s is None else usual
    if asked_m_per_s is not None:
        if not 0 <= asked_m_per_s <= MOST_WIND_M_PER_S:
            most = shown(MOST_WIND_M_PER_S, "m_per_s", site.units, digits=0)
            raise QuantityError(
                f"a wind of {typed(asked_m_per_s, 'm_per_s', site.units)} is out of "
                "range",
                f"give one from 0 to {most}",
            )
        return asked_m_per_s, "as asked", known
    if usual.mean_m_per_s is None:
        raise QuantityError(
            f"the wind to compare at is not known: {usual.why}",
            'give the wind to compare at, such as --wind "4 mph", or log it for a week '
            "and more and name the log under [[wind_log]] in site.toml",
        )
    return usual.mean_m_per_s, usual.source, known


# --- expected DU -------------------------------------------------------------


def _expected(
    package: PackageTests, wind_m_per_s: float, usual: IrrigationWind | None
) -> Expected:
    if package.why:
        return Expected(package.package, None, ())
    by_month = usual.by_month_m_per_s if usual else np.full(12, np.nan)
    return Expected(
        package.package,
        expected_du(package.runs, wind_m_per_s=wind_m_per_s),
        tuple(
            (month, expected_du(package.runs, wind_m_per_s=float(wind)))
            for month, wind in enumerate(by_month, 1)
            if math.isfinite(wind)
        ),
    )


def _cut(expected: Sequence[Expected]) -> Iterator[Finding]:
    for one in expected:
        every = [du for _, du in one.by_month]
        if one.at_wind is not None:
            every.append(one.at_wind)
        if any(du.is_cut for du in every):
            what = "its line leaves DU 0 to 1 in that wind and was cut there"
            fix = "test it in winds nearer to the usual one"
            yield Finding("warning", f"package {one.package}", what, fix)


# --- pairs -------------------------------------------------------------------


def _pair(a: PackageTests, b: PackageTests, wind_m_per_s: float) -> Pair:
    both = np.unique(np.concatenate([a.runs.day, b.runs.day])).size
    a_day = math.ceil((a.runs.du_lq.size + b.runs.du_lq.size) / max(both, 1))
    conditions = (a.condition, b.condition)
    is_apart = not set(a.zones) & set(b.zones)
    try:
        found = comparison(a.runs, b.runs, wind_m_per_s=wind_m_per_s)
    except SchedulerError:
        why = "; ".join(f"{one.package}: {one.why}" for one in (a, b) if one.why)
        days = max(1, LEAST_DAYS - min(a.n_days, b.n_days))
        runs = days * max(2, a_day)
        return Pair(
            a.package, b.package, None, why, days, runs, conditions, is_apart
        )  # fmt: skip
    days_needed = found.days_needed
    more = None if days_needed is None else days_needed * max(2, a_day)
    return Pair(
        a.package, b.package, found, found.why, days_needed, more, conditions, is_apart
    )  # fmt: skip


# --- what must be said -------------------------------------------------------


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
