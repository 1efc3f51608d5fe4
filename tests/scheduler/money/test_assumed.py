"""Other prices, interest, life and hardware: what changes, stays, is refused."""

import pytest

from scheduler.errors import QuantityError
from scheduler.money.assumed import NEW, Then, site_assuming, site_with_then
from scheduler.option import PriceItem
from scheduler.site import Site
from tests.scheduler.money.made import bay, option, small_site

HEAD = PriceItem(what="head", counted_by="head", price_money=2.0, life_years=3.0)


def site(**given: object) -> Site:
    own = option(zones=("Z4",), interest=0.08, **given)
    return small_site(bay(), options=(own,))


def test_another_price_of_water_is_that_of_the_tariff() -> None:
    changed = site_assuming(site(), "water price", 2.0).tariff
    assert changed is not None
    assert changed.water_price_money_per_m3 == 2.0


def test_another_price_of_energy_holds_at_every_hour() -> None:
    changed = site_assuming(site(), "energy price", 0.3).tariff
    assert changed is not None
    assert (changed.energy_price_money_per_kwh, changed.period) == (0.3, ())


def test_another_interest_holds_for_options_with_one_of_their_own() -> None:
    changed = site_assuming(site(), "interest", 0.02)
    assert changed.tariff is not None
    assert changed.tariff.interest == 0.02
    assert changed.options[0].interest is None


def test_another_life_holds_for_every_part() -> None:
    changed = site_assuming(site(items=(HEAD,), price_money=None), "life", 7.0)
    (one,) = changed.options
    assert (one.life_years, one.items[0].life_years) == (7.0, None)


def test_the_site_that_was_given_stays_as_it_is() -> None:
    own = site()
    site_assuming(own, "life", 7.0)
    assert own.options[0].life_years == 12.0


def test_a_site_without_tariff_takes_a_price() -> None:
    bare = small_site(bay(), tariff=None)
    changed = site_assuming(bare, "water price", 1.0).tariff
    assert changed is not None
    assert changed.currency == "money"


@pytest.mark.parametrize(
    ("what", "value", "words"),
    [
        ("water price", -1.0, "water price cannot be -1; give 0 or more"),
        ("interest", 0.9, "interest cannot be 0.9; give 0 to 50 %"),
        ("life", 0.0, "life cannot be 0; give more than 0"),
    ],
)
def test_what_is_not_allowed_is_refused(what: str, value: float, words: str) -> None:
    with pytest.raises(QuantityError, match=words):
        site_assuming(site(), what, value)  # type: ignore[arg-type]


def test_a_tested_package_takes_the_place_of_a_stated_uniformity() -> None:
    (one,) = site_with_then(site(), "B", "Z4", Then("p")).options
    assert (one.package, one.du_lq, one.tested_days) == ("p", None, None)


def test_a_spacing_is_a_package_of_its_own_without_a_test() -> None:
    then = Then("p", 0.81, 6.0, 9.0, "rectangular", "at 6 x 9 m")
    changed = site_with_then(site(), "B", "Z4", then)
    new = changed.package("p at 6 x 9 m")
    assert new is not None
    assert (new.spacing_m, new.row_spacing_m) == (6.0, 9.0)
    assert new.nozzle_flow_l_per_min == 17.4
    (one,) = changed.options
    assert (one.package, one.du_lq, one.tested_days) == (new.id, 0.81, None)
    assert "still air" in one.du_from


def test_prices_of_the_option_stay() -> None:
    (one,) = site_with_then(site(), "B", "Z4", Then("p")).options
    assert one.price_money == 9600.0


def test_without_an_option_one_is_made_without_a_price() -> None:
    bare = small_site(bay())
    (one,) = site_with_then(bare, NEW, "Z4", Then("p")).options
    assert (one.id, one.zones, one.price_money) == (NEW, ("Z4",), None)


def test_a_package_that_is_not_there_is_refused() -> None:
    with pytest.raises(QuantityError, match="no package 'q'; the packages are p"):
        site_with_then(site(), "B", "Z4", Then("q"))


def test_a_zone_that_is_not_there_is_refused() -> None:
    with pytest.raises(QuantityError, match="no zone 'Y'; the zones are Z4"):
        site_with_then(small_site(bay()), NEW, "Y", Then("p"))
