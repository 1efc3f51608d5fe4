"""What Textual, pinned to one version, does for all pages though it concerns one.

Rules of a page stand nested under its class, and a page covers what lies below it. So a
page that opens leaves the others as they are, and what is not seen is not painted.
"""

from functools import partial
from typing import Any, TypeVar

from textual._styles_cache import StylesCache
from textual.app import App
from textual.cache import LRUCache
from textual.css.stylesheet import Stylesheet
from textual.events import ScreenResume
from textual.screen import Screen

Result = TypeVar("Result")
MOUNTED_S = 0.05  # after which a page has all its widgets
SOURCES = 512  # of rules: pages and kinds of widgets


class Rules(Stylesheet):
    """Keeps what was parsed until a colour changes.

    Textual keeps 64 sources: where there are more, none is there when it is asked for.
    """

    def __init__(self, *, variables: dict[str, str] | None = None) -> None:
        super().__init__(variables=variables)
        self._parse_cache = LRUCache(SOURCES)

    def set_variables(self, variables: dict[str, str]) -> None:
        """Take other variables; the same ones change nothing."""
        if variables != self._variables:
            super().set_variables(variables)

    def reparse(self) -> None:
        """Put the rules together; only those that are not known yet are parsed."""
        self.parse()


class Painted(Screen[Result]):
    """A page that comes back as it was left; Textual styles all of it anew."""

    def _on_screen_resume(self, event: ScreenResume) -> None:
        event.refresh_styles = self._css_update_count != self.app._css_update_count


class Painting(App[int]):
    """An app of pages that each cover the whole screen."""

    def __init__(self) -> None:
        super().__init__()
        self.stylesheet = Rules(variables=self.get_css_variables())

    @property
    def _background_screens(self) -> list[Screen[object]]:
        """Screens that are seen through the one on top: none through a whole ground.

        Textual counts the next one below as seen whatever lies on it: each what-if
        wrote, laid out and painted both.
        """
        stack = self._screen_stack
        if stack and stack[-1].styles.background.a == 1:
            return []
        return super()._background_screens

    async def _replace_screen(self, screen: Screen[Any]) -> Screen[Any]:
        """Take a page off the stack, and let go what is kept of its widgets."""
        left = await super()._replace_screen(screen)
        # it holds a thousand widgets of pages that were left, with all their lines
        StylesCache.get_inner_outer.cache_clear()
        return left

    def mount_ahead(self, screen: Screen[Any]) -> None:
        """Mount, style and lay out a page that is not shown yet."""
        self._load_screen_css(screen)
        self._get_screen(screen)
        self.set_timer(MOUNTED_S, partial(self._lay_out, screen))

    def _lay_out(self, screen: Screen[Any]) -> None:
        if screen.is_attached and not screen.outer_size:
            screen._refresh_layout(self.size)

    def _load_screen_css(self, screen: Screen[object]) -> None:
        """Read the rules of a page, and style that page alone."""
        unread = [
            one for one in screen.css_path if not self.stylesheet.has_source(str(one))
        ]
        if unread:
            self.stylesheet.read_all(unread)
            self.stylesheet.parse()
            self.stylesheet.update(screen)
        if screen._css_update_count < 0:  # new: styled by the colours of now
            screen._css_update_count = self._css_update_count
