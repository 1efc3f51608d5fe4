"""What the map of a test says in; text and plain dictionaries out; no arithmetic."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import fill
from typing import TYPE_CHECKING, Any

from scheduler.field.causes import CAVEAT
from scheduler.said import date_text, signed

if TYPE_CHECKING:
    from scheduler.field.before_after import Before
    from scheduler.field.causes import Cause
    from scheduler.field.edges import EdgeSplit
    from scheduler.field.evaluation import TestEvaluation
    from scheduler.field.persistence import Persistence

WIDTH = 80
# Of what was looked for and not found, the nearest are named.
NAMED = 3


def shape_text(test: TestEvaluation) -> str:
    """Before and after, what lasts, likely causes, edge and interior; or empty."""
    parts = list(_before_text(test))
    shape = test.shape
    if shape is not None:
        if shape.persistence is not None:
            parts.append(persistence_text(shape.persistence))
        if shape.causes:
            parts.append(causes_text(shape.causes, shape.locked))
        if shape.edges is not None:
            parts.append(edges_text(shape.edges))
    return "\n\n".join(parts)


def _before_text(test: TestEvaluation) -> Iterator[str]:
    was, now = test.before, test.du_lq
    if was is None or now is None:
        return
    text = (
        f"DU {was.du_lq:.2f} {was.condition} ({date_text(was.date)}) → {now:.2f} "
        f"{test.condition} ({date_text(test.date)}): {signed(was.change)}"
    )
    yield fill(f"{text}, {was.note}" if was.note else text, WIDTH)


def persistence_text(found: Persistence) -> str:
    """Map of how often each place was in the driest quarter, and how surely."""
    n_runs = len(found.runs)
    head = f"in how many of {n_runs} runs each place was in the driest quarter"
    days = "1 day" if found.n_days == 1 else f"{found.n_days} days"
    is_one = found.n_always == 1
    places = "1 place was" if is_one else f"{found.n_always} places were"
    verdict = (
        "the dry places last" if found.is_beyond_chance else "not more than chance"
    )
    said = (
        f"{places} dry in every run; chance alone gives "
        f"{found.n_always_by_chance:.1f}. Maps of {n_runs} runs on {days} agree with "
        f"correlation {found.agreement:.2f}, p {found.p:.3f}: {verdict}"
    )
    rows = [" ".join(_mark(one) for one in row) for row in found.times_driest.tolist()]
    return "\n".join([head, *rows, fill(said, WIDTH)])


def _mark(times: float) -> str:
    """One place: how often it was dry, a point for never, a blank without reading."""
    if times != times:
        return " "
    return "·" if not times else f"{times:.0f}" if times <= 9 else "+"


def causes_text(causes: Iterable[Cause], locked: Iterable[str]) -> str:
    """Likely causes with their evidence and checks, cheapest first."""
    listed = list(causes)
    sure = [one for one in listed if one.is_beyond_chance]
    lines = ["likely causes, from the shape of the map"]
    shown = sure or [one for one in listed if one.kind == "no shape"]
    for number, one in enumerate(shown, 1):
        name = f"{one.kind}, {one.where}" if one.where else one.kind
        share = f"; {one.share_explained:.0%} of the spread, p {one.p:.3f}"
        text = f"{number} {name}: {one.evidence}{share if one in sure else ''}"
        lines.append(fill(text, WIDTH, subsequent_indent="  "))
        lines += [
            fill(f"  check: {one_check}", WIDTH, subsequent_indent="    ")
            for one_check in one.checks
        ]
    rest = [one for one in listed if one not in shown][:NAMED]
    if sure and rest:
        named = "; ".join(
            f"{one.kind}{' ' + one.where if one.where else ''} (p {one.p:.2f})"
            for one in rest
        )
        text = f"nothing beyond chance beside that; each alone: {named}"
        lines.append(fill(text, WIDTH, subsequent_indent="  "))
    if sure:
        lines.append(fill(f"p: {CAVEAT}", WIDTH, subsequent_indent="  "))
    wanted = list(locked)
    if wanted:
        text = f"not looked for: {'; '.join(wanted)}"
        lines.append(fill(text, WIDTH, subsequent_indent="  "))
    return "\n".join(lines)


def edges_text(split: EdgeSplit) -> str:
    """Edge and interior apart."""
    lines = []
    for name, count, mean, measured in (
        ("edge", split.n_edge, split.edge_relative, split.edge),
        ("interior", split.n_interior, split.interior_relative, split.interior),
    ):
        measures = (
            f"DU {measured.du_lq:.2f}, CU {measured.cu:.2f}"
            if measured
            else "too few cans for a DU"
        )
        lines.append(f"{name:<9} {count} cans, {mean:.2f} of the mean, {measures}")
    verdict = "watered differently" if split.differs else "not shown to differ"
    lines.append(f"edge over interior {split.ratio:.2f}, p {split.p:.3f}: {verdict}")
    return "\n".join(lines)


def shape_json(test: TestEvaluation) -> dict[str, Any]:
    """Keys of a test: `before persistence causes causes_locked edge interior`."""
    shape = test.shape
    split = shape.edges if shape else None
    return {
        "before": _before_json(test.before),
        "persistence": _persistence_json(shape.persistence if shape else None),
        "causes": [_cause_json(one) for one in shape.causes] if shape else [],
        "causes_locked": list(shape.locked) if shape else [],
        "edge": _part_json(split, "edge") if split else None,
        "interior": _part_json(split, "interior") if split else None,
    }


def _before_json(was: Before | None) -> dict[str, Any] | None:
    if was is None:
        return None
    return {
        "test": was.test,
        "condition": was.condition,
        "date": was.date.isoformat(),
        "du_lq": was.du_lq,
        "change": was.change,
        "note": was.note,
    }


def _persistence_json(found: Persistence | None) -> dict[str, Any] | None:
    if found is None:
        return None
    return {
        "runs": list(found.runs),
        "n_days": found.n_days,
        "times_driest": _rows(found.times_driest.tolist()),
        "share_driest": _rows(found.share_driest.tolist()),
        "mean_relative": _rows(found.mean_relative.tolist()),
        "p_driest": _rows(found.p_driest.tolist()),
        "n_always": found.n_always,
        "n_always_by_chance": found.n_always_by_chance,
        "agreement": found.agreement,
        "p": found.p,
        "is_beyond_chance": found.is_beyond_chance,
    }


def _rows(rows: list[list[float]]) -> list[list[float | None]]:
    """Numbers that JSON can hold: null without a reading."""
    return [[None if one != one else one for one in row] for row in rows]


def _cause_json(one: Cause) -> dict[str, Any]:
    return {
        "kind": one.kind,
        "where": one.where,
        "share_explained": one.share_explained,
        "p": one.p,
        "is_beyond_chance": one.is_beyond_chance,
        "evidence": one.evidence,
        "checks": list(one.checks),
    }


def _part_json(split: EdgeSplit, part: str) -> dict[str, Any]:
    is_edge = part == "edge"
    measured = split.edge if is_edge else split.interior
    return {
        "n_cans": split.n_edge if is_edge else split.n_interior,
        "relative_mean": split.edge_relative if is_edge else split.interior_relative,
        "du_lq": measured.du_lq if measured else None,
        "cu": measured.cu if measured else None,
        "edge_over_interior": split.ratio,
        "p": split.p,
        "differs": split.differs,
    }
