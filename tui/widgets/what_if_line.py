"""One line below every page: what is tried, what it does there, and the way out."""

from collections.abc import Sequence

from textual.content import Content

from tui.widgets.words import Words

HEAD, GIVES = "what-if ", "  ▸ "
ROOMY = 100  # columns from which the way out is written whole
GAP = "   "


class WhatIfLine(Words):
    """Names what is tried, before → after; hidden when nothing is."""

    DEFAULT_CSS = """
    WhatIfLine {
        height: 1; display: none; padding: 0 1; background: $boost;
        text-wrap: nowrap; text-overflow: ellipsis;
    }
    WhatIfLine.some { display: block; }
    """

    def show(self, tried: Sequence[str], effects: Sequence[str], width: int) -> None:
        """Write what is tried, the newest first, and what it does, if it fits."""
        self.set_class(bool(tried), "some")
        if not tried:
            self.update("")
            return
        what, does = fitted(tried, effects, width - 2)
        self.update(
            Content.assemble(
                (HEAD, "bold $warning"),
                what,
                (GIVES, "$foreground 60%"),
                (does, "bold $primary"),
                (way_out(width - 2), "$foreground 60%"),
            )
        )


def way_out(width: int) -> str:
    """The key that keeps or drops what is tried."""
    return "   T keep or drop" if width >= ROOMY else "  T"


def fitted(tried: Sequence[str], effects: Sequence[str], width: int) -> tuple[str, str]:
    """The newest what-if and one effect at least; then more of both while they fit."""
    room = width - len(HEAD) - len(GIVES) - len(way_out(width))
    n_tried, n_effects = 1, min(1, len(effects))

    def texts(a: int, b: int) -> tuple[str, str]:
        more = f" (+{len(tried) - a})" if a < len(tried) else ""
        return ", ".join(tried[:a]) + more, GAP.join(effects[:b])

    def fits(a: int, b: int) -> bool:
        return sum(map(len, texts(a, b))) <= room

    while n_effects < len(effects) and fits(n_tried, n_effects + 1):
        n_effects += 1
    while n_tried < len(tried) and fits(n_tried + 1, n_effects):
        n_tried += 1
    what, does = texts(n_tried, n_effects)
    over = len(what) + len(does) - room
    if over > 0:  # the newest what-if is cut before its effect
        what = what[: max(1, len(what) - over - 1)] + "…"
    return what, does
