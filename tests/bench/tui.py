"""How fast the dashboard answers a key on a large site, and whether its memory holds.

Everything a terminal would get is composed and thrown away, so drawing is counted. A
key's cost is the CPU time of the thread that draws, from the key until nothing is left
to draw, the redraw for an answer from beside the screen included; what was worked out
beside the screen is said apart. A user waits while keys are pressed, hence CPU time and
not the clock: other people load the machine.
"""

import asyncio
import gc
import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
import tracemalloc
from collections import Counter
from collections.abc import AsyncIterator, Iterable, Sequence
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from textual.drivers.headless_driver import HeadlessDriver
from textual.events import Key
from textual.pilot import Pilot

from tests.bench.harness import Ratio, at_least, at_most, report
from tests.bench.large_site import large_site
from tests.bench.walk import walk
from tui.app import Dashboard
from tui.screens.zones import ZonesScreen

ZONES, MANY = 200, 2000
SEEDS = range(3)
KEYS = 900  # half an hour, a key every two seconds
SIZE = (140, 40)
# ends itself once the first whole face was written out; nothing heavy may be loaded
FIRST_PAINT = """
import os, pathlib
from textual.drivers.headless_driver import HeadlessDriver
from tui.app import Dashboard
HeadlessDriver.is_headless = False
Dashboard.post_display_hook = (
    lambda self: self.screen_stack and self.screen.query("#summary") and os._exit(0))
app = Dashboard(pathlib.Path({folder!r}))
app.driver_class = HeadlessDriver
app.run(size={size})
"""


class Discarding(HeadlessDriver):
    """A terminal that takes everything and shows nothing."""

    @property
    def is_headless(self) -> bool:
        """False, so that every line is composed as for a terminal."""
        return False


@dataclass(frozen=True, slots=True)
class Spent:
    """CPU time of one key: drawing, and work beside the screen. [ms]"""

    page: str
    key: str
    drawn_ms: float
    beside_ms: float


@asynccontextmanager
async def opened(folder: Path, *, with_ranges: bool) -> AsyncIterator[Pilot[int]]:
    """The dashboard on a folder, read, planned and still."""
    app = Dashboard(folder)
    app.driver_class = Discarding
    if not with_ranges:
        setattr(app, "_rate_ranges", lambda session: None)  # noqa: B010
    async with app.run_test(size=SIZE, headless=False, notifications=True) as pilot:
        await still(pilot)
        yield pilot


async def still(pilot: Pilot[int]) -> None:
    """Wait until nothing is worked out beside the screen and nothing is left to draw."""
    quiet = 0
    while quiet < 3:
        begin = time.thread_time()
        await asyncio.sleep(0.015)
        is_idle = time.thread_time() - begin < 5e-4
        is_working = any(not one.is_finished for one in pilot.app.workers)
        quiet = quiet + 1 if is_idle and not is_working else 0


async def spent(pilot: Pilot[int], page: str, key: str) -> Spent:
    """Press one key; what it cost until the screen stood still."""
    own, all_of_it = time.thread_time(), time.process_time()
    event = Key(key, key if len(key) == 1 else None)
    event.set_sender(pilot.app)
    pilot.app.post_message(event)
    await still(pilot)
    own, all_of_it = time.thread_time() - own, time.process_time() - all_of_it
    return Spent(page, key, own * 1e3, max(all_of_it - own, 0.0) * 1e3)


async def walked(pilot: Pilot[int], n_keys: int, seed: int) -> list[Spent]:
    """Walk over the pages; every key's cost."""
    keys = []
    for page, key in walk(n_keys, seed):
        if key:
            keys.append(await spent(pilot, page, key))
            continue
        for _ in range(4):
            if not isinstance(pilot.app.screen, ZonesScreen):
                keys.append(await spent(pilot, page, "escape"))
        assert isinstance(pilot.app.screen, ZonesScreen), f"{page} is not left"
    return keys


