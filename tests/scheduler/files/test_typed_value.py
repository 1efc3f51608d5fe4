"""What is typed into a field becomes the line that the file would have."""

import pytest

from scheduler.errors import QuantityError
from scheduler.files.noun_fields import fields_of
from scheduler.files.typed_value import Entry, plain_text, typed_entry
from scheduler.site import Noun, Package, Plant, Site, Supply, Tariff, Window, Zone


def entry(model: type[Noun], name: str, key: str, text: str) -> Entry:
    return typed_entry(fields_of(model)[name], key, text)


@pytest.mark.parametrize(
    ("model", "name", "key", "text", "wanted"),
    [
        (Zone, "area_m2", "area_ft2", "12500", "area_ft2 = 12500"),
        (Zone, "area_m2", "area_ft2", "1200 m2", "area_m2 = 1200"),
        (Zone, "area_m2", "area_ft2", "0.3 acres", "area_acre = 0.3"),
        (Package, "spacing_m", "spacing_ft", "30 1/2 ft", "spacing_ft = 30.5"),
        (Supply, "flow_l_per_min", "flow_gpm", "27 m³/h", "flow_m3_per_h = 27"),
        (Tariff, "water_price_money_per_m3", "water_price_money_per_m3",
         "2.60 per kgal", "water_price_money_per_kgal = 2.60"),
        (Tariff, "water_price_money_per_m3", "water_price_money_per_kgal",
         "0.65 / m3", "water_price_money_per_m3 = 0.65"),
        (Zone, "rain_counted", "rain_counted", "85 %", "rain_counted = 0.85"),
        (Zone, "priority", "priority", "3", "priority = 3"),
        (Zone, "priority", "priority", "05", "priority = 5"),
        (Plant, "kc_by_month", "kc_by_month", "00.8 0.9", "kc_by_month = [0.8, 0.9]"),
        (Zone, "name", "name", 'rim 4" pots', 'name = "rim 4\\" pots"'),
        (Zone, "watered", "watered", "when due", 'watered = "when due"'),
        (Zone, "days", "days", "mon, wed fri", 'days = ["mon", "wed", "fri"]'),
        (Zone, "not_with", "not_with", "Z4, Z 5", 'not_with = ["Z4", "Z 5"]'),
        (Plant, "kc_by_month", "kc_by_month", "0.8 0.90", "kc_by_month = [0.8, 0.90]"),
        (Site, "learn", "learn", "no", "learn = false"),
        (Site, "pinned_today", "pinned_today", "2026-06-08",
         "pinned_today = 2026-06-08"),
        (Window, "start", "start", "9:30", 'start = "09:30"'),
    ],
)  # fmt: skip
def test_a_field_takes_what_people_type(
    model: type[Noun], name: str, key: str, text: str, wanted: str
) -> None:
    done = entry(model, name, key, text)
    assert f"{done.key} = {done.value}" == wanted


def test_a_percent_of_a_whole_number_is_the_number() -> None:
    from scheduler.site import Controller

    done = entry(Controller, "percent_adjust", "percent_adjust", "90 %")
    assert done.value == "90"


@pytest.mark.parametrize(
    ("typed", "text"),
    [('"hollies, #3"', "hollies, #3"), ('["mon", "wed"]', "mon wed"), ("4.10", "4.10")],
)
def test_a_field_shows_no_quotes_and_no_brackets(typed: str, text: str) -> None:
    assert plain_text(fields_of(Zone)["days"], typed) == text


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ("twelve", "not a number"),
        ("3 kg", "no unit of area; write one of"),
        ("1,5", "has a comma; write '1.5'"),
        ("10,000 sq ft", "write '10000 sq ft', or '10.000 sq ft' if it stands for"),
        ("12,000.5", "has a comma; write '12000.5'"),
        ("1.200,5", "has a comma; write '1200.5'"),
        ("0,125", "has a comma; write '0.125'"),
    ],
)
def test_what_is_no_quantity_is_refused_with_the_remedy(text: str, match: str) -> None:
    with pytest.raises(QuantityError, match=match):
        entry(Zone, "area_m2", "area_ft2", text)


def test_a_bare_number_takes_no_unit() -> None:
    with pytest.raises(QuantityError, match=r"has no unit; write 0\.8"):
        entry(Plant, "kc", "kc", "0.8 mm")


def test_neither_yes_nor_no_is_refused() -> None:
    with pytest.raises(QuantityError, match="write true or false"):
        entry(Site, "learn", "learn", "perhaps")
