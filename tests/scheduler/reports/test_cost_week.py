"""Week, season so far and year as text."""

from dataclasses import replace

from scheduler.reports.cost_week import (
    periods_text,
    quarters_text,
    unknown_words,
    week_chains,
)
from tests.scheduler.money.made_week import around


def test_three_spans_stand_side_by_side_with_the_site_last() -> None:
    text = periods_text(around(), "us")
    last = [line for line in text.splitlines() if line.startswith("site")]
    assert last[0].split()[:4] == ["site", "48.7", "10.3", "26"]
    assert max(map(len, text.splitlines())) <= 80


def test_quarters_of_a_zone_stand_driest_first() -> None:
    text = quarters_text(around().week.zones[0], "metric")
    names = [line.split()[0] for line in text.splitlines() if line.startswith(
        ("driest", "second", "third", "wettest"))]  # fmt: skip
    assert names == ["driest", "second", "third", "wettest"]
    assert "m³ of water and 0.0 m³ of rain find no room" in text.replace("\n", " ")


def test_zones_that_no_sum_holds_are_named_with_why() -> None:
    week = around().week
    lost = replace(week.zones[0], above_need_m3=None, why="it is blocked")
    said = unknown_words(replace(week, zones=(lost, *week.zones[1:])))
    assert said == "Not in what the week has above need: Z4 (it is blocked)."


def test_the_nights_of_an_option_have_their_chains_now_and_then() -> None:
    chains = week_chains(around(), "us")
    for when in ("this week", "the fullest night"):
        for state in ("now", "then"):
            start = f"option B, {when} {state}\n"
            chain = next(text for text in chains if text.startswith(start))
            assert "window = 240 min" in chain
            assert "minutes short = 0" in chain
            assert "peak flow = " in chain


def test_the_chains_reach_from_the_charge_to_the_head_of_the_pump() -> None:
    chain = next(
        text
        for text in week_chains(around(), "us")
        if "option B, this week now" in text
    )
    assert "head = 229.7 ft" in chain
    assert "kWh per kgal" in chain
    assert "demand price = 8.00 per kW" in chain
