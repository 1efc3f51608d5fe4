"""What each quarter gets under some rules in, columns beside the need out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.reports.charts.axis import Scale, scale
from scheduler.reports.charts.svg import (
    LIGHT,
    MIDDLE,
    SIZE,
    WIDTH,
    Drawing,
    fitted,
    text_width,
)
from scheduler.reports.paper import Column, Picture, Table

QUARTERS = ("driest", "second", "third", "wettest")
LEFT, TOP, HIGH, FOOT = 8.0, 16.0, 100.0, 82.0
GROUP_GAP = 16.0
SAYS = (
    "What the driest to the wettest quarter of the ground gets, in per cent of what "
    "plants need: below 100 it stays short, what is above 100 drains away."
)
HOW = "The broken line is the need."


@dataclass(frozen=True, slots=True)
class RuleBars:
    """One rule: its name, its factor in words, what each quarter gets over the need."""

    name: str
    factor: str
    quarters: tuple[float, ...]
    is_chosen: bool = False


def what_each_quarter_gets(title: str, rules: Sequence[RuleBars]) -> Picture:
    """Four columns a rule against the line of the need."""
    drawing = Drawing(TOP + HIGH + FOOT)
    floor = TOP + HIGH
    axis = scale(
        [1.0, *(one for rule in rules for one in rule.quarters)],
        (floor, TOP),
        from_zero=True,
    )
    drawing.line((LEFT, floor), (WIDTH - LEFT, floor))
    need = axis(1.0)
    drawing.line((LEFT, need), (WIDTH - LEFT, need), 1.2, "5 3")
    room = (WIDTH - 2 * LEFT) / max(1, len(rules))
    for i, rule in enumerate(rules):
        _group(drawing, rule, (LEFT + room * i, room), axis)
    _legend(drawing, TOP + HIGH + FOOT - 8)
    columns = (
        Column("rule", 2.4),
        Column("factor", 1.2, is_number=True),
        *(Column(one, 1, is_number=True) for one in QUARTERS),
    )
    rows = tuple(
        (
            rule.name + (" (chosen)" if rule.is_chosen else ""),
            rule.factor,
            *(f"{value:.0%}" for value in rule.quarters),
        )
        for rule in rules
    )
    table = Table(columns, rows, is_filled=True)
    return drawing.picture(title, SAYS, (table,), HOW)


def _group(
    drawing: Drawing, rule: RuleBars, place: tuple[float, float], axis: Scale
) -> None:
    """The four columns of one rule, their values above, its name and factor below."""
    left, room = place
    floor = axis.start
    wide = min(30.0, (room - GROUP_GAP) / 4)
    left += (room - 4 * wide) / 2
    for k, value in enumerate(rule.quarters):
        x, top = left + k * wide, axis(value)
        _column(drawing, k, (x, top), wide, floor)
        drawing.label((x + wide / 2, top - 4), f"{value:.0%}".removesuffix("%"))
    name, _, more = rule.name.partition(", ")
    words = (f"{name}," if more else name, more, rule.factor)
    lines = [*(word for word in words if word), *["chosen"] * rule.is_chosen]
    for i, line in enumerate(lines):
        at = (left + 2 * wide, floor + 15 + 13 * i)
        text = fitted(line, room + 4)
        drawing.text(at, text, SIZE, "middle", is_bold=rule.is_chosen and i == 0)


def _column(
    drawing: Drawing, quarter: int, top: tuple[float, float], wide: float, floor: float
) -> None:
    size = (wide - 2, floor - top[1])
    if quarter == 0:
        drawing.hatched(top, size)
    else:
        drawing.rect(top, size, ("white", "white", LIGHT, MIDDLE)[quarter])


def _legend(drawing: Drawing, y: float) -> None:
    drawing.text((LEFT, y), "quarter:", SIZE)
    x = LEFT + 52
    for k, name in enumerate(QUARTERS):
        _column(drawing, k, (x, y - 10), 22, y + 2)
        drawing.text((x + 25, y), name, SIZE)
        x += 25 + text_width(name) + 16
    drawing.line((x, y - 3), (x + 22, y - 3), 1.2, "5 3")
    drawing.text((x + 26, y), "need, 100", SIZE)
