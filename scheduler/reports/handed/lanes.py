"""One night's runs by the minute in; a drawing, or the same in characters, out.

A lane a zone, hours across, flow against the pump below. A run is never narrower than
can be seen. Black, white and hatching only, so that any printer shows it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape

# Millimetres on paper.
WIDE, LEFT, RIGHT = 186.0, 28.0, 3.0
HEAD, LANE, BAR, FLOW, GAP = 5.5, 6.2, 4.6, 17.0, 3.0
LETTER, LEAST_BAR = 3.6, 0.9
# width of a letter over its height, on the safe side
LETTER_WIDE = 0.58
# Characters.
COLUMNS = 80
STEPS_MIN = (1, 2, 3, 5, 6, 10, 12, 15, 20, 30)
HOUR = 60
DAY = 24 * HOUR


@dataclass(frozen=True, slots=True)
class Lane:
    """A zone's runs: first and last minute of each, counted from the night's start."""

    name: str
    runs: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Step:
    """Minutes with one flow. [l_per_min]."""

    start: int
    end: int
    flow: float


@dataclass(frozen=True, slots=True)
class Band:
    """Minutes that are blocked for some zones or all, or have their energy price."""

    start: int
    end: int
    is_blocked: bool
    zones: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Night:
    """What is drawn.

    Attributes
    ----------
    begins : int
        Minute of the day at which the night begins.
    minutes : int
        How long it is.
    lanes, steps, bands : tuple
        Zones, flow and hours of note.
    pump : float or None
        What the pump gives. [l_per_min]
    peak : float
        Highest flow. [l_per_min]
    pump_text, peak_text : str
        The two as written.
    """

    begins: int
    minutes: int
    lanes: tuple[Lane, ...]
    steps: tuple[Step, ...]
    bands: tuple[Band, ...]
    pump: float | None
    peak: float
    pump_text: str
    peak_text: str


def clock(night: Night, minute: int) -> str:
    """A minute of the night on the clock.

    Examples
    --------
    >>> clock(Night(1320, 390, (), (), (), None, 0.0, "", ""), 125)
    '00:05'
    """
    at = (night.begins + minute) % DAY
    return f"{at // HOUR:02d}:{at % HOUR:02d}"


def hours(night: Night) -> list[int]:
    """Minutes of the night at which an hour begins."""
    first = -night.begins % HOUR
    return list(range(first, night.minutes + 1, HOUR))


# --- the drawing -------------------------------------------------------------


def lanes_svg(night: Night, name: str) -> str:
    """The night as a drawing; `name` keeps its patterns apart from other drawings'."""
    top, foot = HEAD, HEAD + LANE * len(night.lanes)
    high = foot + GAP + FLOW + 1.0
    parts = [
        f'<svg viewBox="0 0 {WIDE:g} {high:.1f}" role="img" '
        f'aria-label="{escape(spoken(night))}">',
        f'<defs><pattern id="{escape(name)}" width="1.6" height="1.6" '
        'patternUnits="userSpaceOnUse" patternTransform="rotate(45)">'
        '<path d="M0 0v1.6" stroke="black" stroke-width="0.5"/></pattern></defs>',
        *_hour_lines(night, top, high - 1.0),
        *_bands(night, name),
        *(line for i, one in enumerate(night.lanes) for line in _lane(night, i, one)),
        _line(LEFT, foot, WIDE - RIGHT, foot),
        *_flow(night, foot + GAP),
        "</svg>",
    ]
    return "\n".join(parts)


def spoken(night: Night) -> str:
    """The same in words, for the ear."""
    each = (
        f"{lane.name} "
        + ", ".join(f"{clock(night, a)} to {clock(night, b)}" for a, b in lane.runs)
        for lane in night.lanes
    )
    return f"{'; '.join(each)}. Highest flow {night.peak_text}."


def _x(night: Night, minute: float) -> float:
    return LEFT + (WIDE - LEFT - RIGHT) * minute / max(night.minutes, 1)


def _line(x1: float, y1: float, x2: float, y2: float, more: str = "") -> str:
    return (
        f'<path d="M{x1:.2f} {y1:.2f}L{x2:.2f} {y2:.2f}" stroke="black" '
        f'stroke-width="0.25" fill="none"{more}/>'
    )


def _text(x: float, y: float, text: str, more: str = "") -> str:
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{LETTER:g}"{more}>'
        f"{escape(text)}</text>"
    )


def _wide(text: str) -> float:
    return len(text) * LETTER * LETTER_WIDE


def _hour_lines(night: Night, top: float, foot: float) -> Iterator[str]:
    last = LEFT
    for minute in hours(night):
        x = _x(night, minute)
        yield _line(x, top - 0.8, x, foot, ' stroke-dasharray="0.4 0.8"')
        label = clock(night, minute)
        at = min(x, WIDE - _wide(label) / 2)
        if at - _wide(label) / 2 >= last or minute == hours(night)[0]:
            yield _text(at, top - 1.6, label, ' text-anchor="middle"')
            last = at + _wide(label) / 2


def _bands(night: Night, name: str) -> Iterator[str]:
    for band in night.bands:
        start, end = max(band.start, 0), min(band.end, night.minutes)
        if start >= end:
            continue
        x, wide = _x(night, start), _x(night, end) - _x(night, start)
        if not band.is_blocked:
            y = HEAD - 0.9
            yield (
                f'<rect x="{x:.2f}" y="{y:.2f}" width="{wide:.2f}" height="0.9" '
                'fill="black"/>'
            )
            continue
        named = {one.casefold() for one in band.zones}
        for i, lane in enumerate(night.lanes):
            if not named or lane.name.casefold() in named:
                yield (
                    f'<rect x="{x:.2f}" y="{HEAD + LANE * i:.2f}" width="{wide:.2f}" '
                    f'height="{LANE:g}" fill="url(#{escape(name)})"/>'
                )


def _lane(night: Night, i: int, lane: Lane) -> Iterator[str]:
    y = HEAD + LANE * i
    yield _line(0, y, WIDE - RIGHT, y)
    letters = int(LEFT / (LETTER * LETTER_WIDE))
    yield _text(0.5, y + LANE - 1.7, lane.name[:letters], ' font-weight="bold"')
    for start, end in lane.runs:
        x = _x(night, start)
        wide = max(_x(night, end) - x, LEAST_BAR)
        yield (
            f'<rect class="run" x="{x:.2f}" y="{y + (LANE - BAR) / 2:.2f}" '
            f'width="{wide:.2f}" height="{BAR:g}" fill="black"/>'
        )
        label = clock(night, start)
        place = _label_place(night, lane, (x, wide), start, label)
        if place is not None:
            at, fill = place
            yield _text(at, y + LANE - 1.8, label, f' fill="{fill}"')


def _label_place(
    night: Night, lane: Lane, bar: tuple[float, float], start: int, label: str
) -> tuple[float, str] | None:
    """Inside the bar, else right or left of it, where others leave room; else none."""
    x, wide = bar
    if wide >= _wide(label) + 1:
        return x + 0.5, "white"
    after = [_x(night, one) for one, _ in lane.runs if one > start]
    room = min(after, default=WIDE) - (x + wide)
    if room >= _wide(label) + 1:
        return x + wide + 0.5, "black"
    before = [_x(night, one) for _, one in lane.runs if one <= start]
    left = x - _wide(label) - 0.5
    # the run before may have its own label behind it
    return (left, "black") if left >= max(before, default=LEFT) + 12 else None


def _flow(night: Night, top: float) -> Iterator[str]:
    """Flow as steps with the pump above them."""
    most = max(night.peak, night.pump or 0.0) * 1.12 or 1.0
    foot = top + FLOW

    def y(flow: float) -> float:
        return foot - FLOW * flow / most

    yield _text(0.5, top + 3.5, "flow", ' font-weight="bold"')
    yield _text(0.5, top + 7.5, night.peak_text)
    for one in night.steps:
        x, wide = _x(night, one.start), _x(night, one.end) - _x(night, one.start)
        yield (
            f'<rect x="{x:.2f}" y="{y(one.flow):.2f}" width="{wide:.2f}" '
            f'height="{foot - y(one.flow):.2f}" fill="#c8c8c8" stroke="black" '
            'stroke-width="0.25"/>'
        )
    yield _line(LEFT, foot, WIDE - RIGHT, foot)
    if night.pump:
        level = y(night.pump)
        yield _line(LEFT, level, WIDE - RIGHT, level, ' stroke-dasharray="2 1"')
        yield _text(0.5, top + 12.0, "of the pump's")
        yield _text(0.5, top + 16.0, night.pump_text)


# --- the same in characters --------------------------------------------------


def lanes_text(night: Night) -> list[str]:
    """Lanes in characters: # water, x blocked; every run has one # at least."""
    left = max([4, *(len(one.name) for one in night.lanes)]) + 1
    room = COLUMNS - left
    step = next((s for s in STEPS_MIN if night.minutes / s <= room), 60)
    n_cells = -(-night.minutes // step)
    head = [" "] * (n_cells + 5)
    for minute in hours(night):
        at = minute // step
        if at + 5 <= room and not any(c != " " for c in head[max(0, at - 1) : at + 5]):
            head[at : at + 5] = clock(night, minute)
    lines = [(" " * left + "".join(head)).rstrip()]
    for lane in night.lanes:
        cells = ["."] * n_cells
        for band in night.bands:
            names = {one.casefold() for one in band.zones}
            if band.is_blocked and (not names or lane.name.casefold() in names):
                _fill(cells, (max(band.start, 0), band.end), step, "x")
        for run in lane.runs:
            _fill(cells, run, step, "#")
        lines.append(lane.name.ljust(left) + "".join(cells))
    each = "1 minute" if step == 1 else f"{step} minutes"
    lines.append(f"{' ' * left}one character is {each}; # water, x blocked")
    return lines


def _fill(cells: list[str], run: tuple[int, int], step: int, mark: str) -> None:
    if run[1] <= run[0]:
        return
    first, last = run[0] // step, max(-(-run[1] // step), run[0] // step + 1)
    for i in range(first, min(last, len(cells))):
        cells[i] = mark
