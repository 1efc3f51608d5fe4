"""The sentences of the page of the hours."""

import datetime as dt
from types import SimpleNamespace as Made
from typing import Any

from scheduler.errors import Finding
from scheduler.watering.night_plan import NightPlan, NightSummary
from scheduler.watering.night_plan.changed import ZoneChange, ZoneSetting
from scheduler.watering.night_plan.reasons import WhyThere
from tui import week_state
from tui.screens import week_words as words
from tui.screens.week_pictures import week_words
from tui.screens.week_rows import natural
from tui.session import Session

GPM = 3.785411784
FITS = NightSummary(True, 0, 0.01, "fill", 190 * GPM, 200 * GPM, 3, ())
SHORT = NightSummary(False, 15, None, "", 150 * GPM, 170 * GPM, 2, ())
OVER = Finding("stop", "night plan", "does not fit", "open the window by 15 min")
MONDAY = dt.date(2026, 6, 8)


def plan(summary: NightSummary, *findings: Finding, **given: Any) -> NightPlan:
    unplaced = (("Z6", MONDAY),) if not summary.fits else ()
    return NightPlan((), unplaced, summary, findings, **given)


def test_a_week_that_fits_says_how_near_the_pump_it_comes() -> None:
    assert words.fit(plan(FITS), "us") == "fits; peak 190.0 of 200.0 gpm, 3 valves"


def test_a_week_that_does_not_fit_says_the_minutes_and_the_zones() -> None:
    assert words.fit(plan(SHORT), "us") == "does not fit: 15 min short, no room for Z6"


def test_another_pump_stands_before_and_after_with_the_ways_out() -> None:
    text = words.pump_text(plan(FITS), plan(SHORT, OVER), "us")
    assert text == (
        "Pump 200.0 gpm: fits; peak 190.0 of 200.0 gpm, 3 valves. At 170.0 gpm: does "
        "not fit: 15 min short, no room for Z6. Ways out: open the window by 15 min."
    )


def _why(opened: Session, extra: float, free: float, alone: float) -> str:
    board = week_state.board_of(opened)
    assert board is not None
    here = Made(zone="Z1", night=0)
    found = WhyThere(extra, free, (60,), alone, None)
    return words.why_text(board, here, found, "us")  # type: ignore[arg-type]


def test_the_cheapest_minutes_are_the_reason(opened: Session) -> None:
    assert "the cheapest minutes of the night" in _why(opened, 0.1, 0.1, 0.1)


def test_others_may_have_the_cheaper_minutes(opened: Session) -> None:
    said = _why(opened, 0.1, 0.1, 0.02)
    assert "that others leave, 8.0% of its water" in said


def test_a_cheaper_free_place_is_told_with_its_start(opened: Session) -> None:
    assert "free and cheaper from 23:00" in _why(opened, 0.1, 0.02, 0.02)


def test_was_and_now_stand_side_by_side() -> None:
    was = ZoneSetting(28.0, 1, (0, 2), (dt.time(23),))
    now = ZoneSetting(30.0, 2, tuple(range(7)), (dt.time(23),))
    first, line = words.change_lines("2026-W23", [ZoneChange("Z4", was, now)])
    assert first == "against 2026-W23: 1 of 1 zones change"
    assert line == (
        "■ Z4: 28 min, Mon Wed, 23:00 → NOW 30 min in 2, every night, 23:00"
    )


def test_a_zone_that_stops_is_off_now() -> None:
    was = ZoneSetting(28.0, 1, (0,), ())
    assert words.change_lines("w", [ZoneChange("Z4", was, None)])[1].endswith("NOW off")


def test_the_week_in_words_names_every_cycle(opened: Session) -> None:
    board = week_state.board_of(opened)
    assert board is not None
    lines = week_words(board, "us")
    runs = sum(line.count("–") for line in lines[:7])
    assert opened.plan is not None
    assert opened.plan.night is not None
    assert runs == len(opened.plan.night.runs)
    assert "The pump gives 200.0 gpm." in lines


def test_zones_come_by_their_number() -> None:
    assert sorted(["Z10", "Z2"], key=natural) == ["Z2", "Z10"]
