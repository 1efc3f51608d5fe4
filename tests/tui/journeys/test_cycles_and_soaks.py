"""A field bay whose rate is above what its soil takes."""

from pathlib import Path

from tests.tui.journeys.play import journey
from tests.tui.journeys.sites import field_bay
from tests.tui.pilots import NARROW


async def test_a_rate_above_the_intake_is_cut_into_cycles_that_stand_in_the_night(
    tmp_path: Path,
) -> None:
    async with journey(field_bay(tmp_path), NARROW) as user:
        assert "45 1/7 3×15" in user.line("Z7")
        await user.press("enter")
        user.reads("need 0.45 in", "net rate 0.62 in/h")
        user.reads("45 min a watering: Mon; 3 cycles of 15 min with 23 min soak.")
        await user.press("v", "v")
        user.reads("3 cycles of 15 min, 23 min soak")
        await user.press("h")
        user.reads("22:00–22:15, cycle 1 of 3")
        await user.press("right")
        user.reads("22:38–22:53, cycle 2 of 3")
        await user.press("right")
        # 1 h 31 min from the first drop to the last
        user.reads("23:16–23:31, cycle 3 of 3")
