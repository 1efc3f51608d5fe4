"""The report command: papers of a site, to a file or to standard output.

A kind of report is one entry of `KINDS`: what it does, its own options, the function
that makes it, and what prints it, by the ending of the file.
"""

from __future__ import annotations

import datetime as dt
import difflib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, NoReturn

import click

from tui.commands import (
    before_after_report,
    economics_report,
    edge,
    evaluation_report,
    extract_report,
    field_sheet,
    week_reports,
)

if TYPE_CHECKING:
    from pathlib import Path

    from scheduler.errors import Finding
    from scheduler.files.site_folder import SiteFolder
    from scheduler.units import System
    from tui.commands.field_sheet import Made


Printer = Callable[[Any], "str | bytes"]
Maker = Callable[["SiteFolder", dt.date, "System", Mapping[str, Any]], "Made"]


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of report.

    Attributes
    ----------
    does : str
        What it is, in one sentence.
    make : callable
        Folder, day, units and its own options in; what is printed, JSON, findings out.
    formats : mapping of str to callable
        What prints it, by the ending of the file; `.txt` also goes to the terminal.
    options : sequence of click.Option
        Its own options.
    """

    does: str
    make: Maker
    formats: Mapping[str, Printer]
    options: Sequence[click.Option] = ()


def paper_text(made: Any) -> str:
    """A paper in plain characters."""
    from scheduler.reports.paper_text import paper_text

    return paper_text(made)


def paper_page(made: Any) -> str:
    """A paper as a printable page."""
    from scheduler.reports.page import paper_page

    return paper_page(made)


def paper_pdf(made: Any) -> bytes:
    """A paper as PDF, where the extra for it is installed."""
    from scheduler.reports.pdf import paper_pdf

    return paper_pdf(made)


PAPER: dict[str, Printer] = {
    ".txt": paper_text,
    ".html": paper_page,
    ".pdf": paper_pdf,
}
KINDS: dict[str, Kind] = {
    "field-sheet": Kind(
        "Sheets to carry to a catch-can test, filled in with what is known.",
        field_sheet.make,
        PAPER,
        field_sheet.OPTIONS,
    ),
    "evaluation": Kind(
        "The grower's report of a test: finding, actions, map, causes, run times.",
        evaluation_report.make,
        PAPER,
        evaluation_report.OPTIONS,
    ),
    "change-sheet": Kind(
        "What the irrigator keys in: was, NOW, starts, rain skips, on one side.",
        week_reports.make_change_sheet,
        week_reports.CHANGE_SHEET,
        week_reports.CHANGE_SHEET_OPTIONS,
    ),
    "night-sheet": Kind(
        "The nights to post at the pump: which valves together, flow, blocked hours.",
        week_reports.make_night_sheet,
        week_reports.NIGHT_SHEET,
        week_reports.OPTIONS,
    ),
    "summary": Kind(
        "Half a page for the manager: water, what changed and why, what needs eyes.",
        week_reports.make_summary,
        PAPER,
        week_reports.OPTIONS,
    ),
    "calendar": Kind(
        "The waterings for a calendar; importing it again updates them.",
        week_reports.make_calendar,
        week_reports.CALENDAR,
        week_reports.OPTIONS,
    ),
    "table": Kind(
        "Zones and waterings as a table (a workbook holds both).",
        week_reports.make_table,
        week_reports.TABLE,
        (*week_reports.OPTIONS, week_reports.ROWS),
    ),
    "economics": Kind(
        "Whether a retrofit pays: assumptions, now beside options, verdict, how sure.",
        economics_report.make,
        PAPER,
        economics_report.OPTIONS,
    ),
    "before-after": Kind(
        "Before and after a change, for a grant: tests, water and energy, meter pages.",
        before_after_report.make,
        PAPER,
        before_after_report.OPTIONS,
    ),
    "extract": Kind(
        "For a regulator: units, metered water, tests, leaching checks, EC and pH.",
        extract_report.make,
        week_reports.TABLE,
        extract_report.OPTIONS,
    ),
}


class Kinds(click.Group):
    """The kinds of report; a misspelt one is answered with the nearest."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the kind, or say which there are."""
        name = args[0]
        if name not in self.commands and name[:1] != "-" and not ctx.resilient_parsing:
            self._refuse(ctx, name)
        return super().resolve_command(ctx, args)

    def _refuse(self, ctx: click.Context, name: str) -> NoReturn:
        close = difflib.get_close_matches(name, self.commands, n=1)
        meant = f"did you mean {close[0]}? " if close else ""
        known = ", ".join(self.commands)
        ctx.fail(f"there is no report {name!r}; {meant}the reports are: {known}")


@click.group(
    cls=Kinds, subcommand_metavar="KIND [OPTIONS]", invoke_without_command=True
)
@edge.site_argument
@click.pass_context
def report(ctx: click.Context, site: Path) -> None:
    """Print a report of a site, such as the field sheets of a test.

    With -o FILE the ending chooses the form: .txt for plain characters, .html for a
    page to print, .pdf (needs the extra `pdf`), .ics for a calendar, .csv or .xlsx for
    a table. Without it the text goes to standard output.
    """
    ctx.obj = site
    if ctx.invoked_subcommand is None:
        ctx.fail(f"name a report; the reports are: {', '.join(KINDS)}")


def _command(name: str, kind: Kind) -> click.Command:
    """The command of one kind: its own options, and those that all kinds share."""

    @click.pass_context
    @edge.guarded
    def run(
        ctx: click.Context,
        /,
        output: Path | None,
        force: bool,
        today: dt.datetime | None,
        units: str | None,
        as_json: bool,
        **own: Any,
    ) -> None:
        printer = _printer(kind, output)
        found = edge.read_site(ctx.obj)
        site = edge.site_of(found)
        day = edge.today_of(site, today)
        made = kind.make(found, day, edge.units_of(site, units), own)
        if output is not None:
            _save(output, printer(made.what), force)
        if as_json:
            edge.show_json(made.json)
        elif output is None:
            edge.show(str(printer(made.what)).rstrip("\n"))
        _tell(found, made.findings)
        edge.leave(edge.exit_code(found.findings, made.findings))

    command = click.command(name, help=kind.does, short_help=kind.does)(run)
    for option in (
        click.option(
            "-o", "--output", type=edge.FOLDER, metavar="FILE",
            help=f"Write it there; FILE ends in {_endings(kind)}.",
        ),
        click.option("--force", is_flag=True, help="Replace FILE if it is there."),
        edge.today_option, edge.units_option, edge.json_option,
    ):  # fmt: skip
        command = option(command)
    command.params = [*kind.options, *reversed(command.params)]
    return command


def _endings(kind: Kind) -> str:
    *first, last = kind.formats
    return f"{', '.join(first)} or {last}"


def _printer(kind: Kind, output: Path | None) -> Printer:
    ending = ".txt" if output is None else output.suffix.lower()
    if ending not in kind.formats:
        wrong = f"ends in {ending!r}" if ending else "has no ending"
        raise click.UsageError(
            f"{output} {wrong}; name a file that ends in {_endings(kind)}"
        )
    return kind.formats[ending]


def _save(path: Path, printed: str | bytes, force: bool) -> None:
    """Write the file whole or not at all; what is there stays unless forced."""
    from scheduler.errors import SaveError
    from scheduler.files.save import save_bytes, trouble
    from scheduler.files.text_file import digest_of

    digest = None
    if path.exists():
        if not force or not path.is_file():
            fix = "choose another name" + (", or add --force" if path.is_file() else "")
            raise SaveError("is there already", fix, str(path))
        try:
            digest = digest_of(path.read_bytes())
        except OSError as problem:
            raise SaveError(*trouble(problem), str(path)) from problem
    data = printed.encode("utf-8") if isinstance(printed, str) else printed
    save_bytes(path, data, read_digest=digest)
    edge.say(f"written: {path}")


def _tell(found: SiteFolder, computed: Sequence[Finding]) -> None:
    from scheduler.reports.text import findings_text

    said = findings_text((*found.findings, *computed))
    if said:
        edge.say(said)


for _name, _kind in KINDS.items():
    report.add_command(_command(_name, _kind))
