"""Zones filtered by typed words and put in order."""

from types import SimpleNamespace as Made
from typing import Any

import pytest

from scheduler.errors import QuantityError
from tests.tui import made
from tui.zone_view import ORDERS, Row, filtered, ordered, rows_of


def row(zone_id: str, **changes: Any) -> Row:
    findings = changes.pop("found", ())
    plan = made.zone_plan(zone_id, changes.pop("name", "Maples"), **changes)
    return Row(plan, findings)


def changed(is_changed: bool) -> Any:
    return Made(is_changed=is_changed)


ROWS = (
    row("Z1", name="Liners", minutes_per_day=9, was_minutes=8.0, changed=changed(True)),
    row("Z2", name="Oaks", found=(made.LEAF,), minutes_per_day=40, was_minutes=40.0),
    row("Z3", name="Bay", found=(made.STOP,), evidence=None, status="blocked"),
    row("Z4", name="Elms", minutes_per_day=10, was_minutes=60.0),
)


def ids(rows: tuple[Row, ...]) -> list[str]:
    return [one.plan.zone.id for one in rows]


@pytest.mark.parametrize(
    ("typed", "left"),
    [
        ("", ["Z1", "Z2", "Z3", "Z4"]),
        ("z2", ["Z2"]),
        ("LINERS", ["Z1"]),
        ("maples", ["Z1", "Z2", "Z3", "Z4"]),  # the plant
        ("rotor elms", ["Z4"]),  # the package, and the name
        ("lone zero", ["Z2"]),  # of a finding
        ("stop", ["Z3"]),
        ("warnings", ["Z2"]),
        ("blocked", ["Z3"]),
        ("changed", ["Z1"]),
        ("-changed", ["Z2", "Z3", "Z4"]),
        ("du<0.8", ["Z1", "Z2", "Z4"]),  # one without a DU is not below
        ("du>72%", []),
        ("du>1%", ["Z1", "Z2", "Z4"]),  # percent as typed, however small
        ("du>=0.72", ["Z1", "Z2", "Z4"]),
        ("min>9 min<40", ["Z3", "Z4"]),
        ("change<0", ["Z4"]),
        ("nights=6", ["Z1", "Z2", "Z3", "Z4"]),
        ("no such word", []),
    ],
)
def test_every_typed_word_must_hold(typed: str, left: list[str]) -> None:
    assert ids(filtered(ROWS, typed, "us")) == left


def test_a_rate_is_compared_in_the_units_that_are_shown() -> None:
    # 12.17 mm/h are 0.479 in/h
    assert ids(filtered(ROWS[:1], "rate>0.47 rate<0.49", "us")) == ["Z1"]
    assert ids(filtered(ROWS[:1], "rate>12 rate<12.5", "metric")) == ["Z1"]


@pytest.mark.parametrize(
    ("typed", "said"), [("moon<3", "no number 'moon'"), ("du<x", "'x' is no number")]
)
def test_a_condition_that_cannot_be_read_is_refused(typed: str, said: str) -> None:
    with pytest.raises(QuantityError, match=said):
        filtered(ROWS, typed, "us")


def test_eyes_first_is_the_worst_finding_then_the_largest_change() -> None:
    assert ids(ordered(ROWS, "eyes")) == ["Z3", "Z2", "Z4", "Z1"]


def test_the_order_of_the_file_is_kept() -> None:
    assert ids(ordered(ROWS, "file")) == ids(ROWS)


def test_the_lowest_uniformity_comes_first_and_none_last() -> None:
    even = row("Z5", evidence=Made(basis="measured", test="", du_lq=0.9))
    assert ids(ordered((*ROWS, even), "du"))[-2:] == ["Z5", "Z3"]


@pytest.mark.parametrize("order", ORDERS)
def test_no_order_loses_a_zone(order: str) -> None:
    assert sorted(ids(ordered(ROWS, order))) == sorted(ids(ROWS))


def test_a_zone_has_the_findings_of_its_week_and_of_its_test() -> None:
    test = made.evaluation("Z4", findings=(made.STOP,))
    rows = rows_of(made.session(evaluations=(test,)))
    assert [one.level for one in rows[1].findings] == ["stop", "warning", "note"]


def test_without_a_week_there_are_no_rows() -> None:
    assert rows_of(made.session(plan=None)) == ()
