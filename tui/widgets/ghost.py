"""The former state behind a tried one: signs that are told apart without colour.

A bar's former end is ◇, former lines are rows of ◦, former blocks are ░, a former
column's height is ◦. Every picture says which is which.
"""

import math
from collections.abc import Sequence
from itertools import accumulate

from tui.widgets.axes import Frame
from tui.widgets.canvas import Canvas, Ink

END, BLOCK, LEVEL = "◇", "░", "◦"
BAR_LEGEND = f"█ tried   {END} before"
LINE_LEGEND = f"{LEVEL} before"
APART = 3  # columns between two signs of a former line
DOTS_APART = 6  # of a former limit
GONE = 1e-9


def sign_line(
    canvas: Canvas, frame: Frame, values: Sequence[float], look: tuple[str, str]
) -> None:
    """A line with a value a day as signs of a colour, some columns apart."""
    sign, colour = look
    free = frame.left
    for day, value in enumerate(values):
        x = frame.cell_x(day)
        if x >= free and math.isfinite(value):
            canvas.write(x, frame.cell_y(value), sign, colour)
            free = x + APART


def sparse_row(canvas: Canvas, frame: Frame, value: float, colour: str) -> None:
    """A former limit across, in dots farther apart than a limit's."""
    for x in range(2 * frame.left, 2 * (frame.left + frame.width), DOTS_APART):
        frame.dot(canvas, x, frame.dot_y(value), colour)


def end_right(
    canvas: Canvas, ink: Ink, place: tuple[int, int, int], part: float
) -> None:
    """Mark where a bar to the right ended; `place` is its first cell, row and room."""
    x, y, room = place
    at = x + min(room - 1, max(0, round(room * part) - 1))
    canvas.write(at, y, END, ink.text)


def blocks(
    canvas: Canvas, rows: Sequence[int], spans: Sequence[tuple[int, int]], colour: str
) -> None:
    """Former blocks, each in the row with most room, as first cell and number."""
    if not spans:
        return
    # a former block leaves a cell free, so what is free holds for all of them
    free = {y: [_is_free(canvas, x, y) for x in range(canvas.width)] for y in rows}
    room = {y: [0, *accumulate(free[y])] for y in rows}
    for start, many in dict.fromkeys(spans):
        first, end = (min(max(x, 0), canvas.width) for x in (start, start + many))
        y = max(rows, key=lambda row: room[row][end] - room[row][first])
        for x in range(first, end):
            if free[y][x]:
                canvas.write(x, y, BLOCK, colour)


def _is_free(canvas: Canvas, x: int, y: int) -> bool:
    return canvas.sign(x, y) in ("", "╱", "·", BLOCK)


def differ(a: Sequence[float], b: Sequence[float]) -> bool:
    """Whether two rows of numbers differ, or have not as many."""
    return len(a) != len(b) or any(abs(x - y) > GONE for x, y in zip(a, b, strict=True))
