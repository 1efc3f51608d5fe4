"""The line of keys: a key that finds no room is left out whole, never cut."""

from collections.abc import Sequence

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.widget import Widget
from textual.widgets import Footer
from textual.widgets._footer import FooterKey  # Textual is pinned to one version

# Keys that work on every page and that `?` lists; the first one gives way first.
GIVE_WAY = ("units", "leave_all", "findings")


class KeyLine(Footer):
    """A footer in which the keys that are the same everywhere make room."""

    def compose(self) -> ComposeResult:
        keys: Sequence[Widget] = list(super().compose())
        for action in GIVE_WAY:
            if self._width(keys) <= self.app.size.width:
                break
            keys = [one for one in keys if getattr(one, "action", "") != action]
        yield from keys

    def _width(self, keys: Sequence[Widget]) -> int:
        """Columns that the keys take: key and word, and the gaps that Textual draws."""
        gaps = 2 if self.compact else 3
        return sum(
            cell_len(one.key_display) + cell_len(one.description) + gaps
            for one in keys
            if isinstance(one, FooterKey)
        ) - (1 if self.compact else 0)

    def on_resize(self) -> None:
        """Choose again: the keys fit another width, and perhaps another gap."""
        if self._bindings_ready:
            self.call_after_refresh(self.recompose)
