"""Painted lines in, the same in plain ASCII out."""

from rich.segment import Segment
from textual.color import Color
from textual.filter import LineFilter

from tui.themes import STARK, StarkFilter
from tui.widgets.canvas import ascii_only, plain


class AsciiFilter(LineFilter):
    """Writes every line in plain ASCII, for consoles without other glyphs."""

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        del background  # glyphs are changed, colours stay
        return [Segment(plain(one.text), one.style, one.control) for one in segments]


def face_filters(theme: str) -> list[LineFilter]:
    """Filters of every painted line: what a face or a console asks for."""
    own: list[LineFilter] = [StarkFilter()] if theme == STARK else []
    return [*own, AsciiFilter()] if ascii_only() else own
