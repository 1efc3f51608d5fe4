"""Issued weeks and the log in, their history as text and JSON out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from textwrap import fill
from typing import TYPE_CHECKING, Any

from scheduler.log import Override
from scheduler.reports.changes import overrides_json, percent_text
from scheduler.reports.text import day_names, table
from scheduler.said import date_text, day_text

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.issued import IssuedWeek, IssuedZone
    from scheduler.record import History
    from scheduler.site import Site

Json = dict[str, Any]
WIDTH = 80


def issued_json(week: IssuedWeek | None) -> Json | None:
    """Which week was issued, for the JSON of the week."""
    if week is None:
        return None
    return {
        "name": week.name,
        "file": f"weeks/{week.name}.json",
        "revision": week.revision,
        "start": week.start.isoformat(),
        "issued_at": week.issued_at,
        "forced": week.forced,
        "inputs": dict(week.inputs),
    }


def past_weeks_json(
    site: Site, history: History, findings: Iterable[Finding], zone: str | None = None
) -> Json:
    """Every issued week with its revisions, and overrides that none of them kept."""
    from scheduler.reports.machine import FORMAT, findings_json

    return {
        "format": FORMAT,
        "site": site.name,
        "weeks": [_week_json(one, zone) for one in history.issued],
        "overrides_since": [
            {
                "zone": one.zone,
                "date": one.date.isoformat(),
                "minutes": one.minutes,
                "reason": one.reason,
            }
            for one in _overrides_since(history, zone)
        ],
        "findings": findings_json(findings),
    }


def _week_json(week: IssuedWeek, zone: str | None) -> Json:
    return {
        **(issued_json(week) or {}),
        "left": [{"zone": name, "status": status} for name, status in week.left],
        "zones": [
            {
                "zone": one.zone,
                "was_minutes": one.was_minutes,
                "was_from": one.was_from,
                "minutes_per_day": one.minutes_per_day,
                "change": one.change,
                "reason": one.reason,
                "cycles": one.cycles,
                "cycle_minutes": one.cycle_minutes,
                "soak_minutes": one.soak_minutes,
                "days": [day.isoformat() for day in one.days],
                "overrides": overrides_json(one.overrides),
            }
            for one in _of(week, zone)
        ],
    }


def past_weeks_text(site: Site, history: History, zone: str | None = None) -> str:
    """Every issued week with its revisions, oldest first."""
    weeks = history.issued
    files = "1 issued week" if len(weeks) == 1 else f"{len(weeks)} issued weeks"
    lines = [f"{site.name}: {files}"]
    if not weeks:
        lines.append("none so far: lowquarter week SITE --issue writes one")
    for i, week in enumerate(weeks):
        later = weeks[i + 1 : i + 2]
        is_replaced = bool(later) and later[0].order[0] == week.order[0]
        lines += ["", *_week_lines(week, zone, is_replaced=is_replaced)]
    since = _overrides_since(history, zone)
    if since:
        lines += ["", "Overrides that no issued week has kept so far:"]
        lines += [
            fill(
                f"  {one.zone} {one.minutes:g} min, {date_text(one.date)}: "
                f"{one.reason}",
                WIDTH,
                subsequent_indent="    ",
            )
            for one in since
        ]
    return "\n".join(lines)


def _week_lines(week: IssuedWeek, zone: str | None, *, is_replaced: bool) -> list[str]:
    head = f"{week.name}, nights from {day_text(week.start, '%a %d %b %Y')}"
    head += f", revision {week.revision}"
    head += f", issued {week.issued_at}" if week.issued_at else ""
    head += ", replaced by the next" if is_replaced else ""
    lines = [fill(head, WIDTH, subsequent_indent="  ")]
    if week.forced:
        said = f"issued in spite of a stop finding: {week.forced}"
        lines.append(fill(said, WIDTH, subsequent_indent="  "))
    rows = [_row(one) for one in _of(week, zone)]
    wide = max([6, *(len(row[4]) for row in rows)])
    rows = [[*row[:4], f"{row[4]:<{wide}}", row[5]] for row in rows]
    why = max([3, *(len(row[5]) for row in rows)])
    head_row = ["zone", "was", "NOW", "change", f"{'nights':<{wide}}"]
    rows = [[*row[:5], f"{row[5]:<{why}}"] for row in rows]
    lines.append(table([*head_row, f"{'why':<{why}}"], rows))
    left = [name for name, _ in week.left if zone is None or _is(name, zone)]
    if left:
        lines.append(fill(f"left as the clock was: {', '.join(left)}", WIDTH))
    for one in _of(week, zone):
        for kept in one.overrides:
            said = f"override kept: {one.zone} {kept.minutes:g} min, "
            said += f"{date_text(kept.date)}: {kept.reason}"
            lines.append(fill(said, WIDTH, subsequent_indent="  "))
    return lines


def _row(one: IssuedZone) -> list[str]:
    nights = "every night" if len(one.days) == 7 else day_names(one.days) or "none"
    return [
        one.zone,
        "–" if one.was_minutes is None else f"{one.was_minutes:.0f}",
        f"{one.minutes_per_day:.0f}",
        percent_text(one.change),
        nights,
        one.reason,
    ]


def _is(name: str, zone: str) -> bool:
    return name.casefold() == zone.casefold()


def _of(week: IssuedWeek, zone: str | None) -> Sequence[IssuedZone]:
    return [one for one in week.zones if zone is None or _is(one.zone, zone)]


def _overrides_since(history: History, zone: str | None) -> list[Override]:
    """Overrides of the log that no issued week kept, of one zone if one is named."""
    kept = {
        (one.zone.casefold(), two.date, two.minutes, two.reason)
        for week in history.issued
        for one in week.zones
        for two in one.overrides
    }
    return [
        one
        for one in history.log.of(Override)
        if (one.zone.casefold(), one.date, one.minutes, one.reason) not in kept
        and (zone is None or _is(one.zone, zone))
    ]
