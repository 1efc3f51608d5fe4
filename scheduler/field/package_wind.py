"""A site's tests and winds in; what wind does to DU and rate of each package out."""

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.evaluation import TestEvaluation, evaluated_site
from scheduler.field.package_tests import PackageTests, package_tests
from scheduler.field.student import student_factor
from scheduler.field.trial import LEAST_DAYS, PackageRuns
from scheduler.field.trial.clustered import clustered_fit, group_sums
from scheduler.field.trial.runs import line_design
from scheduler.record import CanTest, History
from scheduler.site import Site

# Winds that lie closer than this say little of what wind does (common practice, no
# source: half the limit for testing). [m/s]
LEAST_SPREAD_M_PER_S = 1.0
# Two-sided: a rate that falls with wind is believed when its range leaves out zero.
RATE_LEVEL = 0.90


@dataclass(frozen=True, slots=True)
class PackageWind:
    """DU and net rate of a package against wind.

    Attributes
    ----------
    du_per_m_per_s : float
        What one m/s adds to DU low quarter, below 0. [-]
    rate_per_m_per_s : float
        What one m/s adds to the net rate, as a share of that in calm; 0 where the
        tests do not tell. [-]
    tested_low_m_per_s, tested_high_m_per_s : float
        Winds that were tested; outside them nothing more is lost or gained. [m/s]
    n_runs, n_days : int
        What it rests on.
    du_at_calm : float
        DU low quarter of the line without wind. [-]
    """

    package: str
    du_per_m_per_s: float
    rate_per_m_per_s: float
    tested_low_m_per_s: float
    tested_high_m_per_s: float
    n_runs: int
    n_days: int
    du_at_calm: float

    def held(self, wind_m_per_s: FloatArray | float) -> FloatArray:
        """Winds kept within those that were tested."""
        low, high = self.tested_low_m_per_s, self.tested_high_m_per_s
        return np.asarray(np.clip(wind_m_per_s, low, high), dtype=np.float64)

    def du_change(self, wind_m_per_s: FloatArray | float, ref: float) -> FloatArray:
        """DU in these winds, less that in the reference wind."""
        return np.asarray(
            self.du_per_m_per_s * (self.held(wind_m_per_s) - self.held(ref))
        )

    def rate_over(self, wind_m_per_s: FloatArray | float, ref: float) -> FloatArray:
        """Net rate in these winds over that in the reference wind."""
        at = 1.0 + self.rate_per_m_per_s * self.held(wind_m_per_s)
        return np.asarray(at / (1.0 + self.rate_per_m_per_s * self.held(ref)))


@dataclass(frozen=True, slots=True)
class SitePackageWind:
    """Packages whose line against wind can be used, and why others have none."""

    lines: dict[str, PackageWind]
    without: tuple[tuple[str, str], ...] = ()


def site_package_wind(site: Site, history: History, today: dt.date) -> SitePackageWind:
    """What wind does to the packages of a site.

    Parameters
    ----------
    site : Site
        Packages and zones.
    history : History
        Tests and wind logs; without a log nothing is worked up.
    today : date
        Later tests are left out.

    Returns
    -------
    SitePackageWind
        A package needs runs of known wind on three days, in winds a metre a second
        apart, and a DU that falls with wind. Tests of the others are not worked up.

    References
    ----------
    Source: definition; `trial.clustered_fit` names its own.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site_package_wind(Site(name="a", units="us", place=place), History(),
    ...                   dt.date(2026, 6, 8)).lines
    {}
    """
    if not history.wind:
        return SitePackageWind({})
    past = [one for one in history.tests if one.date <= today]
    days: dict[str, set[dt.date]] = {}
    for test in past:
        days.setdefault(_package_of(test, site), set()).update(_days(test))
    few = f"tested on fewer than {LEAST_DAYS} days"
    may = {name for name, when in days.items() if len(when) >= LEAST_DAYS}
    without = [(one.id, few) for one in site.packages if one.id not in may]
    kept = [test for test in past if _package_of(test, site) in may]
    if not kept:
        return SitePackageWind({}, tuple(without))
    worked = evaluated_site(
        site, replace(history, tests=tuple(kept)), with_ranges=False
    )
    lines = {}
    for one in package_tests(site, worked, kept):
        if one.package not in may:
            continue
        why = _why_not(one)
        if not why:
            lines[one.package] = _line(one, worked)
            why = "" if lines[one.package].du_per_m_per_s < 0 else "DU did not fall"
        if why:
            lines.pop(one.package, None)
            without.append((one.package, why))
    return SitePackageWind(lines, tuple(without))


def _package_of(test: CanTest, site: Site) -> str:
    zone = site.zone(test.zone)
    return test.package or (zone.package if zone else None) or ""


def _days(test: CanTest) -> set[dt.date]:
    return {run.start.date() if run.start else test.date for run in test.runs}


def _why_not(one: PackageTests) -> str:
    """Why a package's runs tell nothing of wind; empty where they do."""
    if one.why:
        return one.why
    if one.n_days < LEAST_DAYS:
        return f"known wind on fewer than {LEAST_DAYS} days"
    if np.ptp(one.runs.wind_m_per_s) < LEAST_SPREAD_M_PER_S:
        return "all runs in nearly one wind"
    return ""


def _line(one: PackageTests, worked: Sequence[TestEvaluation]) -> PackageWind:
    runs = one.runs
    fit = clustered_fit(*group_sums(line_design(runs), runs.du_lq, runs.day))
    return PackageWind(
        package=one.package,
        du_per_m_per_s=float(fit.value(np.array([0.0, 1.0]))),
        rate_per_m_per_s=rate_slope(runs, _rates(one, worked)),
        tested_low_m_per_s=float(runs.wind_m_per_s.min()),
        tested_high_m_per_s=float(runs.wind_m_per_s.max()),
        n_runs=runs.du_lq.size,
        n_days=runs.n_days,
        du_at_calm=float(fit.value(np.array([1.0, 0.0]))),
    )


def _rates(one: PackageTests, worked: Sequence[TestEvaluation]) -> FloatArray | None:
    """Net over gross of the runs, so that pressure is out of it; else their net rate.

    None where neither is known of every run.
    """
    caught = {
        f"{test.test} {run.run}": run.catch for test in worked for run in test.runs
    }
    own = [caught[label] for label in one.runs.label]
    for rates in (
        [run.net_over_gross for run in own],
        [run.net_rate_mm_per_h for run in own],
    ):
        known = [rate for rate in rates if rate is not None]
        if len(known) == len(own):
            return np.array(known, dtype=np.float64)
    return None


def rate_slope(runs: PackageRuns, rate: FloatArray | None) -> float:
    """What one m/s adds to a package's net rate, as a share of that in calm.

    Parameters
    ----------
    runs : PackageRuns
        Winds and days of the runs.
    rate : array of shape (n_runs,) or None
        Net rate, or net over gross rate, of each. [-]

    Returns
    -------
    float
        0 unless the range of the slope (nine in ten, t on days) lies below it: cans of
        few runs tell the drift badly, and wind adds no water. [-]

    References
    ----------
    Source: definition; `trial.clustered_fit` names its own.

    Examples
    --------
    >>> wind, day = np.array([1.0, 3.0] * 3), np.repeat(np.arange(3), 2)
    >>> noise = np.array([0.001, 0.0, 0.0, -0.001, 0.0, 0.001])
    >>> runs = PackageRuns("a", wind, 0.9 - 0.05 * wind, day)
    >>> round(rate_slope(runs, 0.9 - 0.045 * wind + noise), 2)
    -0.05
    """
    if rate is None:
        return 0.0
    fit = clustered_fit(*group_sums(line_design(runs), rate, runs.day))
    slope = np.array([0.0, 1.0])
    found, calm = float(fit.value(slope)), float(fit.value(np.array([1.0, 0.0])))
    half = student_factor(float(fit.degrees(slope)), RATE_LEVEL)
    half *= math.sqrt(float(fit.variance(slope)))
    if found + half >= 0 or calm <= 0:
        return 0.0
    # even in the strongest tested wind some water comes down
    least = -0.9 / max(float(runs.wind_m_per_s.max()), LEAST_SPREAD_M_PER_S)
    return max(found / calm, least)
