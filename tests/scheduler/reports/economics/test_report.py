"""The economics pages: order, numbers of the engine, what is empty, eighty columns."""

import datetime as dt
from functools import cache

from scheduler.money.economics import SiteCost, site_cost
from scheduler.money.retrofit import OptionResult
from scheduler.reports.cost_words import money, per_volume, volume
from scheduler.reports.economics import economics_report, economics_report_json
from scheduler.reports.economics.returns import NO_CHANCE
from scheduler.reports.machine import clean
from scheduler.reports.page import paper_page
from scheduler.reports.paper import Leaf, Paper, Picture, Table
from scheduler.reports.paper_text import paper_text
from scheduler.reports.pdf import paper_pdf
from scheduler.reports.text import WIDTH
from tests.scheduler.money.made import (
    HISTORY,
    TODAY,
    nothing,
    nozzles,
    option,
    small_site,
    yard_cost,
)
from tests.scheduler.reports.test_page import parsed
from tests.scheduler.reports.test_pdf import n_pages

DAY = dt.date(2026, 6, 8)
NAME = '<b>Zoë & "Söhne"</b>'


@cache
def yard() -> SiteCost:
    return yard_cost()


def report(cost: SiteCost | None = None) -> Paper:
    return economics_report(cost or yard(), "us", DAY)


def leaves_of(option_id: str, cost: SiteCost | None = None) -> list[Leaf]:
    return [x for x in report(cost).leaves if x.title.startswith(f"{option_id} ")]


def b() -> OptionResult:
    return next(one for one in yard().options if one.option.id == "B")


def rows(option_id: str, cost: SiteCost | None = None) -> dict[str, tuple[str, ...]]:
    """Rows of now beside the options."""
    first = leaves_of(option_id, cost)[0]
    section = next(one for one in first.sections if one.number == "2")
    table = next(one for one in section.blocks if isinstance(one, Table))
    return {row[0].strip(): row[1:] for row in table.rows}


def text(cost: SiteCost | None = None) -> str:
    return " ".join(paper_text(report(cost)).split())


def test_the_site_comes_first_then_two_sides_an_option_cheapest_first() -> None:
    starts = [leaf.title[:2] for leaf in report().leaves]
    assert starts == ["Te", "A ", "A ", "B ", "B "]


def test_sections_stand_in_order_from_assumptions_to_limits() -> None:
    numbers = [one.number for leaf in leaves_of("B") for one in leaf.sections]
    assert numbers == [str(i) for i in range(1, 9)]


def test_rows_show_the_numbers_of_the_engine() -> None:
    found, one = rows("B"), b()
    assert one.own is not None
    assert one.cost is not None
    now, then = one.years
    assert found["water, kgal"][0] == volume(now.water_m3, "us")
    assert found["water, kgal"][2] == volume(then.water_m3, "us")
    assert found["saved, kgal"][2] == volume(one.own.saved_m3, "us") == "468"
    assert found["yearly cost, USD"][2] == money(one.cost.yearly_cost_money) == "1,145"
    assert found["net a year, USD"][2] == money(one.own.net_money)
    assert found["break-even water, USD per kgal"][2] == per_volume(
        one.own.break_even_water_price_per_m3, "us", with_unit=False
    )


def test_now_and_then_stand_with_their_ranges() -> None:
    assert rows("B")["DU low quarter"] == (
        "0.58 (0.56–0.60)", "0.62 (0.58–0.66)", "0.78 (0.76–0.81)",
    )  # fmt: skip


def test_what_nobody_entered_stays_visibly_empty() -> None:
    found = rows("B")
    for name in ("hours by hand", "fertilizer saved, USD", "plant losses saved, USD"):
        assert found[name][2] == "–"


def test_every_rule_stands_beside_the_others() -> None:
    section = next(
        one for leaf in leaves_of("B") for one in leaf.sections if one.number == "4"
    )
    (table, _) = section.blocks
    assert isinstance(table, Table)
    assert [row[0] for row in table.rows] == [one.rule for one in b().returns]
    assert [row[-1] for row in table.rows] == [one.verdict for one in b().returns]


def test_a_verdict_that_is_not_proven_is_said_with_its_reason() -> None:
    assert "not proven (the gain of DU" in text()


def test_what_drives_it_and_the_chance_are_pictures() -> None:
    pictures = [
        block
        for leaf in leaves_of("B")
        for one in leaf.sections
        for block in one.blocks
        if isinstance(block, Picture)
    ]
    assert [one.title for one in pictures] == ["Net a year", "Chance that it pays"]


def test_the_tornado_shows_the_engines_nets() -> None:
    first = b().sensitivities[0]
    assert f"{first.driver} {first.low} {money(first.net_low_money)}" in text()


def test_tested_on_too_few_days_there_is_no_chance_but_a_reason() -> None:
    few = yard_cost(nothing(tested_days=2), option())
    assert " ".join(NO_CHANCE.split()) in text(few)


def test_a_missing_price_is_named() -> None:
    bare = yard_cost(nothing(), option(price_money=None, life_years=None))
    assert "Not entered" in text(bare)
    assert rows("B", bare)["net a year, USD"][1] == "–"


def test_potential_and_actual_stand_apart() -> None:
    assert "Potential, as forecast: 468 kgal. Actual, as re-tested: –" in text()


def test_options_of_other_zones_are_not_set_beside_each_other() -> None:
    pair = small_site(options=(option(zones=("Z4",), du_lq=0.9, du_lq_high=0.92),
                               nozzles(zones=("Z9",))))  # fmt: skip
    cost = site_cost(pair, HISTORY, TODAY)
    assert all(len(row) == 2 for row in rows("B", cost).values())


def test_zones_stand_with_their_water_above_need() -> None:
    cost = site_cost(small_site(), HISTORY, TODAY)
    (zone,) = cost.zones
    row = f"Z4 ≥{zone.season.catch.du_lq:.2f}" if zone.season.catch else ""
    assert row in text(cost)
    assert volume(zone.own.above_need_m3, "us") in text(cost)


def test_a_site_without_options_says_how_to_write_one() -> None:
    cost = site_cost(small_site(), HISTORY, TODAY)
    assert "No option is written" in text(cost)


def test_no_line_is_wider_than_eighty_columns() -> None:
    for units in ("us", "metric"):
        paper = economics_report(yard(), units, DAY)
        assert max(map(len, paper_text(paper).splitlines())) <= WIDTH


def test_a_page_escapes_what_was_typed() -> None:
    page = paper_page(report(yard_cost(nothing(), option(name=NAME))))
    parsed(page)
    assert NAME not in page


def test_every_option_fits_on_two_sides() -> None:
    assert n_pages(paper_pdf(report())) == len(report().leaves)


def test_json_holds_what_the_pages_show() -> None:
    made = clean(economics_report_json(yard(), ()))
    (one,) = [each for each in made["options"] if each["id"] == "B"]
    assert made["report"] == "economics"
    assert len(one["chance_by_water_price"]["chance"]) == 17
    assert one["years"][0]["labour_hours"] is None
