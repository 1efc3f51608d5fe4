"""The line of keys: a key that finds no room is left out whole, never cut."""

from dataclasses import replace
from typing import ClassVar

from rich.cells import cell_len
from textual.app import RenderResult
from textual.binding import ActiveBinding
from textual.content import Content
from textual.events import MouseDown, MouseMove
from textual.reactive import reactive
from textual.widget import Widget

# Keys that work on every page and that `?` and the path list; the first one gives way
# first, the doors that a week needs least before those that it needs most.
GIVE_WAY = (
    "units", "door('given')", "leave_all", "findings",
    "door('cost')", "door('season')", "door('spacing')", "door('packages')",
    "door('field')", "door('proof')", "door('need')", "door('tests')", "door('week')",
    "path(-1)",
)  # fmt: skip


class KeyLine(Widget):
    """Keys of the page, doors, keys of every page; the last make room.

    One widget: as a widget for each key they took longer to lay out, to style and to
    paint than most pages.
    """

    ALLOW_SELECT = False
    COMPONENT_CLASSES: ClassVar[set[str]] = {"key-line--key", "key-line--under"}
    DEFAULT_CSS = """
    KeyLine {
        dock: bottom; height: 1; text-wrap: nowrap;
        color: $footer-description-foreground; background: $surface;
    }
    KeyLine > .key-line--key { color: $footer-key-foreground; text-style: bold; }
    KeyLine > .key-line--under { background: $block-hover-background; }
    """

    compact: reactive[bool] = reactive(False)
    _under: reactive[str] = reactive("")  # action of the key that the mouse is over

    def __init__(self, *, compact: bool = False) -> None:
        super().__init__()
        self.set_reactive(KeyLine.compact, compact)
        self._keys: tuple[ActiveBinding, ...] = ()
        self._written: tuple[object, ...] = ()

    def on_mount(self) -> None:
        self._write()
        self.screen.bindings_updated_signal.subscribe(self, self._keys_changed)

    def on_unmount(self) -> None:
        self.screen.bindings_updated_signal.unsubscribe(self)

    def on_resize(self) -> None:
        """Choose again: the keys fit another width, and perhaps another gap."""
        self._write()

    def watch_compact(self) -> None:
        if self.is_attached:
            self._write()

    # --- what stands there --------------------------------------------------
    @property
    def words(self) -> list[str]:
        """Key and word of each key that is written."""
        return [f"{self._face(one)} {one.binding.description}" for one in self._keys]

    @property
    def places(self) -> dict[str, tuple[int, int]]:
        """First column of each action's key, and the column after its word."""
        found, at = {}, 0 if self.compact else 1
        for one in self._keys:
            end = at + cell_len(self._face(one)) + 1 + cell_len(one.binding.description)
            found[one.binding.action] = at, end
            at = end + self._gap
        return found

    @property
    def _gap(self) -> int:
        return 1 if self.compact else 2

    def _face(self, one: ActiveBinding) -> str:
        key, face = one.binding.key, self.app.get_key_display(one.binding)
        if key[0] == "f" and key[1:].isdigit():
            return key.upper()  # letters are typed into the field that has the keys
        focused = self.screen.focused
        if focused and len(face) == 1 and focused.check_consume_key(face, face):
            return self.app.get_key_display(replace(one.binding, key_display=None))
        return face

    def _keys_changed(self, screen: object) -> None:
        if self.is_attached and screen is self.screen and self.app.app_focus:
            self._write()

    def _write(self) -> None:
        """Write the keys anew, if they or their room are others."""
        bound = self.screen.active_bindings.values()
        shown: dict[str, ActiveBinding] = {}
        for one in bound:
            if one.binding.show:
                shown.setdefault(one.binding.action, one)
        wanted = (*shown.values(), self.app.size.width, self.compact)
        if wanted == self._written:
            return
        self._written = wanted
        self._keys = tuple(sorted(shown.values(), key=_rank))
        others = [one.binding.action for one in reversed(self._keys)]
        for action in (*GIVE_WAY, *(one for one in others if one != "help")):
            ends = [end for _, end in self.places.values()]
            if not ends or ends[-1] + self._gap // 2 <= self.app.size.width:
                break
            self._keys = tuple(o for o in self._keys if o.binding.action != action)
        self.refresh()

    def render(self) -> RenderResult:
        """Write each key and its word; the one below the mouse is marked."""
        key = self.get_visual_style("key-line--key", partial=True)
        under = self.get_visual_style("key-line--under", partial=True)
        parts: list[str | Content] = [] if self.compact else [" "]
        for one in self._keys:
            face, word = self._face(one), one.binding.description
            part = Content.assemble((face, key), f" {word}")
            if not one.enabled:
                part = part.stylize("dim")
            if one.binding.action == self._under:
                part = part.stylize(under)
            parts += [part, " " * self._gap]
        return Content.assemble(*parts)

    # --- the mouse ----------------------------------------------------------
    def _at(self, column: int) -> ActiveBinding | None:
        for action, (first, end) in self.places.items():
            if first <= column < end:
                return next(o for o in self._keys if o.binding.action == action)
        return None

    def on_mouse_move(self, event: MouseMove) -> None:
        found = self._at(event.x)
        self._under = found.binding.action if found else ""
        self.styles.pointer = "pointer" if found else "default"

    def on_leave(self) -> None:
        self._under = ""

    def on_mouse_down(self, event: MouseDown) -> None:
        found = self._at(event.x)
        if found is not None and found.enabled:
            self.app.simulate_key(found.binding.key)
        elif found is not None:
            self.app.bell()


def _rank(one: ActiveBinding) -> int:
    """Keys of the page first, then the doors, then the keys of every page."""
    action = one.binding.action
    if action.startswith(("door(", "path(")):
        return 1
    return 2 if action in ("findings", "units", "help", "leave_all") else 0
