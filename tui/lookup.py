"""Plans and tests in; the same by zone, looked through once for each week, out.

A page asks for its zone many times over one frozen week; on a site of hundreds of zones
looking through all of them each time would be most of a key's work.
"""

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar, cast

if TYPE_CHECKING:
    from scheduler.field.evaluation import TestEvaluation
    from scheduler.plan import WeekPlan, ZonePlan

Answer = TypeVar("Answer")
KEPT = 8  # things: a session has two weeks, their nights and boards, one set of tests
_kept: dict[int, tuple[object, dict[str, Any]]] = {}


def kept_for(owner: object, what: str, work: Callable[[], Answer]) -> Answer:
    """Answer to a question about one frozen thing, worked out once while it is used.

    The thing itself is kept with the answer, so that no other can take its identity.
    """
    known = _kept.pop(id(owner), None) or (owner, {})
    _kept[id(owner)] = known  # put back last: the least used goes first
    while len(_kept) > KEPT:
        _kept.pop(next(iter(_kept)), None)
    answers = known[1]
    if what not in answers:
        answers[what] = work()
    return cast("Answer", answers[what])


def plans_by_zone(plan: "WeekPlan") -> "Mapping[str, ZonePlan]":
    """Each zone's week by its id; the first where ids are given twice."""

    def work() -> "dict[str, ZonePlan]":
        return {one.zone.id: one for one in reversed(plan.zones)}

    return kept_for(plan, "plans", work)


def tests_by_zone(
    evaluations: "Iterable[TestEvaluation] | None",
) -> "Mapping[str, tuple[TestEvaluation, ...]]":
    """Tests by the id of their zone in small letters, in their given order."""

    def work() -> "dict[str, tuple[TestEvaluation, ...]]":
        found: dict[str, tuple[TestEvaluation, ...]] = {}
        for one in evaluations or ():
            zone = one.zone.casefold()
            found[zone] = (*found.get(zone, ()), one)
        return found

    return kept_for(evaluations, "tests", work)
