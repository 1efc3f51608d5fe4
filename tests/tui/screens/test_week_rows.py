"""Cycles of a board by night, as the arrows go, and in rows of blocks."""

from scheduler.watering.night_plan.board import BoardCycle, NightBoard
from tui import week_state
from tui.screens.week_rows import (
    as_walked,
    block_of,
    by_night,
    lane_rows,
    natural,
    stacked_nights,
)
from tui.session import Session
from tui.widgets.night_chart import stacked

HERE = BoardCycle("Z1", 0, 60, 90, 2, 2, 100.0, True)


def nights(opened: Session) -> tuple[NightBoard, tuple[BoardCycle, ...]]:
    board = week_state.board_of(opened)
    assert board is not None
    return board, week_state.cycles_of(board)


def test_the_nights_hold_every_cycle_in_its_order(opened: Session) -> None:
    board, cycles = nights(opened)
    assert tuple(one for night in by_night(board) for one in night) == cycles


def test_a_cycle_stands_in_its_night(opened: Session) -> None:
    board, _ = nights(opened)
    found = {(at, one.night) for at, some in enumerate(by_night(board)) for one in some}
    assert all(at == night for at, night in found)


def test_the_arrows_go_by_night_then_start_then_zone(opened: Session) -> None:
    board, cycles = nights(opened)
    plain = sorted(cycles, key=lambda o: (o.night, o.start_min, *natural(o.zone)))
    assert as_walked(board) == tuple(plain)


def test_rows_looked_through_once_are_those_of_the_blocks_themselves(
    opened: Session,
) -> None:
    board, cycles = nights(opened)
    here = next(one for one in cycles if one.night == 3)
    for night, rows in enumerate(stacked_nights(board)):
        plain = [block_of(o, here, is_bad=True) for o in cycles if o.night == night]
        assert lane_rows(rows, here, is_bad=True) == stacked(plain)


def test_the_cycle_under_the_cursor_is_here_and_its_watering_bad() -> None:
    block = block_of(HERE, HERE, is_bad=True)
    assert (block.is_here, block.is_marked, block.is_bad) == (True, True, True)


def test_another_night_of_the_zone_is_marked_and_not_bad() -> None:
    other = BoardCycle("Z1", 3, 60, 90, 2, 2, 100.0, False)
    block = block_of(other, HERE, is_bad=True)
    assert (block.is_here, block.is_marked, block.is_bad) == (False, True, False)


def test_a_cycle_moved_by_hand_bears_its_sign() -> None:
    assert block_of(HERE, HERE, is_bad=False).label == "Z1*"
