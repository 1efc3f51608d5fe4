"""The planned week on the page of money."""

from dataclasses import replace

from tests.scheduler.money.made_week import around
from tui.screens.cost_week_words import (
    WAITING,
    WEEK_WAITING,
    night_lines,
    waiting_lines,
    week_lines,
    week_said,
)


def test_lines_fit_beside_the_option_at_every_size() -> None:
    for units in ("us", "metric"):
        assert max(map(len, week_lines(around(), units))) <= 78


def test_the_room_of_the_week_is_kept_while_it_is_worked_out() -> None:
    lines = week_lines(around(), "us")
    waiting = waiting_lines(len(lines))
    assert waiting[0] == WEEK_WAITING
    assert len(waiting) == len(lines)
    assert waiting_lines(0) == []


def test_the_site_stands_last() -> None:
    assert week_lines(around(), "us")[-1].split()[:3] == ["site", "48.7", "10.3"]


def test_a_long_zone_id_stands_whole() -> None:
    found = around()
    first, *others = found.periods
    periods = (replace(first, zone="greenhouse-2"), *others)
    lines = week_lines(replace(found, periods=periods), "us")
    assert lines[2].startswith("greenhouse-2 ")
    assert len({len(line) for line in lines[1:]}) == 1


def test_an_option_tells_its_nights() -> None:
    assert night_lines(around(), "B", "us")[0].startswith("All zones together")


def test_while_they_are_worked_out_it_says_so() -> None:
    assert night_lines(None, "B", "us") == [WAITING]


def test_doing_nothing_has_no_nights_of_its_own() -> None:
    assert night_lines(around(), None, "us") == []


def test_the_week_is_told_in_a_sentence() -> None:
    said = week_said(around(), "us")
    assert said[0].startswith(
        "In the week of 8 Jun the plan puts on 48.7 kgal, 10.3 of"
    )
