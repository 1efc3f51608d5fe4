"""The command about wind: what the site's logs say of its hours."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from tui.commands import edge

if TYPE_CHECKING:
    from pathlib import Path


@click.command()
@edge.site_argument
@edge.units_option
@edge.json_option
@edge.guarded
def wind(site: Path, units: str | None, as_json: bool) -> None:
    """Show the usual wind by hour and month, and the calmest hours.

    Means come from the logs under [[wind_log]] in site.toml and are brought to 2 m
    above the ground; every mean stands beside the days that it comes from.
    """
    from scheduler.field.wind_course import wind_courses
    from scheduler.reports.text import findings_text
    from scheduler.reports.wind import wind_json, wind_text

    found = edge.read_site(site)
    courses = wind_courses(edge.site_of(found), found.history.wind)
    if as_json:
        edge.show_json(wind_json(courses, found.findings))
    else:
        edge.show(wind_text(courses, edge.units_of(edge.site_of(found), units)))
        said = [one for course in courses for one in course.findings]
        if said:
            edge.show("\n" + findings_text(said))
        edge.say(findings_text(found.findings))
    edge.leave(
        edge.exit_code(found.findings, [f for one in courses for f in one.findings])
    )
