"""A plan's nights in, plain text and JSON out; no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

from scheduler.units import System, shown

if TYPE_CHECKING:
    import datetime as dt

    from scheduler.plan import WeekPlan
    from scheduler.site import Site
    from scheduler.watering.night_plan import NightPlan, NightSummary, PlannedRun
    from scheduler.watering.night_plan.result import NightWindow

Json = dict[str, Any]
WIDTH = 80


def night_json(plan: WeekPlan) -> Json:
    """Timetable and summary of a week, for the JSON of the week.

    Without a plan of the nights the timetable is empty and the summary null, but for
    the pump and the windows that were entered.
    """
    night = plan.night
    return {
        "timetable": [_run_json(one) for one in night.runs] if night else [],
        "unplaced": [
            {"zone": zone, "night": day.isoformat()}
            for zone, day in (night.unplaced if night else ())
        ],
        "summary": _summary_json(plan.site, night.summary if night else None),
    }


def _run_json(one: PlannedRun) -> Json:
    return {
        "zone": one.zone,
        "night": one.night.isoformat(),
        "start": one.start.isoformat(timespec="minutes"),
        "end": one.end.isoformat(timespec="minutes"),
        "flow_l_per_min": one.flow_l_per_min,
    }


def _summary_json(site: Site, summary: NightSummary | None) -> Json:
    return {
        "fits": summary.fits if summary else None,
        "minutes_short": summary.minutes_short if summary else None,
        "gap_to_bound": summary.gap_to_bound if summary else None,
        "peak_flow_l_per_min": summary.peak_flow_l_per_min if summary else None,
        "pump_l_per_min": site.supply and site.supply.flow_l_per_min,
        "windows": [
            {
                "start": window.start.strftime("%H:%M"),
                "end": window.end.strftime("%H:%M"),
                "days": list(window.days),
            }
            for window in site.windows
        ],
        "nights": [_window_json(one) for one in summary.windows] if summary else [],
    }


def _window_json(one: NightWindow) -> Json:
    return {
        "night": one.night.isoformat(),
        "start": one.start.isoformat(timespec="minutes"),
        "end": one.end.isoformat(timespec="minutes"),
        "window_minutes": one.minutes,
        "used_minutes": one.used_minutes,
        "free_starts_minutes": one.free_minutes,
        "pairs_minutes": one.pairs_minutes,
        "pairs": [list(pair) for pair in one.pairs],
        "peak_flow_l_per_min": one.peak_flow_l_per_min,
    }


def night_text(night: NightPlan, units: System) -> str:
    """The nights in short: what runs when, and how full they are."""
    if night.summary.fits is None:
        return "Night plan: none, see the findings"
    lines = [fill(_head(night.summary, units), WIDTH, subsequent_indent="  ")]
    alike: dict[tuple[tuple[str, str, str], ...], list[dt.date]] = {}
    for window in night.summary.windows:
        runs = tuple(
            (f"{one.start:%H:%M}", f"{one.end:%H:%M}", one.zone)
            for one in night.runs
            if one.night == window.night
        )
        alike.setdefault(runs, []).append(window.night)
    for runs, days in alike.items():
        lines.append("  " + ", ".join(f"{day:%a %d %b}" for day in days))
        # a run must not be broken over two lines
        cells = (f"{start}–{end}\N{NO-BREAK SPACE}{zone}" for start, end, zone in runs)
        text = fill(
            "  ".join(cells),
            WIDTH,
            initial_indent="    ",
            subsequent_indent="    ",
            break_on_hyphens=False,
            fix_sentence_endings=False,
        )
        lines.append(text.replace("\N{NO-BREAK SPACE}", " "))
    return "\n".join(lines)


def _head(summary: NightSummary, units: System) -> str:
    if summary.fits:
        said = "Night plan: fits"
    else:
        said = f"Night plan: does not fit, {summary.minutes_short} min short"
    if summary.gap_to_bound is not None:
        said += (
            f"; its water is at most {summary.gap_to_bound:.1%} above the least that "
            "any night plan needs"
        )
    peak = shown(summary.peak_flow_l_per_min, "l_per_min", units)
    said += f"; highest flow {peak}"
    if summary.pump_l_per_min is not None:
        said += f" of the pump's {shown(summary.pump_l_per_min, 'l_per_min', units)}"
    valves = "1 valve" if summary.most_valves == 1 else f"{summary.most_valves} valves"
    return f"{said}, {valves} at once"
