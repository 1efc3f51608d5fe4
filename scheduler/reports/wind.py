"""Usual wind of a site's logs in; JSON and plain text out, no arithmetic."""

from __future__ import annotations

from textwrap import fill
from typing import TYPE_CHECKING

from scheduler.field.wind.hours import FEW_DAYS, MONTHS
from scheduler.field.wind.runs import CALM_UP_TO_M_PER_S
from scheduler.reports.machine import FORMAT, Json, findings_json
from scheduler.reports.text import WIDTH
from scheduler.units import System, shown, unit_label

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from scheduler.errors import Finding
    from scheduler.field.irrigation_wind import IrrigationWind
    from scheduler.field.wind_course import TradeRule, WindCourse


# --- JSON --------------------------------------------------------------------


def wind_json(courses: Sequence[WindCourse], findings: Iterable[Finding]) -> Json:
    """Every log by month and hour; arrays are 12 months of 24 local hours."""
    said = [one for course in courses for one in course.findings]
    return {
        "format": FORMAT,
        "calm_up_to_m_per_s": CALM_UP_TO_M_PER_S,
        "logs": [_log_json(one) for one in courses],
        "findings": findings_json((*findings, *said)),
    }


def _log_json(course: WindCourse) -> Json:
    usual = course.usual
    return {
        "log": course.log,
        "time_zone": usual.time_zone,
        "sensor_height_m": course.sensor_height_m,
        "height_m": usual.height_m,
        "enough": course.is_enough,
        "mean_m_per_s": usual.mean_m_per_s,
        "gust_m_per_s": course.gust_m_per_s,
        "calm_share": usual.calm_share,
        "n_rows": usual.n_rows,
        "n_days": usual.n_days,
        "by_hour": {
            "mean_m_per_s": course.by_hour_m_per_s,
            "gust_m_per_s": course.gust_by_hour_m_per_s,
            "calm_share": course.calm_by_hour,
        },
        "calmest": {
            "start_hour": course.calm_start,
            "hours": course.calm_hours,
            "mean_m_per_s": course.calm_mean_m_per_s,
        },
        "irrigation_hours": _night_json(course.night),
        "common_practice": _trade_json(course.trade),
    }


def _night_json(night: IrrigationWind | None) -> Json | None:
    if night is None:
        return None
    return {
        "mean_m_per_s": night.mean_m_per_s,
        "by_month_m_per_s": night.by_month_m_per_s,
        "n_days": night.n_days,
    }


def _trade_json(trade: TradeRule | None) -> Json | None:
    if trade is None:
        return None
    return {
        "source": "common practice, no source",
        "highest_hour": trade.highest_hour,
        "highest_in_early_afternoon": trade.is_highest_early,
        "drops_most_after_hour": trade.drops_after_hour,
        "drops_at_about_17": trade.is_dropping_at_five,
        "at_17_of_highest": trade.at_five,
    }


# --- text --------------------------------------------------------------------


def wind_text(courses: Sequence[WindCourse], units: System) -> str:
    """Each log as a table of hours and months, then what it says."""
    if not courses:
        return "no wind log yet: name one under [[wind_log]] in site.toml"
    return "\n\n".join(
        _course_text(one, units) if one.is_enough else _too_little(one)
        for one in courses
    )


def _too_little(course: WindCourse) -> str:
    return _wrapped(
        f"{course.log}: too little for a usual wind; every hour of the day must be "
        f"logged on {FEW_DAYS} days of a month"
    )


def _course_text(course: WindCourse, units: System) -> str:
    unit = unit_label("m_per_s", units)
    head = (
        f"{course.log}: usual wind in {unit} {_height(course)}, by hour and month; "
        "hours are those of the clock on the wall"
    )
    lines = [_wrapped(head), "", _line("hour", [one[:3] for one in MONTHS], _ENDS)]
    lines += [_hour(course, hour, units) for hour in range(24)]
    days = [f"{count}" if count else "–" for count in course.n_days.tolist()]
    lines += [_line("days", days, ("", "", "")), "", *_remarks(course, units)]
    return "\n".join(lines)


_ENDS = ("year", "gust", "calm")


def _height(course: WindCourse) -> str:
    sensor, height = course.sensor_height_m, course.usual.height_m
    if sensor is None:
        return "at a height not stated"
    if sensor != height:
        return f"at {height:g} m, brought down from {sensor:g} m"
    return f"at {sensor:g} m"


def _line(first: str, months: Sequence[str], ends: Sequence[str]) -> str:
    cells = "".join(f"{one:>5}" for one in months)
    return f"{first:<5}{cells}{''.join(f'{one:>5}' for one in ends)}".rstrip()


def _hour(course: WindCourse, hour: int, units: System) -> str:
    means, days = course.usual.mean_m_per_s[:, hour], course.usual.n_days[:, hour]
    months = [
        f"{_number(mean, units)}{'*' if 0 < count < FEW_DAYS else ''}"
        for mean, count in zip(means.tolist(), days.tolist(), strict=True)
    ]
    calm = f"{course.calm_by_hour[hour]:.0%}"
    gust = _number(float(course.gust_by_hour_m_per_s[hour]), units)
    year = _number(float(course.by_hour_m_per_s[hour]), units)
    return _line(f"{hour:02d}", months, (year, gust, calm))


def _number(wind_m_per_s: float, units: System) -> str:
    return shown(wind_m_per_s, "m_per_s", units, with_unit=False)


def _remarks(course: WindCourse, units: System) -> list[str]:
    limit = shown(CALM_UP_TO_M_PER_S, "m_per_s", units)
    sensor = course.sensor_height_m
    where = "" if sensor is None else f", at the sensor ({sensor:g} m)"
    remarks = [
        f"days: the most on which an hour of that month was logged. * on fewer than "
        f"{FEW_DAYS} days. gust: the highest{where}. calm: share of rows up to "
        f"{limit}, the limit for testing."
    ]
    if course.calm_start is not None and course.calm_hours is not None:
        end = _clock(course.calm_start + course.calm_hours)
        remarks.append(
            f"calmest {course.calm_hours} hours in a row: {_clock(course.calm_start)} "
            f"to {end}, {shown(course.calm_mean_m_per_s, 'm_per_s', units)} on average"
        )
    if course.night is not None:
        mean = shown(course.night.mean_m_per_s, "m_per_s", units)
        remarks.append(f"the hours that you may water in: {mean} on average")
    if course.trade is not None:
        remarks.append(_trade_text(course.trade))
    return [_wrapped(one) for one in remarks]


def _clock(hour: int) -> str:
    return f"{hour % 24:02d}:00"


def _trade_text(trade: TradeRule) -> str:
    early = "as said" if trade.is_highest_early else "not as said"
    drop = "as said" if trade.is_dropping_at_five else "not as said"
    return (
        "common practice, no source: wind is highest in the early afternoon (12:00 to "
        "15:00) and drops at about 17:00. This log: highest from "
        f"{_clock(trade.highest_hour)} ({early}); it falls most after the hour from "
        f"{_clock(trade.drops_after_hour)} ({drop}); from 17:00 it still blows "
        f"{trade.at_five:.0%} of its highest"
    )


def _wrapped(text: str) -> str:
    return fill(text, WIDTH, subsequent_indent="    ", break_long_words=False)
