"""A zone's week and its site's weather in, what the pictures of the need page draw out.

No arithmetic about water: numbers are the plan's, turned into the face's unit.
"""

import datetime as dt
import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from scheduler.reports.ahead import skips_line
from scheduler.reports.pots import groups_text, pots_text
from scheduler.units import System, converted, face_suffix, shown, unit_label
from tui.screens.wording import day_text
from tui.tried import arrow
from tui.widgets.course_lines import CourseDays, NamedLine
from tui.widgets.day_columns import DayColumns
from tui.widgets.ghost import differ
from tui.widgets.range_bars import RangeRow, RangeRows
from tui.widgets.season_lines import YearLines

if TYPE_CHECKING:
    from scheduler.need.kc_year import KcYear
    from scheduler.need.outlook import Outlook
    from scheduler.plan import WeekPlan, ZonePlan
    from scheduler.watering.course import Course

# what a day of ETo rests on, as one sign below its bar
BEFORE = "Before what is tried"
SIGNS = {
    "measured": "m",
    "forecast": "f",
    "same days of a typical year": "t",
    "own average for those days": "o",
    "last week's average": "l",
}
LINES = ("driest", "second", "third", "wettest")
DAYS_OF_WEEK = 7


def faced(values_mm: "list[float]", units: System) -> tuple[float, ...]:
    """Depths in the unit that the axis carries."""
    face = face_suffix("mm", units)
    return tuple(
        converted(one, "mm", to=face) if math.isfinite(one) else one
        for one in values_mm
    )


# --- weather ------------------------------------------------------------------


def day_columns(plan: "WeekPlan", units: System) -> DayColumns | None:
    """ETo and rain of the days behind and ahead, with what each rests on."""
    parts = [one for one in (plan.behind, plan.weather) if one is not None]
    if plan.weather is None or not parts:
        return None
    eto = [v for one in parts for v in one.eto_mm_per_day.tolist()]
    basis = [b for one in parts for b in one.eto_basis]
    n_behind = 0 if plan.behind is None else plan.behind.date.size
    behind = [] if plan.behind is None else plan.behind.date.tolist()
    ahead = [plan.start + dt.timedelta(i) for i in range(plan.weather.date.size)]
    unit = unit_label("mm", units)
    used = [one for one in SIGNS if one in basis]
    return DayColumns(
        upper=faced(eto, units),
        lower=faced(_rain(plan), units),
        signs=tuple(SIGNS.get(one, "?") for one in basis),
        days=tuple(f"{day.day}" for day in (*behind, *ahead)),
        today=n_behind,
        heads=(
            f"ETo, {unit} a day: " + ", ".join(f"{SIGNS[one]} {one}" for one in used),
            f"rain, {unit}{_said_ahead(plan)}",
        ),
        words=(*weather_words(plan, units), *_by_day(plan, eto, units)),
    )


def _by_day(plan: "WeekPlan", eto_mm: list[float], units: System) -> tuple[str, ...]:
    """Both bands number by number, for those who have them read out."""
    behind = [] if plan.behind is None else plan.behind.date.tolist()
    days = [*behind, *(plan.start + dt.timedelta(i) for i in range(DAYS_OF_WEEK))]
    unit = unit_label("mm", units)
    return tuple(
        f"{name} by day, {unit}: {_numbered(days, sizes, units)}."
        for name, sizes in (("ETo", eto_mm), ("Rain", _rain(plan)))
    )


def _numbered(days: Sequence[dt.date], sizes_mm: Sequence[float], units: System) -> str:
    """Days with their numbers; a day of which nothing is known is left out."""
    known = zip(days, sizes_mm, strict=False)
    return ", ".join(
        f"{one:%a} {one.day}: {shown(size, 'mm', units, with_unit=False)}"
        for one, size in known
        if math.isfinite(size)
    )


def _rain(plan: "WeekPlan") -> list[float]:
    """Rain behind, and what a forecast expects of the week or the gauge has of it."""
    behind = [] if plan.behind is None else plan.behind.rain_mm.tolist()
    assert plan.weather is not None, "the caller has looked"
    if _is_last_week(plan):
        return [*behind, *[math.nan] * DAYS_OF_WEEK]
    told = plan.weather.rain_ahead_mm
    counted: list[float] = plan.weather.rain_mm.tolist()
    if told is None:
        return [*behind, *counted]
    pairs = zip(counted, told.tolist(), strict=True)
    return [*behind, *(c if c or math.isnan(t) else t for c, t in pairs)]


def _said_ahead(plan: "WeekPlan") -> str:
    told = plan.weather.rain_ahead_mm if plan.weather is not None else None
    if told is None or not any(math.isfinite(one) for one in told.tolist()):
        return "; none is counted ahead"
    return "; that of a forecast is not counted"


def _is_last_week(plan: "WeekPlan") -> bool:
    """Whether the week takes the demand of the week before, day for day."""
    return plan.weather is not None and plan.weather.date.tolist()[0] != plan.start


def weather_words(plan: "WeekPlan", units: System) -> tuple[str, ...]:
    """ETo and rain behind and ahead, and what they rest on, in sentences."""
    said = []
    if plan.behind is not None:
        n_days = plan.behind.date.size
        said.append(
            f"{n_days} days behind: ETo {_sum(plan.behind, units)} "
            f"({_counted(plan.behind.eto_basis)}); rain "
            f"{_sized(plan.behind.rain_trace.value, units)} "
            f"({_counted(plan.behind.rain_basis)})."
        )
    if plan.weather is not None:
        as_last = ", the week before day for day" if _is_last_week(plan) else ""
        said.append(
            f"The week: ETo {_sum(plan.weather, units)} "
            f"({_counted(plan.weather.eto_basis)}){as_last}; rain counted "
            f"{_sized(plan.weather.rain_trace.value, units)}."
        )
    return tuple(said)


def weather_note(plan: "WeekPlan", units: System) -> tuple[str, ...]:
    """The sums behind and ahead, for the line below the picture."""
    said = []
    if plan.behind is not None:
        rain = _sized(plan.behind.rain_trace.value, units)
        said.append(
            f"{plan.behind.date.size} days behind: ETo {_sum(plan.behind, units)}, "
            f"rain {rain} ({_counted(plan.behind.rain_basis)})."
        )
    if plan.weather is not None:
        as_last = ", the week before day for day" if _is_last_week(plan) else ""
        said.append(f"The week: ETo {_sum(plan.weather, units)}{as_last}.")
    return tuple(said)


def _sum(weather: "Outlook", units: System) -> str:
    return _sized(weather.trace.value, units)


def _sized(value: object, units: System) -> str:
    return shown(value if isinstance(value, float) else None, "mm", units)


def _counted(basis: tuple[str, ...]) -> str:
    """What so many days rest on: `gauge 12, station 2`."""
    counts = Counter(one for one in basis if one)
    if len(counts) == 1:
        return next(iter(counts))
    return ", ".join(f"{name} {n}" for name, n in counts.items())


# --- coefficient --------------------------------------------------------------


def kc_lines(found: "KcYear", before: "KcYear | None" = None) -> YearLines:
    """The coefficient through the year, today marked; basal beside it where dual."""
    was: tuple[float, ...] = () if before is None else tuple(before.kc.tolist())
    days: list[dt.date] = found.date.tolist()
    head = f"Kc on the {found.area} area"
    if found.basal is not None:
        head = "Kc with wet ground; grey: the plants alone, Kcb"
    return YearLines(
        main=tuple(found.kc.tolist()),
        other=() if found.basal is None else tuple(found.basal.tolist()),
        limit=None,
        marks=(),
        labels=tuple((i, f"{day:%b}") for i, day in enumerate(days) if day.day == 1),
        legend=head,
        words=kc_words(found, before),
        today=found.today,
        before=was if differ(was, found.kc.tolist()) else (),
    )


def kc_words(found: "KcYear", before: "KcYear | None" = None) -> tuple[str, ...]:
    """The coefficient in sentences: how much, on which area, from where."""
    day = day_text(found.date.tolist()[found.today])
    kc = shown(float(found.kc[found.today]), "", "metric")
    parts = [f"Kc {kc} on {day}, on the {found.area} area: {found.kind}."]
    if found.basal is not None:
        basal = shown(float(found.basal[found.today]), "", "metric")
        parts[0] = f"Kcb {basal} and, with wet ground, {parts[0]}"
    if min(found.kc) != max(found.kc):
        low, high = (shown(float(v), "", "metric") for v in _ends(found))
        parts.append(f"Through the year {low} to {high}.")
    if before is not None:
        was = shown(float(before.kc[before.today]), "", "metric")
        if was != kc:
            parts.append(f"{BEFORE}: {was}.")
    parts.append(f"From: {found.source}.")
    if note := found.note.removeprefix(found.kind).lstrip("; "):
        parts.append(f"{note[0].upper()}{note[1:]}.")
    return tuple(parts)


def _ends(found: "KcYear") -> tuple[float, float]:
    return found.kc.min(), found.kc.max()


# --- depletion ----------------------------------------------------------------


def course_days(
    plan: "ZonePlan", units: System, before: "ZonePlan | None" = None
) -> CourseDays | None:
    """Depletion of the served position and of each quarter, now and before."""
    now = _course_days(plan, units)
    was = _course_days(before, units) if before is not None else None
    if now is None or was is None:
        return now
    lines = (
        NamedLine("served before", was.main.values),
        NamedLine("driest before", was.others[0].values),
    )
    said = [f"{BEFORE}: {line}" for line in was.words]
    return replace(
        now,
        before=lines,
        limit_before=None if was.limit == now.limit else was.limit,
        words=(*now.words, *said),
    )


def _course_days(plan: "ZonePlan", units: System) -> CourseDays | None:
    course = plan.course
    if course is None:
        return None
    unit = unit_label("mm", units)
    others = tuple(
        NamedLine(name, faced(course.quarter_mm[:, i].tolist(), units))
        for i, name in enumerate(LINES)
    )
    every = 2 if course.n_behind else 1
    return CourseDays(
        main=NamedLine("served", faced(course.served_mm.tolist(), units)),
        others=others,
        limit=faced([course.allowed_mm], units)[0],
        today=course.n_behind,
        marks=tuple(i for i, depth in enumerate(course.watering_mm) if depth > 0),
        labels=tuple(
            (i, f"{day.day}") for i, day in enumerate(course.dates) if not i % every
        ),
        head=f"{unit} used at the roots, each evening; ┷ watered that night",
        words=(_evenings(course, units), *course_words(plan, course, units)),
    )


def _evenings(course: "Course", units: System) -> str:
    said = _numbered(course.dates, course.served_mm.tolist(), units)
    unit = unit_label("mm", units)
    return f"Used each evening where the rule serves, {unit}: {said}."


def course_words(plan: "ZonePlan", course: "Course", units: System) -> tuple[str, ...]:
    """Where the depletion starts, how far it goes, and where it passes the line."""
    allowed = shown(course.allowed_mm, "mm", units)
    start = plan.trace.find("start_depletion_mm")
    said = []
    if start is not None:
        began = _sized(start.value, units)
        said.append(f"The week starts with {began} used: {start.formula}.")
    week = course.quarter_mm[course.n_behind :]
    driest, wettest = (shown(float(week[:, i].max()), "mm", units) for i in (0, 3))
    served = shown(float(course.served_mm[course.n_behind :].max()), "mm", units)
    said.append(
        f"At most {served} where the rule serves, {driest} in the driest quarter, "
        f"{wettest} in the wettest; {allowed} allowed."
    )
    passed = course.passed_on()
    if passed:
        days = " ".join(f"{day:%a}" for day in passed)
        said.append(f"▲ Past the allowed line where the rule serves: {days}.")
    return tuple(said)


# --- the week -----------------------------------------------------------------


def range_rows(
    plan: "ZonePlan", units: System, before: "ZonePlan | None" = None
) -> RangeRows | None:
    """Need and minutes of a cool, the planned and a hot week, and what else it gets."""
    if plan.need_mm is None:
        return None
    rows = _rows(plan, units)
    if before is not None and before.need_mm is not None:
        old = {one.name: one for one in _rows(before, units)}
        rows = [_with_before(one, old.get(one.name)) for one in rows]
    return RangeRows(tuple(rows), tuple(_facts(plan, units)))


def _with_before(now: RangeRow, was: RangeRow | None) -> RangeRow:
    if was is None:
        return now
    pairs = zip(was.text.split(", "), now.text.split(", "), strict=True)
    text = ", ".join(b if a == b else arrow(a, b) for a, b in pairs)
    return replace(now, was=was.value, text=text)


def _rows(plan: "ZonePlan", units: System) -> list[RangeRow]:
    assert plan.need_mm is not None, "the caller has looked"
    rows = [
        _row("planned", plan.need_mm, (plan.minutes_per_day, len(plan.days)), units)
    ]
    ahead = plan.ahead
    if ahead is not None:
        cool = (ahead.minutes_cool, ahead.nights_cool)
        hot = (ahead.minutes_hot, ahead.nights_hot)
        rows.insert(0, _row("cool", ahead.low_mm, cool, units))
        rows.append(_row("hot", ahead.high_mm, hot, units))
    return rows


def _row(
    name: str, need_mm: float, told: tuple[int | None, int], units: System
) -> RangeRow:
    minutes, nights = told
    text = f"{shown(need_mm, 'mm', units)}, {minutes or 0} min on {nights} nights"
    return RangeRow(name, faced([need_mm], units)[0], text, name == "planned")


def _facts(plan: "ZonePlan", units: System) -> list[str]:
    facts = []
    if plan.ahead is not None:
        facts.append(f"One week in ten is as cool, one as hot ({plan.ahead.n_years} "
                     "years).")  # fmt: skip
    else:
        facts.append(
            "No cool or hot week is known: that takes days ahead and three years "
            "or more of measured ETo."
        )
    if plan.skips:
        facts.append(f"Skip a night if more rain falls: {skips_line(plan, units)}.")
    elif plan.days:
        facts.append("No rain makes a planned watering needless.")
    for text in (groups_text(plan, units), pots_text(plan)):
        if text:
            said = " ".join(text.split())
            facts.append(said[0].upper() + said[1:] + ".")
    return facts
