"""A site folder in, one frozen state of the dashboard out; knows no terminal.

The only module of the terminal, with the command line, that opens a site or starts a
calculation. Heavy rooms are imported inside the functions, so that a face can be
painted before numbers are loaded. What-ifs change the site in memory only; edits of
the folder's files stand in its place until they are saved.
"""

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from scheduler.errors import Finding, SchedulerError, SiteFolderError
from scheduler.units import System
from tui.given_edit import texts_after
from tui.issuing import Issuing as Issuing
from tui.issuing import issue_week as issue_week
from tui.issuing import issuing as issuing
from tui.issuing import moment as moment
from tui.lookup import plans_by_zone, tests_by_zone
from tui.what_if import MONEY, edited, in_force, is_size
from tui.what_if import Edit as Edit

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation
    from scheduler.files.folder_edits import FolderEdits
    from scheduler.files.site_folder import SiteFolder
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.record import History
    from scheduler.site import Site
    from scheduler.watering.night_plan import Pin

_WORST_FIRST = {"stop": 0, "warning": 1, "note": 2}


# a worker writes what it was given into its description: never a whole week
@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Session:
    """Everything the dashboard shows, frozen.

    Attributes
    ----------
    folder : Path
        The site folder.
    site_folder : SiteFolder or None
        What was read; None when the folder could not be read at all.
    site, history : Site, History or None
        The site with the what-ifs applied, and what happened there.
    findings : tuple of Finding
        Everything wrong with folder, tests and week, worst first, each once.
    plan : WeekPlan or None
        The week.
    evaluations : tuple of TestEvaluation or None
        Every test worked up; ranges arrive later, off the plan.
    units : {'us', 'metric'}
        What the faces show.
    edits : tuple of Edit
        The what-ifs in the order they were made; none is on disk.
    today : date or None
        The day the week is planned for.
    opened_units : {'us', 'metric'}
        What the faces showed on opening, before any edit.
    own_plan : WeekPlan or None
        The week without the what-ifs.
    given, opened : FolderEdits or None
        The folder's TOML files as they are edited, and as they were on opening.
    """

    folder: Path
    site_folder: "SiteFolder | None"
    site: "Site | None"
    history: "History | None"
    findings: tuple[Finding, ...]
    plan: "WeekPlan | None"
    evaluations: "tuple[TestEvaluation, ...] | None"
    units: System
    edits: tuple[Edit, ...] = ()
    today: dt.date | None = None
    opened_units: System = "us"
    own_plan: "WeekPlan | None" = None
    given: "FolderEdits | None" = None
    opened: "FolderEdits | None" = None

    @property
    def what_ifs(self) -> tuple[Edit, ...]:
        """What is tried: the last of each kind for each zone."""
        return in_force(self.edits)

    @property
    def week_edits(self) -> tuple[Edit, ...]:
        """What is tried and changes the week: no price does."""
        return tuple(edit for edit in self.what_ifs if edit.what not in MONEY)

    @property
    def tried_du(self) -> dict[str, float]:
        """Uniformities that are tried instead of tested ones, by zone."""
        tried = (one for one in self.what_ifs if one.what == "du")
        return {one.zone: float(one.value) for one in tried if is_size(one.value)}

    @property
    def pins(self) -> "tuple[Pin, ...]":
        """Waterings moved by hand, in the order they were moved."""
        from scheduler.watering.night_plan import Pin

        return tuple(one.value for one in self.what_ifs if isinstance(one.value, Pin))


def todays_date(site: "Site | None") -> dt.date:
    """Today at the site: as pinned there, else by the clock in its time zone."""
    from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

    if site is not None and site.pinned_today is not None:
        return site.pinned_today
    try:
        zone = ZoneInfo(site.place.time_zone) if site is not None else None
    except (ZoneInfoNotFoundError, ValueError):
        zone = None  # the folder's own findings name the time zone
    # the one place of the dashboard that reads the clock
    return dt.datetime.now(zone).date()  # noqa: TID251


def open_session(
    folder: Path, units: System | None = None, *, today: dt.date | None = None
) -> Session:
    """Read a site folder and plan its week; never raises for bad content.

    Parameters
    ----------
    folder : Path
        The site folder.
    units : {'us', 'metric'}, optional
        What the faces show, if not the site's own.
    today : date, optional
        Today, if neither pinned in the site nor taken from the clock.
    """
    from scheduler.files.folder_edits import read_texts
    from scheduler.files.site_folder import read_site_folder

    given = read_texts(folder)
    try:
        read = read_site_folder(folder)
    except SiteFolderError as error:
        return Session(
            folder=folder,
            site_folder=None,
            site=None,
            history=None,
            findings=(error.finding(str(folder)),),
            plan=None,
            evaluations=None,
            units=units or "us",
            opened_units=units or "us",
        )
    shown_units = units or (read.site.units if read.site is not None else "us")
    base = Session(
        folder=folder,
        site_folder=read,
        site=read.site,
        history=read.history,
        findings=read.findings,
        plan=None,
        evaluations=_evaluations(read.site, read.history, False),
        units=shown_units,
        today=today or todays_date(read.site),
        opened_units=shown_units,
        given=given,
        opened=given,
    )
    return _planned(base)


def with_given(session: Session, given: "FolderEdits") -> Session:
    """Session whose folder is read with other texts; its what-ifs are left out."""
    from scheduler.files.site_folder import read_site_folder

    read, before = read_site_folder(session.folder, given.texts), session.site_folder
    old = before.site if before is not None else None
    # a price or a window changes no test: what was worked up stays
    tests = session.evaluations
    if tests is None or not _tests_stand(old, read.site):
        tests = _evaluations(read.site, read.history, False)
    units, today = session.opened_units, session.today
    if read.site is not None and old is not None:
        units = read.site.units if read.site.units != old.units else units
        is_pinned_anew = read.site.pinned_today != old.pinned_today
        today = todays_date(read.site) if is_pinned_anew else today
    anew = replace(
        session,
        site_folder=read,
        site=read.site,
        history=read.history,
        evaluations=tests,
        opened_units=units,
        units=units,
        today=today,
        given=given,
        edits=(),
    )
    return _planned(anew)


def _tests_stand(old: "Site | None", new: "Site | None") -> bool:
    """Whether the tests of both sites say the same."""
    if old is None or new is None:
        return False
    names = ("place", "zones", "packages", "wind_logs", "units")
    return all(getattr(old, one) == getattr(new, one) for one in names)


def apply_edit(session: Session, edit: Edit) -> Session:
    """Session with one more what-if.

    Raises
    ------
    QuantityError
        If the zone is not known or the value is not allowed.
    """
    return with_edits(session, (*session.edits, edit))


def undo(session: Session) -> Session:
    """Session without its last edit; the same session when there is none."""
    return with_edits(session, session.edits[:-1]) if session.edits else session


def with_edits(session: Session, edits: Iterable[Edit]) -> Session:
    """Session with exactly these edits, made from the site as it was read.

    Raises
    ------
    QuantityError
        If a zone is not known or a value is not allowed.
    """
    edits = tuple(edits)
    if session.site_folder is None:
        return session
    if session.given is not None:
        given = texts_after(session.given, session.opened, edits)
        if given.now != session.given.now:
            session = with_given(session, given)
    assert session.site_folder is not None, "it was read"
    site = session.site_folder.site
    is_edited = session.given is not None and bool(session.given.changed)
    units = session.opened_units
    for edit in edits:
        if edit.what == "units":
            units = "us" if edit.value == "us" else "metric"
    # a coefficient goes before the factor of it
    for edit in sorted(in_force(edits), key=lambda one: one.what == "kc factor"):
        # an edit of the files may have taken its zone out
        if site is not None and not (is_edited and _is_lost(site, edit)):
            site = edited(site, edit)
    changed = replace(session, site=site, units=units, edits=edits)
    same = changed.week_edits == session.week_edits
    return changed if same else _planned(changed)


def _is_lost(site: "Site", edit: Edit) -> bool:
    return bool(edit.zone) and site.zone(edit.zone) is None


def evaluated(session: Session, resamples: int | None = None) -> Session:
    """Session with every test worked up with its ranges; slow, and off the plan."""
    if session.history is None:
        return session
    done = _evaluations(session.site, session.history, True, resamples)
    return with_evaluations(session, done)


def evaluated_step_by_step(session: Session) -> Iterator[Session]:
    """Session with coarse ranges at once, then with the ranges that reports print."""
    from scheduler.field.nights import COARSE

    yield evaluated(session, COARSE)
    yield evaluated(session)


def with_evaluations(
    session: Session, evaluations: "tuple[TestEvaluation, ...] | None"
) -> Session:
    """Session with tests that were worked up apart, and what they found."""
    done = replace(session, evaluations=evaluations)
    return replace(done, findings=_gathered(done))


def change_minutes(plan: "ZonePlan") -> float | None:
    """Minutes a watering gains on what the clock holds now; None when unknown."""
    if plan.minutes_per_day is None or plan.was_minutes is None:
        return None
    return plan.minutes_per_day - plan.was_minutes


def zone_plan(session: Session, zone_id: str) -> "ZonePlan | None":
    """One zone's week, or None."""
    if session.plan is None:
        return None
    return plans_by_zone(session.plan).get(zone_id)


def own_zone_plan(session: Session, zone_id: str) -> "ZonePlan | None":
    """One zone's week without the what-ifs, or None."""
    if session.own_plan is None:
        return None
    return plans_by_zone(session.own_plan).get(zone_id)


def zone_findings(session: Session, zone_id: str) -> tuple[Finding, ...]:
    """What is wrong with one zone's week and the test it rests on, worst first."""
    plan = zone_plan(session, zone_id)
    if plan is None:
        return ()
    test = evaluation(session, zone_id)
    found = plan.findings + (test.findings if test is not None else ())
    return worst_first(found)


def evaluation(session: Session, zone_id: str) -> "TestEvaluation | None":
    """The worked-up test that feeds one zone's week, or its newest, or None."""
    mine = tests_by_zone(session.evaluations).get(zone_id.casefold(), ())
    plan = zone_plan(session, zone_id)
    used = plan.evidence.test if plan is not None and plan.evidence else ""
    for one in mine:
        if one.test == used:
            return one
    return max(mine, key=lambda one: one.date) if mine else None


def only_run(session: Session, zone_id: str) -> "RunEvaluation | None":
    """The run behind one zone's uniformity when it rests on exactly one, or None."""
    plan, test = zone_plan(session, zone_id), evaluation(session, zone_id)
    if plan is None or plan.evidence is None or test is None or len(test.runs) != 1:
        return None
    return test.runs[0] if plan.evidence.test == test.test else None


def worst_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings each once, stops before warnings before notes, else in given order."""
    once = dict.fromkeys(findings)
    return tuple(sorted(once, key=lambda one: _WORST_FIRST[one.level]))


def _planned(session: Session) -> Session:
    """Session with its week planned anew from its site."""
    from scheduler.plan import build_week

    plan = None
    trouble: tuple[Finding, ...] = ()
    if session.site is not None and session.history is not None:
        today = session.today or todays_date(session.site)
        try:
            plan = build_week(
                session.site,
                session.history,
                today,
                tried_du=session.tried_du,
                pins=session.pins,
            )
        except SchedulerError as error:
            trouble = (error.finding("this week"),)
    own = session.own_plan if session.what_ifs else plan
    done = replace(session, plan=plan, own_plan=own)
    return replace(done, findings=_gathered(done, trouble))


def _gathered(
    session: Session, trouble: tuple[Finding, ...] = ()
) -> tuple[Finding, ...]:
    found = list(session.site_folder.findings if session.site_folder else ())
    found.extend(trouble)
    if session.plan is not None:
        found.extend(session.plan.all_findings)
        found.extend(session.plan.tests_due)
    for test in session.evaluations or ():
        found.extend(test.findings)
    return worst_first(found)


def _evaluations(
    site: "Site | None",
    history: "History",
    with_ranges: bool,
    resamples: int | None = None,
) -> "tuple[TestEvaluation, ...] | None":
    from scheduler.field.evaluation import evaluated_site
    from scheduler.field.ranges import RESAMPLES

    if site is None:
        return None
    return evaluated_site(
        site, history, with_ranges=with_ranges, resamples=resamples or RESAMPLES
    )
