"""Plans, tests and traces in, plain text for a terminal or a pipe out; no arithmetic.

Lines are made for 80 columns; numbers are formatted by `scheduler.units` only.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.field.range_words import range_caveat
from scheduler.field.uniformity import rating
from scheduler.record import CODES
from scheduler.reports.ahead import ahead_text, eto_from
from scheduler.reports.hydraulics import hydraulics_text
from scheduler.reports.joined import joined
from scheduler.reports.learned import learned_lines
from scheduler.reports.night import hours_text, night_text
from scheduler.reports.ranges import together_text, windows_text
from scheduler.reports.shape import shape_text
from scheduler.reports.shortfall import HEAD as SHORT_HEAD
from scheduler.reports.shortfall import short_rows, short_title
from scheduler.said import date_text, day_text
from scheduler.stations import walk_order
from scheduler.units import System, shown, split_suffix, unit_label

if TYPE_CHECKING:
    from scheduler.errors import Finding
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation
    from scheduler.field.wind_during import WindDuring
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.trace import Trace

WIDTH = 80
GLYPH = {"stop": "✖", "warning": "▲", "note": "·"}
ORDER = {"stop": 0, "warning": 1, "note": 2}


def table(head: Sequence[str], rows: Iterable[Sequence[str]], left: int = 1) -> str:
    """Columns under their heads: the first `left` flush left, numbers flush right."""
    lines = [list(head), *(list(row) for row in rows)]
    widths = [max(len(line[i]) for line in lines) for i in range(len(head))]
    return "\n".join(
        "  ".join(
            cell.ljust(width) if i < left else cell.rjust(width)
            for i, (cell, width) in enumerate(zip(line, widths, strict=True))
        ).rstrip()
        for line in lines
    )


def finding_text(finding: Finding) -> str:
    """One finding with its remedy, wrapped."""
    head = f"{GLYPH[finding.level]} {finding.level}  {finding}"
    return fill(head, WIDTH, subsequent_indent="    ", break_long_words=False)


def findings_text(findings: Iterable[Finding]) -> str:
    """Findings, worst first, else in their order."""
    ordered = sorted(joined(findings), key=lambda one: ORDER[one.level])
    return "\n".join(finding_text(one) for one in ordered)


def day_names(days: Iterable[dt.date]) -> str:
    """Days of the week, short, in order."""
    return " ".join(f"{day:%a}" for day in days)


def minutes_text(plan: ZonePlan) -> str:
    """What the clock gets: `3 x 15 min`, or a word where it gets nothing."""
    if plan.status == "blocked":
        return "blocked"
    if plan.status == "off":
        return "off"
    if not plan.minutes_per_day:
        return "not due"
    if plan.cycles and plan.cycles > 1:
        return f"{plan.cycles} x {plan.cycle_minutes}"
    return f"{plan.minutes_per_day}"


def shorten(text: str, width: int) -> str:
    """A text within a width; an ellipsis says that there is more."""
    return text if len(text) <= width else text[: width - 1].rstrip() + "…"


def was_text(plan: ZonePlan) -> str:
    """The setting that the clock holds now."""
    return "–" if plan.was_minutes is None else f"{plan.was_minutes:.0f}"


def _zone_row(plan: ZonePlan, units: System) -> list[str]:
    evidence = plan.evidence
    worst = min((ORDER[one.level] for one in plan.findings), default=2)
    soak = plan.soak_minutes if plan.cycles and plan.cycles > 1 else None
    return [
        plan.zone.id,
        shorten(plan.zone.name, 20),
        was_text(plan),
        minutes_text(plan),
        "–" if soak is None else f"{soak}",
        day_names(plan.days) if len(plan.days) < len(plan.dates) else "every night",
        shown(evidence.du_lq if evidence else None, "", units),
        "✖▲ "[worst],
    ]


def week_text(plan: WeekPlan, units: System) -> str:
    """Run times of every zone, this week."""
    last = plan.zones[0].dates[-1] if plan.zones else plan.start
    head = (
        f"{plan.site.name}: nights of {day_text(plan.start, '%a %d %b')}"
        f" to {day_text(last, '%a %d %b %Y')}"
        f" (today {day_text(plan.today, '%a %d %b')})"
    )
    eto = next((one.eto_mm for one in plan.zones if one.eto_mm is not None), None)
    water = f"Reference ET of the week: {shown(eto, 'mm', units)}"
    if source := eto_from(plan):
        water += f" ({source})"
    foot = (
        "was and NOW in minutes a night, soak in minutes between cycles\n"
        "✖ blocked: leave the clock as it is until the finding is settled;"
        " ▲ look at it"
    )
    lines = [head, water, "", _week_table(plan, units), "", foot]
    if plan.short is not None and plan.short.cuts:
        gives = table(SHORT_HEAD, short_rows(plan.short, units))
        lines += ["", short_title(plan.short, units), gives]
    if ahead := ahead_text(plan, units):
        lines += ["", ahead]
    if plan.night:
        lines += ["", night_text(plan.night, units)]
    if taught := learned_lines(plan):
        lines += ["", taught]
    if hours := hours_text(plan, units):
        lines += ["", hours]
    return "\n".join(lines)


def _week_table(plan: WeekPlan, units: System) -> str:
    """A row a zone; with several clocks as one walks, with clock and station."""
    columns = ["zone", "name", "was", "NOW", "soak", "nights", "DU", ""]
    if not plan.site.more_controllers:
        return _left_days(columns, [_zone_row(one, units) for one in plan.zones])
    order = walk_order(plan.site)
    rows = []
    for one in sorted(plan.zones, key=lambda each: order[each.zone.id]):
        clock, row = plan.site.controller_of(one.zone), _zone_row(one, units)
        row.insert(7, f"{clock.id} {order[one.zone.id][1]}")
        rows.append(row)
    columns.insert(7, "clock")
    return _left_days(columns, rows)


def _left_days(columns: Sequence[str], rows: list[list[str]]) -> str:
    """The week's table, with the nights flush left among right-flush numbers."""
    width = max(len(row[5]) for row in [list(columns), *rows]) if rows else 0
    padded = [[*row[:5], row[5].ljust(width), *row[6:]] for row in rows]
    return table([*columns[:5], columns[5].ljust(width), *columns[6:]], padded, 2)


def rules_text(plan: ZonePlan) -> str:
    """The four factor rules side by side with what each quarter gets."""
    rows = [
        [
            ("> " if one.rule == plan.rule else "  ") + one.rule,
            f"{one.factor:.2f}",
            f"{one.minutes_per_day:.1f}",
            *(f"{quarter:.0%}" for quarter in one.quarters),
            f"{one.above_need:.0%}",
        ]
        for one in plan.rules
    ]
    head = ("  rule", "factor", "min", "driest", "2nd", "3rd", "wettest", "above need")
    return table(head, rows)


def trace_line(trace: Trace, units: System, before: str = "") -> str:
    """One number of the chain: name, value, unit, formula, source."""
    name, _, days = trace.name.partition("[")
    stem, suffix = split_suffix(name)
    if isinstance(trace.value, str):
        value = trace.value
    elif suffix in ("", "min"):
        value = "–" if trace.value is None else f"{trace.value:.4g}"
    else:
        value = shown(trace.value, suffix, units, with_unit=False)
    unit = unit_label(suffix, units)
    when = f" of {days.rstrip(']').replace('..', ' to ')}" if days else ""
    head = f"{stem.replace('_', ' ')}{when} = {value}{' ' + unit if unit else ''}"
    tail = f"{trace.formula} [{trace.source}]"
    note = f" ({trace.note})" if trace.note else ""
    return fill(
        f"{head}: {tail}{note}",
        WIDTH,
        initial_indent=before,
        subsequent_indent="      ",
    )


def explain_text(trace: Trace, units: System) -> str:
    """The chain that one number rests on, from the cans to the minutes."""
    return "\n".join(
        trace_line(one, units, f"{i:>3}  ") for i, one in enumerate(trace.chain(), 1)
    )


def _measures(run: RunEvaluation, units: System) -> list[tuple[str, str]]:
    caught, measured, ranges = run.catch, run.uniformity, run.ranges
    level = f"{ranges.du_lq.level:.0%}" if ranges else ""
    du = f"{measured.du_lq:.2f}"
    if ranges:
        low, high = ranges.du_lq.low, ranges.du_lq.high
        du += f"  ({low:.2f}–{high:.2f} for this cell, {level} sure)"
    rate = shown(caught.net_rate_mm_per_h, "mm_per_h", units)
    if run.net_low is not None and run.net_high is not None:
        low_rate = shown(run.net_low, "mm_per_h", units, with_unit=False)
        high_rate = shown(run.net_high, "mm_per_h", units, with_unit=False)
        rate += f"  ({low_rate}–{high_rate})"
    gross = shown(caught.gross_rate_mm_per_h, "mm_per_h", units)
    if caught.gross_from == "carried to measured pressure":
        gross += ", estimated"
    if caught.net_over_gross is not None:
        gross += f"  (the cans caught {caught.net_over_gross:.0%} of it)"
    return [
        ("cans read", f"{caught.n_cans}"),
        ("mean catch", shown(caught.mean_ml, "ml", units, digits=1)),
        ("mean depth", shown(caught.mean_depth_mm, "mm", units)),
        ("precipitation rate, net", rate),
        ("precipitation rate, gross", gross),
        ("DU low quarter", du),
        ("", rating(measured.du_lq)),
        ("DU low half", f"{measured.du_lh:.2f}"),
        ("CU", f"{measured.cu:.2f}"),
        ("CV", f"{measured.cv:.2f}"),
        *windows_text(run.driest_windows),
        *([("wind", wind_text(run.wind, units))] if run.wind else []),
    ]


def wind_text(wind: WindDuring, units: System) -> str:
    """Wind of one run: mean, gust, direction, band, and how much of it is logged."""
    logged = "" if wind.share_logged is None else f"{wind.share_logged:.0%} logged"
    if wind.mean_m_per_s is None:
        return f"unknown ({logged})" if logged else "unknown"
    parts = [shown(wind.mean_m_per_s, "m_per_s", units)]
    if wind.gust_m_per_s is not None:
        parts.append(f"gust {shown(wind.gust_m_per_s, 'm_per_s', units)}")
    if wind.direction_deg is not None:
        parts.append(f"from {wind.direction_deg:.0f}°")
    source = f"{wind.log}, {logged}" if wind.source == "log" else "as typed"
    return f"{', '.join(parts)}: {wind.band} ({source})"


def _measure(name: str, value: str) -> str:
    """A name and what was measured, wrapped under itself."""
    head = f"{name:<26} "
    return (
        fill(value, WIDTH - 4, initial_indent=head, subsequent_indent=" " * len(head))
        or head.rstrip()
    )


def run_text(run: RunEvaluation, units: System) -> str:
    """One run: measures, then the cans as they stood."""
    lines = [_measure(name, value) for name, value in _measures(run, units)]
    if run.as_kept is not None:
        kept = f"{run.as_kept.du_lq:.2f} from {run.as_kept.n_cans} cans"
        lines.append(f"{'DU with excluded cans kept':<26} {kept}")
    if run.ranges is not None:
        lines.append(fill(f"range: {range_caveat()}", WIDTH))
    return "\n".join([*lines, "", can_map_text(run)])


def can_map_text(run: RunEvaluation) -> str:
    """The cans as they stood: readings, codes, and a star on the driest quarter."""
    reading, code = run.catch.run.reading, run.catch.run.code
    dry = set(run.driest)
    out = {(one.row, one.column) for one in run.catch.run.excluded}
    rows = []
    for i, row in enumerate(code):
        cells = []
        for j, mark in enumerate(row):
            text = mark or f"{reading[i, j]:g}"
            if (i, j) in out:
                text = f"({text})"
            cells.append(text + ("*" if (i, j) in dry else " "))
        rows.append(cells)
    wide = max(len(cell) for row in rows for cell in row)
    grid = "\n".join("  ".join(cell.rjust(wide) for cell in row) for row in rows)
    used = sorted({mark for row in code for mark in row if mark})
    legend = ["* driest quarter", *(f"{mark} {CODES[mark]}" for mark in used)]
    if out:
        legend.append("( ) excluded with a reason")
    return f"{grid}\n{'; '.join(legend)}"


def evaluation_text(tests: Iterable[TestEvaluation], units: System) -> str:
    """Every test, run by run, with its findings."""
    parts = []
    for test in tests:
        parts.append(f"zone {test.zone}, {date_text(test.date)}, {test.condition}")
        for run in test.runs:
            parts.append(f"run {run.run}\n{run_text(run, units)}")
        if test.stated is not None:
            rate = shown(test.stated.net_rate_mm_per_h, "mm_per_h", units)
            parts.append(
                f"stated without readings ({test.stated.source}):"
                f" DU {test.stated.du_lq:.2f}, net rate {rate}"
            )
        if test.together is not None:
            parts.append(together_text(test.together))
        parts += [text for text in (hydraulics_text(test.hydraulics, units),) if text]
        parts += [text for text in (shape_text(test),) if text]
        if test.findings:
            parts.append(findings_text(test.findings))
        parts.append("─" * WIDTH)
    return "\n\n".join(parts)
