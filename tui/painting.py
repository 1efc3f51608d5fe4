"""What Textual, pinned to one version, does for all pages though it concerns one.

Rules of a page stand nested under its class, and a page covers what lies below it. So a
page that opens leaves the others as they are, and what is not seen is not painted.
"""

from typing import Any

from textual.app import App
from textual.cache import LRUCache
from textual.css.stylesheet import Stylesheet
from textual.screen import Screen

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

    def mount_ahead(self, screen: Screen[Any]) -> None:
        """Mount and style a page that is not shown yet."""
        self._load_screen_css(screen)
        self._get_screen(screen)

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
