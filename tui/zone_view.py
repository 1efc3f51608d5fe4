"""A session in; its zones as rows, filtered by typed words, in one order or another.

The grammar: words apart by spaces, all of which must hold. A word is looked for in id,
name, plant, package, valve and findings; `changed`, a level (`stop`, `warning`, `note`)
or a status (`planned`, `fixed`, `off`, `blocked`) stands for itself; `du<0.6` compares
a number in the units that are shown; `-` before a word turns it round.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from operator import eq, ge, gt, le, lt
from typing import TYPE_CHECKING

from scheduler.errors import Finding, QuantityError
from scheduler.units import System, converted, face_suffix
from tui.session import Session, change_minutes, worst_first

if TYPE_CHECKING:
    from scheduler.field.evaluation import TestEvaluation
    from scheduler.plan import ZonePlan

LEVELS = ("stop", "warning", "note")
STATUSES = ("planned", "fixed", "off", "blocked")
ORDERS = {
    "eyes": "needing eyes first",
    "file": "as in the file",
    "change": "largest change first",
    "du": "lowest DU first",
    "minutes": "most minutes first",
    "name": "by name",
}
HELP = "words, changed, stop, warning, du<0.6, min>20, -word; esc shows all"
_SIGNS = {"<": lt, ">": gt, "<=": le, ">=": ge, "=": eq}
_CONDITION = re.compile(r"([a-z]+)(<=|>=|<|>|=)(.*)")
MOST_DU = 1.5  # above it a uniformity was typed in percent
Test = Callable[["Row"], bool]


@dataclass(frozen=True, slots=True)
class Row:
    """One zone: its week, and what is wrong with it, worst first."""

    plan: "ZonePlan"
    findings: tuple[Finding, ...]

    @property
    def is_changed(self) -> bool:
        """Whether something has to be keyed in."""
        return bool(self.plan.changed and self.plan.changed.is_changed)

    @property
    def words(self) -> str:
        """What typed words are looked for in."""
        zone = self.plan.zone
        plant = zone.plant.name if zone.plant is not None else ""
        said = [f"{one.where} {one.what}" for one in self.findings]
        own = (zone.id, zone.name, plant, zone.package, zone.valve, zone.grown_in)
        return " ".join([*(str(one or "") for one in own), *said]).casefold()


def rows_of(session: Session) -> tuple[Row, ...]:
    """Every zone of the week, in the order of the file."""
    tests: dict[str, list[TestEvaluation]] = {}
    for one in session.evaluations or ():
        tests.setdefault(one.zone.casefold(), []).append(one)
    rows = []
    for plan in session.plan.zones if session.plan is not None else ():
        mine = tests.get(plan.zone.id.casefold(), [])
        used = plan.evidence.test if plan.evidence else ""
        newest = max(mine, key=lambda one: one.date, default=None)
        test = next((one for one in mine if one.test == used), newest)
        found = plan.findings + (test.findings if test is not None else ())
        rows.append(Row(plan, worst_first(found)))
    return tuple(rows)


def ordered(rows: Sequence[Row], order: str) -> tuple[Row, ...]:
    """Rows in one of the `ORDERS`; equal ones stay as in the file."""
    keys: dict[str, Callable[[Row], tuple[float | str, ...]]] = {
        "eyes": lambda row: (_worst(row), -abs(_change(row))),
        "change": lambda row: (-abs(_change(row)),),
        "du": lambda row: (_first(_du(row), 2.0),),
        "minutes": lambda row: (-_first(_minutes(row), -1.0),),
        "name": lambda row: (row.plan.zone.name.casefold(),),
    }
    return tuple(sorted(rows, key=keys[order])) if order in keys else tuple(rows)


def filtered(rows: Sequence[Row], text: str, units: System) -> tuple[Row, ...]:
    """Rows for which every typed word holds.

    Raises
    ------
    QuantityError
        If a condition cannot be read.
    """
    tests = [_test(one, units) for one in text.casefold().split()]
    return tuple(row for row in rows if all(holds(row) for holds in tests))


def _test(word: str, units: System) -> Test:
    if len(word) > 1 and word[0] in "-−":
        inside = _test(word[1:], units)
        return lambda row: not inside(row)
    if found := _CONDITION.fullmatch(word):
        return _condition(word, found, units)
    if word == "changed":
        return lambda row: row.is_changed
    if word.rstrip("s") in LEVELS:
        level = word.rstrip("s")
        return lambda row: any(one.level == level for one in row.findings)
    if word in STATUSES:
        return lambda row: row.plan.status == word
    return lambda row: word in row.words


def _condition(word: str, found: re.Match[str], units: System) -> Test:
    name, sign, typed = found.groups()
    if name not in _NUMBERS:
        fix = f"compare one of {', '.join(_NUMBERS)}, such as du<0.6"
        raise QuantityError(f"{word}: there is no number {name!r}", fix)
    suffix, number = _NUMBERS[name]
    try:
        wanted = float(typed.rstrip("%").replace(",", "."))
    except ValueError:
        raise QuantityError(
            f"{word}: {typed!r} is no number", "such as du<0.6"
        ) from None
    if name == "du" and (typed.endswith("%") or wanted > MOST_DU):
        wanted /= 100
    face = face_suffix(suffix, units) if suffix else ""

    def holds(row: Row) -> bool:
        value = number(row)
        if value is None:
            return False
        shown = converted(value, suffix, to=face) if suffix else value
        return bool(_SIGNS[sign](shown, wanted))

    return holds


def _worst(row: Row) -> int:
    if row.plan.status == "blocked":
        return 0
    return LEVELS.index(row.findings[0].level) if row.findings else len(LEVELS)


def _first(value: float | None, otherwise: float) -> float:
    return otherwise if value is None else value


def _change(row: Row) -> float:
    return _first(change_minutes(row.plan), 0.0)


def _du(row: Row) -> float | None:
    return row.plan.evidence.du_lq if row.plan.evidence else None


def _rate(row: Row) -> float | None:
    return row.plan.evidence.net_rate_mm_per_h if row.plan.evidence else None


def _minutes(row: Row) -> float | None:
    return row.plan.minutes_per_day


# what can be compared: its unit, and where it stands
_NUMBERS: dict[str, tuple[str, Callable[[Row], float | None]]] = {
    "du": ("", _du),
    "min": ("", _minutes),
    "was": ("", lambda row: row.plan.was_minutes),
    "change": ("", lambda row: change_minutes(row.plan)),
    "rate": ("mm_per_h", _rate),
    "need": ("mm", lambda row: row.plan.need_mm),
    "cycles": ("", lambda row: row.plan.cycles),
    "nights": ("", lambda row: float(len(row.plan.days))),
}
