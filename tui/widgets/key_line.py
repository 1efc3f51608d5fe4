"""The line of keys: a key that finds no room is left out whole, never cut."""

from collections.abc import Sequence

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.widget import Widget
from textual.widgets import Footer
from textual.widgets._footer import FooterKey  # Textual is pinned to one version

# Keys that work on every page and that `?` and the path list; the first one gives way
# first, the doors that a week needs least before those that it needs most.
GIVE_WAY = (
    "units", "door('given')", "leave_all", "findings",
    "door('cost')", "door('season')", "door('spacing')", "door('packages')",
    "door('field')", "door('proof')", "door('need')", "door('tests')", "door('week')",
    "path(-1)",
)  # fmt: skip


class KeyLine(Footer):
    """A footer: keys of the page, doors, keys of every page; the last make room."""

    _written: tuple[object, ...] = ()

    def compose(self) -> ComposeResult:
        # written with the page: later, the whole page would be laid out once more
        self.set_reactive(Footer._bindings_ready, True)
        self._written = self._wanted()
        keys: Sequence[Widget] = sorted(super().compose(), key=_rank)
        for action in GIVE_WAY:
            if self._width(keys) <= self.app.size.width:
                break
            keys = [one for one in keys if getattr(one, "action", "") != action]
        for one in keys:
            if isinstance(one, FooterKey):
                # as they will be: else each is styled three times before it is seen
                one.set_reactive(FooterKey.compact, self.compact)
                one.set_class(self.compact, "-compact", update=False)
        yield from keys

    def _width(self, keys: Sequence[Widget]) -> int:
        """Columns that the keys take: key and word, and the gaps that Textual draws."""
        gaps = 2 if self.compact else 3
        return sum(
            cell_len(one.key_display) + cell_len(one.description) + gaps
            for one in keys
            if isinstance(one, FooterKey)
        ) - (1 if self.compact else 0)

    def _wanted(self) -> tuple[object, ...]:
        """What the line is made from."""
        bound = self.screen.active_bindings.values()
        keys = tuple((one.binding, one.enabled) for one in bound if one.binding.show)
        return (*keys, self.app.size.width, self.compact)

    async def recompose(self) -> None:
        """Write the line anew; the keys are many, so only where one is another."""
        if self.is_attached and self._written != self._wanted():
            await super().recompose()

    def on_resize(self) -> None:
        """Choose again: the keys fit another width, and perhaps another gap."""
        self.call_after_refresh(self.recompose)


def _rank(key: Widget) -> int:
    """Keys of the page first, then the doors, then the keys of every page."""
    action = str(getattr(key, "action", ""))
    if action.startswith(("door(", "path(")):
        return 1
    return 2 if action in ("findings", "units", "help", "leave_all") else 0
