"""A session in; what the pages of the field test show, worked out once and kept, out.

Answers are kept by the reading of the folder they came from, so that going back to a
page costs nothing and a folder read again is worked out again.
"""

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar, cast

from scheduler.errors import Finding, QuantityError, SchedulerError
from tui.lookup import tests_by_zone
from tui.session import Session, own_zone_plan

if TYPE_CHECKING:
    from scheduler.arrays import FloatArray
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation
    from scheduler.field.five_numbers import FiveNumbers
    from scheduler.field.fold import Layout
    from scheduler.field.overlap import Pattern, Sweep
    from scheduler.field.package_trial import PackageTrial
    from scheduler.field.wind.day import DayWind
    from scheduler.field.wind_line import WindLine
    from scheduler.files.package_profiles import PackageProfile
    from scheduler.record import CanLayout
    from scheduler.site import Package

Answer = TypeVar("Answer")
KEPT = 8  # answers of a kind: packages, zones that were looked at
# where an answer holds a season of every zone, tens of MiB on a large site: with and
# without what is tried, and the one before
HEAVY = 3
_kept: dict[object, tuple[tuple[object, tuple[object, ...], Any], ...]] = {}


def once(
    owner: object,
    key: tuple[object, ...],
    work: Callable[[], Answer],
    *,
    keep: int = KEPT,
) -> Answer:
    """Answer of a slow question about one reading of a folder, worked out once.

    The first of the key is the kind of question; the answers asked for last are kept,
    so many of each kind, and none of another reading.
    """
    kind = key[0]
    for one in _kept.get(kind, ()):
        if one[0] is owner and one[1] == key:
            rest = tuple(other for other in _kept[kind] if other is not one)
            _kept[kind] = (*rest, one)
            return cast("Answer", one[2])
    answer = work()
    mine = tuple(one for one in _kept.get(kind, ()) if one[0] is owner)
    _kept[kind] = (*mine, (owner, key, answer))[-keep:]
    return answer


def kept_answers(owner: object, kind: str) -> tuple[tuple[tuple[Any, ...], Any], ...]:
    """Kept answers of a kind about one reading, with their keys, the oldest first."""
    return tuple((one[1], one[2]) for one in _kept.get(kind, ()) if one[0] is owner)


# --- tests --------------------------------------------------------------------


@dataclass(frozen=True, slots=True, eq=False)
class DayOfTest:
    """Wind of the day of one run: the log's rows, and when its test's runs were.

    Attributes
    ----------
    windows : tuple of (name, start, minutes)
        Runs of that day; the start in minutes after midnight.
    why : str
        Why there are no rows; empty where there are.
    """

    wind: "DayWind | None"
    windows: tuple[tuple[str, float, float], ...]
    calm_m_per_s: float
    windy_m_per_s: float
    why: str = ""


def zone_tests(session: Session, zone_id: str) -> "tuple[TestEvaluation, ...]":
    """Tests of a zone that have runs, the newest first."""
    tests = tests_by_zone(session.evaluations).get(zone_id.casefold(), ())
    mine = [one for one in tests if one.runs]
    return tuple(sorted(mine, key=lambda one: one.date, reverse=True))


def layout_of(session: Session, test: "TestEvaluation") -> "CanLayout | None":
    """How the cans of a test stood, as far as it was written down."""
    tests = session.history.tests if session.history is not None else ()
    return next((one.layout for one in tests if one.name == test.test), None)


def heads_of(
    layout: "CanLayout | None", run: "RunEvaluation"
) -> tuple[tuple[float, float], ...]:
    """Heads as (row, column) in can places, the first can at (0, 0)."""
    from scheduler.field.basis import head_places

    if layout is None:
        return ()
    rows, columns = run.depth_map_mm.shape
    return tuple(head_places(layout, (rows, columns)))


def boxes(test: "TestEvaluation") -> "tuple[FiveNumbers, ...]":
    """Five numbers of the catches of each run of a test."""
    from scheduler.field.five_numbers import five_numbers

    return tuple(five_numbers(one.catch.depth_mm) for one in test.runs)


def tried_box(
    session: Session, zone_id: str, run: "RunEvaluation"
) -> "tuple[float, FiveNumbers] | None":
    """DU that is tried in a zone, and the catches of a run drawn as far; or None."""
    from scheduler.field.drawn import drawn_depth_mm
    from scheduler.field.five_numbers import five_numbers

    tried, own = session.tried_du.get(zone_id), own_zone_plan(session, zone_id)
    if tried is None or own is None or own.evidence is None:
        return None
    depth = drawn_depth_mm(run.catch.depth_mm, tried, of_du_lq=own.evidence.du_lq)
    return tried, five_numbers(depth)


def day_of_run(
    session: Session, test: "TestEvaluation", run: "RunEvaluation"
) -> DayOfTest:
    """Wind of the day of a run, with every run of its test on that day."""
    from scheduler.field.wind.day import day_wind
    from scheduler.field.wind.runs import CALM_UP_TO_M_PER_S, WINDY_ABOVE_M_PER_S

    start = run.catch.run.start
    day = start.date() if start else test.date
    windows = tuple(_windows(test, day))
    limits = CALM_UP_TO_M_PER_S, WINDY_ABOVE_M_PER_S
    logs = session.history.wind if session.history is not None else ()
    if session.site is None or not logs:
        return DayOfTest(None, windows, *limits, "the site has no [[wind_log]]")
    zone = session.site.place.time_zone
    named = [one for one in logs if run.wind is not None and one.name == run.wind.log]
    found = [day_wind(one, day, time_zone=zone) for one in named or logs]
    seen = [one for one in found if one is not None]
    if not seen:
        return DayOfTest(None, windows, *limits, "no wind log covers this day")
    return DayOfTest(max(seen, key=lambda one: one.minute.size), windows, *limits)


def _windows(test: "TestEvaluation", day: dt.date) -> Any:
    for one in test.runs:
        start, minutes = one.catch.run.start, one.catch.run.minutes
        if start is not None and minutes is not None and start.date() == day:
            yield one.run, start.hour * 60 + start.minute + start.second / 60, minutes


# --- packages -----------------------------------------------------------------


@dataclass(frozen=True, slots=True, eq=False)
class Packages:
    """Packages against wind: the trial, a line for each that has one, what lacks.

    Attributes
    ----------
    trial : PackageTrial
        Its pairs are meant only where `has_wind`.
    lines : dict
        By package.
    has_wind : bool
        Whether there is a wind to compare at.
    why : str
        Why there is none.
    """

    trial: "PackageTrial"
    lines: "dict[str, WindLine]"
    has_wind: bool
    why: str = ""
    fix: str = ""


def packages(session: Session, wind_m_per_s: float | None) -> Packages:
    """Every package of the site against wind; slow the first time.

    Raises
    ------
    SchedulerError
        If there is no site, or the wind is out of range.
    """
    key = ("packages", wind_m_per_s)
    return once(session.site_folder, key, lambda: _packages(session, wind_m_per_s))


def _packages(session: Session, wind_m_per_s: float | None) -> Packages:
    from scheduler.field.package_trial import package_trial
    from scheduler.field.wind_line import wind_line

    folder = session.site_folder
    site = folder.site if folder is not None else None
    if site is None or session.history is None:
        raise SchedulerError("there is no site", "see the findings")
    why = fix = ""
    try:
        trial = package_trial(site, session.history, wind_m_per_s=wind_m_per_s)
    except QuantityError as unknown:
        if wind_m_per_s is not None:
            raise
        # points and lines need no wind; the pairs at this one are not shown
        trial = package_trial(site, session.history, wind_m_per_s=0.0)
        why, fix = unknown.what, unknown.fix
    marked = None if why else trial.wind_m_per_s
    lines = {
        one.package: wind_line(one.runs, with_m_per_s=marked)
        for one in trial.packages
        if not one.why
    }
    return Packages(trial, lines, not why, why, fix)


# --- spacing ------------------------------------------------------------------


@dataclass(frozen=True, slots=True, eq=False)
class SpacingMap:
    """DU over both spacings of one package's sprinkler."""

    package: "Package"
    profile: "PackageProfile"
    sweep: "Sweep"


def profiled_packages(session: Session) -> "tuple[Package, ...]":
    """Packages of the site that have a profile."""
    folder = session.site_folder
    if folder is None or folder.site is None:
        return ()
    return tuple(one for one in folder.site.packages if one.id in folder.profiles)


def axis_m(session: Session, package_id: str) -> "FloatArray":
    """Round spacings to try for a package, in the units shown."""
    from scheduler.field.spacing_axis import spacing_axis_m

    assert session.site_folder is not None, "the caller has a package"
    profile = session.site_folder.profiles[package_id].profile
    return spacing_axis_m(profile.throw_m, system=session.units)


def spacing_map(session: Session, package_id: str, layout: "Layout") -> SpacingMap:
    """Sweep over both spacings; a second of work the first time."""
    key = ("spacing", package_id, layout, session.units)
    return once(
        session.site_folder, key, lambda: _spacing_map(session, package_id, layout)
    )


def _spacing_map(session: Session, package_id: str, layout: "Layout") -> SpacingMap:
    from scheduler.field.overlap import sweep

    folder = session.site_folder
    package = next(o for o in profiled_packages(session) if o.id == package_id)
    assert folder is not None, "a package stands in a folder"
    one = folder.profiles[package_id]
    axis = axis_m(session, package_id)
    swept = sweep(one.profile, spacings_m=axis, row_spacings_m=axis, layout=layout)
    return SpacingMap(package, one, swept)


def pattern_at(found: SpacingMap, spacing_m: float, row_spacing_m: float) -> "Pattern":
    """What the heads make at one spacing; a few milliseconds."""
    from scheduler.field.overlap import pattern

    return pattern(
        found.profile.profile,
        spacing_m=spacing_m,
        row_spacing_m=row_spacing_m,
        layout=found.sweep.layout,
    )


def own_places(found: SpacingMap) -> tuple[int, int]:
    """Places on the axes of the spacing as built, or of the throw."""
    from scheduler.field.spacing_axis import nearest_place

    along = found.package.spacing_m or found.profile.profile.throw_m
    area = found.package.area_per_head_m2
    rows = area / along if area is not None else along
    return (
        nearest_place(found.sweep.spacings_m, along),
        nearest_place(found.sweep.row_spacings_m, rows),
    )


def spacing_cautions(found: SpacingMap) -> tuple[Finding, ...]:
    """What the map does not know."""
    from scheduler.field.overlap import CAUTIONS

    return (*found.profile.notes, *CAUTIONS)
