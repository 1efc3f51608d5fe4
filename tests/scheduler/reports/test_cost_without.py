"""Without prices it is told in water, calmly, with the remedy."""

from functools import cache

from scheduler.money.economics import SiteCost
from scheduler.reports.cost import cost_text
from scheduler.reports.cost_without import (
    missing_prices,
    remedy_words,
    without_price_words,
)
from tests.scheduler.money.made import option, yard_cost
from tests.scheduler.money.made_week import cost


@cache
def bare() -> SiteCost:
    return yard_cost(option(interest=None), water_per_kgal=None)


def test_where_water_has_a_price_nothing_is_said() -> None:
    assert without_price_words(cost(), "us") == ""


def test_without_one_it_says_that_nothing_is_guessed() -> None:
    said = without_price_words(bare(), "us")
    assert said.startswith("No price of water is entered, so this is told in water")
    assert "nothing is guessed" in said


def test_the_remedy_names_what_is_missing_and_where() -> None:
    assert missing_prices(bare()) == ("the price of water", "the interest")
    said = remedy_words(bare(), "us")
    assert "under [tariff] in site.toml, such as water_price_money_per_kgal" in said


def test_metric_sites_are_shown_a_metric_line() -> None:
    assert "water_price_money_per_m3 = 0.90" in remedy_words(bare(), "metric")


def test_it_stands_at_the_head_of_the_command() -> None:
    assert cost_text(bare(), "us").startswith("No price of water is entered")
    assert "–" not in cost_text(bare(), "us").splitlines()[0]
