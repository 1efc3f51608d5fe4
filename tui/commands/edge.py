"""What every command shares: options, messages, exit codes, reading a site.

Results go to stdout, everything else to stderr.
"""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Callable, Iterable
from functools import wraps
from typing import TYPE_CHECKING, Any, NoReturn, ParamSpec

import click

from scheduler.errors import Finding, QuantityError, SchedulerError, SiteFolderError

if TYPE_CHECKING:
    from pathlib import Path

    from click.shell_completion import CompletionItem

    from scheduler.field.profile import Profile
    from scheduler.files.site_folder import SiteFolder
    from scheduler.plan import WeekPlan
    from scheduler.site import Site
    from scheduler.units import System

DONE, STOPPED, USAGE, BAD_FILE = 0, 1, 2, 3
P = ParamSpec("P")


class Units(click.Choice[str]):
    """The two faces."""


class Folder(click.ParamType):  # type: ignore[type-arg]  # generic since click 8.5
    """A path; `pathlib` is loaded only when there is one, not for `--help`."""

    name = "path"

    def convert(
        self, value: Any, param: click.Parameter | None, ctx: click.Context | None
    ) -> Path:
        """Turn the argument into a path."""
        del param, ctx
        from pathlib import Path

        return Path(value)

    def shell_complete(
        self, ctx: click.Context, param: click.Parameter, incomplete: str
    ) -> list[CompletionItem]:
        """Complete files and folders."""
        del ctx, param
        from click.shell_completion import CompletionItem

        return [CompletionItem(incomplete, type="file")]


FOLDER = Folder()

units_option = click.option(
    "--units",
    type=Units(["us", "metric"]),
    help="Units to show (default: the site's own).",
)
json_option = click.option(
    "--json", "as_json", is_flag=True, help="One JSON object on stdout, nothing else."
)
today_option = click.option(
    "--today",
    type=click.DateTime(["%Y-%m-%d"]),
    help="Plan as of this day (default: the site's day).",
)
site_argument = click.argument("site", type=FOLDER)


def say(text: str) -> None:
    """Write a message for the person: to stderr."""
    click.echo(text, err=True)


def show(text: str) -> None:
    """Write the result: to stdout."""
    click.echo(text)


def show_json(value: dict[str, Any]) -> None:
    """Write the result as one JSON object."""
    import json

    from scheduler.reports.machine import clean

    click.echo(json.dumps(clean(value), ensure_ascii=False, indent=1))


def leave(code: int) -> NoReturn:
    """End with an exit code."""
    click.get_current_context().exit(code)
    raise AssertionError


def guarded(command: Callable[P, None]) -> Callable[P, None]:
    """Turn our own errors into one plain line and an exit code, in one place."""

    @wraps(command)
    def run(*args: P.args, **kwargs: P.kwargs) -> None:
        try:
            command(*args, **kwargs)
        except SchedulerError as problem:
            if click.get_current_context().find_root().params.get("debug"):
                raise
            say(f"lowquarter: {problem}")
            leave(_code_of(problem))

    return run


def _code_of(problem: SchedulerError) -> int:
    if isinstance(problem, SiteFolderError):
        return BAD_FILE
    return USAGE if isinstance(problem, QuantityError) else STOPPED


def read_site(folder: Path) -> SiteFolder:
    """Read a site folder; without a readable site, say what is wrong and end with 3."""
    from scheduler.files.site_folder import read_site_folder
    from scheduler.reports.text import findings_text

    found = read_site_folder(folder)
    if found.site is None:
        say(findings_text(found.findings))
        leave(BAD_FILE)
    return found


def site_of(found: SiteFolder) -> Site:
    assert found.site is not None, "_read has looked"
    return found.site


def today_of(site: Site, given: dt.datetime | None) -> dt.date:
    """The day to plan on: as given, as pinned by the site, or the site's own day."""
    from tui.session import todays_date

    return todays_date(site) if given is None else given.date()


def moment() -> str:
    """Now, UTC, as files hold it."""
    from tui.session import moment as now

    return now()


def units_of(site: Site, given: str | None) -> System:
    return "us" if (given or site.units) == "us" else "metric"


def exit_code(from_files: Iterable[Finding], computed: Iterable[Finding]) -> int:
    if any(one.level == "stop" for one in from_files):
        return BAD_FILE
    return STOPPED if any(one.level == "stop" for one in computed) else DONE


def week_of(found: SiteFolder, today: dt.date, start: dt.date | None) -> WeekPlan:
    from scheduler.plan import build_week

    for day in (today, start or today):
        if not 1900 <= day.year < 2200:
            raise QuantityError(
                f"{day} cannot be planned", "name a day of 1900 to 2199"
            )
    return build_week(site_of(found), found.history, today, start=start)


def profiles_of(found: SiteFolder) -> dict[str, Profile]:
    """One head's legs of cans, by package."""
    return {name: one.profile for name, one in found.profiles.items()}


def has_terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()


def open_dashboard(
    folder: Path,
    units: str | None,
    *,
    face: str | None = None,
    in_words: bool = False,
) -> NoReturn:
    from tui.app import run_dashboard
    from tui.first_run import is_site, remember

    if is_site(folder):
        remember(folder)
    leave(run_dashboard(folder, units=units, face=face, in_words=in_words))


def open_here(
    units: str | None,
    folder: Path | None = None,
    *,
    face: str | None = None,
    in_words: bool = False,
) -> NoReturn:
    """Open the site of a folder, or ask on the first page where there is none."""
    from pathlib import Path

    from tui.first_run import is_site
    from tui.welcome_app import welcome

    here = folder or Path()
    if is_site(here):
        open_dashboard(here, units, face=face, in_words=in_words)
    why = f"There is no site.toml in {here.resolve()}. What would you like to do?"
    chosen = welcome(why, face=face)
    if chosen is None:
        leave(DONE)
    open_dashboard(chosen, units, face=face, in_words=in_words)


def known_zone(found: SiteFolder, zone: str | None) -> None:
    """Refuse a zone that is not there, or that stands in its file and cannot be read.

    Raises
    ------
    SiteFolderError
        If it cannot be read; what is wrong is said first.
    QuantityError
        If there is none of that id.
    """
    zones = site_of(found).zones
    wanted = zone.casefold() if zone is not None else ""
    if zone is None or any(one.id.casefold() == wanted for one in zones):
        return
    now = [
        one.id for one in zones if wanted in (name.casefold() for name in one.formerly)
    ]
    if now:
        what = f"there is no zone {zone!r} any more"
        raise QuantityError(what, f"it is called {' or '.join(now)} now")
    refuse_unread(found, zone)
    known = ", ".join(one.id for one in zones) or "none yet"
    raise QuantityError(f"there is no zone {zone!r}", f"the zones are {known}")


def refuse_unread(found: SiteFolder, zone: str) -> None:
    """Refuse a zone that zones.toml may hold and that cannot be read."""
    from scheduler.reports.text import findings_text

    is_there = found.zone_ids is None or zone.casefold() in (
        one.casefold() for one in found.zone_ids
    )
    stops = [
        one
        for one in found.findings
        if one.level == "stop" and one.where.startswith("zones.toml")
    ]
    if is_there and stops:
        say(findings_text(stops))
        what = f"zone {zone!r} cannot be read"
        raise SiteFolderError(what, "correct what is said above", "zones.toml")
