"""A draft and its worked-up run in; what the page of a test shows out."""

import re
from typing import TYPE_CHECKING

from textual.content import Content

from scheduler.errors import Finding
from scheduler.units import System, shown, unit_label
from tui.draft import Draft
from tui.screens.pictures import DRY, OUT, WORDS
from tui.screens.wording import GLYPH, day_text
from tui.setup_text import quantity_text
from tui.widgets.can_grid import Can, Sheet

if TYPE_CHECKING:
    from scheduler.field.evaluation import RunEvaluation, TestEvaluation

Part = str | tuple[str, str]
Named = tuple[str, str]
ODD, MUTED = "?", "$foreground 60%"
NEEDED = "type 4 readings for the first result"
HINT = "reading or - none, then enter; k knocked, l leaf, o overflow: no enter"
# What a finding says of files, said of the form behind a key of this page.
HERE = (
    (
        re.compile(r"write the (start|minutes) of the run in test\.toml"),
        r"press e and write the \1",
    ),
    (re.compile(r"give the minutes that.*"), "press e and write the minutes"),
    (
        re.compile(r"(measure the inside .* mouth) and enter mouth_in"),
        r"\1, press e and write it",
    ),
)
ENOUGH, NAME_WIDTH = 4, 10


def setup_line(draft: Draft) -> str:
    """What is said once about the run, in one line."""
    setup = draft.setup
    minutes = "" if setup.minutes is None else f"{setup.minutes:g} min"
    parts = [
        f"{day_text(setup.date)} {setup.date.year}",
        f"{setup.start:%H:%M}" if setup.start else "",
        setup.condition,
        f"mouth {quantity_text(setup.mouth)}" if setup.mouth else "mouth not given",
        unit_label(setup.unit, "metric"),
        minutes or "minutes not given",
        f"wind {quantity_text(setup.wind)}" if setup.wind else "",
    ]
    return "  ".join(one for one in parts if one)


def can_sheet(
    draft: Draft, run: "RunEvaluation | None", odd: set[str], typing: str | None
) -> Sheet:
    """The cans as they stand in the grid, with what is being typed."""
    labels = draft.setup.labels
    out = {one[:2] for one in draft.now.excluded}
    dry = set(run.driest) if run is not None else set()
    rows = []
    for i, texts in enumerate(draft.now.cells):
        row = []
        for j, text in enumerate(texts):
            mark = OUT if (i, j) in out else DRY if (i, j) in dry else " "
            mark = ODD if labels[i][j] in odd else mark
            row.append(Can(_printed(text), _size(run, i, j, mark), mark))
        rows.append(tuple(row))
    if typing is not None:
        i, j = draft.at
        rows[i] = (*rows[i][:j], Can(typing), *rows[i][j + 1 :])
    columns, heads = _heads(draft)
    return Sheet(
        columns,
        heads,
        tuple(rows),
        draft.at,
        is_typing=typing is not None,
        legend=_legend(draft, dry, odd),
    )


def _printed(text: str) -> str:
    return "–" if text == "-" else text.casefold() if text.casefold() in "klo" else text


def _size(run: "RunEvaluation | None", i: int, j: int, mark: str) -> float | None:
    if run is None or mark == OUT:
        return None
    size = float(run.depth_map_mm[i][j])
    return size if size == size else None  # NaN where nothing was read


def _heads(draft: Draft) -> tuple[tuple[str, ...], tuple[str, ...]]:
    labels = draft.setup.labels
    columns = tuple(one.rstrip("0123456789") for one in labels[0])
    rows = tuple(row[0][len(columns[0]) :] for row in labels)
    if not all(columns) or not all(rows):
        columns = tuple(str(j + 1) for j in range(len(labels[0])))
        rows = tuple(str(i + 1) for i in range(len(labels)))
    if not draft.is_snake:
        return columns, rows
    return columns, tuple(
        f"{one} {'←' if i % 2 else '→'}" for i, one in enumerate(rows)
    )


def _legend(draft: Draft, dry: object, odd: set[str]) -> str:
    used = {text.casefold() for row in draft.now.cells for text in row}
    parts = [f"{DRY} driest quarter"] if dry else []
    parts += [
        f"{'–' if one == '-' else one} {WORDS[one]}" for one in WORDS if one in used
    ]
    if draft.now.excluded:
        parts.append(f"{OUT} left out")
    if odd:
        parts.append(f"{ODD} look again")
    return "  ".join(parts)


# --- the result --------------------------------------------------------------


def result(
    draft: Draft, test: "TestEvaluation", units: System, *, roomy: bool
) -> Content:
    """Counts, rate and uniformity of the run so far, each with its name."""
    run = test.runs[0] if test.runs else None
    parts: list[Part] = _counts(draft, run)
    if run is None:
        if _n_typed(draft) < ENOUGH:
            parts.append(("\n" + NEEDED, MUTED))
        return Content.assemble(*parts)
    lines = [
        _water(run, units),
        _evenness(run, units),
        _both(draft, run, units),
        [(f"{DRY} driest", " ".join(draft.setup.labels[i][j] for i, j in run.driest))],
        _wind(run, units),
    ]
    for line in lines:
        for k, (name, value) in enumerate(line):
            gap = "\n" if roomy or k == 0 else "   "
            shown_name = name.ljust(NAME_WIDTH) if roomy else f"{name} "
            parts += [gap, (shown_name, MUTED), (value, "bold" if name == "DU" else "")]
    return Content.assemble(*parts)


def _n_typed(draft: Draft) -> int:
    cells = [text for row in draft.now.cells for text in row]
    return sum(bool(text) and text.casefold() not in WORDS for text in cells)


def _counts(draft: Draft, run: "RunEvaluation | None") -> list[Part]:
    places = sum(bool(name) for row in draft.setup.labels for name in row)
    n = run.catch.n_cans if run is not None else _n_typed(draft)
    cells = [text.casefold() for row in draft.now.cells for text in row]
    parts: list[Part] = [(f"{n} of {places} cans", "bold")]
    for code, word in WORDS.items():
        if number := cells.count(code):
            parts.append(f"   {number} {word}")
    if draft.now.excluded:
        parts.append(f"   {len(draft.now.excluded)} left out")
    if draft.n_blank:
        parts.append((f"   {draft.n_blank} blank, not zero", MUTED))
    return parts


def _water(run: "RunEvaluation", units: System) -> list[Named]:
    caught = run.catch
    mean = []
    if caught.mean_ml is not None:
        mean.append(shown(caught.mean_ml, "ml", units, digits=1))
    if caught.mean_depth_mm is not None:
        mean.append(shown(caught.mean_depth_mm, "mm", units))
    pairs = [("mean", ", ".join(mean))]
    if caught.net_rate_mm_per_h is None:
        return [*pairs, ("net", "needs mouth and minutes")]
    pairs.append(("net", shown(caught.net_rate_mm_per_h, "mm_per_h", units)))
    if caught.gross_rate_mm_per_h is None or caught.net_over_gross is None:
        return [*pairs, ("gross", "not known")]
    gross = shown(caught.gross_rate_mm_per_h, "mm_per_h", units)
    share = f"{caught.net_over_gross:.0%}".replace("%", " %")
    return [*pairs, ("gross", gross), ("caught", share)]


def _evenness(run: "RunEvaluation", units: System) -> list[Named]:
    du, half, cu = (
        shown(one, "", units)
        for one in (run.uniformity.du_lq, run.uniformity.du_lh, run.uniformity.cu)
    )
    span = "…"
    if run.ranges is not None:
        low, high = run.ranges.du_lq.low, run.ranges.du_lq.high
        span = f"{shown(low, '', units)}–{shown(high, '', units)}"
    return [("DU", f"{du} ({span}, these cans)"), ("low half", half), ("CU", cu)]


def _both(draft: Draft, run: "RunEvaluation", units: System) -> list[Named]:
    """Both results where cans are left out, each with the reason beside it."""
    if run.as_kept is None:
        return []
    names = ", ".join(
        f"{draft.setup.labels[i][j]} ({why})" for i, j, why in draft.now.excluded
    )
    kept, without = (
        shown(one, "", units) for one in (run.as_kept.du_lq, run.uniformity.du_lq)
    )
    return [("both", f"DU {kept} with all, {without} without {names}")]


def _wind(run: "RunEvaluation", units: System) -> list[Named]:
    wind = run.wind
    if wind is None or wind.mean_m_per_s is None:
        return []
    source = f"log {wind.log}".strip() if wind.source == "log" else "as typed"
    speed = shown(wind.mean_m_per_s, "m_per_s", units)
    return [("wind", f"{speed}, {wind.band} ({source})")]


def findings_of(draft: Draft, test: "TestEvaluation") -> list[Finding]:
    """What must be said now: notes on blank places wait until all are typed."""
    order = {"stop": 0, "warning": 1, "note": 2}
    found = [one for one in test.findings if one.level != "note" or not draft.n_blank]
    if _n_typed(draft) < ENOUGH:
        found = []
    return sorted(found, key=lambda one: order[one.level])


def said(one: Finding) -> Content:
    """A finding: its level with a glyph, what is wrong, what to do."""
    colour = {"stop": "$text-error", "warning": "$text-warning"}.get(one.level, "")
    where = one.where.rpartition(": ")[2]
    place = f"{where}: " if where.startswith("can ") else ""
    return Content.assemble(
        (f"{GLYPH[one.level]} {one.level} ", f"bold {colour}".strip()),
        f"{place}{one.what}. → {_here(one.fix)}",
    )


def _here(fix: str) -> str:
    for words, instead in HERE:
        fix = words.sub(instead, fix)
    return fix


def remark_line(one: Finding) -> Content:
    """One line about the can that was just typed."""
    colour = "$text-error" if one.level == "stop" else "$text-warning"
    return Content.assemble(
        (f"{GLYPH[one.level]} {one.where}: ", f"bold {colour}"),
        f"{one.what}; {one.fix}",
    )
