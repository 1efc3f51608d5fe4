"""A can nobody read, one knocked over and a zero: what counts, and both results."""

from pathlib import Path

import pytest

from tests.tui.journeys.play import journey
from tests.tui.journeys.sites import can_yard
from tests.tui.pilots import NARROW

SET_UP = ("", "", "4.25 in", "", "30", "06:10", "", "", "3 x 8")
ROWS = (
    "38 41 36 44 . 0 52 47",
    "39 35 49 55 33 42 46 k",
    "40 37 51 45 43 34 48 50",
)


@pytest.mark.slow  # 80 keys, each painted
async def test_a_blank_and_a_knocked_can_are_holes_and_a_zero_waits_for_a_reason(
    tmp_path: Path,
) -> None:
    async with journey(can_yard(tmp_path), NARROW) as user:
        await user.press("t", "n")
        await user.fill(*SET_UP)
        await user.cans(*ROWS)
        user.reads("22 of 24 cans", "1 knocked", "1 blank, not zero")
        user.reads("mean 41.1 mL", "DU 0.69 (", "can F1: reads 0 among neighbours")
        user.reads("leave it out only with a physical reason")
        await user.press("up", "up", "home", *["right"] * 5, "x")
        await user.fill("blocked arc")
        user.reads("21 of 24 cans", "1 left out", "mean 43.1 mL")
        user.reads("DU 0.69 with all, 0.82 without F1 (blocked")
        user.reads("both results are shown; repeat the run to settle it")
        await user.press("ctrl+s", "escape", "escape", "c", "2")
        # the map of the field page: its holes, and both results
        user.reads("38 41 ▾36 44 – ×0 52 47", "42 46 k")
        user.reads("DU 0.82", "× left out, DU 0.69 if kept", "– no reading")
