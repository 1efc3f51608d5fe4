"""How fast the dashboard answers a key on a large site, and whether its memory holds.

Everything a terminal would get is composed and thrown away, so drawing is counted. A
key's cost is the CPU time of the thread that draws, from the key until nothing is left
to draw, the redraw for an answer from beside the screen included; what was worked out
beside the screen is said apart. A user waits while keys are pressed, hence CPU time and
not the clock: other people load the machine.
"""

import asyncio
import gc
import resource
import statistics
import tempfile
import time
import tracemalloc
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from textual.drivers.headless_driver import HeadlessDriver
from textual.events import Key
from textual.pilot import Pilot

from tests.bench.harness import Ratio, at_least, at_most, cpu_seconds, report
from tests.bench.large_site import large_site
from tests.bench.startup import child_cpu_s
from tests.bench.walk import walk
from tui.app import Dashboard
from tui.screens.zones import ZonesScreen

ZONES, MANY = 200, 2000
SEEDS = range(3)
KEYS = 300  # half an hour, a key every six seconds
QUARTERS = 4  # of it, each visiting other pages and zones
# CPU of a turn in which nothing was drawn, and in which a wait was counted at most
IDLE_S, WAITING_S = 5e-4, 5e-3
LAP = 120  # keys of the walk that memory is watched over
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
    app = Dashboard(folder, is_ahead=True)
    app.driver_class = Discarding
    if not with_ranges:
        setattr(app, "_rate_ranges", lambda session: None)  # noqa: B010
    async with app.run_test(size=SIZE, headless=False, notifications=True) as pilot:
        await still(pilot)
        while app.unmade:
            await asyncio.sleep(0.1)
        await still(pilot)
        yield pilot


async def still(pilot: Pilot[int]) -> float:
    """Wait until nothing is worked out beside the screen, nothing left to draw.

    What belongs to no redraw is given back: the looking itself, and while something is
    worked out the line that counts the seconds. [s]
    """
    quiet, looked, is_working = 0, 0.0, False
    while quiet < 3:
        begin = time.thread_time()
        await asyncio.sleep(0.1 if is_working else 0.015)
        turn = time.thread_time() - begin
        is_idle = turn < (WAITING_S if is_working else IDLE_S)
        is_working = any(not one.is_finished for one in pilot.app.workers)
        looked += turn if is_idle else 0.0
        quiet = quiet + 1 if is_idle and not is_working else 0
    return looked


async def spent(pilot: Pilot[int], page: str, key: str) -> Spent:
    """Press one key; what it cost until the screen stood still."""
    own, all_of_it = time.thread_time(), time.process_time()
    event = Key(key, key if len(key) == 1 else None)
    event.set_sender(pilot.app)
    pilot.app.post_message(event)
    looked = await still(pilot)
    own, all_of_it = time.thread_time() - own, time.process_time() - all_of_it
    beside = max(all_of_it - own, 0.0)
    return Spent(page, key, (own - looked) * 1e3, beside * 1e3)


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


async def undone(pilot: Pilot[int]) -> None:
    """Take every what-if back, and let go what is dead."""
    app = pilot.app
    while isinstance(app, Dashboard) and app.edits_asked:
        await spent(pilot, "", "ctrl+z")
    gc.collect()


async def walk_rows(
    folder: Path, seed: int, *, laps: int
) -> tuple[list[Spent], list[float]]:
    """Half an hour of use: every key's cost, and resident memory after each quarter.

    Further laps are the same half hour again, for what they add to memory.
    """
    async with opened(folder, with_ranges=True) as pilot:
        keys, held = [], []
        for part in range(QUARTERS * laps):
            walk_seed = seed * 10 + part % QUARTERS
            some = await walked(pilot, KEYS // QUARTERS, walk_seed)
            keys += some if part < QUARTERS else []
            await undone(pilot)
            held.append(resident_mib())
        return keys, held


async def grown(folder: Path) -> tuple[float, int]:
    """KiB and objects that a walk adds when it is walked a second time."""
    tracemalloc.start()  # from the beginning: what gives way to its like adds nothing
    async with opened(folder, with_ranges=False) as pilot:
        for _ in range(2):  # what is kept for a page is kept once
            await walked(pilot, LAP, 0)
            await undone(pilot)
        before, number = tracemalloc.get_traced_memory()[0], len(gc.get_objects())
        await walked(pilot, LAP, 0)
        await undone(pilot)
        after, more = tracemalloc.get_traced_memory()[0], len(gc.get_objects())
        tracemalloc.stop()
        return (after - before) / 1024, more - number


async def scrolled(folder: Path) -> list[Spent]:
    """Down a table of very many zones by row and by page, to its end and back."""
    keys = (*["down"] * 60, *["pagedown"] * 30, "end", *["up"] * 30, "home", "end")
    async with opened(folder, with_ranges=False) as pilot:
        return [await spent(pilot, "zones", key) for key in keys]


def resident_mib() -> float:
    """Memory of this process that lies in the machine's. [MiB]"""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * resource.getpagesize() / 2**20


def calibration_ms() -> float:
    """CPU time of a fixed loop of plain Python, to compare machines by. [ms]"""

    def loop() -> dict[str, int]:
        return {str(i): i * i for i in range(50_000)}

    return cpu_seconds(loop) * 1e3


def first_paint_s(folder: Path) -> float:
    """CPU time of a fresh process until its first face was written. [s]"""
    code = FIRST_PAINT.format(folder=str(folder), size=SIZE)
    child_cpu_s("-c", code)
    return statistics.median(child_cpu_s("-c", code) for _ in range(7))


def _rows_of_keys(keys: Sequence[Spent], calibration: float) -> list[Ratio]:
    drawn = np.array([one.drawn_ms for one in keys])
    beside = np.array([one.beside_ms for one in keys])
    middle, high = np.median(drawn), np.percentile(drawn, 95)
    return [
        at_most(f"key to redraw, median of {len(keys)} keys, ms CPU", middle, 50),
        at_most("key to redraw, 95th percentile, ms CPU", high, 100),
        at_least("- the longest, ms CPU", drawn.max(), 0),
        at_least("- median over the calibration loop", middle / calibration, 0),
        at_least("- worked out beside the screen, 95th percentile, ms CPU",
                 np.percentile(beside, 95), 0),
        at_least("- the longest beside the screen, ms CPU", beside.max(), 0),
    ]  # fmt: skip


def run(*, json: bool) -> None:
    calibration = calibration_ms()
    rows = [at_least("calibration loop, ms CPU", calibration, 0)]
    keys: list[Spent] = []
    first_growth: list[float] = []
    growth: list[float] = []
    paints: list[float] = []
    with tempfile.TemporaryDirectory() as top:
        for seed in SEEDS:
            folder = large_site(Path(top) / f"site{seed}", ZONES, seed)
            paints.append(first_paint_s(folder))
            laps = 2 if seed == SEEDS[0] else 1
            walked_keys, held = asyncio.run(walk_rows(folder, seed, laps=laps))
            keys += walked_keys
            first_growth.append(held[QUARTERS - 1] - held[0])
            if laps > 1:
                growth.append(held[-1] - held[QUARTERS - 1])
        kib, objects = asyncio.run(grown(folder))
        many = large_site(Path(top) / "many", MANY, 0)
        scroll = asyncio.run(scrolled(many))
    what = f"first paint of {ZONES} zones, s CPU"
    rows.append(at_most(what, statistics.median(paints), 0.5))
    rows += _rows_of_keys(keys, calibration)
    what = "resident memory that a second half hour adds, MiB"
    rows.append(at_most(what, statistics.median(growth), 10))
    # pages that are opened for the first time bring libraries, and answers to keep
    what = "- that the last three quarters of the first one add, MiB"
    rows.append(at_least(what, statistics.median(first_growth), 0))
    rows.append(
        at_most(f"Python memory a second lap of {LAP} keys adds, KiB", kib, 256)
    )
    rows.append(at_most("- objects that it adds", objects, 2000))
    worst = max(one.drawn_ms for one in scroll)
    rows.append(at_most(f"longest stall, scrolling {MANY} zones, ms CPU", worst, 100))
    report("tui", rows, as_json=json)
