"""A site folder in, one frozen state of the dashboard out; knows no terminal.

The only module of the terminal, with the command line, that opens a site or starts a
calculation. Heavy rooms are imported inside the functions, so that a face can be
painted before numbers are loaded. What-if edits change the site in memory only:
only an issued week is written to disk.
"""

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from scheduler.errors import Finding, SchedulerError, SiteFolderError
from scheduler.units import System
from tui.lookup import plans_by_zone, tests_by_zone
from tui.what_if import MONEY, edited, in_force, is_size
from tui.what_if import Edit as Edit

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation
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


def moment() -> str:
    """Now, UTC, as files hold it."""
    now = dt.datetime.now(dt.UTC)  # noqa: TID251 - the edge: rooms never read the clock
    return f"{now:%Y-%m-%dT%H:%M:%SZ}"


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
    from scheduler.files.site_folder import read_site_folder

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
    )
    return _planned(base)


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
    site = session.site_folder.site
    units = session.opened_units
    for edit in edits:
        if edit.what == "units":
            units = "us" if edit.value == "us" else "metric"
    # a coefficient goes before the factor of it
    for edit in sorted(in_force(edits), key=lambda one: one.what == "kc factor"):
        if site is not None:
            site = edited(site, edit)
    changed = replace(session, site=site, units=units, edits=edits)
    same = changed.week_edits == session.week_edits
    return changed if same else _planned(changed)


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


@dataclass(frozen=True, slots=True)
class Issuing:
    """Whether the week that is shown can be issued: a question, or why not."""

    question: str = ""
    refused: str = ""


def issuing(session: Session) -> Issuing:
    """What to ask before the week that is shown is issued, or why it cannot be."""
    from scheduler.files.issue_writing import (
        is_issued_alike,
        issued_before,
        refuse_stops,
        stops_in_the_way,
    )

    if session.what_ifs:
        what = "What-ifs are not on disk: enter them, or undo them, before you issue."
        return Issuing(refused=what)
    found, plan, history = session.site_folder, session.plan, session.history
    if found is None or plan is None or history is None:
        return Issuing(refused="There is no week to issue: see the findings.")
    before = issued_before(history, plan)
    if before is not None and is_issued_alike(history, plan):
        return Issuing(
            refused=f"{before.name} is issued already; nothing changed since."
        )
    try:
        refuse_stops(found, plan, "")
    except SchedulerError as problem:
        if not stops_in_the_way(found, plan):
            return Issuing(refused=str(problem))
        how = f"lowquarter week {session.folder} --issue --force WHY"
        said = f"{problem.where}: {problem.what}; settle it, or say why it shall pass"
        return Issuing(refused=f"{said}: {how}")
    place = "" if before is None else f" in place of {before.name}"
    return Issuing(f"Issue the week of {plan.start:%d %b %Y}{place}?")


def issue_week(session: Session) -> str:
    """Freeze the week that is shown in weeks/; what to tell the user."""
    from scheduler.files.issue_writing import issue_week as freeze

    found, plan = session.site_folder, session.plan
    if found is None or plan is None:
        return issuing(session).refused
    try:
        issued = freeze(found, plan, issued_at=moment())
    except SchedulerError as problem:
        return str(problem)
    return f"Issued: weeks/{issued.name}.json"


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
