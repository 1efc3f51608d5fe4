"""Texts below each other to scroll through: all are counted, only the seen are made."""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from typing import Any

from rich._wrap import divide_line  # what Textual wraps by; it is pinned to one version
from rich.cells import cell_len
from rich.segment import Segment
from textual.content import Content
from textual.css.styles import RulesMap
from textual.geometry import Size
from textual.scroll_view import ScrollView
from textual.selection import Selection
from textual.strip import Strip
from textual.style import Style
from textual.visual import RenderOptions, Visual


@lru_cache(maxsize=4096)  # long findings of some hundred zones, in two widths
def _wrapped(line: str, width: int) -> int:
    return 1 + len(divide_line(line, width))


def _lines_of(line: str, width: int) -> int:
    """Lines of a text without line ends; one that fits is not wrapped to know it."""
    fits = len(line) <= width and (line.isascii() or cell_len(line) <= width)
    return 1 if fits else _wrapped(line, width)


def lines_of(text: str, width: int) -> int:
    """How many lines a text takes when it is wrapped at a width."""
    text = text.expandtabs(8) if "\t" in text else text  # as Textual does
    return sum(_lines_of(one, width) for one in text.split("\n"))


class Told(Visual):
    """A text of a few lines that is counted before it is seen, and made when it is."""

    def __init__(self, lines: tuple[str, ...], made: Callable[[], Content]) -> None:
        self._lines, self._made = lines, made

    def __str__(self) -> str:
        return "\n".join(self._lines)

    def get_optimal_width(self, rules: RulesMap, container_width: int) -> int:
        """Cells of the longest line."""
        del rules, container_width
        return max(map(cell_len, self._lines))

    def get_height(self, rules: RulesMap, width: int) -> int:
        """Lines at a width."""
        del rules
        return sum(lines_of(one, max(1, width)) for one in self._lines)

    def render_strips(
        self, width: int, height: int | None, style: Style, options: RenderOptions
    ) -> list[Strip]:
        """Make the text, and wrap it."""
        return self._made().render_strips(width, height, style, options)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A text, how far it is moved in, and how many free lines are below it."""

    text: Content
    indent: int = 0
    below: int = 0


class Sheet(ScrollView, can_focus=True):
    """Paragraphs that do not change; keys go from page to page at once."""

    DEFAULT_CSS = """
    Sheet { overflow-x: hidden; scrollbar-size-vertical: 1; }
    """

    def __init__(self, paragraphs: Sequence[Paragraph], *, id: str) -> None:  # noqa: A002, as widgets name it
        super().__init__(id=id)
        self._paragraphs = tuple(paragraphs)
        self._first = [0]  # line of each paragraph, and the end
        self._counted_for = 0
        self._made: dict[int, list[Strip]] = {}

    @property
    def text(self) -> str:
        """All that it says."""
        return "\n".join(
            one.text.plain + "\n" * one.below for one in self._paragraphs
        ).rstrip("\n")

    # --- how long it is -----------------------------------------------------
    def on_resize(self) -> None:
        self._count()

    def _count(self) -> None:
        """Find where each paragraph stands; anew for another width."""
        width = self.scrollable_content_region.width
        if width == self._counted_for or width < 1:
            return
        self._counted_for = width
        self._made.clear()
        heights = (
            lines_of(one.text.plain, max(1, width - one.indent)) + one.below
            for one in self._paragraphs
        )
        self._first = list(accumulate(heights, initial=0))
        self.virtual_size = Size(width, self._first[-1])

    # --- lines --------------------------------------------------------------
    def _line(self, y: int) -> Strip:
        """Make one line of the whole, its paragraph with it."""
        width = self._counted_for
        at = bisect_right(self._first, y) - 1
        if not 0 <= at < len(self._paragraphs):
            return Strip.blank(width, self.rich_style)
        if at not in self._made:
            one, style = self._paragraphs[at], self.visual_style
            room = max(1, width - one.indent)
            strips = Visual.to_strips(
                self, one.text, room, None, style, apply_selection=False, pad=True
            )
            margin = [Segment(" " * one.indent, style.rich_style)] * bool(one.indent)
            self._made[at] = [Strip([*margin, *strip]) for strip in strips]
        made, row = self._made[at], y - self._first[at]
        return made[row] if row < len(made) else Strip.blank(width, self.rich_style)

    def render_line(self, y: int) -> Strip:
        """Make one line that is seen, with what is marked by the mouse."""
        self._count()
        y += self.scroll_offset.y
        strip = self._line(y)
        span = self.text_selection and self.text_selection.get_span(y)
        if span:
            first, last = span[0], span[1] if span[1] >= 0 else strip.cell_length
            marked = self.screen.get_component_rich_style("screen--selection")
            mark = Strip(
                Segment.apply_style(strip.crop(first, last), post_style=marked)
            )
            strip = Strip.join([strip.crop(0, first), mark, strip.crop(last)])
        return strip.apply_offsets(0, y)

    def get_selection(self, selection: Selection) -> tuple[str, str] | None:
        """Text under the mark, in lines as they are seen."""
        lines = (self._line(y).text.rstrip() for y in range(self._first[-1]))
        return selection.extract("\n".join(lines)), "\n"

    def selection_updated(self, selection: Selection | None) -> None:
        del selection
        self.refresh()

    def notify_style_update(self) -> None:
        super().notify_style_update()
        self._made.clear()

    # --- keys ---------------------------------------------------------------
    def scroll_to(
        self, x: float | None = None, y: float | None = None, **how: Any
    ) -> None:
        """Scroll at once: gliding there paints every place on the way."""
        super().scroll_to(x, y, **{**how, "animate": False})

    def action_scroll_home(self) -> None:
        self.scroll_to(y=0)

    def action_scroll_end(self) -> None:
        self.scroll_to(y=self.max_scroll_y)
