"""A sentence in the middle of a picture that has nothing to show."""

from textwrap import wrap

from tui.widgets.canvas import Canvas

MOST = 56  # cells of a line: more are hard to read


def write_middle(canvas: Canvas, text: str, colour: str) -> None:
    """Write a sentence half way down, its lines below each other."""
    lines = wrap(text, max(8, min(MOST, canvas.width - 2)))
    left = max(0, (canvas.width - max(map(len, lines), default=0)) // 2)
    top = max(0, (canvas.height - len(lines)) // 2)
    for y, line in enumerate(lines, top):
        canvas.write(left, y, line, colour)
