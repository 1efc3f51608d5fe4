"""A grid of cells in three layers, and the chart widget that paints one.

Each cell keeps a background colour, a glyph with its colour and braille dots with
theirs; they are combined when a line is painted, so that a shaded area stays visible
behind what is drawn on it. Colours come from the theme, never from here.
"""

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from textwrap import wrap
from typing import Any

from rich.segment import Segment
from rich.style import Style
from textual.color import Color, ColorParseError
from textual.geometry import Size
from textual.strip import Strip
from textual.widget import Widget

from tui.themes import STARK_READABLE, contrast, luminance, readable_on
from tui.widgets.cells import by_cell, fitted

MUTED = 0.66  # part of the text's colour in what is said beside; less is hard to read
MIDDLE = 0.18  # luminance on which black and white are read equally well
KEPT = 3  # drawings of one picture in several sizes
SMALLEST = (30, 9)  # below these columns or rows a chart says it in words instead
UPWARD = " ▁▂▃▄▅▆▇█"
RIGHTWARD = " ▏▎▍▌▋▊▉█"
# dots of a braille cell: two columns of four, numbered as Unicode numbers them
_DOTS = ((0x01, 0x02, 0x04, 0x40), (0x08, 0x10, 0x20, 0x80))
_PLAIN = {
    "–": "-", "−": "-", "—": "-", "·": ".", "×": "x", "→": ">", "↓": "v", "▾": "v",
    "■": "#", "▲": "!", "│": "|", "┃": "|", "─": "-", "━": "=", "┬": "+", "┴": "+",
    "┤": "+", "├": "+", "◆": "*", "◇": "o", "□": "o", "△": "^", "▼": "v", "◄": "<",
    "←": "<", "↗": "/", "↘": "\\", "↙": "/", "↖": "\\", "⊕": "@", "▴": "^", "◦": "o",
    "└": "+", "╌": "-", "┄": "-", "░": ":", "▒": "%", "÷": "/", "°": "d", "²": "2",
    "³": "3", "…": ".", "≈": "~", "≤": "<", "≥": ">", "▸": ">", "●": "*", "○": "o",
    "▏": "|", "▎": "|", "▍": "|", "▌": "|", "▕": "|", "½": "~", "“": '"', "”": '"',
    "‘": "'", "’": "'", "►": ">", "¼": "~", "✖": "X", "↑": "^", "ø": "o", "⁻": "-",
    "›": ">", "\u00a0": " ", "┷": "+", "╱": "/", "✔": "v",
    "⏎": "<", "⇧": "^", "µ": "u", "¾": "~", "⅓": "~", "⅔": "~", "⅛": "~", "⅜": "~",
    "⅝": "~", "⅞": "~", "↵": "<", "⌫": "<", "⇥": ">", "•": ".", "±": "~",
}  # fmt: skip


def ascii_only(environ: Mapping[str, str] | None = None) -> bool:
    """Whether this terminal gets plain ASCII: asked for, or a bare console."""
    env = os.environ if environ is None else environ
    return env.get("LOWQUARTER_ASCII", "") == "1" or env.get("TERM") == "linux"


def plain(text: str) -> str:
    """Write a text in ASCII, one character for each of its own."""
    if text.isascii():
        return text
    return "".join(_plain_glyph(one) for one in text)


def _plain_glyph(glyph: str) -> str:
    if glyph.isascii():
        return glyph
    if glyph in _PLAIN:
        return _PLAIN[glyph]
    if "\u2580" <= glyph <= "\u259f":  # block elements of any size
        return "#"
    return " " if glyph == "\u2800" else "*" if "\u2800" < glyph <= "\u28ff" else "?"


@dataclass(frozen=True, slots=True)
class Ink:
    """The theme's colours a chart draws with, as `#rrggbb`."""

    text: str
    muted: str
    accent: str
    pale: str
    alarm: str
    veil: str = ""  # a shade without the accent; empty means none is known
    mist: str = ""  # a lighter veil, for wide areas
    surface: str = ""  # what lies behind the chart
    is_stark: bool = False  # shades keep away from the middle, where no word is read

    @classmethod
    def of_theme(cls, variables: Mapping[str, str], surface: Color) -> "Ink":
        """Take the colours from theme variables and the surface behind the chart."""
        text = Color.parse(variables.get("foreground", "white"))
        accent = Color.parse(variables.get("primary", "blue"))
        alarm = _readable(variables, "text-warning", "warning")
        return cls(
            text=_hex(text),
            muted=_hex(surface.blend(text, MUTED)),
            accent=_hex(accent),
            pale=_hex(surface.blend(accent, 0.18)),
            alarm=_hex(alarm),
            veil=_hex(surface.blend(text, 0.14)),
            mist=_hex(surface.blend(text, 0.07)),
            surface=_hex(surface),
            is_stark="stark" in variables,
        )

    def shade(self, part: float) -> str:
        """Colour between pale (0) and accent (1)."""
        return _shade((self.pale, self.accent), part, self.is_stark)

    @staticmethod
    def on(background: str) -> str:
        """Colour of text that can be read on a background."""
        return _on(background)


@lru_cache(maxsize=1024)  # a theme and its shades
def _shade(ends: tuple[str, str], part: float, is_stark: bool) -> str:
    low, high = (Color.parse(one) for one in ends)
    mixed = low.blend(high, min(1.0, max(0.0, part)))
    step = 0.02 if luminance(mixed) > MIDDLE else -0.02
    while is_stark and 0.0 < part < 1.0 and not _carries_words(mixed):
        part += step
        mixed = low.blend(high, min(1.0, max(0.0, part)))
    return _hex(mixed)


@lru_cache(maxsize=1024)
def _on(background: str) -> str:
    return _hex(readable_on(Color.parse(background)))


def _carries_words(colour: Color) -> bool:
    return contrast(readable_on(colour), colour) >= STARK_READABLE


def _readable(variables: Mapping[str, str], *names: str) -> Color:
    """First of these variables that is a colour by itself."""
    for name in names:
        try:
            return Color.parse(variables[name])
        except (KeyError, ColorParseError):
            continue  # some themes say "auto" where others name a colour
    return Color.parse("yellow")


def _hex(colour: Color) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour.rgb)


@lru_cache(maxsize=1024)  # a theme and its shades
def _style(ink: str, back: str) -> Style:
    return Style(color=ink or None, bgcolor=back or None)


class Canvas:
    """Cells of one chart; everything outside the edges is dropped."""

    def __init__(self, width: int, height: int, *, is_ascii: bool = False) -> None:
        self.width = width
        self.height = height
        self.is_ascii = is_ascii
        self._back: list[list[str]] = [[""] * width for _ in range(height)]
        self._glyph: list[list[tuple[str, str]]] = [
            [("", "")] * width for _ in range(height)
        ]
        self._dots: list[list[tuple[int, str]]] = [
            [(0, "")] * width for _ in range(height)
        ]

    def _has(self, x: int, y: int) -> bool:
        return 0 <= x < self.width and 0 <= y < self.height

    def fill(self, x: int, y: int, size: tuple[int, int], colour: str) -> None:
        """Shade a block of cells; whatever stands on it stays."""
        first, end = max(x, 0), min(x + size[0], self.width)
        if first < end:
            cells = [colour] * (end - first)
            for row in range(max(y, 0), min(y + size[1], self.height)):
                self._back[row][first:end] = cells

    def write(self, x: int, y: int, text: str, colour: str) -> None:
        """Write a text from a cell to the right; words that are cut say so."""
        if not 0 <= y < self.height:
            return
        row, width = self._glyph[y], self.width
        cells = text if text.isascii() else by_cell(text)
        if x >= 0 and any(map(str.isalnum, cells[max(0, width - x) :])):
            cells = by_cell(fitted(text, width - x))
        for at, glyph in enumerate(cells, x):
            if 0 <= at < width:
                row[at] = (glyph, colour)

    def clear(self, y: int, cells: range, signs: str, colour: str) -> None:
        """Write a space over those cells of a row that show one of some signs."""
        if 0 <= y < self.height:
            row = self._glyph[y]
            for x in range(max(cells.start, 0), min(cells.stop, self.width)):
                sign = row[x][0]
                if sign and sign in signs:
                    row[x] = (" ", colour)

    def write_lines(self, lines: Sequence[str], colour: str) -> None:
        """Write texts below each other, wrapped at the right edge."""
        whole = [part for line in lines for part in wrap(line, max(8, self.width))]
        for y, line in enumerate(whole):
            self.write(0, y, line, colour)

    def dot(self, x: int, y: int, colour: str) -> None:
        """Set one braille dot; a cell is two dots wide and four high."""
        column, row = x // 2, y // 4
        if self._has(column, row):
            bits = self._dots[row][column][0] | _DOTS[x % 2][y % 4]
            self._dots[row][column] = (bits, colour)

    def dotted_row(self, x: int, y: float, width: int, colour: str) -> None:
        """Draw a dotted line across cells at a height in cells from the top."""
        row = min(4 * self.height - 1, max(0, round(4 * y)))
        for dot in range(2 * x, 2 * (x + width), 2):
            self.dot(dot, row, colour)

    def dotted_column(self, x: int, y: int, height: int, colour: str) -> None:
        """Draw a dotted line down a column of cells."""
        for dot in range(4 * y, 4 * (y + height), 2):
            self.dot(2 * x, dot, colour)

    def back(self, x: int, y: int) -> str:
        """Colour behind one cell; empty where nothing is shaded."""
        return self._back[y][x] if self._has(x, y) else ""

    def bar_right(self, x: int, y: int, length: float, colour: str) -> int:
        """Draw a bar to the right, in eighths of a cell; at least one eighth.

        Returns the number of cells it touches.
        """
        eighths = max(1, round(8 * length))
        whole, rest = divmod(eighths, 8)
        if self.is_ascii:
            whole, rest = max(1, round(length)), 0
        self.write(x, y, "█" * whole, colour)
        if rest:
            self.write(x + whole, y, RIGHTWARD[rest], colour)
        return whole + (rest > 0)

    def span(
        self, y: int, ends: tuple[float, float], colour: str, *, surface: str = ""
    ) -> tuple[int, int]:
        """Draw a bar between two places of a row, in eighths; at least one eighth.

        Returns the first cell that it fills, and how many.
        """
        a = round(8 * ends[0])
        b = max(round(8 * ends[1]), a + 1)
        if self.is_ascii:
            first = a // 8
            many = max(1, round(b / 8) - first)
            self.write(first, y, "█" * many, colour)
            return first, many
        first, begun, last, rest = a >> 3, a & 7, b >> 3, b & 7
        whole = first + (begun > 0)
        if not 0 <= y < self.height:
            return whole, max(0, last - whole)
        glyphs, backs, width = self._glyph[y], self._back[y], self.width
        if begun and 0 <= first < width and (first < last or begun >= 4):
            # glyphs grow from the left: what lies before the bar is drawn on it, or
            # the end of the bar before stays
            if not glyphs[first][0].strip():
                glyphs[first] = (RIGHTWARD[begun], backs[first] or surface)
            backs[first] = colour
        full = ("█", colour)
        for x in range(max(whole, 0), min(last, width)):
            glyphs[x], backs[x] = full, colour
        if rest and 0 <= last < width and (first < last or begun < 4):
            glyphs[last] = (RIGHTWARD[rest], colour)
        return whole, max(0, last - whole)

    def bar_up(self, x: int, bottom: int, size: tuple[int, float], colour: str) -> int:
        """Draw a bar of a width upward from a row; at least one eighth of a cell.

        Returns the number of rows it touches.
        """
        width, height = size
        eighths = max(1, round(8 * height))
        whole, rest = divmod(eighths, 8)
        if self.is_ascii:
            whole, rest = max(1, round(height)), 0
        for row in range(whole):
            self.write(x, bottom - row, "█" * width, colour)
        if rest:
            self.write(x, bottom - whole, UPWARD[rest] * width, colour)
        return whole + (rest > 0)

    def sign(self, x: int, y: int) -> str:
        """What was written on one cell; empty where there are at most dots."""
        return self._glyph[y][x][0].strip() if self._has(x, y) else ""

    def glyph(self, x: int, y: int) -> str:
        """Return what one cell shows."""
        sign, dots = self._glyph[y][x][0], self._dots[y][x][0]
        if not sign or (sign == " " and dots):
            sign = chr(0x2800 + dots) if dots else " "
        return plain(sign) if self.is_ascii else sign

    def mark(self, x: int, y: int) -> tuple[str, str]:
        """What stands on one cell and its colour; both empty where nothing does."""
        sign, ink = self._glyph[y][x]
        dots, dot_ink = self._dots[y][x]
        if dots and sign in ("", " "):
            return chr(0x2800 + dots), dot_ink
        return sign, ink

    def line(self, y: int) -> str:
        """Text of one row."""
        return "".join(self.glyph(x, y) for x in range(self.width))

    def text(self) -> str:
        """Text of all rows."""
        return "\n".join(self.line(y) for y in range(self.height))

    def strip(self, y: int) -> Strip:
        """One row as Textual paints it."""
        if not 0 <= y < self.height:
            return Strip.blank(self.width)
        parts: list[Segment] = []
        signs, colours = "", ("", "")
        for x in range(self.width):
            sign, ink = self._glyph[y][x]
            if not sign or (sign == " " and self._dots[y][x][0]):
                ink = self._dots[y][x][1]
            here = (ink, self._back[y][x])
            if signs and here != colours:
                parts.append(Segment(signs, _style(*colours)))
                signs = ""
            signs, colours = signs + self.glyph(x, y), here
        parts.append(Segment(signs, _style(*colours)))
        return Strip(parts, self.width)


class Chart(Widget):
    """A widget that paints one canvas; subclasses draw, and say it in words."""

    DEFAULT_CSS = """
    Chart { width: 1fr; height: 1fr; }
    """

    nothing = ""  # why there is no picture

    def __init__(self) -> None:
        super().__init__()
        # by size: lines below come and go, and the picture stays as it was
        self._painted: dict[Size, Canvas] = {}
        self.is_in_words = False

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        """Draw on an empty canvas of the widget's size."""
        raise NotImplementedError

    def words(self) -> Sequence[str]:
        """Say the same as lines of text, for when there is no room."""
        raise NotImplementedError

    def on_mount(self) -> None:
        self.app.theme_changed_signal.subscribe(self, self._repaint)

    def on_unmount(self) -> None:
        # else the signal holds the chart, and with it a screen that was left
        self.app.theme_changed_signal.unsubscribe(self)

    def say_in_words(self, is_asked: bool) -> None:
        """Show lines of text instead of the picture, or the picture again."""
        self.is_in_words = is_asked
        self._repaint()

    def _repaint(self, _: Any = None) -> None:
        self._painted.clear()
        self.refresh()

    def painted(self, width: int, height: int, ink: Ink) -> Canvas:
        """Canvas of that size: the drawing, or the words where it has no room."""
        canvas = Canvas(width, height, is_ascii=ascii_only())
        roomy = width >= SMALLEST[0] and height >= SMALLEST[1]
        if roomy and not self.is_in_words:
            self.draw(canvas, ink)
            return canvas
        canvas.write_lines(self.words(), ink.text)
        return canvas

    def drawn_on(self, width: int, height: int, ink: Ink) -> Canvas:
        """Drawing of that size for paper, whatever the screen shows now."""
        canvas = Canvas(width, height)
        self.draw(canvas, ink)
        return canvas

    def render_line(self, y: int) -> Strip:
        canvas = self._painted.get(self.size)
        if canvas is None:
            surface = self.background_colors[1]
            ink = Ink.of_theme(self.app.theme_variables, surface)
            canvas = self.painted(self.size.width, self.size.height, ink)
            self._painted[self.size] = canvas
            while len(self._painted) > KEPT:
                del self._painted[next(iter(self._painted))]
        return canvas.strip(y).apply_style(self.rich_style)
