"""A site's tests in; the runs of each package, in one condition and known wind, out."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from scheduler.errors import Finding, QuantityError
from scheduler.field.evaluation import RunEvaluation, TestEvaluation
from scheduler.field.irrigation_wind import HEIGHT_M, run_wind_at_two_metres
from scheduler.field.trial import PackageRuns
from scheduler.field.wind.log import LOG_HEIGHTS_M
from scheduler.record import CanTest
from scheduler.site import Site


@dataclass(frozen=True, slots=True, eq=False)
class PackageTests:
    """What was tested of one package.

    Attributes
    ----------
    package, name : str
        Id and name.
    condition : str
        Condition that its runs were found in; empty where none was tested.
    runs : PackageRuns
        Runs in that condition with known wind, at 2 m where the height is known.
    zones : tuple of str
        Zones that they stood in.
    n_unknown : int
        Runs in that condition whose wind is not known; they are left out.
    n_refused : int
        Runs without uniformity; they are left out.
    left_out : tuple of (str, int)
        Other conditions that were tested, and their runs; they are left out.
    heights_m : tuple of float
        Heights other than 2 m that winds were logged at. [m]
    why : str
        Why no line of DU against wind can be drawn; empty where it can.
    """

    package: str
    name: str
    condition: str
    runs: PackageRuns
    zones: tuple[str, ...]
    n_unknown: int
    n_refused: int
    left_out: tuple[tuple[str, int], ...]
    heights_m: tuple[float, ...]
    why: str

    @property
    def n_days(self) -> int:
        """Days with a run of known wind."""
        return self.runs.n_days


def package_tests(
    site: Site,
    tests: Sequence[TestEvaluation],
    read: Sequence[CanTest],
    *,
    condition: str | None = None,
) -> tuple[PackageTests, ...]:
    """Runs of each package that a site has or that a test names.

    Parameters
    ----------
    site : Site
        For the packages.
    tests : sequence of TestEvaluation
        Tests worked up.
    read : sequence of CanTest
        The same tests as read, to count the runs that gave no result.
    condition : str, optional
        Condition to take of each package; else that of its newest test.

    Returns
    -------
    tuple of PackageTests
        In the order of the site.

    Raises
    ------
    QuantityError
        If no test was found in the condition that is asked for.

    Notes
    -----
    A tune-up changes DU as a package does, so conditions are never taken together.
    Winds of unknown height are used as they are.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, equation 47 (wind at 2 m).

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> package_tests(Site(name="a", units="us", place=place), [], [])
    ()
    """
    if condition is not None:
        known = list(dict.fromkeys(test.condition for test in tests))
        if _plain(condition) not in map(_plain, known):
            listed = ", ".join(known) or "none, there are no tests"
            raise QuantityError(
                f"no test was found in the condition {condition!r}",
                f"the conditions are: {listed}",
            )
    names = {one.id: one.name for one in site.packages}
    for test in tests:
        if test.package:
            names.setdefault(test.package, "")
    n_read = {test.name: len(test.runs) for test in read}
    return tuple(
        _of_package(
            (package, name),
            [one for one in tests if one.package == package],
            n_read,
            condition,
        )
        for package, name in names.items()
    )


def _plain(condition: str) -> str:
    return " ".join(condition.casefold().split())


def _of_package(
    named: tuple[str, str],
    tests: list[TestEvaluation],
    n_read: dict[str, int],
    asked: str | None,
) -> PackageTests:
    with_runs = [test for test in tests if test.runs]
    newest = max(with_runs, key=lambda one: one.date).condition if with_runs else ""
    taken = newest if asked is None else asked
    chosen = [one for one in tests if _plain(one.condition) == _plain(taken)]
    known = [
        (test, run, *wind)
        for test in chosen
        for run in test.runs
        if (wind := _wind_at_two_metres(run)) is not None
    ]
    found = PackageRuns(
        named[0],
        np.array([wind for _, _, wind, _ in known], dtype=np.float64),
        np.array([run.uniformity.du_lq for _, run, _, _ in known], dtype=np.float64),
        np.array([_day(test, run) for test, run, _, _ in known], dtype=np.int64),
        tuple(f"{test.test} {run.run}" for test, run, _, _ in known),
    )
    others: Counter[str] = Counter()
    for one in tests:
        if one.runs and _plain(one.condition) != _plain(taken):
            others[one.condition] += len(one.runs)
    return PackageTests(
        package=named[0],
        name=named[1],
        condition=taken if known or any(one.runs for one in chosen) else "",
        runs=found,
        zones=tuple(dict.fromkeys(test.zone for test, _, _, _ in known)),
        n_unknown=sum(len(one.runs) for one in chosen) - len(known),
        n_refused=sum(n_read.get(one.test, 0) - len(one.runs) for one in chosen),
        left_out=tuple(others.items()),
        heights_m=tuple(dict.fromkeys(one for _, _, _, one in known if one)),
        why=_no_line(found),
    )


def _wind_at_two_metres(run: RunEvaluation) -> tuple[float, float | None] | None:
    """Mean wind of a run, and the height that it was brought down from."""
    wind = run.wind
    if wind is None or wind.mean_m_per_s is None:
        return None
    carried = run_wind_at_two_metres(wind)
    assert carried is not None, "the mean is known"
    return carried, None if wind.height_m == HEIGHT_M else wind.height_m


def _is_carried(height_m: float) -> bool:
    low, high = LOG_HEIGHTS_M
    return low <= height_m <= high


def _day(test: TestEvaluation, run: RunEvaluation) -> int:
    start = run.catch.run.start
    return (start.date() if start else test.date).toordinal()


def _no_line(runs: PackageRuns) -> str:
    if not runs.du_lq.size:
        return "no run of known wind"
    if runs.du_lq.size < 2:
        return "one run of known wind; a line needs two different winds"
    if not runs.has_line:
        return "all runs in one wind; a line needs two different winds"
    return ""


# --- what must be said -------------------------------------------------------


def package_findings(package: PackageTests, *, asked: str | None) -> Iterator[Finding]:
    """What must be said of the runs of a package that were taken and left out.

    Parameters
    ----------
    package : PackageTests
        Its runs.
    asked : str or None
        The condition that was asked for.

    Yields
    ------
    Finding
        Notes and warnings.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Package, Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=place, packages=(Package(id="yard"),))
    >>> (yard,) = package_tests(site, [], [])
    >>> [one.what for one in package_findings(yard, asked=None)]
    ['no run of known wind']
    """
    where = f"package {package.package}"
    for other, count in package.left_out:
        taken = package.condition or "none"
        how = "newest" if asked is None else "as asked"
        what = (
            f"the condition taken is {taken} ({how}); {_runs(count)} {other} left out"
        )
        fix = f'compare the others with --condition "{other}"'
        yield Finding("note", where, what, fix)
    if package.n_unknown:
        what = f"{_runs(package.n_unknown)} of unknown wind left out"
        fix = "enter the wind of these runs in test.toml, or log it"
        yield Finding("warning", where, what, fix)
    if package.n_refused:
        what = f"{_runs(package.n_refused)} without uniformity left out"
        yield Finding("warning", where, what, "see: lowquarter evaluate")
    for height_m in package.heights_m:
        fix = "log the wind at the height of the sprinklers to do without"
        what = f"wind of runs was logged at {height_m:g} m and "
        if _is_carried(height_m):
            what += "brought to 2 m (FAO-56, equation 47)"
            yield Finding("note", where, what, fix)
        else:
            what += "is used as it is: no equation brings it to 2 m"
            yield Finding("warning", where, what, fix)
    if package.why:
        fix = "test it in at least two different winds, on three days or more"
        yield Finding("note", where, package.why, fix)


def _runs(count: int) -> str:
    return "1 run" if count == 1 else f"{count} runs"
