"""The week's changes, what was accepted, and whether the week can be issued."""

from dataclasses import replace
from types import SimpleNamespace as Made
from typing import Any

from tests.tui import made
from tui.session import Session
from tui.week_walk import Walk, accepted_all, ready, waiting, walked_rows, why_odd


def changed(change: float | None, is_changed: bool = True) -> Any:
    return Made(is_changed=is_changed, change=change)


def session(*zones: Any) -> Session:
    week = made.week()
    week.zones = zones
    return made.session(evaluations=(), plan=week)


SMALL = made.zone_plan("Z1", changed=changed(0.1))
SAME = made.zone_plan("Z2", changed=changed(0.0, is_changed=False))
LARGE = made.zone_plan("Z3", changed=changed(-0.6))
STOPPED = made.zone_plan("Z9", changed=changed(None, False), findings=(made.STOP,))


def ids(rows: Any) -> list[str]:
    return [one.plan.zone.id for one in rows]


def test_the_walk_has_what_changes_and_what_is_stopped_the_odd_first() -> None:
    assert ids(walked_rows(session(SMALL, SAME, LARGE, STOPPED))) == ["Z9", "Z3", "Z1"]


def test_a_stop_says_what_it_is() -> None:
    (row,) = walked_rows(session(STOPPED))
    assert made.STOP.what in why_odd(row)


def test_all_that_is_not_odd_is_accepted_at_once() -> None:
    one = session(SMALL, SAME, LARGE, STOPPED)
    assert ids(waiting(one, accepted_all(one, Walk()))) == ["Z9", "Z3"]


def test_the_key_that_is_named_accepts_what_is_left() -> None:
    one = session(SMALL, LARGE)
    assert "a accepts all but those marked ✖" in ready(one, Walk()).refused
    rest = ready(one, accepted_all(one, Walk())).refused
    assert rest == "Not accepted yet: Z3; look at them; space accepts one by itself."


def test_an_odd_zone_is_accepted_by_itself_and_can_be_taken_back() -> None:
    one = session(LARGE)
    (row,) = walked_rows(one)
    walk = Walk().with_rows(row)
    assert waiting(one, walk) == ()
    assert ids(waiting(one, walk.without(row))) == ["Z3"]


def test_what_was_accepted_holds_only_while_the_zone_stays_as_it_was() -> None:
    one = session(SMALL)
    walk = accepted_all(one, Walk())
    other = session(made.zone_plan("Z1", changed=changed(0.2), minutes_per_day=30))
    assert ids(waiting(other, walk)) == ["Z1"]


def test_the_place_is_kept_when_more_is_accepted() -> None:
    one = session(SMALL)
    assert accepted_all(one, replace(Walk(), at="Z1")).at == "Z1"


def test_a_week_with_zones_that_wait_is_not_ready() -> None:
    assert "Not accepted yet: Z1" in ready(session(SMALL), Walk()).refused
