"""A session in; whether its week can be issued, and the issued week, out."""

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from scheduler.errors import SchedulerError
from scheduler.said import date_text

if TYPE_CHECKING:
    from tui.session import Session


def moment() -> str:
    """Now, UTC, as files hold it."""
    now = dt.datetime.now(dt.UTC)  # noqa: TID251 - the edge: rooms never read the clock
    return f"{now:%Y-%m-%dT%H:%M:%SZ}"


@dataclass(frozen=True, slots=True)
class Issuing:
    """Whether the week that is shown can be issued: a question, or why not.

    Attributes
    ----------
    question : str
        What to ask before; empty where it is refused.
    refused : str
        Why not.
    asks_why : bool
        It is refused for stop findings alone: a reason lets it pass.
    """

    question: str = ""
    refused: str = ""
    asks_why: bool = False


def issuing(session: "Session") -> Issuing:
    """What to ask before the week that is shown is issued, or why it cannot be."""
    from scheduler.files.issue_writing import (
        is_issued_alike,
        issued_before,
        refuse_stops,
        stops_in_the_way,
    )

    # a moved watering is kept by the very week that is issued
    if any(one.what != "move" for one in session.what_ifs):
        what = "What-ifs are not on disk: keep or drop them first (T)."
        return Issuing(refused=what)
    if session.given is not None and session.given.changed:
        what = "Edits are not saved: save them, or undo them, before you issue (g)."
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
        is_planned = any(one.minutes_per_day is not None for one in plan.zones)
        return Issuing(refused=f"{said}: {how}", asks_why=is_planned)
    place = "" if before is None else f" in place of {before.name}"
    moved = f", with {len(session.pins)} moved by hand" if session.pins else ""
    return Issuing(f"Issue the week of {date_text(plan.start)}{place}{moved}?")


def issue_week(session: "Session", why: str = "") -> str:
    """Freeze the week that is shown in weeks/; what to tell the user.

    Parameters
    ----------
    session : Session
        With the week.
    why : str
        Why it is issued in spite of stop findings.
    """
    from scheduler.files.issue_writing import issue_week as freeze

    found, plan = session.site_folder, session.plan
    if found is None or plan is None:
        return issuing(session).refused
    try:
        issued = freeze(found, plan, issued_at=moment(), forced=why)
    except SchedulerError as problem:
        return str(problem)
    return f"Issued: weeks/{issued.name}.json"
