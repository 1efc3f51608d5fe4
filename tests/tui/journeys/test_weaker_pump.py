"""Eight zones, one night, one pump, and the pump grows weaker."""

from pathlib import Path

from tests.tui.journeys.play import journey
from tests.tui.journeys.sites import eight_blocks


async def test_a_weaker_pump_shows_the_minutes_short_and_the_ways_out(
    tmp_path: Path,
) -> None:
    async with journey(eight_blocks(tmp_path)) as user:
        await user.press("h")
        user.reads("fits; peak 195.0 of 200.0 gpm, 2 valves")
        await user.press("minus", "minus", "minus")
        user.reads("does not fit: 5 min short, no room for Z", "no room: Z")
        user.reads("Pump 200.0 gpm: fits;", "what-if pump 200.0 → 170.0 gpm")
        user.reads("Ways out: open the window by 5")  # each way with what it takes
        await user.press("f")
        # by hand: 385 min with free starts and 405 in pairs, and 2 min for each of the
        # five changes that follow each other
        user.reads(
            "it takes 395 min with free starts, 415 in pairs that start together; the "
            "window has 390, so 5 min are missing",
            "the limit that binds is pump",
            "open the window by 5 min; or bring the pump to",
            "; or trim all minutes by 1%",
        )
        await user.press("escape", "ctrl+z")
        user.reads("pump 200.0 → 180.0 gpm", "fits; peak 180.0 of 180.0 gpm")
