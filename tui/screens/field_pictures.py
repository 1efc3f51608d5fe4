"""A test and its day of wind in, what the pictures of the field page draw out."""

from dataclasses import replace
from typing import TYPE_CHECKING

from scheduler.said import day_text
from scheduler.units import System, converted, face_suffix, shown, unit_label
from tui.field_state import DayOfTest
from tui.widgets.box import LOW_MARK, Box
from tui.widgets.charts import SPRINKLER
from tui.widgets.wind_day import Shaded, WindTrace

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation
    from scheduler.field.five_numbers import FiveNumbers
    from scheduler.record import CanLayout

ARROWS = "↑↗→↘↓↙←↖"  # clockwise from the top of a map
BOX_LEGEND = f"━ median   {LOW_MARK} mean of the driest quarter"
NO_TEST = (
    "No can test of zone {zone} yet. Add a folder tests/DATE-{zone} with test.toml and "
    "one CSV a run, laid out as the cans stood; `lowquarter inspect` checks it."
)
ADD_LOG = (
    "Name the logger's file in site.toml: [[wind_log]] with file, clock, stamp and "
    "height_ft or height_m. Until then the typed wind of each run is used."
)


def depth_unit(run: "RunEvaluation", units: System) -> tuple[str, str]:
    """Suffix of what is drawn for a run, and its label: depth, or what was read."""
    suffix = run.catch.run.unit if run.catch.is_relative else "mm"
    return suffix, unit_label(suffix, units)


def tried_box(
    run: "RunEvaluation", du_lq: float, five: "FiveNumbers", units: System
) -> Box:
    """The box of a run as it would be at a DU that is tried."""
    one = box(run, five, units, is_chosen=False)
    du = shown(du_lq, "", units)
    return replace(
        one,
        labels=("tried", f"DU {du} of zone", f"of {run.run}"),
        words=f"Tried, not measured, zone DU {du}: {one.words.split(', DU')[0]}.",
    )


def box(
    run: "RunEvaluation", five: "FiveNumbers", units: System, *, is_chosen: bool
) -> Box:
    """The box of one run, in the unit shown."""
    suffix, label = depth_unit(run, units)

    def sized(value: float) -> float:
        return converted(value, suffix, to=face_suffix(suffix, units))

    def text(value: float) -> str:
        return shown(value, suffix, units, with_unit=False)

    du = shown(run.uniformity.du_lq, "", units)
    words = (
        f"{run.run}: median {text(five.middle)} {label}, half of the cans from "
        f"{text(five.quarter)} to {text(five.three_quarters)}, all from "
        f"{text(five.low)} to {text(five.high)}; mean {text(five.mean)}, driest "
        f"quarter {text(five.driest_quarter_mean)}, DU {du}; {five.n_cans} cans."
    )
    return Box(
        low=sized(five.low),
        quarter=sized(five.quarter),
        middle=sized(five.middle),
        three_quarters=sized(five.three_quarters),
        high=sized(five.high),
        mark=sized(five.driest_quarter_mean),
        middle_text=text(five.middle),
        mark_text=text(five.driest_quarter_mean),
        labels=(run.run, f"DU {du}", _box_wind(run, units)),
        words=words,
        is_chosen=is_chosen,
    )


def _box_wind(run: "RunEvaluation", units: System) -> str:
    if run.wind is None or run.wind.mean_m_per_s is None:
        return "wind ?"
    return shown(run.wind.mean_m_per_s, "m_per_s", units)


def ground_words(
    layout: "CanLayout | None", run: "RunEvaluation", units: System
) -> str:
    """What the map shows of the ground: heads, north, where the wind blew to."""
    if layout is None:
        return ""
    said = []
    if layout.has_corner_heads or layout.heads:
        said.append(f"{SPRINKLER} head")
    bearing = layout.row_bearing_deg
    if bearing is not None:
        said.append(f"north {arrow(0.0, bearing)}")
        wind = run.wind.direction_deg if run.wind is not None else None
        if wind is not None:
            came = shown(wind, "deg", units)
            said.append(f"wind {arrow(wind + 180, bearing)} from {came}")
    return "   ".join(said)


def arrow(compass_deg: float, row_bearing_deg: float) -> str:
    """A compass direction on a map whose rows run to a bearing."""
    turned = compass_deg - row_bearing_deg + 90  # rows run to the right of the map
    return ARROWS[round(turned / 45) % 8]


def wind_words(run: "RunEvaluation", units: System) -> str:
    """The wind of a run in a few words, and where it comes from."""
    wind = run.wind
    if wind is None or wind.mean_m_per_s is None:
        return "wind not known"
    parts = [f"wind {shown(wind.mean_m_per_s, 'm_per_s', units)} {wind.band}"]
    if wind.gust_m_per_s is not None:
        parts.append(f"gust {shown(wind.gust_m_per_s, 'm_per_s', units)}")
    if wind.direction_deg is not None:
        parts.append(f"from {shown(wind.direction_deg, 'deg', units)}")
    parts.append("as typed" if wind.source == "typed" else f"log {wind.log}")
    return ", ".join(parts)


def wind_trace(day: DayOfTest, units: System) -> WindTrace | None:
    """Rows of the day with the limits for testing and for sprinkling."""
    wind = day.wind
    if wind is None:
        return None
    to = face_suffix("m_per_s", units)

    def sized(value: float) -> float:
        return converted(value, "m_per_s", to=to)

    limits = tuple(
        (sized(value), f"{shown(value, 'm_per_s', units)} {what}")
        for value, what in (
            (day.calm_m_per_s, "calm up to here"),
            (day.windy_m_per_s, "windy above"),
        )
    )
    first, last = wind.minute[0], wind.minute[-1] + wind.interval_min
    top = shown(float(wind.speed_m_per_s.max()), "m_per_s", units)
    said = f"{wind.log}: {_clock(first)} to {_clock(last)}, highest row {top}."
    return WindTrace(
        minutes=tuple(float(one) for one in wind.minute),
        interval=wind.interval_min,
        values=tuple(sized(float(one)) for one in wind.speed_m_per_s),
        gusts=tuple(sized(float(one)) for one in wind.gust_m_per_s),
        limits=limits,
        words=(said,),
    )


def _clock(minute: float) -> str:
    return f"{int(minute) // 60 % 24:02d}:{int(minute) % 60:02d}"


def wind_windows(
    day: DayOfTest, test: "TestEvaluation", chosen: str, units: System
) -> tuple[Shaded, ...]:
    """Windows of the runs of that day."""
    runs = {one.run: one for one in test.runs}
    return tuple(
        Shaded(
            name,
            start,
            length,
            f"{name} from {_clock(start)} for {shown(length, 'min', units)}: "
            f"{wind_words(runs[name], units)}.",
            name == chosen,
        )
        for name, start, length in day.windows
    )


def wind_title(day: DayOfTest, units: System) -> str:
    """Heading of the wind of the day."""
    label = unit_label("m_per_s", units)
    if day.wind is None:
        return f"Wind of the day, {label}"
    height = day.wind.height_m
    at = "" if height is None else f" at {shown(height, 'm', units)}"
    date = day.wind.date
    return f"Wind of {day_text(date, '%a %d %b %Y')}, {label}{at}"


def wind_legend(day: DayOfTest) -> str:
    """What is drawn in the wind of the day."""
    if day.wind is None:
        return ""
    has_gust = bool((day.wind.gust_m_per_s >= 0).any())
    gust = "   single dots: gusts" if has_gust else ""
    return f"line: mean of {day.wind.interval_min:.0f} min{gust}   shaded: runs"
