"""A board in; its cycles by night, as the arrows go, and in rows of blocks out.

Each is looked through once for a board: on a site of hundreds of zones a week has more
than a thousand cycles, and every key draws them.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tui.lookup import kept_for
from tui.week_state import cycles_of
from tui.widgets.night_chart import MOVED, Block, stacked

if TYPE_CHECKING:
    from scheduler.watering.night_plan.board import BoardCycle, NightBoard

# a row of blocks, each with its cycle
Row = tuple[tuple["BoardCycle", Block], ...]


def natural(zone: str) -> tuple[int, str]:
    """Order of zone ids: Z2 before Z10."""
    return len(zone), zone


def by_night(board: "NightBoard") -> "tuple[tuple[BoardCycle, ...], ...]":
    """Cycles of each night, by start and zone."""

    def work() -> "tuple[tuple[BoardCycle, ...], ...]":
        nights: list[list[BoardCycle]] = [[] for _ in board.hours.dates]
        for one in cycles_of(board):
            nights[one.night].append(one)
        return tuple(map(tuple, nights))

    return kept_for(board, "by night", work)


def as_walked(board: "NightBoard") -> "tuple[BoardCycle, ...]":
    """All cycles as the arrows go from one to the next: by night, start and zone."""

    def work() -> "tuple[BoardCycle, ...]":
        cycles = cycles_of(board)
        return tuple(
            sorted(cycles, key=lambda o: (o.night, o.start_min, *natural(o.zone)))
        )

    return kept_for(board, "walked", work)


def stacked_nights(board: "NightBoard") -> tuple[tuple[Row, ...], ...]:
    """Blocks of each night in rows without overlap, none of them marked."""
    return kept_for(
        board, "stacked", lambda: tuple(_stacked(one) for one in by_night(board))
    )


def _stacked(cycles: "Sequence[BoardCycle]") -> tuple[Row, ...]:
    blocks = [_plain(one) for one in cycles]
    whose = {id(block): one for one, block in zip(cycles, blocks, strict=True)}
    return tuple(tuple((whose[id(b)], b) for b in row) for row in stacked(blocks))


def lane_rows(
    rows: Sequence[Row], here: "BoardCycle", *, is_bad: bool
) -> tuple[tuple[Block, ...], ...]:
    """Rows of a lane as they are drawn: the zone under the cursor is marked."""
    zone = here.zone
    return tuple(
        tuple(
            block_of(one, here, is_bad=is_bad) if one.zone == zone else plain
            for one, plain in row
        )
        for row in rows
    )


def block_of(one: "BoardCycle", here: "BoardCycle", *, is_bad: bool) -> Block:
    """Block of a cycle; the one under the cursor, its watering and zone are marked."""
    plain = _plain(one)
    if one.zone != here.zone:
        return plain
    is_mine = one.night == here.night
    return Block(
        plain.start,
        plain.end,
        plain.label,
        is_here=is_mine and one.cycle == here.cycle,
        is_marked=True,
        is_bad=is_mine and is_bad,
        is_even=plain.is_even,
    )


def _plain(one: "BoardCycle") -> Block:
    return Block(
        one.start_min,
        one.end_min,
        one.zone + (MOVED if one.is_moved else ""),
        is_even=sum(one.zone.encode()) % 2 == 0,
    )
