"""Driving the dashboard in tests: open, press, wait, look."""

from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

from textual.app import App
from textual.pilot import Pilot

from tui import session as state
from tui.app import Dashboard
from tui.session import Session

NARROW, WIDE = (80, 24), (140, 40)
SIZES = [NARROW, WIDE]
Text = Callable[[App[Any]], str]


def text_of(app: App[Any]) -> str:
    """Text of the screen; the only place that reaches into the compositor."""
    strips = app.screen._compositor.render_strips()
    return "\n".join("".join(s.text for s in strip).rstrip() for strip in strips)


async def settled(pilot: Pilot[int]) -> None:
    """Wait until workers are done and their answers are on the screen."""
    for _ in range(2):  # opening starts the second worker, the ranges
        live = [one for one in pilot.app.workers if not one.is_cancelled]
        if live:
            await pilot.app.workers.wait_for_complete(live)
        await pilot.pause()


@asynccontextmanager
async def dashboard(
    folder: Path, size: tuple[int, int] = NARROW
) -> AsyncIterator[Pilot[int]]:
    app = Dashboard(folder)
    app.zone_order = "file"  # keys of a test count rows of the file
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        await settled(pilot)
        yield pilot


async def pressed(pilot: Pilot[int], *keys: str) -> None:
    await pilot.press(*keys)
    await settled(pilot)


def session_of(pilot: Pilot[int]) -> Session:
    assert isinstance(pilot.app, Dashboard)
    assert pilot.app.session is not None
    return pilot.app.session


def rule_of(pilot: Pilot[int], zone: str) -> str | None:
    plan = state.zone_plan(session_of(pilot), zone)
    assert plan is not None
    return plan.rule
