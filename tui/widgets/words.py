"""Text on the screen that costs nothing where it says what it said before."""

from textual.content import Content
from textual.visual import VisualType
from textual.widgets import Static


class Words(Static):
    """Plain text, no markup in it; laid out anew only where it takes other room."""

    _said: object = None

    def __init__(
        self,
        content: str | Content = "",
        *,
        id: str | None = None,  # noqa: A002  # as the library's widgets call it
        classes: str = "",
    ) -> None:
        super().__init__(content, id=id, classes=classes or None, markup=False)
        self._said = _told(content)

    def update(self, content: VisualType = "", *, layout: bool = True) -> None:
        """Say something else; the whole screen is laid out only if that needs it."""
        told = _told(content)
        if told is not None and told == self._said:
            return
        self._said = told
        before = self._room()
        super().update(content, layout=False)
        # what is not displayed is laid out when it is
        if layout and self.display and (before is None or self._room() != before):
            self.refresh(layout=True)

    def _room(self) -> int | None:
        """Lines that the text takes; None where that is not known yet."""
        width, height = self.styles.width, self.styles.height
        columns = self.content_size.width
        if not columns or (width is not None and width.is_auto):
            return None
        if height is not None and not height.is_auto:
            return 0  # as high as it is, whatever it says
        return self.get_content_height(self.container_size, self.app.size, columns)


def _told(content: object) -> object:
    """What a text says, colours included; None for what is no plain text."""
    if isinstance(content, Content):
        return content.plain, tuple(content.spans)
    return (content, ()) if isinstance(content, str) else None
