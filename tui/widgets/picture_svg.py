"""The cells of a picture in, a drawing of lines, areas and words out (SVG).

A bar becomes a rectangle, a braille dot a disc, a rule a line, and only words stay
words, in whatever even-spaced font there is: nothing is fetched from elsewhere. The
picture in words lies inside, for those who have it read out.
"""

from collections.abc import Sequence
from html import escape

from tui.widgets.canvas import RIGHTWARD, UPWARD, Canvas, Ink

WIDE, HIGH = 8.0, 16.0  # of a cell
MARGIN, TITLE = 16.0, 28.0
# white paper: a dark ink, one accent, and shades of it that stay readable
PAPER = Ink(
    text="#111111",
    muted="#4a4a4a",
    accent="#1f5f99",
    pale="#dbe8f4",
    alarm="#9a4a00",
    veil="#e2e2e2",
    mist="#f0f0f0",
    surface="#ffffff",
)
# ends of the strokes of a line glyph, in halves of a cell from its middle
_STROKES: dict[str, tuple[tuple[int, int], ...]] = {
    "│": ((0, -1), (0, 1)), "┃": ((0, -1), (0, 1)), "─": ((-1, 0), (1, 0)),
    "━": ((-1, 0), (1, 0)), "╌": ((-1, 0), (1, 0)), "┄": ((-1, 0), (1, 0)),
    "┬": ((-1, 0), (1, 0), (0, 1)), "┴": ((-1, 0), (1, 0), (0, -1)),
    "┤": ((-1, 0), (0, -1), (0, 1)), "├": ((1, 0), (0, -1), (0, 1)),
    "└": ((1, 0), (0, -1)), "┷": ((-1, 0), (1, 0), (0, -1)),
    "╱": ((-1, 1), (1, -1)),
}  # fmt: skip
_HEAVY = "┃━"
_DASHED = "╌┄"


def picture_svg(canvas: Canvas, title: str, words: Sequence[str]) -> str:
    """A drawing by itself, on white paper."""
    width = 2 * MARGIN + canvas.width * WIDE
    height = 2 * MARGIN + TITLE + canvas.height * HIGH
    said = " ".join(line.strip() for line in words)
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" '
        f'viewBox="0 0 {width:g} {height:g}" width="{width:g}" height="{height:g}">',
        f"<title>{_safe(title)}</title>",
        f"<desc>{_safe(said)}</desc>",
        f'<rect width="{width:g}" height="{height:g}" fill="#ffffff"/>',
        f'<text x="{MARGIN:g}" y="{MARGIN + 14:g}" font-family="sans-serif" '
        f'font-size="15" font-weight="bold" fill="{PAPER.text}">{_safe(title)}</text>',
        f'<g transform="translate({MARGIN:g} {MARGIN + TITLE:g})" '
        f'font-family="monospace" font-size="13">',
    ]
    for y in range(canvas.height):
        parts += _grounds(canvas, y)
    for y in range(canvas.height):
        parts += _marks(canvas, y)
    return "\n".join([*filter(None, parts), "</g>", "</svg>", ""])


def _safe(text: str) -> str:
    return escape("".join(one for one in text if one >= " "))


def _grounds(canvas: Canvas, y: int) -> list[str]:
    """Shaded cells of a row, those beside each other as one area."""
    parts, start = [], 0
    for x in range(1, canvas.width + 1):
        colour = canvas.back(start, y)
        if x < canvas.width and canvas.back(x, y) == colour:
            continue
        if colour:
            parts.append(_area(start, y, (x - start, 1.0), colour))
        start = x
    return parts


def _area(x: float, y: float, size: tuple[float, float], colour: str) -> str:
    wide, high = size
    return (
        f'<rect x="{x * WIDE:g}" y="{y * HIGH:g}" width="{wide * WIDE:g}" '
        f'height="{high * HIGH:g}" fill="{colour}"/>'
    )


def _marks(canvas: Canvas, y: int) -> list[str]:
    """What stands on the cells of a row: words in one piece, the rest cell by cell."""
    parts: list[str] = []
    word, begin, ink = "", 0, ""
    for x in range(canvas.width + 1):
        glyph, colour = canvas.mark(x, y) if x < canvas.width else ("", "")
        is_text = bool(glyph) and not _is_drawn(glyph)
        if word and (not is_text or colour != ink):
            parts.append(_text(begin, y, word, ink))
            word = ""
        if is_text:
            if not word:
                begin, ink = x, colour
            word += glyph
        elif glyph:
            parts += _drawn(x, y, glyph, colour)
    return parts


def _is_drawn(glyph: str) -> bool:
    return (
        glyph in _STROKES
        or "\u2580" <= glyph <= "\u259f"
        or "\u2800" <= glyph <= "\u28ff"
    )


def _text(x: int, y: int, text: str, colour: str) -> str:
    if not text.strip():
        return ""
    return (
        f'<text x="{x * WIDE:g}" y="{(y + 0.75) * HIGH:g}" fill="{colour}" '
        f'textLength="{len(text) * WIDE:g}" lengthAdjust="spacingAndGlyphs" '
        f'xml:space="preserve">{escape(text)}</text>'
    )


def _drawn(x: int, y: int, glyph: str, colour: str) -> list[str]:
    if glyph in _STROKES:
        return [_strokes(x, y, glyph, colour)]
    if glyph >= "\u2800":
        return _dots(x, y, ord(glyph) - 0x2800, colour)
    if glyph in UPWARD:
        part = UPWARD.index(glyph) / 8
        return [_area(x, y + 1 - part, (1.0, part), colour)]
    if glyph in RIGHTWARD:
        return [_area(x, y, (RIGHTWARD.index(glyph) / 8, 1.0), colour)]
    if glyph in "░▒▓":  # hatched: the share of the cell that is inked
        part = 0.25 * (1 + "░▒▓".index(glyph))
        return [_area(x, y, (1.0, 1.0), f'{colour}" fill-opacity="{part:g}')]
    return [_area(x + 7 / 8, y, (1 / 8, 1.0), colour)]  # a rule at the right edge


def _dots(x: int, y: int, bits: int, colour: str) -> list[str]:
    places = ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80))
    return [
        f'<circle cx="{(x + 0.25 + 0.5 * i) * WIDE:g}" '
        f'cy="{(y + 0.125 + 0.25 * j) * HIGH:g}" r="1.5" fill="{colour}"/>'
        for i, column in enumerate(places)
        for j, bit in enumerate(column)
        if bits & bit
    ]


def _strokes(x: int, y: int, glyph: str, colour: str) -> str:
    middle = ((x + 0.5) * WIDE, (y + 0.5) * HIGH)
    path = " ".join(
        f"M{middle[0]:g} {middle[1]:g}L{middle[0] + across * WIDE / 2:g} "
        f"{middle[1] + down * HIGH / 2:g}"
        for across, down in _STROKES[glyph]
    )
    heavy = 2 if glyph in _HEAVY else 1
    dashes = ' stroke-dasharray="2 2"' if glyph in _DASHED else ""
    return (
        f'<path d="{path}" stroke="{colour}" stroke-width="{heavy}" fill="none"'
        f"{dashes}/>"
    )
