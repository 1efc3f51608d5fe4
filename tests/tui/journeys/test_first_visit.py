"""A first visit: readings typed once, the result before anybody leaves the yard."""

from pathlib import Path

from tests.tui.journeys.play import journey
from tests.tui.journeys.sites import ROWS, can_test, can_yard
from tests.tui.pilots import NARROW

# date, condition, mouth, unit, minutes, start, wind, what a can holds, grid
SET_UP = ("", "", "4.25 in", "", "30", "06:10", "3 mph", "", "3 x 8")


async def test_a_first_visit_is_typed_once_and_told_at_the_tailgate(
    tmp_path: Path,
) -> None:
    async with journey(can_yard(tmp_path), NARROW) as user:
        user.reads("0.60 assumed")
        await user.press("t")
        user.reads("No test of this zone yet. Press n to type one in.")
        await user.press("n")
        await user.fill(*SET_UP)
        await user.cans(*ROWS)
        user.reads("mean 55.8 mL", "net 0.48 in/h", "gross 0.49 in/h", "caught 98 %")
        user.reads("DU 0.72 (", "low half 0.83", "CU 0.83")
        user.reads("driest E3 F2 H1 A1 B3 E2")
        await user.press("ctrl+s")
        user.reads("saved", "27 min a watering, was 24 (+3): Mon Tue Wed Thu Fri Sat.")
        await user.press("escape", "escape")
        assert "27 6/7 1×27 24 +3 0.72" in user.line("Z4")


async def test_the_visitor_compares_the_minutes_of_every_rule(tmp_path: Path) -> None:
    tested = can_test("Z4", "2026-06-08", "06:10", 30)
    async with journey(can_yard(tmp_path, tested)) as user:
        await user.press("enter")
        user.reads("ETo 1.26 in", "Kc 0.85", "rain 0.15 in", "need 0.92 in")
        # 19.2, 23.1 and 26.8 min by hand
        user.reads("3►low quarter", "minutes 19 min 23 min 27 min")
        await user.press("2")
        user.reads(
            "23 min a watering, was 24", "what-if Z4 rule low quarter → low half"
        )
        await user.press("ctrl+z")
        user.reads("27 min a watering, was 24 (+3)")
