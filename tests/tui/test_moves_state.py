"""The curve of moves for a session."""

from dataclasses import replace

import pytest

from scheduler.errors import QuantityError
from scheduler.watering.night_plan.moves import MoveCurve, MovePoint
from tui import moves_state
from tui.session import Session, apply_edit
from tui.what_if import Edit, edited

CURVE = MoveCurve(
    tuple(
        MovePoint(moved, share, gained, 10 * gained, None, 0)
        for moved, share, gained in ((0, 1.0, 0.0), (4, 0.01, 0.01), (30, 0.0, 0.02))
    ),
    40,
)


def test_the_week_stands_at_the_nearest_worth_of_a_move(opened: Session) -> None:
    # 0.005, as nothing is entered
    assert moves_state.stands_at(opened, CURVE) == 1


def test_picking_a_point_is_a_what_if_of_its_worth(opened: Session) -> None:
    assert opened.site is not None
    site = edited(opened.site, moves_state.pick(CURVE.points[2]))
    assert site.controller.move_worth == 0.0


def test_a_worth_above_one_is_refused(opened: Session) -> None:
    assert opened.site is not None
    with pytest.raises(QuantityError, match="move worth cannot be 2"):
        edited(opened.site, Edit("move worth", 2.0))


def test_without_a_plan_the_curve_says_so(opened: Session) -> None:
    assert moves_state.curve_of(replace(opened, plan=None)).why == "no week is planned"


def test_no_price_searches_the_nights_again(opened: Session) -> None:
    dear = apply_edit(opened, Edit("water price", 1.0, typed="3.79"))
    assert dear.what_ifs
    assert moves_state.curve_of(dear) is moves_state.curve_of(opened)


def test_without_an_issued_week_the_curve_says_so(opened: Session) -> None:
    assert "no earlier issued week" in moves_state.curve_of(opened).why
