"""Lines, boxes and words in, one small black and white SVG out.

A drawing is as wide as the text of a printed page, one point a unit, so that a size of
11 prints as 11 points. It uses no colour, no identifiers (several drawings stand
in one page) and nothing from outside.
"""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape, quoteattr

from scheduler.reports.paper import Picture, Table, plain

# Width of the text on a page, 186 mm, in points.
WIDTH = 527.0
SIZE = 11.0
SMALL = 10.0
# Narrower than this a printer may lose it.
LEAST = 1.5
HATCH_STEP = 4.5
# Mean width of a letter over its size; a little more than most fonts need.
LETTER = 0.58
# Greys that a poor printer still tells apart, and black text on them is read.
LIGHT, MIDDLE = "#e4e4e4", "#b8b8b8"

Point = tuple[float, float]


def text_width(text: str, size: float = SIZE) -> float:
    """About how wide a text prints."""
    return len(text) * size * LETTER


def _n(value: float) -> str:
    """A coordinate, two digits at most, never in scientific form."""
    return f"{round(value, 2) + 0.0:.2f}".rstrip("0").rstrip(".")


class Drawing:
    """One SVG that grows part by part; y runs down the page."""

    def __init__(self, height: float, width: float = WIDTH) -> None:
        self.width, self.height = width, height
        self._parts: list[str] = []

    def _add(self, tag: str, rest: str = "", **numbers: float) -> None:
        at = " ".join(f'{name}="{_n(value)}"' for name, value in numbers.items())
        self._parts.append(f"<{tag} {at}{' ' + rest if rest else ''}/>")

    def line(
        self, one: Point, other: Point, weight: float = 1.0, dash: str = ""
    ) -> None:
        """A straight line; `dash` such as `4 3` breaks it."""
        rest = f'stroke="black" stroke-width="{_n(weight)}"'
        rest += f' stroke-dasharray="{dash}"' if dash else ""
        self._add("line", rest, x1=one[0], y1=one[1], x2=other[0], y2=other[1])

    def path(
        self, points: Sequence[Point], weight: float = 1.0, dash: str = ""
    ) -> None:
        """A line through points."""
        at = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
        rest = f' stroke-dasharray="{dash}"' if dash else ""
        self._parts.append(
            f'<polyline points="{at}" fill="none" stroke="black" '
            f'stroke-width="{_n(weight)}"{rest}/>'
        )

    def area(self, points: Sequence[Point], fill: str = LIGHT) -> None:
        """A filled shape without an edge."""
        at = " ".join(f"{_n(x)},{_n(y)}" for x, y in points)
        self._parts.append(f'<polygon points="{at}" fill="{fill}" stroke="none"/>')

    def rect(
        self,
        corner: Point,
        size: Point,
        fill: str = "white",
        weight: float = 1.0,
    ) -> None:
        """A rectangle; one that is too thin to print is drawn as thin as prints."""
        width, height = max(LEAST, size[0]), max(LEAST, size[1])
        rest = f'fill="{fill}" stroke="black" stroke-width="{_n(weight)}"'
        self._add("rect", rest, x=corner[0], y=corner[1], width=width, height=height)

    def hatched(self, corner: Point, size: Point, weight: float = 1.0) -> None:
        """A rectangle of slanting lines."""
        x, y = corner
        width, height = max(LEAST, size[0]), max(LEAST, size[1])
        self.rect(corner, size, "white", 0)
        at = HATCH_STEP
        while at < width + height:
            # the line x + y = at, cut at the edges
            left, right = max(0.0, at - height), min(width, at)
            self.line((x + left, y + at - left), (x + right, y + at - right), 0.6)
            at += HATCH_STEP
        self.rect(corner, size, "none", weight)

    def circle(self, centre: Point, radius: float, fill: str = "white") -> None:
        """A circle with a black edge."""
        rest = f'fill="{fill}" stroke="black" stroke-width="1"'
        self._add("circle", rest, cx=centre[0], cy=centre[1], r=radius)

    def text(
        self,
        at: Point,
        text: str,
        size: float = SIZE,
        anchor: str = "start",
        *,
        is_bold: bool = False,
    ) -> None:
        """Words on one line; `anchor` is `start`, `middle` or `end`."""
        weight = ' font-weight="bold"' if is_bold else ""
        self._parts.append(
            f'<text x="{_n(at[0])}" y="{_n(at[1])}" font-size="{_n(size)}" '
            f'text-anchor="{anchor}"{weight}>{escape(plain(text))}</text>'
        )

    def label(
        self,
        at: Point,
        text: str,
        size: float = SMALL,
        *,
        is_bold: bool = False,
    ) -> None:
        """Words about a middle on white ground, so that nothing runs through them."""
        half, base = text_width(text, size) / 2 + 1, at[1]
        left, right, top = at[0] - half, at[0] + half, base - size + 1
        self.area(
            ((left, top), (right, top), (right, base + 2), (left, base + 2)), "white"
        )
        self.text(at, text, size, "middle", is_bold=is_bold)

    def svg(self, title: str, says: str) -> str:
        """The whole drawing, with its name and what it says to those who cannot see."""
        name = quoteattr(plain(title))
        body = "\n".join(self._parts)
        return (
            '<svg xmlns="http://www.w3.org/2000/svg" '
            f'viewBox="0 0 {_n(self.width)} {_n(self.height)}" '
            f'role="img" aria-label={name} font-family="sans-serif" fill="black">\n'
            f"<title>{escape(plain(title))}</title>\n"
            f"<desc>{escape(plain(says))}</desc>\n{body}\n</svg>"
        )

    def picture(
        self, title: str, says: str, tables: tuple[Table, ...], how: str = ""
    ) -> Picture:
        """The drawing as a part of paper, with its words and tables."""
        svg = self.svg(title, f"{says} {how}".strip())
        return Picture(title, says, svg, tables, how, self.height)


def fitted(text: str, room: float, size: float = SIZE) -> str:
    """A text that fits a width; an ellipsis says that there is more."""
    most = max(1, int(room / (size * LETTER)))
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"
