"""Is it worth it? A yard of an acre and a half, new nozzles, or re-spacing."""

from pathlib import Path

from tests.tui.commands.test_cost import FILES
from tests.tui.journeys.play import journey
from tests.tui.journeys.sites import written

SITE = FILES["site.toml"].replace("[place]", "pinned_today = 2026-06-08\n[place]")


async def test_break_even_and_verdicts_follow_prices_that_are_edited_in_place(
    tmp_path: Path,
) -> None:
    site = written(tmp_path, {**FILES, "site.toml": SITE})
    async with journey(site) as user:
        await user.press("m")
        assert user.line("B re-spacing").startswith("B re-spacing 2.45 5.85 2.45")
        assert user.line("B re-spacing").endswith("9,600 1,145 pays")
        assert user.line("A new nozzles").endswith("900 214 not proven")
        user.reads("the gain of DU, −0.01 to +0.09, is inside test noise")
        await user.press("down")
        user.reads("saves, kgal a year 468", "saves, money a year 1,302")
        await user.press("x")
        user.reads(
            "By the rule low half: saves 196 kgal a year, net −601, breaks even at "
            "5.85 per kgal: does not pay.",
            "By the rule low quarter: saves 468 kgal a year, net 156, breaks even at "
            "2.45 per kgal: pays.",
        )
        await user.press("x", "1")
        await user.fill("0.40")
        assert user.line("B re-spacing").endswith("does not pay")
        user.reads("what-if water price 2.78 → 0.40 per kgal")
        await user.press("x")
        user.reads("at 2.45 per kgal: does not pay.", "at 5.85 per kgal: does not pay.")
        await user.press("ctrl+z")
        assert user.line("B re-spacing").endswith("pays")
        user.reads("water 2.78 per kgal", "at 2.45 per kgal: pays.")
