"""A week in which ET asks for more and a leaching check for less."""

from pathlib import Path

from tests.tui.journeys.play import Journey, journey
from tests.tui.journeys.sites import can_test, can_yard
from tests.tui.pilots import NARROW
from tui.screens.given import GivenScreen

TESTED = can_test("Z4", "2026-05-12", "05:40", 30)
SIX = "E2 232 28, H1 262 67, B1 325 106, A2 344 125, B2 394 160, C2 463 282"
POTS = tuple(one.split() for one in SIX.split(", "))
CHECK = (
    "2026-06-07,07:00,leaching,Z4,{pot[0]},"
    "in {pot[1]} mL; out {pot[2]} mL; ran 24 min,,\n"
)
LOG = """\
# format = 1
date,time,what,zone,item,details,note,entered
2026-06-02,,respaced,Z4,,spacing 16 in,every other bed thinned,
"""


async def to_line(user: Journey, key: str, name: str) -> None:
    """Press a key until a line of the page of what is given is picked."""
    screen = user.pilot.app.screen
    assert isinstance(screen, GivenScreen)
    for _ in range(20):
        if screen.right.picked.endswith(name):
            return
        await user.pilot.press(key)
    raise AssertionError(f"no line {name}:\n{user.page}")


async def test_a_recorded_check_stands_against_et_with_causes_and_both_ways_out(
    tmp_path: Path,
) -> None:
    site = can_yard(tmp_path, TESTED, {"log.csv": LOG})
    async with journey(site, NARROW) as user:
        await user.press("l", "a")
        await user.fill(SIX, "24")
        user.reads("2026-06-08,,leaching,Z4,C2,in 463 mL; out 282 mL; ran 24 min")
        await user.press("enter")
        user.reads("38 %", "12 % E2")
        await user.press("x")
        user.reads("Of 24 min it makes 22 (17.5 by the mean, 21.1 by the driest pot)")
        user.reads("or percent adjust 92 % instead, not both")
        await user.press("v", "v", "v", "pagedown")
        user.reads("the spacing noted on 2026-06-02", "is not the one in zones.toml")
        user.reads("24 min ran, the plan says 27, the check 22 (17.5 by the mean")
        user.reads("1. block respaced: log.csv:3 says 16.0 in since 2026-06-02")
        user.reads("→ confirm the new spacing: enter it as [[zone.pots.moved]]")


async def test_the_new_spacing_is_confirmed_and_24_minutes_become_22_and_are_issued(
    tmp_path: Path,
) -> None:
    checked = "".join(CHECK.format(pot=pot) for pot in POTS)
    site = can_yard(tmp_path, TESTED, {"log.csv": LOG + checked})
    async with journey(site, NARROW) as user:
        user.reads("27 min a watering, was 24 (+3)")
        user.reads("ET asks for more, the leaching check for less")
        await user.press("g", "right", "end")
        await to_line(user, "up", "pots moved 1")
        await user.press("enter", "down", "enter")
        await user.fill("16 in")
        await to_line(user, "down", "/on")
        await user.press("enter")
        await user.fill("2026-06-02")
        await user.press("ctrl+s", "s", "escape", "escape")
        user.reads("22 min a watering, was 24 (−2)", "now 16.0 in")
        await user.press("space")
        assert "24 → 22 −8 %" in user.line("· Z4")
        await user.press("space", "i")
    assert (tmp_path / "weeks" / "2026-W24.json").is_file()


async def test_an_override_is_kept_with_its_reason_on_the_walk(tmp_path: Path) -> None:
    async with journey(can_yard(tmp_path, TESTED), NARROW) as user:
        await user.press("l", "o")
        await user.fill("22", "pots drip long")
        await user.press("enter", "escape", "space")
        assert "22 → 27 +23 %" in user.line("· Z4")
        user.reads("override kept: Z4 22 min, 8 Jun 2026: pots drip long")
