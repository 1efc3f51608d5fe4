"""The record command: what was done and seen, to the end of a site's log.

What is not given is asked for on a terminal, and refused by the name of its option
without one. The lines are shown before they are written.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from itertools import takewhile
from typing import TYPE_CHECKING, Any, NoReturn

import click

from scheduler.errors import Finding, QuantityError, SaveError
from scheduler.files.log_kinds import KINDS
from tui.commands import edge
from tui.commands import record_options as options
from tui.commands.record_asking import Asked
from tui.commands.record_dial import say_dial

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from scheduler.files.log_writing import TypedLine
    from scheduler.files.site_folder import SiteFolder

_NAMES = {what.replace(" ", "-"): what for what in KINDS}


class Whats(click.Group):
    """The kinds of fact; a misspelt one is answered with the nearest."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Take options behind the site, as in `record SITE --undo`, for its own."""
        if args and args[0][:1] != "-":
            own = list(takewhile(lambda one: one[:1] == "-", args[1:]))
            args = [*own, args[0], *args[1 + len(own) :]]
        return super().parse_args(ctx, args)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the kind, or say which there are."""
        name = args[0]
        if name not in self.commands and name[:1] != "-" and not ctx.resilient_parsing:
            from difflib import get_close_matches

            close = get_close_matches(name, self.commands, n=1)
            meant = f"did you mean {close[0]}? " if close else ""
            known = ", ".join(self.commands)
            ctx.fail(f"there is no kind {name!r}; {meant}the kinds are: {known}")
        return super().resolve_command(ctx, args)

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Kinds in the order of the table, not of the alphabet."""
        del ctx
        return list(self.commands)


@click.group(
    cls=Whats,
    subcommand_metavar="WHAT [OPTIONS]",
    invoke_without_command=True,
    params=[
        click.Argument(["site"], type=edge.FOLDER),
        click.Option(["--undo"], is_flag=True, help="Take the last entry back."),
        click.Option(
            ["--force"], is_flag=True, help="Take it back even if written by hand."
        ),
        *options.WRITING,
    ],
)
@click.pass_context
@edge.guarded
def record(
    ctx: click.Context, /, site: Path, undo: bool, force: bool, yes: bool, as_json: bool
) -> None:
    """Write what was done or seen to the log of a site, log.csv.

    What is not given is asked for. The lines are shown before they are written.
    """
    ctx.obj = site
    if undo:
        if ctx.invoked_subcommand is not None:
            ctx.fail("--undo takes the last entry back and records nothing")
        _undo(site, force=force, yes=yes, as_json=as_json)
    elif ctx.invoked_subcommand is None:
        if not options.asks(as_json=as_json):
            ctx.fail(f"say what to record; the kinds are: {', '.join(_NAMES)}")
        what = click.prompt("what", type=click.Choice(list(_NAMES)))
        command = record.commands[what]
        with command.make_context(what, [], parent=ctx) as own:
            command.invoke(own)


def _command(name: str, what: str) -> click.Command:
    """The command of one kind of fact."""
    does = f"Record {KINDS[what].does}."

    @click.pass_context
    @edge.guarded
    def run(ctx: click.Context, /, **given: Any) -> None:
        _record(ctx.obj, what, given)

    return click.Command(
        name,
        callback=run,
        params=options.parameters(what),
        help=does,
        short_help=does,
    )


for _name, _what in _NAMES.items():
    record.add_command(_command(_name, _what))


# --- recording ---------------------------------------------------------------


def _record(folder: Path, what: str, given: dict[str, Any]) -> None:
    from scheduler.files.log_writing import add_to_log, checked_lines
    from scheduler.reports.log import recorded_json

    found = _read(folder)
    today = edge.today_of(found.site, None) if found.site else _day_of_the_clock()
    as_json = bool(given["as_json"])
    asked = Asked(what, given, options.asks(as_json=as_json))
    ids = [one.id for one in found.site.zones] if found.site else []
    lines = _with_own_names(asked.lines(_day(asked, today), ids), found)
    facts, wrong = checked_lines(lines)
    if wrong:
        _refuse(wrong, lines)
    _refuse_unknown_names(found, lines)
    say_dial(found, facts)
    entered = edge.moment()
    _show([one.text(entered) for one in lines], "to log.csv:", as_json=as_json)
    if asked.asks and not given["yes"] and not click.confirm("write it?", default=True):
        edge.say("nothing was written")
        return
    add_to_log(folder, lines, entered=entered)
    edge.say(f"written: {folder / 'log.csv'}; --undo takes it back")
    if as_json:
        edge.show_json(recorded_json(facts, [one.text(entered) for one in lines]))


def _read(folder: Path) -> SiteFolder:
    """The site; one whose site.toml has a slip can still be recorded for."""
    from scheduler.files.site_folder import read_site_folder
    from scheduler.reports.text import findings_text

    if not (folder / "site.toml").is_file():
        return edge.read_site(folder)
    found = read_site_folder(folder)
    said = [one for one in found.findings if one.where.startswith("log.csv")]
    if found.site is None:
        said += [one for one in found.findings if one.level == "stop"]
    if said:
        edge.say(findings_text(tuple(said)))
    return found


def _day_of_the_clock() -> dt.date:
    from tui.session import todays_date

    return todays_date(None)


def _with_own_names(lines: Sequence[TypedLine], found: SiteFolder) -> list[TypedLine]:
    """Zones and meters as the site writes them: z5 is Z5."""
    from scheduler.files.log_line import zones_in

    known = found.site.zones if found.site else ()
    zones = {one.id.casefold(): one.id for one in known}
    meters = {one.casefold(): one for one in _meters(found)}
    made = []
    for line in lines:
        typed = [zones.get(one.casefold(), one) for one in zones_in(line.zone)]
        is_meter = line.what == "meter"
        item = meters.get(line.item.casefold(), line.item) if is_meter else line.item
        made.append(replace(line, zone="; ".join(typed), item=item))
    return made


def _meters(found: SiteFolder) -> list[str]:
    """Names of meters so far; of two that differ in letters only the newer."""
    from scheduler.log import MeterReading

    return [one.meter for one in found.history.log.of(MeterReading)]


def _day(asked: Asked, today: dt.date) -> dt.date:
    on = asked.given["on"]
    if on is None and asked.kind.is_of_night:
        on = _night(asked, today)
    day: dt.date = today if on is None else on.date()
    if day > today:
        what = f"--on {day} is after today, {today}"
        raise QuantityError(what, "record what has happened, on its own day")
    return day


def _night(asked: Asked, today: dt.date) -> dt.datetime:
    """The night is asked for: in the morning it is that of yesterday."""
    last = today - dt.timedelta(days=1)
    if not asked.asks:
        what = "--on is missing: the day on whose evening the night began"
        raise QuantityError(what, f"give it, such as --on {last}")
    words = "day on whose evening the night began"
    kind = click.DateTime(["%Y-%m-%d"])
    night: dt.datetime = click.prompt(words, default=str(last), type=kind)
    return night


# --- what is said before writing -----------------------------------------------


def _refuse(wrong: Sequence[Finding], lines: Sequence[TypedLine]) -> NoReturn:
    """Say everything wrong by the option or the pot it came from, and end."""
    from scheduler.reports.text import findings_text

    said = []
    for one in wrong:
        place, _, field = one.where.partition(": ")
        line = lines[int(place.split()[1]) - 1]
        is_pot = line.what in options.POTS
        where = f"{line.item}: {field}" if is_pot else options.option_of(field)
        said.append(Finding(one.level, where, one.what, one.fix))
    edge.say(findings_text(tuple(said)))
    edge.leave(edge.USAGE)


def _refuse_unknown_names(found: SiteFolder, lines: Sequence[TypedLine]) -> None:
    from scheduler.files.log_line import zones_in

    if found.site is None:
        return
    there = {one.casefold() for one in found.zone_ids or ()}
    for line in lines:
        for zone in zones_in(line.zone):
            if zone.casefold() not in there:  # a slip in the zone's file stops no line
                edge.known_zone(found, zone)
        packages = [one.id for one in found.site.packages]
        is_package = KINDS[line.what].item == "package" and line.item
        if is_package and line.item not in packages:
            known = ", ".join(packages) or "none yet"
            what = f"there is no package {line.item!r}"
            raise QuantityError(what, f"the packages are {known}")


def _show(lines: Sequence[str], head: str, *, as_json: bool) -> None:
    write = edge.say if as_json else edge.show
    for line in (head, *(f"  {one}" for one in lines)):
        write(line)


# --- taking back -------------------------------------------------------------


def _undo(folder: Path, *, force: bool, yes: bool, as_json: bool) -> None:
    from scheduler.files.log_writing import last_entry, take_back
    from scheduler.reports.log import taken_back_json

    if not (folder / "site.toml").is_file():
        edge.read_site(folder)
    entry = last_entry(folder)
    where = str(folder / "log.csv")
    if entry is None:
        raise SaveError("holds no entry", "there is nothing to take back", where)
    _show(entry.lines, "from log.csv:", as_json=as_json)
    if not (entry.is_ours or force):
        what = "the last line was written by hand"
        raise SaveError(what, "correct it by hand, or add --force", where)
    asks = options.asks(as_json=as_json) and not yes
    if asks and not click.confirm("take it back?", default=True):
        edge.say("nothing was taken back")
        return
    take_back(folder, entry)
    edge.say(f"taken back from {where}")
    if as_json:
        edge.show_json(taken_back_json(entry.lines))
