"""Commands about catch-can tests: the tailgate answer, and every test of a site."""

from __future__ import annotations

import datetime as dt
import re
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from scheduler.errors import Finding, QuantityError, SiteFolderError
from tui.commands import edge

if TYPE_CHECKING:
    from pathlib import Path

    from scheduler.field.evaluation import RunEvaluation
    from scheduler.record import CanRun, CanUnit


def table_options(command: Callable[..., None]) -> Callable[..., None]:
    """Options that say how to read a table which can be read in two ways."""
    for option in (
        click.option("--mixed", type=click.Choice(["us_fl_oz", "imp_fl_oz", "in"]),
                     help="Unit of the small readings, if two units are mixed."),
        click.option("--labels", type=click.Choice(["yes", "no"]),
                     help="Whether 1, 2, 3 at the edge are numbers of the cans."),
        click.option("--total", type=click.Choice(["none", "row", "column", "both"]),
                     help="Whether the last row or column is a total."),
        click.option("--column", metavar="NAME",
                     help="The column of readings by its header, or all."),
        click.option("--decimal", type=click.Choice(["comma", "point"]),
                     help="The decimal sign."),
        click.option("--sheet", metavar="NAME", help="The sheet of a workbook."),
    ):  # fmt: skip
        command = option(command)
    return command


class ReadingsCommand(click.Command):
    """A command whose list of readings may be taken for an option."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Say where readings go that begin with a dash."""
        try:
            return super().parse_args(ctx, args)
        except click.NoSuchOption as problem:
            if problem.option_name[1:2].isalpha() or problem.option_name[:2] == "--":
                raise
            raise click.UsageError(
                "readings that begin with a dash go last, after `--`: "
                'lowquarter cans --minutes 30 -- "- 41 52"',
                ctx,
            ) from problem


@click.command(cls=ReadingsCommand)
@click.argument("readings", required=False)
@click.option("--from", "source", type=click.Path(allow_dash=True), metavar="FILE")
@click.option("--unit", help="mL, fl oz, mm or in (default: the table's, else mL).")
@click.option("--mouth", help='Inside diameter of the can mouth, "4.25 in".')
@click.option("--minutes", help="Minutes that the water ran.")
@click.option("--flow", help='Flow of one head, "4.6 gpm" (for the gross rate).')
@click.option("--area", help='Ground of one head, "900 ft2" (for the gross rate).')
@table_options
@edge.units_option
@edge.json_option
@edge.guarded
def cans(
    readings: str | None,
    source: str | None,
    unit: str | None,
    mouth: str | None,
    minutes: str | None,
    flow: str | None,
    area: str | None,
    units: str | None,
    as_json: bool,
    **table: str | None,
) -> None:
    """Answer at the tailgate: rate and uniformity from a scribbled list.

    READINGS are numbers in reading order; `|` or a new line starts a row. Places
    without a number: `-` none, `k` knocked, `l` leaf, `o` overflow; none of them is
    zero. Readings that begin with a dash go after `--`.

    --from reads a file (xlsx, xls, ods, CSV, text) or, as `-`, standard input. What
    can be read in two ways is asked about; the answers are the options from --sheet
    to --mixed.
    """
    from scheduler.reports.machine import cans_json
    from scheduler.reports.text import findings_text, run_text

    if (readings is None) == (source is None):
        raise click.UsageError('give READINGS in quotes ("41 52 - 66 k"), or --from')
    area_cm2, gross = _can_and_head(mouth, flow, area)
    run, said = _read_run(readings, source, (unit, _minutes(minutes), table))
    result, more = _tailgate(run, area_cm2, gross) if run else (None, ())
    findings = tuple(map(_as_options, (*said, *more)))
    if as_json:
        edge.show_json(cans_json(result, findings))
    else:
        if result is not None:
            edge.show(run_text(result, "metric" if units == "metric" else "us"))
        if findings:
            edge.show("\n" + findings_text(findings))
    edge.leave(edge.exit_code((), findings))


def _can_and_head(
    mouth: str | None, flow: str | None, area: str | None
) -> tuple[float | None, float | None]:
    """Mouth area and gross rate from the options; None where they are not given."""
    from scheduler.field.catch import gross_rate_mm_per_h, mouth_area_cm2

    area_cm2 = mouth_area_cm2(_size("--mouth", mouth, to="mm")) if mouth else None
    if (flow is None) != (area is None):
        have, want = ("--flow", "--area") if flow else ("--area", "--flow")
        raise click.UsageError(f"the gross rate needs {want} as well as {have}")
    if not flow or not area:
        return area_cm2, None
    ground_m2 = _size("--area", area, to="m2")
    flow_l_per_min = _size("--flow", flow, to="l_per_min")
    return area_cm2, gross_rate_mm_per_h(flow_l_per_min, area_per_head_m2=ground_m2)


def _tailgate(
    run: CanRun, area_cm2: float | None, gross: float | None
) -> tuple[RunEvaluation | None, tuple[Finding, ...]]:
    """Work up one run, or say why it cannot be."""
    from scheduler.field.evaluation import evaluated_run
    from scheduler.field.screening import net_gross_findings, screened
    from scheduler.record import CanTest

    test = CanTest("readings", run.where, "", dt.date.min, "as read", area_cm2, (run,))
    said = screened(test, run)
    if any(one.level == "stop" for one in said):
        return None, said
    result = evaluated_run(run, mouth_area_cm2=area_cm2, gross_rate_mm_per_h=gross)
    return result, (
        *said,
        *net_gross_findings(result.catch, run.where, result.net_low),
    )


def _read_run(
    readings: str | None,
    source: str | None,
    said: tuple[str | None, float | None, dict[str, Any]],
) -> tuple[CanRun | None, tuple[Finding, ...]]:
    """The readings, from the command line or from a table of any usual kind."""
    from scheduler.files.given_table import Given, given_run
    from scheduler.files.messy.choices import Choices
    from scheduler.files.readings import parsed_readings

    unit = _can_unit(said[0]) if said[0] is not None else None
    choices = Choices(**said[2])
    if readings is None:
        where = source if source and source != "-" else "readings"
        return given_run(_bytes_of(source), where, Given(unit, said[1], choices))
    if choices != Choices():
        raise click.UsageError("--sheet to --mixed say how to read --from FILE")
    return parsed_readings(
        readings, unit=unit or "ml", name="readings", where="readings", minutes=said[1]
    )


def _size(option: str, text: str, *, to: str) -> float:
    """A size from an option; nothing here can be 0 or below."""
    from scheduler.units import parsed_quantity

    size = parsed_quantity(text, to=to)
    if size <= 0:
        raise QuantityError(f"{option} is {text!r}", "it must be above 0")
    return size


def _minutes(text: str | None) -> float | None:
    from scheduler.units import number

    if text is None:
        return None
    fix = "write the minutes, such as --minutes 30 for half an hour"
    wrong = QuantityError(f"--minutes is {text!r}, not a number of minutes", fix)
    try:
        size, rest = number(text)
    except QuantityError:
        raise wrong from None
    if rest not in ("", "min", "minutes"):
        raise wrong
    return size


def _as_options(one: Finding) -> Finding:
    """The remedy in words of this command; without a folder there are no keys."""
    from dataclasses import replace

    if one.where.endswith(": mouth_in"):
        fix = 'measure the inside diameter of the mouth: --mouth "4.25 in"'
        return replace(one, where="--mouth", fix=fix)
    if one.where.endswith(": minutes"):
        fix = "say how long the water ran: --minutes 30"
        return replace(one, where="--minutes", fix=fix)
    if 'mixed = "' in one.fix:
        fix = re.sub(r'mixed = "(\w+)"', r"--mixed \1", one.fix)
        return replace(one, fix=fix.replace(" in [[run]] of test.toml", ""))
    return replace(one, fix=one.fix.replace('set unit = "in" or "mm"', "say --unit in"))


def _can_unit(text: str) -> CanUnit:
    from scheduler.units import spelled_unit

    known: dict[str | None, CanUnit] = {
        "ml": "ml",
        "fl_oz": "fl_oz",
        "mm": "mm",
        "in": "in",
    }
    unit = known.get(spelled_unit(text))
    if unit is None:
        raise QuantityError(f"cans are not read in {text!r}", "use mL, fl oz, mm or in")
    return unit


def _bytes_of(source: str | None) -> bytes:
    if source == "-":
        return sys.stdin.buffer.read()
    from pathlib import Path

    path = Path(str(source))
    try:
        return path.read_bytes()
    except OSError as problem:
        why = problem.strerror or str(problem)
        fix = "give a table of readings: xlsx, xls, ods, CSV or text"
        raise SiteFolderError(f"cannot be read ({why})", fix, str(path)) from problem


@click.command()
@edge.site_argument
@click.option("--zone", help="Only this zone.")
@edge.units_option
@edge.json_option
@edge.guarded
def evaluate(site: Path, zone: str | None, units: str | None, as_json: bool) -> None:
    """Work up every catch-can test: rate, uniformity, findings."""
    from scheduler.field.evaluation import evaluated_site
    from scheduler.reports.machine import evaluation_json
    from scheduler.reports.text import evaluation_text, findings_text

    found = edge.read_site(site)
    edge.known_zone(found, zone)
    tests = evaluated_site(edge.site_of(found), found.history, zone_id=zone)
    if as_json:
        edge.show_json(evaluation_json(tests, found.findings))
    else:
        edge.show(
            evaluation_text(tests, edge.units_of(edge.site_of(found), units))
            or "no tests yet"
        )
        edge.say(findings_text(found.findings))
    edge.leave(
        edge.exit_code(found.findings, [f for test in tests for f in test.findings])
    )


@click.command()
@edge.site_argument
@click.option("--wind", help='Wind to compare at, "4 mph" (default: as you water).')
@click.option("--condition", help='Compare in this condition, "as found".')
@edge.units_option
@edge.json_option
@edge.guarded
def compare(
    site: Path,
    wind: str | None,
    condition: str | None,
    units: str | None,
    as_json: bool,
) -> None:
    """Compare packages at the wind you water in; "not proven" is an answer.

    A test is of the package that test.toml names, else of its zone's. Without --wind
    the wind of the irrigation hours is taken from the wind logs; without --condition
    each package is taken in the condition of its newest test.
    """
    from scheduler.field.package_trial import package_trial
    from scheduler.reports.comparison import trial_json, trial_text
    from scheduler.reports.text import findings_text
    from scheduler.units import parsed_quantity

    found = edge.read_site(site)
    speed = parsed_quantity(wind, to="m_per_s") if wind is not None else None
    trial = package_trial(
        edge.site_of(found), found.history, wind_m_per_s=speed, condition=condition
    )
    if as_json:
        edge.show_json(trial_json(trial, found.findings))
    else:
        edge.show(trial_text(trial, edge.units_of(edge.site_of(found), units)))
        if trial.findings:
            edge.show("\n" + findings_text(trial.findings))
        edge.say(findings_text(found.findings))
    edge.leave(edge.exit_code(found.findings, trial.findings))
