"""options.toml is read in either unit, and every slip in it is named."""

from pathlib import Path

import pytest

from scheduler.files.site_folder import read_site_folder

OPTIONS = """\
format = 1

[[option]]
id = "R1"
name = "re-space"
deed = "re-space"
zones = ["Z1"]
package = "rotor"
block_length_ft = 100
block_width_ft = 120

[[option.items]]
what = "head"
counted_by = "head"
price_money = 21

[[option.items]]
what = "pipe"
counted_by = "lateral length"
price_money_per_ft = 1.35
"""


@pytest.fixture
def with_options(site: Path) -> Path:
    (site / "options.toml").write_text(OPTIONS, encoding="utf-8")
    return site


def said(folder: Path, old: str = "", new: str = "") -> list[str]:
    file = folder / "options.toml"
    if old:
        assert OPTIONS.count(old) == 1, old
        file.write_text(OPTIONS.replace(old, new), encoding="utf-8")
    return [str(one) for one in read_site_folder(folder).findings]


def test_a_site_needs_no_options(site: Path) -> None:
    read = read_site_folder(site).site
    assert read is not None
    assert read.options == ()


def test_options_are_read_with_their_items(with_options: Path) -> None:
    read = read_site_folder(with_options)
    assert read.findings == ()
    assert read.site is not None
    assert [one.what for one in read.site.options[0].items] == ["head", "pipe"]


def test_lengths_and_prices_of_lengths_are_converted(with_options: Path) -> None:
    read = read_site_folder(with_options).site
    assert read is not None
    one = read.options[0]
    assert one.block_length_m == pytest.approx(30.48)
    assert one.items[1].price_money_per_m == pytest.approx(1.35 / 0.3048)


def test_a_slip_in_an_item_is_named_with_its_line(with_options: Path) -> None:
    found = said(with_options, 'counted_by = "head"', 'counted_by = "heads"')
    assert len(found) == 1
    assert found[0].startswith('options.toml:14: counted_by: is "heads"')
    assert "did you mean head?" in found[0]


def test_an_item_without_its_count_is_named(with_options: Path) -> None:
    found = said(with_options, 'counted_by = "lateral length"\n')
    assert found[0].startswith("options.toml:17: counted_by is missing")


def test_a_key_that_no_item_knows_is_named(with_options: Path) -> None:
    found = said(with_options, "price_money = 21", "cost_money = 21")
    assert "cost_money" in found[0]
    assert "did you mean price_money?" in found[0]


def test_a_zone_that_is_not_there_is_named(with_options: Path) -> None:
    found = said(with_options, 'zones = ["Z1"]', 'zones = ["Z11"]')
    assert found == [
        'options.toml:7: zones: names "Z11", which is not there; did you mean Z1?'
    ]


def test_a_package_that_is_not_there_is_named(with_options: Path) -> None:
    found = said(with_options, 'package = "rotor"', 'package = "rotors"')
    assert 'names "rotors", which is not there' in found[0]


def test_one_bad_option_hides_no_zone(with_options: Path) -> None:
    said(with_options, 'deed = "re-space"', 'deed = "dream"')
    read = read_site_folder(with_options).site
    assert read is not None
    assert len(read.zones) > 1
    assert read.options == ()


def test_a_price_with_a_text_for_a_number_is_named(with_options: Path) -> None:
    found = said(with_options, "price_money = 21", 'price_money = "21"')
    assert 'price_money: is "21", a text' in found[0]


def test_hours_of_another_price_stand_in_the_tariff(site: Path) -> None:
    text = (site / "site.toml").read_text(encoding="utf-8")
    tariff = '\n[tariff]\ncurrency = "USD"\n[[tariff.period]]\nstart = "16:00"\n'
    tariff += 'end = "21:00"\nprice_money_per_kwh = 0.3\n'
    (site / "site.toml").write_text(text + tariff, encoding="utf-8")
    read = read_site_folder(site)
    assert read.findings == ()
    assert read.site is not None
    assert read.site.tariff is not None
    assert read.site.tariff.period[0].start.hour == 16


def test_an_interest_in_percent_is_shown_as_it_must_be_written(
    with_options: Path,
) -> None:
    (finding,) = said(with_options, 'zones = ["Z1"]', 'zones = ["Z1"]\ninterest = 6')
    assert "interest: is 6; it must be at most 0.5" in finding
    assert "write 0.06 if 6 % is meant" in finding


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        ("price_money = 21", "price_money = 1e15", "no currency in use has a"),
        ("_ft = 1.35", "_ft = 1e12", "no currency in use has a price so high"),
        (
            "_ft = 120",
            "_ft = 120\nlife_years = 900",
            "nothing laid or bolted is written",
        ),
        ("_ft = 120", "_ft = 120\nlife_years = 0", "it must be above 0"),
        (
            "_ft = 120",
            "_ft = 120\ninterest = 100",
            "a part of one a year beyond inflation; write interest",
        ),
        ("_ft = 120", "_ft = 120\ninterest = 6", "write 0.06 if 6 % is meant"),
    ],
)
def test_what_no_site_can_have_is_refused_with_its_reason(
    with_options: Path, old: str, new: str, why: str
) -> None:
    (found,) = said(with_options, old, new)
    assert f"is {new.rpartition(' ')[2]}; " in found
    assert why in found


def test_a_currency_of_large_numbers_is_lawful(with_options: Path) -> None:
    # a million to the dollar: a head of 30 dollars, pipe of 5 dollars a metre
    text = OPTIONS.replace("= 21", "= 30000000").replace("= 1.35", "= 1500000")
    (with_options / "options.toml").write_text(text, encoding="utf-8")
    assert read_site_folder(with_options).findings == ()
