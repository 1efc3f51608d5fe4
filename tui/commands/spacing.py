"""The command about spacing: what one sprinkler's profile makes at other spacings."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from scheduler.errors import Finding, QuantityError, SchedulerError
from tui.commands import edge

if TYPE_CHECKING:
    from pathlib import Path

    from scheduler.field.fold import Layout
    from scheduler.field.overlap import Sweep
    from scheduler.field.profile import Profile
    from scheduler.files.profile_csv import Leg
    from scheduler.units import System


@click.command()
@click.argument(
    "profiles", nargs=-1, required=True, metavar="PROFILE...", type=edge.FOLDER
)
@click.option(
    "--at", required=True, help='Spacing, "30 x 30 ft": along x between rows.'
)
@click.option("--layout", type=click.Choice(["square", "rectangular", "triangular"]))
@click.option("--minutes", type=float, help="Minutes that the water ran.")
@click.option("--mouth", help='Inside diameter of the can mouth, "4.25 in".')
@click.option("--throw", help='Radius of throw if it was seen, "45 ft".')
@click.option("--from", "first", help='Map of spacings from here, "20 ft".')
@click.option("--to", "last", help='Map of spacings up to here, "50 ft".')
@click.option("--step", help='Step of the map, "2 ft".')
@edge.units_option
@edge.json_option
@edge.guarded
def spacing(
    profiles: tuple[Path, ...],
    at: str,
    layout: Layout | None,
    minutes: float | None,
    mouth: str | None,
    throw: str | None,
    first: str | None,
    last: str | None,
    step: str | None,
    units: str | None,
    as_json: bool,
) -> None:
    """Work out pattern, rate and uniformity of a sprinkler at other spacings.

    PROFILE is a table of cans along a leg outward from one head, its first line with
    units: `distance (ft),volume (mL)`, or `depth (in)`, or `rate (in/h)`. More legs of
    the same head are further columns or further files; they are averaged.
    """
    from scheduler.field.overlap import CAUTIONS, pattern
    from scheduler.files.spacing_text import parsed_spacing_m
    from scheduler.reports.spacing import pattern_text, spacing_json, sweep_text
    from scheduler.reports.text import findings_text

    face: System = "metric" if units == "metric" else "us"
    along_m, between_m = parsed_spacing_m(at, option="--at")
    shape, said = _layout(layout, along_m, between_m)
    ends = _map_ends(first, last, step)
    legs, from_files = _legs(profiles)
    profile: Profile | None = None
    found, swept = None, None
    if legs:
        profile, told = _profile(legs, (minutes, mouth, throw), face)
        said += told
    if profile is not None:
        rows_m = _rows_m(profile, (along_m, between_m), shape, face)
        found = pattern(profile, spacing_m=along_m, row_spacing_m=rows_m, layout=shape)
        swept, told = _sweep(profile, ends, (along_m, rows_m), shape, face)
        said += (*found.findings, *told, *CAUTIONS)
    findings = (*from_files, *said)
    if as_json:
        edge.show_json(spacing_json(profile, found, swept, findings))
    else:
        if profile is not None and found is not None:
            edge.show(pattern_text(profile, found, face))
            if swept is not None:
                edge.show("\n" + sweep_text(swept, found, face))
            edge.show("")
        edge.show(findings_text(findings))
    edge.leave(edge.exit_code(from_files, said))


def _layout(
    given: Layout | None, along_m: float, between_m: float | None
) -> tuple[Layout, tuple[Finding, ...]]:
    """The layout asked for; straight rows, and a note, if none was."""
    if given == "square" and between_m not in (None, along_m):
        raise QuantityError(
            "a square layout has one spacing, two were given",
            "give --layout rectangular, or triangular if rows are staggered",
            "--at",
        )
    if given is not None:
        return given, ()
    shape: Layout = "square" if between_m in (None, along_m) else "rectangular"
    fix = "give --layout triangular if every second row is shifted"
    note = Finding("note", "--layout", f"not given: taken as {shape}", fix)
    return shape, (note,)


def _map_ends(
    first: str | None, last: str | None, step: str | None
) -> tuple[float, float, float] | None:
    from scheduler.files.spacing_text import parsed_length_m

    given = {"--from": first, "--to": last, "--step": step}
    missing = [name for name, text in given.items() if text is None]
    if len(missing) == 3:
        return None
    if missing:
        raise click.UsageError(f"a map needs {' and '.join(missing)} as well")
    begin, end, by = (
        parsed_length_m(str(text), option=name) for name, text in given.items()
    )
    return begin, end, by


def _legs(profiles: tuple[Path, ...]) -> tuple[list[Leg], tuple[Finding, ...]]:
    """Every leg of every file; none if a file cannot be used."""
    from scheduler.files.profile_csv import read_legs
    from scheduler.files.text_file import read_text_file

    legs: list[Leg] = []
    findings: list[Finding] = []
    for path in profiles:
        file, said = read_text_file(path, str(path))
        findings += said
        if file is not None:
            more, said = read_legs(file)
            legs += more
            findings += said
    twice = {str(path) for path in profiles if profiles.count(path) > 1}
    for name in sorted(twice):
        what, fix = "is given twice", "name each file once; more legs are more files"
        findings.append(Finding("stop", name, what, fix))
    has_stop = any(one.level == "stop" for one in findings)
    return [] if has_stop else legs, tuple(findings)


def _profile(
    legs: list[Leg],
    how: tuple[float | None, str | None, str | None],
    face: System,
) -> tuple[Profile | None, tuple[Finding, ...]]:
    from scheduler.field.catch import mouth_area_cm2
    from scheduler.field.legs import averaged_profile
    from scheduler.files.profile_csv import radial_leg, unused_findings
    from scheduler.files.spacing_text import parsed_length_m

    minutes, mouth, throw = how
    area = None
    if mouth is not None:
        area = mouth_area_cm2(1000 * parsed_length_m(mouth, option="--mouth"))
    throw_m = None if throw is None else parsed_length_m(throw, option="--throw")
    radial = [radial_leg(one, mouth_area_cm2=area, minutes=minutes) for one in legs]
    profile, said = averaged_profile(radial, throw_m=throw_m, units=face)
    unused = unused_findings(
        legs, has_mouth=mouth is not None, has_minutes=minutes is not None
    )
    return profile, (*unused, *said)


def _rows_m(
    profile: Profile,
    asked_m: tuple[float, float | None],
    shape: Layout,
    face: System,
    option: str = "--at",
) -> float:
    """Row spacing of the layout; an error names the option, in the units shown."""
    from scheduler.field.fold import layout_row_spacing_m

    try:
        return layout_row_spacing_m(
            profile,
            spacing_m=asked_m[0],
            row_spacing_m=asked_m[1],
            layout=shape,
            units=face,
        )
    except SchedulerError as wrong:
        raise QuantityError(wrong.what, wrong.fix, option) from wrong


def _sweep(
    profile: Profile,
    ends: tuple[float, float, float] | None,
    at_m: tuple[float, float],
    shape: Layout,
    face: System,
) -> tuple[Sweep | None, tuple[Finding, ...]]:
    from scheduler.field.overlap import sweep
    from scheduler.files.spacing_text import swept_m

    if ends is None:
        what = "no map of other spacings was asked for"
        fix = 'add --from "20 ft" --to "50 ft" --step "2 ft"'
        return None, (Finding("note", "spacing", what, fix),)
    for end_m, option in zip(ends, ("--from", "--to"), strict=False):
        _rows_m(profile, (end_m, end_m), shape, face, option)
    x_m, y_m = (swept_m(*ends, with_m=one) for one in at_m)
    return sweep(profile, spacings_m=x_m, row_spacings_m=y_m, layout=shape), ()
