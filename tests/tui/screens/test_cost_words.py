"""Tables and sentences of the cost page show the engine's numbers, formatted."""

from dataclasses import replace
from functools import cache

import pytest

from scheduler.money.economics import SiteCost, site_cost
from scheduler.money.retrofit import OptionResult
from scheduler.reports.cost_words import money, per_volume, volume
from tests.scheduler.money.made import HISTORY, TODAY, nothing, option, small_site
from tests.scheduler.money.made import yard_cost as made_yard
from tui.screens import cost_words as words


@cache
def yard() -> SiteCost:
    return made_yard()


def b() -> OptionResult:
    return next(one for one in yard().options if one.option.id == "B")


def test_doing_nothing_is_the_first_row() -> None:
    assert words.option_rows(yard(), "us")[0][1][0] == words.NOTHING


def test_rules_stand_beside_each_other_with_their_break_even() -> None:
    _, cells = words.option_rows(yard(), "us")[2]
    by_rule = {one.rule: one for one in b().returns}
    assert cells[1:5] == [
        per_volume(by_rule[rule].break_even_price_per_m3, "us", with_unit=False)
        for rule in ("own rule", "low half", "low quarter", "share served")
    ]
    assert cells[1:4] == ["2.45", "5.85", "2.45"]


@pytest.mark.parametrize("roomy", [True, False])
def test_the_longest_verdict_is_not_cut(roomy: bool) -> None:
    columns = words.option_columns("us", roomy=roomy)
    # a table cuts what is as long as its column
    assert columns[-1].width > len("  does not pay")
    assert roomy or sum(one.width for one in columns) <= 78


def test_every_number_of_an_option_is_that_of_its_own_rule() -> None:
    own = b().own
    assert own is not None
    text = "\n".join(words.option_lines(b(), None, "us"))
    for value in (money(own.net_money), volume(own.saved_m3, "us")):
        assert value in text


def test_with_a_what_if_the_numbers_before_stand_beside() -> None:
    lines = words.option_lines(b(), b(), "us")
    assert lines[0].endswith("was")
    assert lines[1].split()[-1] == lines[1].split()[-2]


def test_the_heads_say_what_the_prices_are_of() -> None:
    for roomy in (True, False):
        heads = [one.head for one in words.option_columns("metric", roomy=roomy)]
        assert "break-even" in heads[0]
        assert "m³" in heads[0]


def test_energy_is_told_where_no_season_was_run() -> None:
    assert dict(words.assumptions(yard(), "us"))["energy"] != "–"


def test_the_reason_of_a_verdict_is_said() -> None:
    cost = made_yard(nothing(tested_days=2), option())
    assert any("3 are the least" in one for one in words.reasons(cost.options[0]))


def test_without_a_season_the_zones_say_why() -> None:
    assert words.zone_lines(yard(), None, "us") == [
        "No season can be run: see the findings."
    ]


def test_zones_show_water_above_need_under_every_rule() -> None:
    cost = site_cost(small_site(), HISTORY, TODAY)
    (zone,) = cost.zones
    line = words.zone_lines(cost, None, "us")[2]
    for rule in zone.rules[:4]:
        assert volume(rule.above_need_m3, "us") in line
    assert money(zone.above_need_money) in line


def test_a_long_zone_id_stands_whole_and_in_line_with_the_heads() -> None:
    (zone,) = small_site().zones
    named = zone.model_copy(update={"id": "greenhouse-2"})  # as long as ids may be
    cost = site_cost(small_site(named), HISTORY, TODAY, tried_du={"greenhouse-2": 0.7})
    _, head, line, _ = words.zone_lines(cost, None, "us")
    assert line.startswith("greenhouse-2 ")
    assert len(head) == len(line)


def test_a_zone_id_is_cut_with_an_ellipsis_where_there_is_no_room() -> None:
    cost = site_cost(small_site(), HISTORY, TODAY)
    (zone,) = cost.zones
    long = replace(zone, season=replace(zone.season, zone=zone.season.zone.model_copy(
        update={"id": "greenhouse-2"})))  # fmt: skip
    cost = replace(cost, zones=(long,))
    lines = words.zone_lines(cost, cost, "us")
    assert lines[2].startswith("greenho… ")
    assert max(map(len, lines)) <= 78


def test_lines_of_zones_fit_beside_an_option_or_alone() -> None:
    cost = site_cost(small_site(), HISTORY, TODAY)
    assert max(map(len, words.zone_lines(cost, cost, "us"))) <= 78
    assert max(map(len, words.option_lines(b(), b(), "us"))) <= 56


def test_the_page_in_words_names_every_rule_and_the_assumptions() -> None:
    text = " ".join(words.said(yard(), b(), "us"))
    assert "water 2.60 per kgal" in text
    assert all(f"By the rule {one.rule}" in text for one in b().returns)


def test_bars_of_the_zones_hold_what_they_were() -> None:
    tried = site_cost(small_site(), HISTORY, TODAY, tried_du={"Z4": 0.95})
    own = site_cost(small_site(), HISTORY, TODAY)
    bars = words.zone_bars(tried, own)
    assert bars is not None
    (row,) = bars.rows
    was, now = own.zones[0].above_need_money, tried.zones[0].above_need_money
    assert (row.was, row.value) == (was, now)
    assert row.text == f"{money(was)} → {money(now)}"


def test_changed_cells_of_an_option_hold_both_and_verdicts_stand_whole() -> None:
    dear = site_cost(small_site(), HISTORY, TODAY, water_money_per_m3=2.0)
    own = site_cost(small_site(), HISTORY, TODAY)
    rows = words.option_rows(dear, "us", own, roomy=False)
    columns = words.option_columns("us", roomy=False, is_tried=True)
    assert {len(cells) for _, cells in rows} == {len(columns)}
    assert sum(one.width for one in columns) <= 78
    assert columns[-1].width > len("  not proven")
