"""Tests of a zone and its winds in; which runs feed the week, and why, out."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from scheduler.errors import Finding
from scheduler.field.before_after import same_condition
from scheduler.field.irrigation_wind import run_wind_at_two_metres
from scheduler.field.wind_during import SiteWind, wind_during
from scheduler.record import CanRun, CanTest
from scheduler.units import shown

# Common practice, no source: within a season nozzles wear little, so earlier tests of
# one condition still tell of the same hardware.
SAME_HARDWARE_DAYS = 92


@dataclass(frozen=True, slots=True, eq=False)
class Feeding:
    """Tests of the newest hardware condition.

    Attributes
    ----------
    newest : tuple of CanTest
        Tests of the newest date, under the condition that was named last on it.
    earlier : tuple of CanTest
        Earlier tests of the same condition on the same grid, oldest first.
    left_out : tuple of str
        The other tests, each with the reason.
    """

    newest: tuple[CanTest, ...]
    earlier: tuple[CanTest, ...]
    left_out: tuple[str, ...]


def same_grid(one: CanTest, other: CanTest) -> bool:
    """Whether the cans of two tests stood in the same places, as far as is known.

    Parameters
    ----------
    one, other : CanTest
        Two tests of one zone.

    Returns
    -------
    bool
        True where every run has the same rows and columns, and the layouts agree.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import datetime as dt
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "as found", 91.5)
    >>> same_grid(test, test)
    True
    """
    shapes = {run.reading.shape for test in (one, other) for run in test.runs}
    return len(shapes) <= 1 and one.layout == other.layout


def feeding_tests(tests: Sequence[CanTest]) -> Feeding:
    """The newest hardware condition among the tests of a zone.

    Parameters
    ----------
    tests : sequence of CanTest
        At least one test of the package that stands in the zone, in any order.

    Returns
    -------
    Feeding
        Tests that may be pooled. As found and after a tune-up are never mixed: a test
        of another condition ends the search backwards.

    References
    ----------
    .. [1] Common practice, no source: a season (92 days) of one condition.

    Examples
    --------
    >>> import datetime as dt
    >>> old = CanTest("a", "a", "Z1", dt.date(2026, 3, 24), "as found", 91.5)
    >>> new = CanTest("b", "b", "Z1", dt.date(2026, 5, 19), "after tune-up", 91.5)
    >>> feeding_tests([new, old]).left_out
    ('a: as found, another condition',)
    """
    date = max(test.date for test in tests)
    same_day = [test for test in tests if test.date == date]
    last = same_day[-1]
    newest = [one for one in same_day if same_condition(one.condition, last.condition)]
    others = [one for one in tests if all(one is not own for own in newest)]
    others.sort(key=lambda one: one.date)
    earlier: list[CanTest] = []
    left_out: list[str] = []
    changed = ""
    for one in reversed(others):
        if not same_condition(one.condition, last.condition):
            changed = one.condition
        why = _why_not(one, last, changed)
        if why:
            left_out.append(f"{one.name}: {why}")
        else:
            earlier.insert(0, one)
    if not any(test.runs for test in newest):
        left_out += [f"{one.name}: the newest test counts" for one in earlier]
        earlier = []
    return Feeding(tuple(newest), tuple(earlier), tuple(left_out))


def _why_not(one: CanTest, newest: CanTest, changed: str) -> str:
    """Why an earlier test is not pooled with the newest; empty where it is."""
    if not same_condition(one.condition, newest.condition):
        return f"{one.condition}, another condition"
    if changed:
        return f"{one.condition}, but {changed} was tested since"
    if (newest.date - one.date).days > SAME_HARDWARE_DAYS:
        return f"more than {SAME_HARDWARE_DAYS} days before the newest"
    if not one.runs:
        return "it holds no run"
    return "" if same_grid(one, newest) else "other places of the cans"


@dataclass(frozen=True, slots=True)
class InBand:
    """Which runs were met by the wind of the irrigation hours.

    Attributes
    ----------
    chosen : tuple of int
        Places of the runs that feed the week.
    why : str
        How they were chosen, for the trace.
    findings : tuple of Finding
        What must be said about it.
    wind_m_per_s : tuple of float or None
        Wind of every run at 2 m; empty where nobody asked. [m/s]
    """

    chosen: tuple[int, ...]
    why: str
    findings: tuple[Finding, ...] = ()
    wind_m_per_s: tuple[float | None, ...] = ()


def in_band(runs: Sequence[CanRun], wind: SiteWind | None, where: str) -> InBand:
    """Runs in the wind band of the irrigation hours, or all of them where none is.

    Parameters
    ----------
    runs : sequence of CanRun
        Runs of one condition.
    wind : SiteWind or None
        Logs and usual wind of the site; None where nobody asked.
    where : str
        Place for the findings.

    Returns
    -------
    InBand
        At least one run where there is one.

    References
    ----------
    Source: definition; `wind_band` names its own.

    Examples
    --------
    >>> in_band([], None, "tests/t").chosen
    ()
    """
    if wind is None or not runs:
        return InBand(tuple(range(len(runs))), "")
    during = [wind_during(run, wind) for run in runs]
    found = _chosen(runs, [one.band for one in during], wind, where)
    return replace(found, wind_m_per_s=tuple(map(run_wind_at_two_metres, during)))


def _chosen(
    runs: Sequence[CanRun], bands: Sequence[str], wind: SiteWind, where: str
) -> InBand:
    every = tuple(range(len(runs)))
    if wind.usual_m_per_s is None:
        return _usual_unknown(every, bands, wind, where)
    asked = wind.band(wind.usual_m_per_s)
    usual = f"{shown(wind.usual_m_per_s, 'm_per_s', wind.system)}, {asked}"
    if asked in bands:
        # a run of unknown wind may be the newest there is: it is not put aside unseen
        chosen = tuple(i for i in every if bands[i] in (asked, "unknown"))
        left = [f"{_dated(runs, i)} ({bands[i]})" for i in every if i not in chosen]
        out = f"; other wind, not used: {', '.join(left)}" if left else ""
        why = f"runs in the wind of the irrigation hours ({usual}){out}"
        return InBand(chosen, why, _unknown_wind(runs, bands, where))
    seen = ", ".join(dict.fromkeys(bands))
    what = (
        f"no run was met by the wind of the irrigation hours ({usual}), but {seen}: "
        "all runs are used"
    )
    fix = "test at the hours you water; in more wind uniformity is usually lower"
    if set(bands) == {"unknown"}:
        fix = "write start and minutes of each run, and log or enter its wind"
    return InBand(every, what, (Finding("warning", where, what, fix),))


def _dated(runs: Sequence[CanRun], i: int) -> str:
    """Name of a run, with its day where another test has a run of that name."""
    run = runs[i]
    if run.start is None or sum(one.name == run.name for one in runs) == 1:
        return run.name
    return f"{run.name} of {run.start:%Y-%m-%d}"


def _unknown_wind(
    runs: Sequence[CanRun], bands: Sequence[str], where: str
) -> tuple[Finding, ...]:
    """Runs of unknown wind that are pooled with those of known wind."""
    names = [
        run.name for run, band in zip(runs, bands, strict=True) if band == "unknown"
    ]
    if not names:
        return ()
    what = f"the wind of {', '.join(names)} is not known: used like the others"
    fix = "write start and minutes of each run, and log or enter its wind"
    return (Finding("note", where, what, fix),)


def _usual_unknown(
    every: tuple[int, ...], bands: Sequence[str], wind: SiteWind, where: str
) -> InBand:
    why = f"all runs: the wind of the irrigation hours is not known ({wind.usual_from})"
    known = {band for band in bands if band != "unknown"}
    if len(known) < 2:
        return InBand(every, why)
    what = (
        f"runs in {' and '.join(sorted(known))} wind are pooled, because the wind of "
        f"the irrigation hours is not known ({wind.usual_from})"
    )
    fix = "log the wind over some weeks of nights, with [[wind_log]] in site.toml"
    return InBand(every, why, (Finding("note", where, what, fix),))
