"""Sections 2 to 4: results with their ranges, the map, what each quarter gets."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from scheduler.field.basis import head_places
from scheduler.field.five_numbers import five_numbers
from scheduler.field.range_words import another_night_words
from scheduler.field.visit import can_map as named_cans
from scheduler.record import CODES
from scheduler.reports.charts import (
    Band,
    Can,
    CanMapLook,
    RuleBars,
    RunBox,
    WindPicture,
    can_map,
    du_against_wind,
    rating_scale,
    run_boxes,
    what_each_quarter_gets,
)
from scheduler.reports.evaluation.told import counted, rests_on
from scheduler.reports.paper import (
    Block,
    Column,
    Facts,
    Picture,
    Section,
    Table,
    Words,
    plain,
)
from scheduler.reports.text import wind_text
from scheduler.said import date_text, signed
from scheduler.units import converted, face_suffix, shown, unit_label

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation
    from scheduler.record import CanUnit
    from scheduler.reports.charts.can_map import Look
    from scheduler.reports.evaluation.told import Told
    from scheduler.units import System

# Univ. Florida AE194 (below 0.60 low, 0.80 high); 0.75 and 0.85 are common practice.
BANDS = (
    Band("low", 0.50, 0.60),
    Band("fair", 0.60, 0.75),
    Band("accepted", 0.75, 0.80),
    Band("very good", 0.80, 0.85),
    Band("exceptional", 0.85, 0.95),
)
# Room on a leaf, and what the title and the words of a picture take of it. [points]
ROOM, WORDS_HIGH = 630.0, 50.0
IN_DOUBT = "In doubt until the finding is settled; no run time rests on these numbers."
OTHERS = 3
READ_IN: dict[CanUnit, str] = {"ml": "mL", "fl_oz": "fl oz", "mm": "mm", "in": "in"}


# --- 2 results ---------------------------------------------------------------


def results_section(told: Told) -> Section:
    """A line a run, the runs together, the scale, boxes of the catches."""
    blocks: list[Block] = []
    if told.stops:
        blocks.append(Words(IN_DOUBT))
    if told.runs:
        blocks += [runs_table(told), Facts(tuple(_facts(told)))]
    stated = told.test.stated
    if stated is not None:
        rate = shown(stated.net_rate_mm_per_h, "mm_per_h", told.units)
        known = f"net rate {rate}, DU low quarter {stated.du_lq:.2f}"
        blocks.append(Facts(((f"Stated: {plain(stated.source)}", known),)))
    if told.test.du_lq is not None:
        blocks.append(scale_picture(told))
    if told.runs:
        blocks.append(boxes_picture(told))
    return Section("Results", tuple(blocks), "2")


def runs_table(told: Told) -> Table:
    """Rate, DU with its range, low half, CU and wind of each run."""
    columns = (
        Column("run", 1.1),
        Column("cans", 0.8, is_number=True),
        Column(f"rate, {unit_label('mm_per_h', told.units)}", 2.2, is_number=True),
        Column("DU low quarter", 2.6, is_number=True),
        Column("low half", 1, is_number=True),
        Column("CU", 0.9, is_number=True),
        Column("wind", 2.2),
    )
    rows = tuple(_run_row(one, told) for one in told.runs)
    return Table(columns, rows, is_filled=True)


def _run_row(run: RunEvaluation, told: Told) -> tuple[str, ...]:
    measured, units = run.uniformity, told.units
    rate = shown(run.catch.net_rate_mm_per_h, "mm_per_h", units, with_unit=False)
    if run.net_low is not None and run.net_high is not None:
        low = shown(run.net_low, "mm_per_h", units, with_unit=False)
        high = shown(run.net_high, "mm_per_h", units, with_unit=False)
        rate += f" ({low}–{high})"
    du = f"{measured.du_lq:.2f}"
    if run.ranges is not None:
        du += f" ({run.ranges.du_lq.low:.2f}–{run.ranges.du_lq.high:.2f})"
    wind = run.wind
    blew = "unknown"
    if wind is not None and wind.mean_m_per_s is not None:
        blew = f"{shown(wind.mean_m_per_s, 'm_per_s', units)}, {wind.band}"
    return (
        plain(run.run), f"{run.catch.n_cans}", rate, du, f"{measured.du_lh:.2f}",
        f"{measured.cu:.2f}", blew,
    )  # fmt: skip


def _facts(told: Told) -> Iterator[tuple[str, str]]:
    first, summed = told.runs[0], told.test.together
    if first.ranges is not None:
        level = f"{first.ranges.du_lq.level:.0%}"
        yield (
            "In brackets",
            f"range for this cell in this run, right {level} of the time",
        )
    if summed is not None and summed.n_runs > 1:
        du = f"DU {summed.measured.du_lq:.2f}, CU {summed.measured.cu:.2f}"
        if summed.du_lq is not None:
            du += f" ({summed.du_lq.low:.2f}–{summed.du_lq.high:.2f})"
        said = f"{du}; one run alone {summed.one_run_du_lq:.2f}"
        yield f"{counted(summed.n_runs, 'run')} together", said
    if summed is not None and summed.nights is not None:
        yield "Another night", another_night_words(summed.nights, summed.n_days)
    for one in told.others[:OTHERS]:
        du = f"DU {shown(one.du_lq, '', told.units)}"
        said = f"{plain(one.condition)}, {rests_on(one)}: {du}"
        yield f"Test {date_text(one.date)}", said
    was = told.test.before
    if was is not None:
        change = f"DU {was.du_lq:.2f} {plain(was.condition)} ({date_text(was.date)})"
        said = f"{change}: changed by {signed(was.change)}"
        yield "Before", f"{said}, {was.note}" if was.note else said


def scale_picture(told: Told) -> Picture:
    """Where the DU lies on the scale of the trade."""
    test, summed = told.test, told.test.together
    assert test.du_lq is not None, "the caller has looked"
    found = summed.du_lq if summed and len(told.runs) > 1 else None
    if found is None and len(told.runs) == 1 and told.runs[0].ranges is not None:
        found = told.runs[0].ranges.du_lq
    ends = (found.low, found.high) if found else None
    return rating_scale(
        "DU low quarter on the scale of the trade", test.du_lq, ends, BANDS
    )


def boxes_picture(told: Told) -> Picture:
    """Box of the catches of each run: depths, or readings where no mouth is known."""
    is_relative = any(run.catch.is_relative for run in told.runs)
    unit, to, digits = READ_IN[told.runs[0].catch.run.unit], "mm", 1
    if is_relative:
        unit += " as read, for the mouth is not known"
    else:
        unit, to = unit_label("mm", told.units), face_suffix("mm", told.units)
        digits = 3 if to == "in" else 1
    made = []
    for run in told.runs:
        found = five_numbers(run.catch.depth_mm)
        five = (
            found.low, found.quarter, found.middle, found.three_quarters, found.high,
            found.mean, found.driest_quarter_mean,
        )  # fmt: skip
        sizes = (converted(one, "mm", to=to) for one in five)
        made.append(RunBox(plain(run.run), *sizes))
    return run_boxes("Catches of each run", made, unit, lambda one: f"{one:.{digits}f}")


def wind_picture(told: Told) -> Picture | None:
    """DU against wind of all runs of the package, where a line can be drawn."""
    package, line, units = told.package, told.line, told.units
    if package is None or line is None:
        return None
    runs, usual, to = package.runs, told.usual_wind_m_per_s, _wind_unit(units)
    sure = (
        f"the range holds the line {line.level:.0%} of the time"
        if line.low is not None
        else "too few days to give the line a range"
    )
    says = (
        f"{counted(int(runs.du_lq.size), 'run')} on {counted(runs.n_days, 'day')}, "
        f"{plain(package.condition)}; {sure}."
    )
    return du_against_wind(
        f"DU against wind, all runs of {plain(package.name or package.package)}",
        WindPicture(
            names=tuple(plain(one) for one in runs.label),
            wind=_speeds(runs.wind_m_per_s.tolist(), to),
            du=tuple(runs.du_lq.tolist()),
            line_wind=_speeds(line.wind_m_per_s.tolist(), to),
            line_du=tuple(line.du_lq.tolist()),
            low=tuple(line.low.tolist()) if line.low is not None else (),
            high=tuple(line.high.tolist()) if line.high is not None else (),
            usual=None if usual is None else converted(usual, "m_per_s", to=to),
            unit=unit_label("m_per_s", units),
            says=says,
        ),
    )


def _wind_unit(units: System) -> str:
    return face_suffix("m_per_s", units)


def _speeds(speeds_m_per_s: list[float], to: str) -> tuple[float, ...]:
    return tuple(converted(one, "m_per_s", to=to) for one in speeds_m_per_s)


# --- 3 map -------------------------------------------------------------------


def map_leaves(told: Told) -> list[tuple[Section, ...]]:
    """Sections 3 and 4, as many maps a leaf as have room."""
    quarters = quarters_section(told)
    if not told.runs:
        words = Words("No readings were kept, so there is no map.")
        return [(Section("Map", (words,), "3"), quarters)]
    leaves: list[list[Block]] = [[]]
    left = ROOM
    for run in told.runs:
        picture = map_picture(run, told)
        if _high(picture) > left and leaves[-1]:
            leaves.append([])
            left = ROOM
        leaves[-1].append(picture)
        left -= _high(picture)
    titles = ["Map", *["Map, continued"] * (len(leaves) - 1)]
    made: list[tuple[Section, ...]] = [
        (Section(title, tuple(blocks), "3"),)
        for title, blocks in zip(titles, leaves, strict=True)
    ]
    if sum(map(_high, quarters.blocks)) <= left:
        return [*made[:-1], (*made[-1], quarters)]
    return [*made, (quarters,)]


def _high(block: Block) -> float:
    """About how high a picture with its words, or a line of words, prints."""
    return WORDS_HIGH + (block.high if isinstance(block, Picture) else 0.0)


def wind_sections(told: Told) -> list[Section]:
    """What wind does to this package, where its runs can tell."""
    picture = wind_picture(told)
    return [] if picture is None else [Section("Wind", (picture,))]


def map_picture(run: RunEvaluation, told: Told) -> Picture:
    """One run: what was read, driest and wettest quarter, heads, north, wind."""
    caught, layout = run.catch.run, told.read.layout
    dry, wet = set(run.driest), set(run.wettest)
    out = {(one.row, one.column) for one in caught.excluded}

    def can(i: int, j: int) -> Can:
        mark = caught.code[i][j]
        look: Look = "none" if mark else ""
        if (i, j) in out:
            look = "out"
        elif (i, j) in dry:
            look = "driest"
        elif (i, j) in wet:
            look = "wettest"
        return Can(mark or f"{caught.reading[i, j]:g}", look)

    n_rows, n_columns = caught.reading.shape
    named = named_cans(caught.label, "")
    bearing = layout.row_bearing_deg
    used = sorted({mark for row in caught.code for mark in row if mark})
    return can_map(
        f"Cans of {plain(run.run)}",
        CanMapLook(
            cans=tuple(
                tuple(can(i, j) for j in range(n_columns)) for i in range(n_rows)
            ),
            row_names=named.row_ids,
            column_names=named.column_ids,
            unit=READ_IN[caught.unit],
            heads=head_places(layout, (n_rows, n_columns)),
            # rows run to the right, so what is up lies a quarter turn before them
            up_deg=None if bearing is None else (bearing - 90.0) % 360.0,
            wind_from_deg=run.wind.direction_deg if run.wind else None,
            wind=f"wind {wind_text(run.wind, told.units)}" if run.wind else "",
            notes=tuple(f"{mark} {CODES[mark]}" for mark in used),
        ),
    )


# --- 4 what each quarter gets ------------------------------------------------


def quarters_section(told: Told) -> Section:
    """What each quarter of the ground gets under each rule."""
    if not told.plan.rules:
        words = Words(
            "No run time is planned for this zone, so no quarter can be told."
        )
        return Section("What each quarter gets", (words,), "4")
    rules = [
        RuleBars(
            one.rule, f"x {one.factor:.2f}", one.quarters, one.rule == told.plan.rule
        )
        for one in told.plan.rules
    ]
    picture = what_each_quarter_gets("What each quarter gets under each rule", rules)
    return Section("What each quarter gets", (picture,), "4")
