"""A zone's week and test in, what the four pictures draw out."""

from dataclasses import replace
from typing import TYPE_CHECKING

from scheduler import said
from scheduler.units import System, shown, unit_label
from tui.screens.wording import QUARTERS, day_text, trace_value
from tui.widgets.charts import CanCell, CanGrid, CycleLine, DayBars
from tui.widgets.ghost import BAR_LEGEND, BLOCK
from tui.widgets.rule_bars import RuleColumn

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation
    from scheduler.plan import ZonePlan
    from scheduler.watering.run_time import RuleOutcome

DRY, OUT = "▾", "×"
RULE_ROWS = ("factor", "minutes", *QUARTERS, "over need", "too dry")
WORDS = {"-": "no reading", "k": "knocked", "l": "leaf", "o": "overflow"}


def can_grid(
    run: "RunEvaluation", units: System, *, about: tuple[str, str] = ("", "")
) -> CanGrid:
    """The readings as the cans stood, with marks for dry, left out and coded places."""
    caught = run.catch.run
    dry = set(run.driest)
    out = {(one.row, one.column) for one in caught.excluded}
    cells = []
    for i, codes in enumerate(caught.code):
        row = []
        for j, code in enumerate(codes):
            value = float(caught.reading[i][j])
            if code or value != value:  # NaN where nothing was read
                row.append(CanCell(None, code if code != "-" else "–"))
                continue
            mark = OUT if (i, j) in out else DRY if (i, j) in dry else " "
            text = shown(value, caught.unit, units, with_unit=False)
            row.append(CanCell(None if mark == OUT else value, text, mark))
        cells.append(tuple(row))
    columns, rows = _heads(caught.label)
    return CanGrid(
        columns,
        rows,
        tuple(cells),
        (*_legend(run, out, units, about[0]), about[1]),
        unit=unit_label(caught.unit, units),
    )


def _heads(
    label: tuple[tuple[str, ...], ...],
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Letters of the columns and numbers of the rows, else their places."""
    if not label or not label[0]:
        return (), ()
    columns = tuple(one.rstrip("0123456789") for one in label[0])
    rows = tuple(row[0][len(columns[0]) :] for row in label)
    square = all(
        one == columns[j] + rows[i]
        for i, row in enumerate(label)
        for j, one in enumerate(row)
    )
    if square and all(columns) and all(rows):
        return columns, rows
    return tuple(str(j + 1) for j in range(len(columns))), tuple(
        str(i + 1) for i in range(len(label))
    )


def _legend(
    run: "RunEvaluation", out: set[tuple[int, int]], units: System, when: str
) -> tuple[str, ...]:
    used = sorted({code for row in run.catch.run.code for code in row if code})
    parts = [f"{DRY} driest quarter"]
    if out:
        kept = run.as_kept
        du = "" if kept is None else f", DU {shown(kept.du_lq, '', units)} if kept"
        parts.append(f"{OUT} left out{du}")
    # last: where the line is cut, the marks of cans without a reading are cut first
    parts += [f"{'–' if code == '-' else code} {WORDS[code]}" for code in used]
    return "  ".join([*parts, when]).rstrip(), _caught(run, units)


def _caught(run: "RunEvaluation", units: System) -> str:
    """What the cans caught, as volume, depth and rate."""
    caught = run.catch
    net = shown(caught.net_rate_mm_per_h, "mm_per_h", units)
    depth = shown(caught.mean_depth_mm, "mm", units)
    share = caught.net_over_gross
    of_gross = "" if share is None else f", {share:.0%} of gross"
    return f"mean {shown(caught.mean_ml, 'ml', units)}, {depth}  net {net}{of_gross}"


def can_title(run: "RunEvaluation", units: System, n_runs: int) -> str:
    """Heading of the can map: unit, run, count, and how even it was."""
    unit = unit_label(run.catch.run.unit, units)
    which = f" in {run.run}" if n_runs > 1 else ""
    du, half, cu = (
        shown(one, "", units)
        for one in (run.uniformity.du_lq, run.uniformity.du_lh, run.uniformity.cu)
    )
    return f"{run.catch.n_cans} cans{which}, {unit}: DU {du}, low half {half}, CU {cu}"


def rule_columns(
    plan: "ZonePlan", units: System, before: "ZonePlan | None" = None
) -> tuple[RuleColumn, ...]:
    """The rules side by side with what each quarter of the zone gets, and got."""
    old = {one.rule: one for one in before.rules} if before is not None else {}
    columns = []
    for i, outcome in enumerate(plan.rules, 1):
        column = _rule_column(str(i), outcome, outcome.rule == plan.rule, units)
        if outcome.rule in old:
            was = _rule_column(str(i), old[outcome.rule], False, units)
            is_other = before is not None and before.rule != plan.rule
            was_chosen = is_other and before is not None and outcome.rule == before.rule
            column = replace(column, before=was, was_chosen=was_chosen)
        columns.append(column)
    return tuple(columns)


def _rule_column(
    key: str, outcome: "RuleOutcome", is_chosen: bool, units: System
) -> RuleColumn:
    return RuleColumn(
        key=key,
        name=outcome.rule,
        is_chosen=is_chosen,
        facts=(
            f"×{shown(outcome.factor, '', units)}",
            shown(outcome.minutes_per_day, "min", units),
        ),
        bars=outcome.quarters,
        bar_texts=tuple(f"{one:.0%}" for one in outcome.quarters),
        footing=(f"{outcome.above_need:.0%}", f"{outcome.short_share:.0%}"),
    )


def cycle_line(plan: "ZonePlan", before: "ZonePlan | None" = None) -> CycleLine | None:
    """One watering to scale, and the nights it runs on, now and before."""
    now = _cycle_line(plan)
    was = _cycle_line(before) if before is not None else None
    if now is None or was is None:
        return now
    days = tuple(
        (day, date, text if text == old else f"{_bare(old)}→{_bare(text)}")
        for (day, date, text), (_, _, old) in zip(now.days, was.days, strict=True)
    )
    facts = (f"{now.facts[0]}   {BLOCK} before: {was.facts[0]}",)
    return replace(now, days=days, facts=facts, before=was)


def _bare(text: str) -> str:
    return text.split(" ")[0] or "–"


def _cycle_line(plan: "ZonePlan") -> CycleLine | None:
    if not plan.minutes_per_day or not plan.cycles or not plan.cycle_minutes:
        return None
    soak = plan.soak_minutes or 0
    facts = [f"{plan.minutes_per_day} min in one run"]
    if plan.cycles > 1:
        facts = [f"{plan.cycles} cycles of {plan.cycle_minutes} min, {soak} min soak"]
    days = tuple(
        (
            f"{day:%a}",
            said.day_text(day),
            f"{plan.minutes_per_day} min" if day in plan.days else "",
        )
        for day in plan.dates
    )
    return CycleLine(plan.cycles, plan.cycle_minutes, soak, tuple(facts), days)


def day_bars(
    plan: "ZonePlan", units: System, before: "ZonePlan | None" = None
) -> DayBars | None:
    """Depletion at the position the rule serves, day by day, now and before."""
    now = _day_bars(plan, units)
    was = _day_bars(before, units) if before is not None else None
    if now is None or was is None:
        return now
    days = zip(was.days, was.texts, was.marks, strict=True)
    said = ", ".join(" ".join((day, text, mark)).strip() for day, text, mark in days)
    return replace(
        now,
        facts=("   ".join((*now.facts, BAR_LEGEND)),),
        before=was.values,
        before_words=f"Before: {said}; {was.line_text}.",
        line_before=None if was.line == now.line else was.line,
    )


def _day_bars(plan: "ZonePlan", units: System) -> DayBars | None:
    if not plan.served_depletion_mm or plan.allowed_mm is None:
        return None
    values = tuple(float(one) for one in plan.served_depletion_mm)
    allowed = shown(plan.allowed_mm, "mm", units)
    return DayBars(
        values=values,
        texts=tuple(shown(one, "mm", units, with_unit=False) for one in values),
        days=tuple(f"{day:%a}" for day in plan.dates),
        marks=tuple("run" if day in plan.days else "" for day in plan.dates),
        line=float(plan.allowed_mm),
        line_text=f"{allowed} allowed",
        facts=_start_fact(plan, units),
        unit=unit_label("mm", units),
    )


def _start_fact(plan: "ZonePlan", units: System) -> tuple[str, ...]:
    start = plan.trace.find("start_depletion_mm")
    if start is None:
        return ()
    return (f"starts at {trace_value(start, units)} on {day_text(plan.dates[0])}",)
