"""A zone's week in words: short texts that screens put beside each other."""

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from rich.cells import cell_len, set_cell_size

from scheduler import said
from scheduler.errors import Finding, Level
from scheduler.trace import Trace
from scheduler.units import System, shown, split_suffix, unit_label
from tui.session import Session, change_minutes, evaluation, only_run, own_zone_plan
from tui.widgets.cells import fitted

if TYPE_CHECKING:
    from scheduler.plan import WeekPlan, ZonePlan

GLYPH: dict[Level, str] = {"stop": "✖", "warning": "▲", "note": "·"}
SHORT: dict[Level, str] = {"stop": "stop", "warning": "warn", "note": "note"}
LEVELS: tuple[Level, ...] = ("stop", "warning", "note")
NAMES = {
    "du_lq": "DU low quarter",
    "du_lh": "DU low half",
    "cu": "CU",
    "etc": "plant water use (ETc)",
    "eto": "reference ET (ETo)",
    "kc": "crop coefficient (Kc)",
}
EVENNESS = ("du_lq", "du_lh", "cu")
QUARTERS = ("driest", "second", "third", "wettest")


def _per_level(findings: Iterable[Finding]) -> list[tuple[Level, int]]:
    found = [one.level for one in findings]
    return [(level, found.count(level)) for level in LEVELS if level in found]


def counted(findings: Iterable[Finding]) -> str:
    """How many of each level, in words: `1 stop, 2 warnings`."""
    parts = [
        f"{GLYPH[level]} {number} {level}{'s' if number > 1 else ''}"
        for level, number in _per_level(findings)
    ]
    return "  ".join(parts) or "nothing to report"


def flags(findings: Iterable[Finding], *, roomy: bool) -> str:
    """Glyph, count and word of the worst level; the next one's count if roomy."""
    parts = [
        f"{GLYPH[level]} {number}"
        + ("" if i else f" {SHORT[level]}{'s' if number > 1 else ''}")
        for i, (level, number) in enumerate(_per_level(findings))
    ]
    return "  ".join(parts[:2] if roomy else parts[:1])


def name_width(names: Iterable[str], at_most: int, least: int = 6) -> int:
    """Width of a column that holds the longest name, and a blank behind it."""
    return max(least, min(at_most, max(map(cell_len, names), default=0) + 1))


def name_cell(name: str, width: int) -> str:
    """A name in its column; an ellipsis where it has no room."""
    return set_cell_size(fitted(name, width - 1), width)


def number_lines(
    rows: Sequence[Sequence[str]], least: Sequence[int], room: int, goes: str = ""
) -> list[str]:
    """Rows of numbers in columns, heads first; what is long makes its column wider.

    Where they find no room, columns with one of the heads in `goes` are left out, the
    first one first.
    """
    columns = list(zip(*rows, strict=True))
    wide = [
        max(a, *(len(one) + 1 for one in c))
        for a, c in zip(least, columns, strict=True)
    ]
    kept = list(range(len(columns)))
    for head in goes.split():
        if sum(wide[i] for i in kept) > room:
            kept = [i for i in kept if rows[0][i] != head]
    return ["".join(f"{row[i]:>{wide[i]}}" for i in kept) for row in rows]


def minutes_text(plan: "ZonePlan", *, roomy: bool) -> str:
    """Minutes of one watering, or the word why there are none."""
    if plan.status == "blocked" and not roomy:
        return GLYPH["stop"]
    if plan.status in ("blocked", "off"):
        return plan.status
    return f"{plan.minutes_per_day}" if plan.minutes_per_day else "none"


def cycles_text(plan: "ZonePlan") -> str:
    """Cycles by their minutes, such as `2×14`."""
    if not plan.cycles or not plan.minutes_per_day:
        return "–"
    return f"{plan.cycles}×{plan.cycle_minutes}"


def was_text(plan: "ZonePlan", units: System) -> str:
    """Minutes that the clock holds now."""
    return shown(plan.was_minutes, "min", units, with_unit=False)


def change_text(plan: "ZonePlan", units: System) -> str:
    """Minutes more or fewer than the clock holds now, with their sign."""
    change = change_minutes(plan)
    if change is None:
        return "–"
    text = shown(abs(change), "min", units, with_unit=False)
    if text == "0":
        return "same"
    return f"+{text}" if change > 0 else f"−{text}"


def nights_text(plan: "ZonePlan") -> str:
    """How many nights of the week."""
    return f"{len(plan.days)}/{len(plan.dates)}" if plan.days else "–"


def night_letters(plan: "ZonePlan") -> str:
    """The week as seven signs: the day's letter where it waters, a dot where not."""
    return "".join(f"{day:%a}"[0] if day in plan.days else "·" for day in plan.dates)


def du_text(plan: "ZonePlan", units: System) -> str:
    """Low-quarter uniformity the week rests on, two figures."""
    return shown(plan.evidence.du_lq if plan.evidence else None, "", units)


def du_range_text(session: Session, plan: "ZonePlan") -> str:
    """Range of the uniformity of one run, or what the number rests on instead."""
    evidence = plan.evidence
    is_own = plan is own_zone_plan(session, plan.zone.id)
    if plan.zone.id in session.tried_du and not is_own:
        return "tried"
    if evidence is None:
        return "stopped" if evaluation(session, plan.zone.id) else "no test"
    if evidence.basis != "measured":
        return evidence.basis
    if evidence.n_runs > 1:
        return f"{evidence.n_runs} runs"
    run = only_run(session, plan.zone.id)
    if run is None or run.ranges is None:
        return "…"
    low = shown(run.ranges.du_lq.low, "", session.units)
    return f"{low}–{shown(run.ranges.du_lq.high, '', session.units)}"


def rate_text(plan: "ZonePlan", units: System, *, with_unit: bool = False) -> str:
    """Net precipitation rate."""
    rate = plan.evidence.net_rate_mm_per_h if plan.evidence else None
    return shown(rate, "mm_per_h", units, with_unit=with_unit)


def setting_text(plan: "ZonePlan", units: System) -> str:
    """What to set on the clock, in one sentence."""
    if plan.status == "off":
        return "Off: this zone is not watered."
    if plan.status == "blocked":
        why = next((one for one in plan.findings if one.level == "stop"), None)
        return f"Blocked: {why.what}." if why else "Blocked: no minutes can be given."
    if not plan.minutes_per_day or not plan.days:
        return "No watering is due this week."
    was = was_text(plan, units)
    change = change_text(plan, units)
    before = "" if was == "–" else f", was {was} ({change})"
    fixed = ", fixed" if plan.status == "fixed" else ""
    nights = " ".join(f"{day:%a}" for day in plan.days)
    if len(plan.days) == len(plan.dates):
        nights = "every night"
    text = f"{plan.minutes_per_day} min a watering{fixed}{before}: {nights}"
    if plan.cycles and plan.cycles > 1:
        text += f"; {plan.cycles} cycles of {plan.cycle_minutes} min"
        text += f" with {plan.soak_minutes} min soak"
    return text + "."


def figures(session: Session, plan: "ZonePlan") -> list[tuple[str, str]]:
    """The numbers between weather and minutes, as names and values."""
    units = session.units
    pairs = [
        ("ETo", shown(plan.eto_mm, "mm", units)),
        ("Kc", shown(plan.kc, "", units)),
        ("rain", shown(plan.effective_rain_mm, "mm", units)),
        ("need", shown(plan.need_mm, "mm", units)),
        ("net rate", rate_text(plan, units, with_unit=True)),
    ]
    if plan.evidence is not None:
        du = f"{du_text(plan, units)} ({du_range_text(session, plan)})"
        pairs.append(("DU", du))
    if plan.rule is not None and plan.factor is not None:
        pairs.append(("rule", f"{plan.rule} ×{shown(plan.factor, '', units)}"))
    if plan.realised_error is not None:
        pairs.append(("rounding", said.signed(plan.realised_error, ".0%")))
    return [(name, value) for name, value in pairs if value != "–"]


def range_note(session: Session, plan: "ZonePlan") -> str:
    """Which question the range answers, and how surely; at most half a wide page."""
    run = only_run(session, plan.zone.id)
    if run is not None and run.ranges is not None:
        said = f"range: this cell in this run, {run.ranges.du_lq.level:.0%}"
        # other tests may feed the week too; then this run is not all there is
        alone = plan.evidence is None or plan.evidence.n_runs < 2
        return f"{said}; another night is not known" if alone else said
    test = evaluation(session, plan.zone.id)
    nights = test.together.nights if test is not None and test.together else None
    found = nights.as_many_nights if nights is not None else None
    if nights is None or found is None:
        return ""
    low, high = (shown(end, "", session.units) for end in (found.low, found.high))
    return f"{nights.n_runs} other nights together: {low}–{high}, {found.level:.0%}"


def day_text(day: dt.date) -> str:
    """Day of a month without a leading zero: `Mon 8 Jun`."""
    return said.day_text(day, "%a %d %b")


def week_text(plan: "WeekPlan", *, roomy: bool = True) -> str:
    """First and last night of the week, and today."""
    days = plan.zones[0].dates if plan.zones else (plan.start,)
    pinned = " (pinned)" if plan.site.pinned_today is not None else ""
    nights = f"{day_text(days[0])} – {day_text(days[-1])}"
    if not roomy:
        return f"{nights}, today {said.day_text(plan.today)}{pinned}"
    return f"nights of {nights} {days[-1].year}, today {day_text(plan.today)}{pinned}"


def trace_value(trace: Trace, units: System, *, in_chain: bool = True) -> str:
    """One number of the chain with its unit, as a face shows it.

    A uniformity has two digits as everywhere; inside the chain it has three, so that
    what is worked out from it adds up.
    """
    if isinstance(trace.value, str):
        return trace.value
    stem, suffix = split_suffix(trace.name.partition("[")[0])
    if not suffix and "minutes" in stem.split("_"):
        suffix = "min"
    if suffix in ("min", ""):  # the chain shows what rounding starts from
        whole = trace.value is not None and float(trace.value).is_integer()
        is_counted = isinstance(trace.value, int) or (whole and suffix)
        is_rounded = not in_chain and stem in EVENNESS
        digits = 0 if is_counted else 1 if suffix else 2 if is_rounded else 3
        number = shown(trace.value, suffix, units, with_unit=False, digits=digits)
        return f"{number} {unit_label(suffix, units)}".rstrip()
    return shown(trace.value, suffix, units)


def trace_name(trace: Trace) -> str:
    """Name of a number in words, without its unit."""
    name, _, place = trace.name.partition("[")
    stem = split_suffix(name)[0]
    words = NAMES.get(stem, stem.replace("_", " "))
    return f"{words}, {place.rstrip(']')}" if place else words


def short_path(where: str, room: int) -> str:
    """A place in a file, its path cut at the beginning where a line is too short.

    No line breaks inside it then: `…26-05-27-Z9/run1.csv: minutes`.
    """
    path, gap, rest = where.partition(" ")
    if "/" not in path or len(path) <= room:
        return where
    return f"…{path[1 - room :]}{gap}{rest}"


def packed(pairs: Iterable[tuple[str, str]], width: int) -> list[list[tuple[str, str]]]:
    """Names with values in lines of a width; no pair is torn apart."""
    lines: list[list[tuple[str, str]]] = [[]]
    used = 0
    for name, value in pairs:
        size = len(name) + len(value) + 4
        if lines[-1] and used + size > width + 3:
            lines.append([])
            used = 0
        lines[-1].append((name, value))
        used += size
    return lines
