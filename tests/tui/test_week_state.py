"""The nights of a session: places held, pumps tried, weeks compared."""

from dataclasses import replace

import pytest

from scheduler.errors import QuantityError
from scheduler.record import IssuedWeek
from scheduler.unit_table import L_PER_US_GALLON
from scheduler.watering.night_plan import Pin
from tests.tui import made
from tui import session as state
from tui import week_state
from tui.session import Edit, Session


def a_free_pin(session: Session) -> Pin:
    """The first free place of zone Z1 on the first night, other than its own."""
    board = week_state.board_of(session)
    assert board is not None
    own = next(one.starts for one in board.placed[0] if one.zone == "Z1")
    pins = (week_state.pin_for(board, ("Z1", 0), 0, (m,)) for m in range(365))
    return next(
        pin
        for minute, pin in enumerate(pins)
        if (minute,) != own and not week_state.broken(session, pin)
    )


PUMP_150 = Edit("pump", 150 * L_PER_US_GALLON)


def test_a_week_without_nights_says_why(opened: Session) -> None:
    assert "No zone is watered" in week_state.why_no_board(made.session(plan=None))


def test_a_place_is_judged_by_the_checker(opened: Session) -> None:
    board = week_state.board_of(opened)
    assert board is not None
    pin = week_state.pin_for(board, ("Z1", 0), 0, (380,))
    assert week_state.broken(opened, pin)[0].startswith("window: ")


def test_a_moved_watering_is_where_it_was_put(opened: Session) -> None:
    pin = a_free_pin(opened)
    done = state.apply_edit(opened, Edit("move", pin, "Z1"))
    now = week_state.board_of(done)
    assert now is not None
    assert now.pin("Z1", 0) == pin
    (start,) = next(one.starts for one in now.placed[0] if one.zone == "Z1")
    assert now.hours.clock(0, start) == pin.starts[0]


def test_a_move_is_undone(opened: Session) -> None:
    edit = Edit("move", a_free_pin(opened), "Z1")
    done = state.undo(state.apply_edit(opened, edit))
    assert (done.pins, done.what_ifs) == ((), ())


def test_a_moved_watering_stays_under_another_what_if(opened: Session) -> None:
    pin = a_free_pin(opened)
    done = state.with_edits(
        opened, (Edit("move", pin, "Z1"), Edit("rule", "average", "Z4"))
    )
    now = week_state.board_of(done)
    assert now is not None
    assert now.pin("Z1", 0) == pin


def test_a_what_if_says_itself_in_the_units_of_the_face() -> None:
    assert PUMP_150.text("us") == "pump 150.0 gpm"


def test_another_pump_is_another_plan(opened: Session) -> None:
    done = state.apply_edit(opened, PUMP_150)
    assert done.plan is not None
    assert done.plan.night is not None
    pump = done.plan.night.summary.pump_l_per_min
    assert pump == pytest.approx(150 * L_PER_US_GALLON)


def test_the_pump_before_stands_beside(opened: Session) -> None:
    before = week_state.before_pump(state.apply_edit(opened, PUMP_150))
    assert before is not None
    assert before.summary.pump_l_per_min == pytest.approx(200 * L_PER_US_GALLON)


def test_the_week_before_a_pump_that_is_tried_alone_is_the_own_one(
    opened: Session,
) -> None:
    done = state.apply_edit(opened, PUMP_150)
    assert week_state.before_pump(done) is opened.plan.night if opened.plan else None


def test_a_price_that_is_tried_beside_leaves_the_pump_alone(opened: Session) -> None:
    done = state.apply_edit(opened, PUMP_150)
    priced = state.apply_edit(done, Edit("water price", 2.0))
    other = state.apply_edit(done, Edit("kc factor", 1.2, "Z4"))
    asked = (opened, done, priced, other)
    assert [week_state.is_pump_alone(one) for one in asked] == [
        False, True, True, False,
    ]  # fmt: skip


def test_without_another_pump_nothing_stands_beside(opened: Session) -> None:
    assert week_state.before_pump(opened) is None


def test_a_pump_goes_on_from_what_was_asked_for(opened: Session) -> None:
    edit = week_state.pump_edit(opened, (PUMP_150,), -1)
    assert edit.value == pytest.approx(140 * L_PER_US_GALLON)


def test_a_pump_that_nobody_entered_cannot_be_tried(opened: Session) -> None:
    with pytest.raises(QuantityError, match="not entered"):
        week_state.pump_edit(replace(opened, site_folder=None), (), -1)


def test_without_an_issued_week_nothing_is_compared(opened: Session) -> None:
    assert week_state.changes(opened) is None


def test_an_issued_week_is_compared(opened: Session) -> None:
    assert opened.history is not None
    assert opened.plan is not None
    week = IssuedWeek("2026-W23", opened.plan.start, ())
    found = week_state.changes(
        replace(opened, history=replace(opened.history, issued=(week,)))
    )
    assert found is not None
    assert found[0] == "2026-W23"
    assert all(one.is_changed for one in found[1])


def test_a_week_with_what_ifs_is_not_issued(opened: Session) -> None:
    done = replace(opened, edits=(PUMP_150,))
    assert "keep or drop them first (T)" in state.issuing(done).refused


def test_a_moved_watering_is_kept_by_the_week_that_is_issued(opened: Session) -> None:
    night = opened.plan.start if opened.plan is not None else None
    assert night is not None
    move = Edit("move", Pin("Z1", night, night, ()), "Z1")
    done = replace(opened, edits=(move,))
    # what stands in its way is the stop of the folder alone
    assert state.issuing(done).refused == state.issuing(opened).refused


def test_a_week_with_a_stop_wants_a_reason(opened: Session) -> None:
    said = state.issuing(opened).refused
    assert "--issue --force WHY" in said
    assert said.count("--force") == 1
