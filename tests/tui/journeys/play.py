"""Playing a journey: keys, typing, and what a user reads on the screen."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from textual.pilot import Pilot

from tests.tui.pilots import WIDE, dashboard, pressed, settled, text_of
from tui.screens.can_entry import CanEntryScreen

NAMES = {" ": "space", ",": "comma", "-": "minus"}


class Journey:
    """Somebody at the keys of a dashboard, who reads what stands there."""

    def __init__(self, pilot: Pilot[int]) -> None:
        self.pilot = pilot

    async def press(self, *keys: str) -> None:
        await pressed(self.pilot, *keys)

    async def fill(self, *answers: str) -> None:
        """Type into one field after another; nothing typed leaves it as it is."""
        keys: list[str] = []
        for one in answers:
            keys += [*(NAMES.get(letter, letter) for letter in one), "enter"]
        await self.press(*keys)

    async def cans(self, *rows: str) -> None:
        """Type readings; a point is a can nobody read, a letter is a code."""
        keys: list[str] = []
        for one in " ".join(rows).split():
            keys += [one] if one.isalpha() else [*one.replace(".", ""), "enter"]
        await self.pilot.press(*keys)
        await self.pause()

    async def pause(self) -> None:
        """Wait for the pause of typing, after which a result comes with its range."""
        screen = self.pilot.app.screen
        if isinstance(screen, CanEntryScreen) and screen._pause is not None:
            await screen._pause._task if screen._pause._task else None
        await settled(self.pilot)

    @property
    def page(self) -> str:
        """The screen as it stands there."""
        return text_of(self.pilot.app).replace("\u00a0", " ")

    @property
    def words(self) -> str:
        """The screen, its spaces and line ends as one space each."""
        return " ".join(self.page.split())

    def line(self, begin: str) -> str:
        """The first line that begins so, spaces as one."""
        lines = (" ".join(one.split()) for one in self.page.splitlines())
        return next((one for one in lines if one.startswith(begin)), "")

    def reads(self, *words: str) -> None:
        """Hold that all of these stand on the screen."""
        missing = [one for one in words if one not in self.words]
        assert not missing, f"{missing} not in:\n{self.page}"


@asynccontextmanager
async def journey(folder: Path, size: tuple[int, int] = WIDE) -> AsyncIterator[Journey]:
    async with dashboard(folder, size) as pilot:
        yield Journey(pilot)
