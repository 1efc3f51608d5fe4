"""Lanes of a night: every run is drawn, in the picture and in characters."""

import re

import pytest

from scheduler.reports.handed.lanes import (
    LEAST_BAR,
    LEFT,
    RIGHT,
    WIDE,
    Band,
    Lane,
    Night,
    Step,
    clock,
    hours,
    lanes_svg,
    lanes_text,
    spoken,
)
from tests.scheduler.reports.handed.made import HOSTILE
from tests.scheduler.reports.test_page import parsed


def night(*lanes: Lane, minutes: int = 390, bands: tuple[Band, ...] = ()) -> Night:
    steps = tuple(Step(a, b, 100.0) for lane in lanes for a, b in lane.runs)
    return Night(22 * 60, minutes, lanes, steps, bands, 120.0, 100.0, "120", "100")


def bars(svg: str) -> list[tuple[float, float]]:
    """Left edge and width of every run."""
    found = re.findall(r'class="run" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', svg)
    return [(float(x), float(wide)) for x, wide in found]


def test_a_run_is_drawn_to_scale() -> None:
    ((x, wide),) = bars(lanes_svg(night(Lane("Z1", ((0, 195),))), "h"))
    assert x == pytest.approx(LEFT)
    assert wide == pytest.approx((WIDE - LEFT - RIGHT) / 2, abs=0.01)


def test_one_minute_of_a_long_night_is_still_seen() -> None:
    ((_, wide),) = bars(lanes_svg(night(Lane("Z1", ((5, 6),)), minutes=1440), "h"))
    assert wide >= LEAST_BAR


def test_every_run_has_its_bar() -> None:
    lanes = [Lane(f"Z{i}", ((i, i + 2), (100 + i, 102 + i))) for i in range(40)]
    assert len(bars(lanes_svg(night(*lanes), "h"))) == 80


def test_a_picture_is_told_in_words() -> None:
    told = spoken(night(Lane("Z1", ((0, 8), (27, 35)))))
    assert told == "Z1 22:00 to 22:08, 22:27 to 22:35. Highest flow 100."


def test_hours_are_marked_where_they_fall() -> None:
    half_past = Night(22 * 60 + 30, 120, (), (), (), None, 0.0, "", "")
    assert hours(half_past) == [30, 90]
    assert clock(half_past, 90) == "00:00"


def test_names_are_text_and_never_a_tag() -> None:
    svg = lanes_svg(night(Lane(HOSTILE, ((0, 8),))), 'h"><script>')
    assert "<script" not in svg
    assert parsed(svg).open == []


def test_blocked_hours_are_hatched_in_the_lanes_they_block() -> None:
    lanes = (Lane("Z1", ((200, 220),)), Lane("Z2", ((200, 220),)))
    for zones, n in (((), 2), (("z2",), 1)):
        svg = lanes_svg(night(*lanes, bands=(Band(0, 60, True, zones),)), "hatch")
        assert svg.count('fill="url(#hatch)"') == n


def test_what_lies_outside_the_night_is_not_hatched() -> None:
    early = night(Lane("Z1", ((0, 8),)), bands=(Band(-60, 0, True),))
    assert "url(#" not in lanes_svg(early, "h")
    assert "x" not in "".join(lanes_text(early)[1:-1])


def test_an_energy_period_is_a_bar_over_the_lanes() -> None:
    dear = night(Lane("Z1", ((0, 8),)), bands=(Band(0, 60, False),))
    assert lanes_svg(dear, "h").count('height="0.9"') == 1


def test_the_pump_is_a_dashed_line_only_where_it_is_known() -> None:
    known = night(Lane("Z1", ((0, 8),)))
    svg = lanes_svg(known, "h")
    assert svg.count('stroke-dasharray="2 1"') == 1
    unknown = Night(1320, 390, known.lanes, known.steps, (), None, 100.0, "", "100")
    assert 'stroke-dasharray="2 1"' not in lanes_svg(unknown, "h")


# --- in characters -------------------------------------------------------------


def test_lanes_in_characters_fit_eighty_columns() -> None:
    for minutes in (30, 390, 1440, 2000):
        lines = lanes_text(night(Lane("Z1", ((0, 8),)), minutes=minutes))
        assert max(map(len, lines)) <= 80


def test_a_run_shorter_than_a_character_is_one() -> None:
    lines = lanes_text(night(Lane("Z1", ((61, 62),))))
    assert lines[1].count("#") == 1
    assert lines[1].index("#") - 5 == 61 // 6


def test_a_run_fills_every_character_that_it_touches() -> None:
    assert lanes_text(night(Lane("Z1", ((5, 13),))))[1].count("#") == 3


def test_blocked_minutes_are_crossed_out() -> None:
    lines = lanes_text(
        night(Lane("Z1", ((200, 220),)), bands=(Band(-30, 60, True, ("Z1",)),))
    )
    assert lines[1].startswith("Z1   xxxxxxxxxx.")


def test_the_scale_is_said() -> None:
    assert "one character is 6 minutes" in lanes_text(night(Lane("Z1", ((0, 8),))))[-1]
