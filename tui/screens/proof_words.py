"""One zone's proof in; what is due, learned, in conflict and off, as text, out."""

from typing import TYPE_CHECKING

from textual.content import Content

from tui.screens import wording
from tui.screens.proof_pictures import check_asks, off_text, short_day

if TYPE_CHECKING:
    from scheduler.proof.due import Due
    from scheduler.proof.zone_proof import ZoneProof
    from scheduler.trace import Trace

Part = Content | str | tuple[str, str]
MOST_CAUSES = 3


def due_line(due: "tuple[Due, ...]", *, roomy: bool = True) -> str:
    """How many things are due, by kind where there is room; empty where none is."""
    if due and not roomy:
        return f"{len(due)} due (l)"
    names = {
        "test": ("test", "tests"),
        "leaching check": ("leaching check", "leaching checks"),
        "meter reading": ("meter reading", "meter readings"),
    }
    counted = []
    for kind, (one, many) in names.items():
        n = sum(each.kind == kind for each in due)
        if n:
            counted.append(f"{n} {one if n == 1 else many}")
    return f"due: {', '.join(counted)}" if counted else ""


def learned_line(found: "ZoneProof") -> str:
    """What was learned, and whether it is used, waits, or why not."""
    from scheduler.proof.learned_words import evidence_text  # brings numpy

    learnt = found.learnt
    if learnt is None or not learnt.minutes.used:
        held = learnt is not None and learnt.minutes.held
        return (
            "Nothing is used yet: what was seen stands against all else and waits for "
            "a second look."
            if held
            else "Nothing was learned: the log holds no look at its use that counts."
        )
    one = learnt.minutes
    told = (
        f"Use over rate × {one.factor:.2f} ({one.low:.2f} to {one.high:.2f}, 90 % "
        f"sure), from {evidence_text(one.used)}"
    )
    if learnt.why_not:
        return f"{told}. It waits: {learnt.why_not}."
    if learnt.factor != one.factor:
        return (
            f"{told}. The week uses × {learnt.factor:.2f}: the driest pot allows no "
            "deeper cut."
        )
    return f"{told}. The week uses it."


def whole_trace(traces: "tuple[Trace, ...]") -> "Trace":
    """Several chains as one, each with its own numbers."""
    from scheduler.trace import Trace

    how = "newest check, what was learned, newest readings"
    return Trace("proof", None, how, "definition", traces)


def said(found: "ZoneProof") -> Content:
    """Everything that is words, under its headings."""
    parts: list[Part] = []
    _head(parts, "due")
    if not found.due:
        parts.append("nothing\n")
    for one in found.due:
        parts.append(_line(one.finding.level, f"{one.kind}: {one.finding.what}"))
        parts.append(_fix(one.finding.fix))
    _head(parts, "learned")
    parts.append(f"{learned_line(found)}\n")
    if found.checks:
        newest = found.checks[-1]
        parts.append(f"Check of {short_day(newest.check.date)}: {check_asks(newest)}\n")
    # what was learned is said above; these are about lines of the log
    about = found.learnt.findings if found.learnt else ()
    for finding in about:
        if finding.where.startswith("log.csv"):
            parts.append(_line(finding.level, f"{finding.where}: {finding.what}"))
            parts.append(_fix(finding.fix))
    _conflict(parts, found)
    _meter(parts, found)
    return Content.assemble(*parts)


def _conflict(parts: list[Part], found: "ZoneProof") -> None:
    if found.conflict is None:
        return
    _head(parts, "ET against the check")
    what, _, _ = found.conflict.what.partition(". Likely causes")
    parts.append(_line(found.conflict.level, what))
    for i, one in enumerate(found.causes[:MOST_CAUSES], 1):
        parts.append(f"{i}. {one.what}\n")
        parts.append(_fix(one.fix))


def _meter(parts: list[Part], found: "ZoneProof") -> None:
    """The last interval, its causes where it is off, and what it cannot tell."""
    if not found.intervals:
        return
    _head(parts, "meter against plan")
    last = found.intervals[-1]
    level = "warning" if last.is_off else "note"
    days = f"{short_day(last.dial.start.date)} to {short_day(last.dial.stop.date)}"
    text = f"{last.dial.meter}, {days}: {off_text(last)}"
    if last.is_off and last.is_within_flows:
        text += ", within what flows may be off"
    parts.append(_line(level, text))
    for i, cause in enumerate(last.causes[:MOST_CAUSES], 1):
        parts.append(f"{i}. {cause.name}: {cause.arithmetic}\n")
        parts.append(_fix(cause.check))
    parts.append(f"{_taught_by_meter(found)}\n")


def _taught_by_meter(found: "ZoneProof") -> str:
    """Whether the meter teaches the rate of this zone, and why not."""
    if not found.is_watched_alone:
        return "It serves other zones as well, so it teaches nothing of this one."
    used = found.learnt.minutes.used if found.learnt else ()
    if any(one.kind == "meter" for one in used):
        return "It serves this zone alone, and its rate is learned from it."
    return (
        "It serves this zone alone: with buckets in a test, minutes that are known and "
        "less than 10 % off, its rate is learned from it."
    )


def _head(parts: list[Part], text: str) -> None:
    parts.append((f"{chr(10) if parts else ''}{text}\n", "bold $foreground 60%"))


def _line(level: str, text: str) -> Content:
    colour = {"stop": "$text-error", "warning": "$text-warning"}.get(level, "")
    glyph = {"stop": wording.GLYPH["stop"], "warning": wording.GLYPH["warning"]}.get(
        level, wording.GLYPH["note"]
    )
    return Content.assemble((f"{glyph} ", f"bold {colour}".strip()), f"{text}\n")


def _fix(text: str) -> Content:
    return Content.assemble((f"  → {text}\n", "$foreground 60%"))
