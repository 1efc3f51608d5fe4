"""A test worked up in, what to do about it, cheapest first, out."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from scheduler.field.evaluation import TestEvaluation

# What a step takes, told by its words (common practice, no source: look, then gauge,
# tape or clean, then parts).
COSTS = ("a look", "an hour with tools", "parts or a day's work")
_TOOLS = re.compile(r"\b(gauge|tape|measure|flush|straighten|clean|repeat)\b")
_PARTS = re.compile(r"\b(change|replace|move the watering|trajectory|plant them)\b")


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do.

    Attributes
    ----------
    what : str
        What to do.
    why : str
        What in the test asks for it.
    cost : str
        About what it takes, of `COSTS`.
    is_first : bool
        Nothing else counts before it is done.
    """

    what: str
    why: str
    cost: str
    is_first: bool = False


def next_steps(test: TestEvaluation) -> tuple[Step, ...]:
    """What a test asks for, cheapest first.

    Parameters
    ----------
    test : TestEvaluation
        One test, worked up.

    Returns
    -------
    tuple of Step
        What stops the test from being used; then checks of the likely causes and what
        its warnings ask for, by cost; each thing once.

    Notes
    -----
    Where no cause is more than chance, the checks are those of scattered cans. A test
    of one run asks for another.

    References
    ----------
    Source: common practice, no source (look, gauge, tape, parts).

    Examples
    --------
    >>> import datetime as dt
    >>> test = TestEvaluation("Z1", "t", dt.date(2026, 5, 12), "as found", (), None, ())
    >>> next_steps(test)
    ()
    """
    found = [*_stops(test), *sorted(_others(test), key=_rank)]
    return tuple({step.what: step for step in reversed(found)}.values())[::-1]


def _rank(step: Step) -> int:
    return COSTS.index(step.cost)


def _cost(what: str) -> str:
    if _PARTS.search(what):
        return COSTS[2]
    return COSTS[1] if _TOOLS.search(what) else COSTS[0]


def _stops(test: TestEvaluation) -> Iterator[Step]:
    for one in test.findings:
        if one.level == "stop":
            yield Step(one.fix, one.what, COSTS[0], is_first=True)


def _others(test: TestEvaluation) -> Iterator[Step]:
    causes = test.shape.causes if test.shape else ()
    sure = [one for one in causes if one.is_beyond_chance]
    for cause in sure or [one for one in causes if one.kind == "no shape"]:
        named = f"{cause.kind}, {cause.where}" if cause.where else cause.kind
        why = named if cause.is_beyond_chance else "no shape is more than chance"
        for check in cause.checks:
            yield Step(check, why, _cost(check))
    for said in test.findings:
        if said.level == "warning":
            yield Step(said.fix, said.what, _cost(said.fix))
    if len(test.runs) == 1:
        what = "repeat the run on the same grid, at the hour and in the wind you water"
        yield Step(what, "one run cannot tell of another night", COSTS[1])
