"""A plan's nights in, plain text and JSON out; no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING, Any

from scheduler.said import day_text
from scheduler.units import System, shown
from scheduler.watering.night_plan import moments_of

if TYPE_CHECKING:
    import datetime as dt

    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.site import Site
    from scheduler.watering.night_plan import NightPlan, NightSummary, PlannedRun
    from scheduler.watering.night_plan.result import NightWindow

Json = dict[str, Any]
WIDTH = 80
UTC = "%Y-%m-%dT%H:%MZ"


def night_json(plan: WeekPlan) -> Json:
    """Timetable and summary of a week, for the JSON of the week.

    Without a plan of the nights the timetable is empty and the summary null, but for
    the pump and the windows that were entered.
    """
    night = plan.night
    return {
        "timetable": [
            _run_json(one, plan.site.place.time_zone)
            for one in (night.runs if night else ())
        ],
        "unplaced": [
            {"zone": zone, "night": day.isoformat()}
            for zone, day in (night.unplaced if night else ())
        ],
        "summary": _summary_json(plan.site, night.summary if night else None),
    }


def hours_json(plan: ZonePlan) -> Json:
    """Uniformity and rate at the planned hours, and from the tests; null where alike.

    They are alike where the wind of the hours, of the tests or of the package is not
    known.
    """
    at = plan.at_hours
    return {
        "wind_at_planned_hours_m_per_s": at.wind_m_per_s if at else None,
        "wind_of_tests_m_per_s": at.tests_wind_m_per_s if at else None,
        "du_of_tests": at.from_tests.du_lq if at else None,
        "du_at_planned_hours": at.catch.du_lq if at else None,
        "rate_of_tests_mm_per_h": at.from_tests.net_rate_mm_per_h if at else None,
        "rate_at_planned_hours_mm_per_h": at.catch.net_rate_mm_per_h if at else None,
        "minutes_exact_from_tests": at.minutes_from_tests if at else None,
    }


def hours_text(plan: WeekPlan, units: System) -> str:
    """What the wind of the planned hours does, one line a zone; empty without."""
    lines = []
    for one in plan.zones:
        at = one.at_hours
        if at is None:
            continue
        old, new = at.from_tests, at.catch
        line = (
            f"{one.zone.id}  {shown(at.wind_m_per_s, 'm_per_s', units)} "
            f"(tests {shown(at.tests_wind_m_per_s, 'm_per_s', units)}): DU "
            f"{new.du_lq:.2f} (tests {old.du_lq:.2f}), "
            f"{shown(new.net_rate_mm_per_h, 'mm_per_h', units)} "
            f"(tests {shown(old.net_rate_mm_per_h, 'mm_per_h', units)})"
        )
        lines.append(fill(line, WIDTH, subsequent_indent="    "))
    if not lines:
        return ""
    return "\n".join(["Wind of the planned hours, counted in the minutes:", *lines])


def _run_json(one: PlannedRun, time_zone: str) -> Json:
    moments = moments_of(one.start, one.minutes, time_zone)
    return {
        "zone": one.zone,
        "night": one.night.isoformat(),
        "start": one.start.isoformat(timespec="minutes"),
        "end": one.end.isoformat(timespec="minutes"),
        "start_utc": moments.start_utc.strftime(UTC),
        "end_utc": moments.end_utc.strftime(UTC),
        "flow_l_per_min": one.flow_l_per_min,
    }


def _summary_json(site: Site, summary: NightSummary | None) -> Json:
    return {
        "fits": summary.fits if summary else None,
        "minutes_short": summary.minutes_short if summary else None,
        "gap_to_bound": summary.gap_to_bound if summary else None,
        "compared_by": summary.scale if summary else None,
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
        lines.append("  " + ", ".join(day_text(day, "%a %d %b") for day in days))
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
            f"; its {summary.scale} is at most {summary.gap_to_bound:.1%} above the "
            "least that any night plan needs"
        )
    peak = shown(summary.peak_flow_l_per_min, "l_per_min", units)
    said += f"; highest flow {peak}"
    if summary.pump_l_per_min is not None:
        said += f" of the pump's {shown(summary.pump_l_per_min, 'l_per_min', units)}"
    valves = "1 valve" if summary.most_valves == 1 else f"{summary.most_valves} valves"
    return f"{said}, {valves} at once"
