"""Wind of three tests from a logger whose clock nobody compared with a watch."""

from pathlib import Path

from tests.scheduler.field.wind.made import MORNING_LOCAL_MPH, MORNING_UTC_MPH
from tests.tui.journeys.play import journey
from tests.tui.journeys.sites import can_test, can_yard

LOG = """
[[wind_log]]
name = "mast"
file = "wind/mast.csv"
clock = "utc"
stamp = "start"
interval_min = 5
height_m = 2
"""


def _stamps(hours: range) -> list[str]:
    return [f"{hour:02d}:{minute:02d}" for hour in hours for minute in range(0, 60, 5)]


def windy_site(folder: Path) -> Path:
    """Tests on a May morning, in the night clocks go back, and the morning after.

    The May rows of 10:20 and 10:35 are missing; in November it is calm from 11:00 to
    12:00 in UTC alone, which is 06:00 to 07:00 an hour after the daylight time ended.
    """
    may = {one: 7.0 for one in _stamps(range(5, 13)) if one not in ("10:20", "10:35")}
    may |= MORNING_UTC_MPH | MORNING_LOCAL_MPH
    autumn = {
        one: 4.1 if one.startswith("11") else 12.0 for one in _stamps(range(9, 14))
    }
    rows = [f"2025-11-03 {at},{mph}" for at, mph in autumn.items()]
    rows += [f"2026-05-12 {at},{mph}" for at, mph in sorted(may.items())]
    return can_yard(
        folder,
        {"wind/mast.csv": "\n".join(["time,wind (mph)", *rows, ""])},
        can_test("Z4", "2025-11-02", "01:30", 40),
        can_test("Z4", "2025-11-03", "06:10", 40),
        can_test("Z4", "2026-05-12", "06:10", 40),
        site=LOG,
    )


async def test_a_log_on_another_clock_is_a_question_and_an_hour_that_came_twice_a_stop(
    tmp_path: Path,
) -> None:
    async with journey(windy_site(tmp_path)) as user:
        await user.press("c")
        user.reads("run1 of Tue 12 May 2026", "wind 2.8 mph calm")
        await user.press("right")
        user.reads("run1 of Mon 3 Nov 2025", "wind 4.1 mph calm")
        await user.press("right")
        user.reads("run1 of Sun 2 Nov 2025", "wind not known")
        await user.press("t")
        user.reads("75 % of the run is logged (6 of 8 rows)")
        user.reads("if the log were local: 9.1 mph", "if utc as declared: 2.8 mph")
        user.reads("which?")
        await user.press("f")
        user.reads(
            "2025-11-02 01:30 came twice in America/New_York, at offset -04:00 and "
            "again at -05:00",
            "write 2025-11-02T01:30-04:00 or 2025-11-02T01:30-05:00",
        )
