"""Lanes of blocks to scale over one axis of minutes, and under them what they draw."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import chain

from tui.widgets.canvas import Canvas, Chart, Ink
from tui.widgets.ghost import GONE, LEVEL, blocks

HEAD, AXIS = 1, 2
LEAST_UNDER, MOST_UNDER = 4, 9  # rows of the columns under the lanes
LINE_PART = 0.75  # of the height that the highest value of the line takes
HERE, MOVED, BAD = "►", "*", "✖"
HATCH = "╱·"


@dataclass(frozen=True, slots=True)
class Block:
    """One block of a lane, from a minute to a minute."""

    start: float
    end: float
    label: str
    is_here: bool = False
    is_marked: bool = False
    is_bad: bool = False
    is_even: bool = False


@dataclass(frozen=True, slots=True)
class Lane:
    """One lane; blocks that overlap stand in several rows.

    Attributes
    ----------
    closed : tuple of (start, end, is_blocked)
        Minutes that are hatched, or dotted.
    note : str
        What has no block; a row of its own at the lane's foot.
    before : tuple of (start, end)
        Where blocks stood that are gone from there.
    """

    name: str
    rows: tuple[tuple[Block, ...], ...]
    closed: tuple[tuple[float, float, bool], ...] = ()
    is_current: bool = False
    note: str = ""
    before: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Under:
    """Columns under the lanes, a limit across them, a line over them.

    Attributes
    ----------
    values : tuple of float
        One a minute.
    line : tuple of float
        One a minute on a scale of its own; may be empty.
    rows : tuple of (name, ((minute, text), ...))
        Numbers written below the axis.
    before : tuple of float
        The columns before what is tried; empty where nothing is.
    limit_before : float or None
        The limit then, where it was another one.
    """

    values: tuple[float, ...]
    limit: float | None
    limit_text: str
    line: tuple[float, ...]
    rows: tuple[tuple[str, tuple[tuple[float, str], ...]], ...]
    before: tuple[float, ...] = ()
    limit_before: float | None = None


@dataclass(frozen=True, slots=True)
class NightPicture:
    """What the chart shows; all minutes count from the left end.

    Attributes
    ----------
    tell : callable
        Says the same in words, when they are asked for: few who look need them.
    """

    lanes: tuple[Lane, ...]
    minutes: float
    labels: tuple[tuple[float, str], ...]
    shaded: tuple[tuple[float, float], ...]
    under: Under
    legend: str
    tell: Callable[[], tuple[str, ...]]


def stacked(blocks: Sequence[Block]) -> tuple[tuple[Block, ...], ...]:
    """Blocks in as few rows as hold them without overlap."""
    rows: list[list[Block]] = []
    for one in sorted(blocks, key=lambda one: (one.start, one.end, one.label)):
        free = next((row for row in rows if row[-1].end <= one.start), None)
        if free is None:
            rows.append([one])
        else:
            free.append(one)
    return tuple(tuple(row) for row in rows)


class NightChart(Chart):
    """Nights, or the zones of one night, as lanes; the flow under them."""

    picture: NightPicture | None = None
    nothing = "no night plan"

    def show(self, picture: NightPicture | None, nothing: str = nothing) -> None:
        """Take another picture, or say why there is none."""
        self.picture, self.nothing = picture, nothing
        self._repaint()

    def words(self) -> Sequence[str]:
        return [self.nothing] if self.picture is None else self.picture.tell()

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        picture = self.picture
        if picture is None:
            canvas.write_lines(self.words(), ink.muted)
            return
        names = [one.name for one in picture.lanes]
        names += [name for name, _ in picture.under.rows]
        names.append(picture.under.limit_text)
        left = max((len(one) for one in names), default=0) + 2
        plot = _Plot(left, canvas.width - left, picture.minutes)
        below = AXIS + len(picture.under.rows)
        rows = sum(max(_deep(one), 1) for one in picture.lanes)
        room = canvas.height - HEAD - below
        # lanes of several rows stand apart where there is room
        apart = len(picture.lanes) - 1 if rows > len(picture.lanes) else 0
        apart = apart if rows + apart + LEAST_UNDER <= room else 0
        under = min(MOST_UNDER, max(LEAST_UNDER, room - rows - apart))
        lanes = fitted(picture.lanes, room - under)
        canvas.write(0, 0, picture.legend, ink.muted)
        for start, end in picture.shaded:
            first, many = plot.cells(start, end)
            canvas.fill(first, HEAD, (many, room), ink.mist)
        y = HEAD
        for lane in lanes:
            y = _lane(canvas, ink, plot, (lane, y)) + (apart > 0)
        top = canvas.height - below - under
        _under(canvas, ink, plot, (picture.under, top, under))
        _axis(canvas, ink, plot, (picture, canvas.height - below))


@dataclass(frozen=True, slots=True)
class _Plot:
    """Where minutes lie on the canvas."""

    left: int
    width: int
    minutes: float

    def x(self, minute: float) -> float:
        """Place of a minute in cells; what lies outside stands at the edge."""
        return _place(self.left, self.width, self.minutes, minute)

    def ends(self, block: Block) -> tuple[float, float]:
        """Ends of a block; one at the very edge still fills an eighth of a cell."""
        last = self.left + self.width - 1 / 8
        return min(self.x(block.start), last), self.x(block.end)

    def cells(self, start: float, end: float) -> tuple[int, int]:
        """First cell and number of cells, at least one."""
        first = min(round(self.x(start)), self.left + self.width - 1)
        return first, max(1, round(self.x(end)) - first)


@lru_cache(maxsize=4096)  # a night has some hundred minutes, a week 1000 blocks
def _place(left: int, width: int, minutes: float, minute: float) -> float:
    inside = min(max(minute, 0.0), minutes)
    return left + width * inside / max(minutes, 1.0)


def fitted(lanes: Sequence[Lane], room: int) -> tuple[Lane, ...]:
    """Lanes for so many rows: rows laid over each other, then lanes around the one.

    Blocks laid over each other are still all there; lanes left out are counted.
    """
    some = [one if _deep(one) else replace(one, rows=((),)) for one in lanes]
    rows, over = [len(one.rows) for one in some], sum(map(_deep, some)) - room
    while over > 0 and max(rows, default=0) > 1:
        rows[rows.index(max(rows))] -= 1  # the deepest
        over -= 1
    some = [_laid_over(one, n) for one, n in zip(some, rows, strict=True)]
    if len(some) <= room:
        return tuple(some)
    at = next((i for i, one in enumerate(some) if one.is_current), 0)
    room = max(room - 1, 1)
    first_lane = min(max(0, at - room // 2), len(some) - room)
    more = Lane(f"+{len(some) - room} more", ((),))
    return (*some[first_lane : first_lane + room], more)


def _laid_over(lane: Lane, n_rows: int) -> Lane:
    """So many rows of a lane, the last with the blocks of all that are left."""
    if n_rows == len(lane.rows):
        return lane
    last = tuple(chain.from_iterable(lane.rows[n_rows - 1 :]))
    return replace(lane, rows=(*lane.rows[: n_rows - 1], last))


def _deep(lane: Lane) -> int:
    """Rows that a lane takes."""
    return len(lane.rows) + bool(lane.note)


def _lane(canvas: Canvas, ink: Ink, plot: _Plot, place: tuple[Lane, int]) -> int:
    """Draw one lane from a row on; the row after it."""
    lane, y = place
    sign = HERE if lane.is_current else " "
    canvas.write(0, y, sign + lane.name, ink.text if lane.is_current else ink.muted)
    for row in lane.rows:
        canvas.write(plot.left - 1, y, "│", ink.muted)
        for start, end, is_blocked in lane.closed:
            first, many = plot.cells(start, end)
            canvas.write(first, y, ("╱" if is_blocked else "·") * many, ink.muted)
        drawn = sorted(row, key=lambda one: one.is_here)
        bare = [one for one in drawn if not _block(canvas, ink, plot, (one, y))]
        for one in bare:
            _beside(canvas, ink, plot, (one, y))
        y += 1
    if lane.note:
        canvas.write(plot.left - 1, y, f"│{lane.note}", ink.alarm)
    spans = [plot.cells(*span) for span in lane.before]
    # what has no room now may have no row of its own: beside its note
    blocks(canvas, range(y - len(lane.rows), y) or [y], spans, ink.muted)
    return y + bool(lane.note)


def _block(canvas: Canvas, ink: Ink, plot: _Plot, place: tuple[Block, int]) -> bool:
    """Draw a block; whether its label found room on it."""
    one, y = place
    colour = _colour(ink, one)
    a, b = plot.ends(one)
    # a block stands on the hatch
    canvas.clear(y, range(int(a), int(b) + 1), HATCH, ink.muted)
    first, many = canvas.span(y, (a, b), colour, surface=ink.surface)
    if one.is_bad:
        canvas.write(first, y, "▒" * max(many, 1), ink.alarm)
    label = (BAD if one.is_bad else "") + one.label  # not by colour alone
    if len(label) > many:
        return False
    if canvas.is_ascii:  # else the span filled them
        canvas.fill(first, y, (many, 1), colour)
    canvas.write(first, y, label, ink.on(colour))
    return True


def _beside(canvas: Canvas, ink: Ink, plot: _Plot, place: tuple[Block, int]) -> None:
    """Write the label of a short block to its right, if nothing stands there."""
    one, y = place
    at = max(math.ceil(plot.x(one.end)), int(plot.x(one.start)) + 1)
    cells = range(at, at + len(one.label) + 1)
    is_free = all(canvas.sign(x, y) in ("", "╱", "·") for x in cells)
    if is_free and at + len(one.label) <= canvas.width:
        canvas.write(at, y, one.label, ink.text if one.is_here else ink.muted)


def _colour(ink: Ink, one: Block) -> str:
    if one.is_bad:
        return ink.alarm
    if one.is_here:
        return ink.text
    if one.is_marked:
        return ink.accent
    return ink.shade(0.45 if one.is_even else 0.28)


def _under(
    canvas: Canvas, ink: Ink, plot: _Plot, place: tuple[Under, int, int]
) -> None:
    """Columns from a row on, so many rows high."""
    under, top, height = place
    limits = (under.limit or 0.0, under.limit_before or 0.0)
    highest = max([*under.values, *under.before, *limits], default=0.0) or 1.0
    bottom = top + height - 1
    for y in range(top, bottom + 1):
        canvas.write(plot.left - 1, y, "│", ink.muted)
    for x in range(plot.width):
        a = int(x * plot.minutes / plot.width)
        b = max(a + 1, int((x + 1) * plot.minutes / plot.width))
        value = max(under.values[a:b], default=0.0)
        if value > 0:
            is_over = under.limit is not None and value > under.limit * 1.000001
            size = (1, (height - 0.5) * value / highest)
            colour = ink.alarm if is_over else ink.shade(0.3)
            canvas.bar_up(plot.left + x, bottom, size, colour)
        old = max(under.before[a:b], default=value)
        if abs(old - value) > GONE:
            row = bottom - max(0, round((height - 0.5) * old / highest) - 1)
            canvas.write(plot.left + x, row, LEVEL, ink.text)
    _limit(canvas, ink, plot, (under, bottom + 1, (height - 0.5) / highest))
    _line(canvas, ink, plot, (under.line, top, height))


def _limit(
    canvas: Canvas, ink: Ink, plot: _Plot, place: tuple[Under, int, float]
) -> None:
    under, foot, scale = place
    if under.limit_before is not None:
        row = int(foot - under.limit_before * scale)
        for x in range(plot.left, plot.left + plot.width, 3):
            if not canvas.sign(x, row):
                canvas.write(x, row, LEVEL, ink.alarm)
    if under.limit is None:
        return
    row = int(foot - under.limit * scale)
    for x in range(plot.left, plot.left + plot.width):
        if not canvas.sign(x, row):
            canvas.write(x, row, "╌", ink.alarm)
    canvas.write(0, row, under.limit_text[: plot.left - 1], ink.alarm)


def _line(
    canvas: Canvas, ink: Ink, plot: _Plot, place: tuple[Sequence[float], int, int]
) -> None:
    """A line of dots over the columns, where no column stands."""
    line, top, height = place
    highest = max(line, default=0.0)
    if highest <= 0:
        return
    for dot in range(2 * plot.width):
        minute = min(int(dot * plot.minutes / (2 * plot.width)), len(line) - 1)
        y = 4 * top + round((4 * height - 1) * (1 - LINE_PART * line[minute] / highest))
        canvas.dot(2 * plot.left + dot, y, ink.text)


def _axis(
    canvas: Canvas, ink: Ink, plot: _Plot, place: tuple[NightPicture, int]
) -> None:
    picture, y = place
    canvas.write(plot.left - 1, y, "└" + "─" * plot.width, ink.muted)
    _row(canvas, ink, plot, (picture.labels, y + 1))
    for minute, _ in picture.labels:
        canvas.write(min(int(plot.x(minute)), canvas.width - 1), y, "┴", ink.muted)
    for i, (name, texts) in enumerate(picture.under.rows):
        canvas.write(0, y + 2 + i, name, ink.muted)
        _row(canvas, ink, plot, (texts, y + 2 + i))


def _row(
    canvas: Canvas,
    ink: Ink,
    plot: _Plot,
    place: tuple[Sequence[tuple[float, str]], int],
) -> None:
    """Texts under their minutes; those that would touch are left out."""
    texts, y = place
    free = plot.left - 1
    for minute, text in texts:
        at = int(plot.x(minute)) - len(text) // 2
        at = min(max(plot.left - 1, at), canvas.width - len(text))
        if at >= free:
            canvas.write(at, y, text, ink.muted)
            free = at + len(text) + 1
