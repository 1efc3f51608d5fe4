"""Where we are and how we get elsewhere: pages open, take each other's place, go back.

The table of zones and the page of one zone lie below; every other page lies on one of
them, and one takes the place of another, so back leads to where the way began, as it
was left.
"""

from functools import cached_property

from textual.await_complete import AwaitComplete
from textual.reactive import var

from tui.pages import ENTRIES, beside, loaded, page_of
from tui.painting import Painting
from tui.screens.doors import Doors
from tui.screens.zone import ZoneScreen
from tui.screens.zones import ZonesScreen
from tui.session import Session
from tui.week_walk import Walk

STANDING = ("zones", "findings")  # pages that are there from the beginning
BREATH_S = 0.1  # between two pages that are made ahead: keys come first


class Way(Painting):
    """The pages of one site folder."""

    session: var[Session | None] = var(None, init=False)
    zone_at: str = ""  # looked at last
    zone_order: str = "eyes"  # of the table
    walk: Walk = Walk()  # what was accepted of this week's changes, and where one is

    @cached_property
    def _made(self) -> dict[str, tuple[Doors[None], tuple[object, ...]]]:
        """Pages that were opened, with the size and the colours they were made for."""
        return {}

    def let_go_session(self) -> None:
        """Have pages that are not shown forget the session that they last showed."""
        for page, _ in self._made.values():
            if not self._is_open(page):
                page.forget()

    def open_page(self, page: str, zone_id: str) -> None:
        """Show a page with a zone; one page takes the place of another."""
        session = self.session
        if page == "findings":
            self.action_findings()
            return
        if session is None:
            self.notify("The site is still being read.")
            return
        if session.site is None and page != "given":
            self.notify("There is no site; see the findings.", severity="warning")
            return
        self.zone_at = zone_id or self.zone_at or _first_zone(session)
        if self.current_mode == "findings":
            self.switch_mode("zones")
        if page == "zones":
            self._down_to(ZonesScreen)
        elif not (page == "zone" and self._down_to(ZoneScreen)):
            self._show_page(page)

    def step_page(self, by: int) -> None:
        """Go along the path, in the order water flows."""
        here = page_of(type(self.screen))
        there = beside(here, by)
        if there != here:
            self.open_page(there, getattr(self.screen, "zone_here", ""))

    def _show_page(self, page: str) -> None:
        here = self.screen
        if isinstance(here, Doors) and page_of(type(here)) == page:
            here.carry(self.zone_at)
            here.follow()
            return
        screen = self._page(page)
        if page_of(type(here)) and not isinstance(here, ZonesScreen | ZoneScreen):
            self.switch_screen(screen)
        else:
            self.push_screen(screen)

    def _page(self, page: str) -> Doors[None]:
        """A page with the zone: as it was left, or made now.

        To make and style its widgets takes longer than to draw them.
        """
        fits = (self.size, self.theme)
        old, made_for = self._made.get(page, (None, ()))
        made: Doors[None]
        if old is not None and self._is_open(old):
            made = loaded(page)(self.zone_at)
            return made  # a second one, on a way that led over itself
        if old is not None and made_for == fits:
            old.carry(self.zone_at)
            return old
        if old is not None:
            self.uninstall_screen(page)
            old.remove()
        return self._make(page)

    def _is_open(self, page: Doors[None]) -> bool:
        return any(page in stack for stack in self._screen_stacks.values())

    def _make(self, page: str) -> Doors[None]:
        made: Doors[None] = loaded(page)(self.zone_at)
        self.install_screen(made, page)
        self._made[page] = made, (self.size, self.theme)
        return made

    def prepare_pages(self) -> None:
        """Make all pages, one after another: none takes longer for its first visit."""
        if self.session is None or self.session.site is None:
            return
        self.zone_at = self.zone_at or _first_zone(self.session)
        if unmade := self.unmade:
            self.mount_ahead(self._make(unmade[0]))
            self.set_timer(BREATH_S, self.prepare_pages)

    @property
    def unmade(self) -> list[str]:
        """Pages that were not made yet, in the order of the path."""
        there = {*self._made, *STANDING}
        return [one.page for one in ENTRIES if one.page not in there]

    def _down_to(self, kind: type[ZonesScreen | ZoneScreen]) -> bool:
        """Close pages until one of a kind is on top; False where none lies below."""
        zone = self.zone_at
        if not any(isinstance(one, kind) for one in self.screen_stack):
            return False
        while isinstance(self.screen, Doors) and not isinstance(self.screen, kind):
            self.pop_screen()
        self.zone_at = zone
        self._turn()
        return True

    def pop_screen(self) -> AwaitComplete:
        """Close a screen; the one below stands on the zone looked at last."""
        zone = getattr(self.screen, "zone_here", "")
        done = super().pop_screen()
        if zone:
            self.zone_at = zone
            if isinstance(self.screen, ZonesScreen):
                self._turn()
        return done

    def _turn(self) -> None:
        if isinstance(self.screen, ZonesScreen | ZoneScreen):
            self.screen.pick(self.zone_at)

    def open_zone(self, zone_id: str) -> None:
        """Show one zone; back on the table its row is picked."""
        self.open_page("zone", zone_id)

    def open_tests(self, zone_id: str) -> None:
        """Show the tests of one zone."""
        self.open_page("tests", zone_id)

    def open_walk(self) -> None:
        """Show what changes this week, zone after zone."""
        if self.session is None or self.session.plan is None:
            self.notify("There is no week yet; see the findings.", severity="warning")
            return
        from tui.screens.walk import WalkScreen  # loads numbers, as other pages do

        self.push_screen(WalkScreen())

    # --- findings -----------------------------------------------------------
    def action_findings(self) -> None:
        self.zone_at = getattr(self.screen, "zone_here", "") or self.zone_at
        self.switch_mode("findings")

    def action_zones(self) -> None:
        if self.session is not None and self.session.site is not None:
            self.open_page("zones", getattr(self.screen, "zone_here", ""))

    def action_from_findings(self) -> None:
        """Back to where the findings were opened, as it was left."""
        if self.session is not None and self.session.site is not None:
            self.switch_mode("zones")


def _first_zone(session: Session) -> str:
    zones = session.site.zones if session.site is not None else ()
    return zones[0].id if zones else ""
