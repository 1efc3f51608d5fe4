"""Lines to pick one from, by keys or by mouse, and to type into one in its place."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.events import Click
from textual.message import Message
from textual.widgets import Input, Static


@dataclass(frozen=True, slots=True)
class Line:
    """One line; without a key it cannot be picked."""

    key: str
    text: Content


class _Lines(Static):
    """The lines as one text; says where it was clicked."""

    @dataclass
    class Clicked(Message):
        """Somebody clicked a line."""

        at: int

    def on_click(self, event: Click) -> None:
        event.stop()
        self.post_message(self.Clicked(event.y))


class LineList(VerticalScroll, can_focus=True):
    """Lines below each other, one picked; keeps its pick when written anew."""

    DEFAULT_CSS = """
    LineList {
        height: 1fr; scrollbar-size-vertical: 1; scrollbar-gutter: stable;
    }
    LineList Static { width: 1fr; height: auto; text-wrap: nowrap; }
    LineList Input {
        position: absolute; display: none; height: 1; border: none; padding: 0;
        background: $primary 30%;
    }
    LineList Input:focus { border: none; background: $primary 30%; }
    LineList.typing Input { display: block; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,k", "move(-1)", show=False),
        Binding("down,j", "move(1)", show=False),
        Binding("home", "move(-9999)", show=False),
        Binding("end", "move(9999)", show=False),
        Binding("pageup", "page(-1)", show=False),
        Binding("pagedown", "page(1)", show=False),
        Binding("enter", "choose", show=False),
    ]

    @dataclass
    class Picked(Message):
        """Another line is picked."""

        lines: "LineList"
        key: str

        @property
        def control(self) -> "LineList":
            return self.lines

    @dataclass
    class Chosen(Message):
        """Somebody pressed enter on the picked line, or clicked it."""

        lines: "LineList"
        key: str

    @dataclass
    class Typing(Message):
        """What is typed has changed."""

        text: str

    @dataclass
    class Typed(Message):
        """Somebody pressed enter behind what is typed."""

        text: str

    @dataclass
    class Left(Message):
        """Typing was left without a result."""

    picked = ""
    _lines: tuple[Line, ...] = ()
    _unshown: int | None = None  # line to bring into view once there is a view

    def compose(self) -> ComposeResult:
        yield _Lines("", markup=False)
        yield _Typing()

    def show(self, lines: Sequence[Line]) -> None:
        """Write all lines anew; the picked one stays picked, if it is still there."""
        at = self._at(self.picked)
        self._lines = tuple(lines)
        if self._at(self.picked) is None:
            keys = [one.key for one in self._lines[: (at or 0) + 1] if one.key]
            first = next((one.key for one in self._lines if one.key), "")
            self.picked = keys[-1] if keys else first
        self._paint()

    def pick(self, key: str) -> None:
        """Pick a line and bring it into view."""
        at = self._at(key)
        if at is None:
            return
        is_new, self.picked = key != self.picked, key
        self._paint()
        self._show_line(at)
        if is_new:
            self.post_message(self.Picked(self, key))

    def _show_line(self, at: int) -> None:
        if not self.size.height:
            self._unshown = at  # nothing is laid out yet
            return
        top, room = int(self.scroll_offset.y), self.size.height
        if at < top + 1:
            self.scroll_to(y=max(0, at - 1), animate=False)
        elif at >= top + room - 2:  # what is wrong stands in the two lines below
            self.scroll_to(y=at - room + 3, animate=False)

    def _at(self, key: str) -> int | None:
        found = (i for i, one in enumerate(self._lines) if key and one.key == key)
        return next(found, None)

    def _paint(self) -> None:
        width = max(1, self.scrollable_content_region.width or self.size.width)
        style = "on $primary 30%" if self.has_focus else "on $foreground 10%"
        parts: list[Content] = []
        for one in self._lines:
            text = one.text.truncate(width, ellipsis=True)
            if one.key and one.key == self.picked:
                text = text.extend_right(max(0, width - text.cell_length))
                text = text.stylize(style)
            parts.append(text)
        self.query_one(_Lines).update(Content("\n").join(parts))

    # --- keys and mouse -----------------------------------------------------
    def action_move(self, by: int) -> None:
        places = [i for i, one in enumerate(self._lines) if one.key]
        now = self._at(self.picked)
        if not places:
            return
        at = places.index(now) if now in places else 0
        self.pick(self._lines[places[max(0, min(len(places) - 1, at + by))]].key)

    def action_page(self, by: int) -> None:
        self.action_move(by * max(1, self.size.height - 2))

    def action_choose(self) -> None:
        if self.picked:
            self.post_message(self.Chosen(self, self.picked))

    def on__lines_clicked(self, event: _Lines.Clicked) -> None:
        event.stop()
        if not 0 <= event.at < len(self._lines):
            return
        key = self._lines[event.at].key
        if key:
            self.stop_typing()
            self.focus()
            self.pick(key)
            self.post_message(self.Chosen(self, key))

    def on_focus(self) -> None:
        self._paint()

    def on_blur(self) -> None:
        self._paint()

    def on_resize(self) -> None:
        self._paint()
        if self._unshown is not None:
            at, self._unshown = self._unshown, None
            self._show_line(at)

    # --- typing -------------------------------------------------------------
    @property
    def is_typing(self) -> bool:
        """Whether something is being typed into the picked line."""
        return self.has_class("typing")

    def type_into(
        self, text: str, column: int, hint: str = "", *, is_selected: bool = True
    ) -> None:
        """Let something be typed into the picked line, from a column on.

        What stands there is selected, so that typing replaces it, or goes on behind it.
        """
        at, field = self._at(self.picked), self.query_one(_Typing)
        if at is None:
            return
        width = self.scrollable_content_region.width or self.size.width
        field.styles.offset = (column, at)
        field.styles.width = max(8, width - column - 1)
        with self.prevent(Input.Changed):
            field.value = text
        field.placeholder = hint
        self.add_class("typing")
        self._show_line(at)
        field.select_on_focus = is_selected
        field.focus()

    def stop_typing(self) -> None:
        """Leave the line as it is."""
        if self.is_typing:
            self.remove_class("typing")
            self.focus()

    def on_input_changed(self, event: Input.Changed) -> None:
        event.stop()
        if self.is_typing:
            self.post_message(self.Typing(event.value))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        event.stop()
        self.post_message(self.Typed(event.value))


class _Typing(Input):
    """One line that is typed over the line below it; escape leaves."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter,ctrl+s", "submit", "Take", key_display="enter"),
        Binding("escape,ctrl+z", "leave", "Leave as it was", key_display="esc"),
        Binding("up,down,ctrl+y", "keep", show=False),
    ]

    def action_leave(self) -> None:
        if isinstance(self.parent, LineList):
            self.parent.stop_typing()
            self.parent.post_message(LineList.Left())

    def action_keep(self) -> None:
        """Up and down do nothing here: what is typed stays in its line."""
