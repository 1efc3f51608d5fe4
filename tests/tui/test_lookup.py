"""Looking through a week once: what is kept, for whom, and how much of it."""

from functools import partial
from typing import Any

from tests.tui import made
from tui import lookup
from tui.lookup import KEPT, kept_for, plans_by_zone


def test_a_zone_is_found_by_its_id() -> None:
    plan = made.week()
    assert plans_by_zone(plan)["Z9"] is plan.zones[2]


def test_the_first_of_two_zones_of_one_id_is_found() -> None:
    plan = made.week()
    plan.zones = (*plan.zones, made.zone_plan("Z9", "again"))
    assert plans_by_zone(plan)["Z9"] is plan.zones[2]


def test_tests_are_found_whatever_the_case_of_their_zone() -> None:
    first, second = made.evaluation("z4"), made.evaluation("Z4")
    assert lookup.tests_by_zone((first, second))["z4"] == (first, second)


def test_no_tests_are_no_trouble() -> None:
    assert lookup.tests_by_zone(None) == {}


def test_an_answer_is_worked_out_once() -> None:
    owner, asked = object(), []

    def work() -> int:
        asked.append(1)
        return 7

    assert [kept_for(owner, "n", work), kept_for(owner, "n", work)] == [7, 7]
    assert len(asked) == 1


def test_another_owner_gets_its_own_answer() -> None:
    owners: list[Any] = [object(), object()]
    assert [kept_for(one, "n", partial(id, one)) for one in owners] == [
        id(one) for one in owners
    ]


def test_no_more_is_kept_than_is_said() -> None:
    owners = [object() for _ in range(3 * KEPT)]
    for one in owners:
        kept_for(one, "n", lambda: 0)
    assert len(lookup._kept) == KEPT


def test_a_question_may_ask_another_of_the_same_thing() -> None:
    owner, asked = object(), []

    def inner() -> int:
        asked.append(1)
        return 3

    assert kept_for(owner, "outer", lambda: kept_for(owner, "inner", inner) + 1) == 4
    assert kept_for(owner, "inner", inner) == 3
    assert len(asked) == 1
