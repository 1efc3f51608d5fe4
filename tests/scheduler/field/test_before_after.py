"""Which earlier result stands beside a test."""

import datetime as dt

import pytest

from scheduler.field.before_after import ZoneResult, before, same_condition


def result_of(
    name: str,
    day: int,
    condition: str,
    du_lq: float | None,
    bands: tuple[str, ...] = (),
) -> ZoneResult:
    date = dt.date(2026, 5, 1) + dt.timedelta(day)
    return ZoneResult("Z5", "p", name, date, condition, du_lq, bands)


FOUND = result_of("a", 0, "as found", 0.61)
TUNED = result_of("b", 20, "after tune-up", 0.77)


def test_the_change_is_now_less_then() -> None:
    found = before(TUNED, [FOUND, TUNED])
    assert found is not None
    assert found.test == "a"
    assert found.change == pytest.approx(0.16)


def test_the_first_test_has_nothing_before_it() -> None:
    assert before(FOUND, [FOUND, TUNED]) is None


def test_a_test_of_the_same_condition_is_no_before() -> None:
    again = result_of("b", 20, "As  found", 0.63)
    assert before(again, [FOUND, again]) is None


def test_the_newest_of_the_condition_before_counts() -> None:
    later = result_of("a2", 10, "as found", 0.65)
    found = before(TUNED, [FOUND, later, TUNED])
    assert found is not None
    assert found.test == "a2"


def test_both_on_one_day_go_in_the_order_of_the_history() -> None:
    now = result_of("b", 0, "after tune-up", 0.77)
    assert before(now, [FOUND, now]) is not None
    assert before(FOUND, [FOUND, now]) is None


def test_other_wind_is_said() -> None:
    windy = result_of("a", 0, "as found", 0.61, ("windy",))
    calm = result_of("b", 20, "after tune-up", 0.77, ("calm",))
    found = before(calm, [windy, calm])
    assert found is not None
    assert "other wind" in found.note


def test_a_test_without_result_is_passed_over() -> None:
    assert before(TUNED, [result_of("a", 0, "as found", None), TUNED]) is None


def test_conditions_are_told_apart_by_their_words() -> None:
    assert not same_condition("as found", "after repair")
