"""What a person writes becomes a noun, and every slip is said in their own words."""

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel

from scheduler.files.nouns import read_noun
from scheduler.files.text_file import TextFile
from scheduler.files.toml_text import parsed_toml
from scheduler.site import (
    Noun,
    Package,
    Place,
    Plant,
    Pots,
    Site,
    Soil,
    StageCurve,
    Supply,
    Window,
    Zone,
)
from scheduler.units import System, converted, face_suffix, split_suffix

ZONE = """\
id = "Z1"
name = "yard"
area_ft2 = 400
grown_in = "pots"
watered = "off"
"""


def read(text: str, model: type[Noun] = Zone) -> tuple[Any, list[str]]:
    toml, slips = parsed_toml(TextFile("zones.toml", text, ""))
    assert toml is not None
    noun, findings = read_noun(model, toml.data, toml, ())
    return noun, [str(one) for one in (*slips, *findings)]


def test_a_key_takes_any_unit_of_its_measure() -> None:
    noun, _ = read(ZONE.replace("area_ft2 = 400", "area_acre = 2"))
    # an acre is 43 560 square feet by definition
    assert noun.area_m2 == pytest.approx(2 * 43560 * 0.09290304, rel=1e-9)


def test_a_whole_number_serves_as_a_measure() -> None:
    noun, _ = read(ZONE.replace("area_ft2 = 400", "area_m2 = 400"))
    assert noun.area_m2 == 400.0


def test_words_are_taken_in_any_case() -> None:
    noun, _ = read(ZONE.replace('"pots"', '"Pots"') + 'days = ["Mon", "tuesday"]')
    assert noun.grown_in == "pots"
    assert noun.days == ("mon", "tue")


def test_dates_are_taken_with_and_without_quotes() -> None:
    text = "initial_days = 20\ndevelopment_days = 30\nmid_days = 40\nlate_days = 30\n"
    text += "kc_initial = 0.3\nkc_mid = 1.1\nkc_end = 0.6\n"
    for start in ("2026-04-01", '"2026-04-01"'):
        noun, _ = read(f"{text}start = {start}", StageCurve)
        assert noun.start == dt.date(2026, 4, 1)


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            "area_ft2 = 400",
            "area_ft2 = -4",
            "zones.toml:3: area_ft2: is -4; it must be",
        ),
        (
            "area_ft2 = 400",
            "area = 1",
            "area = 1 has no unit; write area_m2 or area_ft2",
        ),
        ("area_ft2 = 400", "area_mm = 1", "area_mm = 1 is in mm, which is no unit of"),
        (
            "area_ft2 = 400",
            "area_ft2 = 1\narea_m2 = 1",
            "given twice, as area_ft2 on li",
        ),
        ("area_ft2 = 400", "", "area_m2 or area_ft2 is missing"),
        ("area_ft2 = 400", 'area_ft2 = "12"', "write it without quotes: area_ft2 = 12"),
        ("area_ft2 = 400", 'area_ft2 = "12,5"', "without quotes: area_ft2 = 12.5"),
        ("area_ft2 = 400", 'area_ft2 = "big"', "a text where a number is wanted"),
        ("area_ft2 = 400", "area_ft2 = true", "is true, where a number is wanted"),
        ("area_ft2 = 400", "area_ft2 = inf", "is inf, not a finite number"),
        ("area_ft2 = 400", "area_ft2 = [1]", "is [1], where a number is wanted"),
        ("area_ft2 = 400", "area_ft2 = 1" + "0" * 400, "not a finite number"),
        ("watered", "watred", "did you mean watered?"),
        ("watered", "colour", "is not a known key; delete the line, or use one of"),
        ('"pots"', '"soyl"', 'is "soyl", which is not a choice; did you mean soil?'),
        ('"yard"', '""', "too short"),
        ('"Z1"', '"Z1234567890123"', "too long (at most 12)"),
        ('"Z1"', "1", "zones.toml:1: id: is 1, where a text in quotes is wanted"),
        ('"off"', '"off"\nassumed_du_lq = 1.12', "is 1.12; a uniformity is between 0"),
        ('"off"', '"off"\nassumed_du_lq = 71', "write 0.71 if 71 % is meant"),
        ('"off"', '"off"\nplant = "holly"', 'is "holly", not a table'),
        ('"off"', '"off"\ndays = []', "too short"),
        ('"off"', '"off"\ndays = ["mon", "x"]', 'zones.toml:6: days: is "x"'),
        ('"off"', '"fixed minutes"', "needs fixed_minutes"),
        ('"off"', '"fixed minutes"\nfixed_minutes = "0:30"', "fixed_minutes = 30"),
        (
            '"off"',
            '"off"\n[as_found]\nminutes = "0:30"',
            "write the minutes: minutes =",
        ),
        ('"off"', '"off"\n[plant]\nname = "a"\nkc_area = "bed"', "exactly one of kc,"),
        ('"off"', '"off"\n[plant]\nkc = 1\nkc_area = "bed"', "toml:6: name is missing"),
        ('"off"', '"off"\n[intake]\nwet_share = 1.0', "it must be below 1"),
        (
            '"off"',
            '"off"\n[plant]\nname = "a"\nkc_area = "bed"\nkc_by_month = [1, 2]',
            "too short; give 12 in kc_by_month",
        ),
        (
            '"off"',
            '"off"\n[pots]\ntop_diameter_mm = 250\nspacing_m = 1\ngap_m = 0.1',
            "keys of this table do not go together; give spacing (centre",
        ),
    ],
)
def test_a_slip_is_said_with_place_value_and_remedy(
    old: str, new: str, message: str
) -> None:
    noun, said = read(ZONE.replace(old, new))
    assert noun is None
    assert len(said) == 1
    assert message in said[0]


def test_a_bound_is_told_in_the_unit_that_was_typed() -> None:
    text = 'latitude_deg = 38\nlongitude_deg = 0\ntime_zone = "UTC"\n'
    _, said = read(text + "elevation_ft = 20000", Place)
    # 5000 m over 0.3048 m/ft
    assert "at most 16404" in said[0]


@pytest.mark.parametrize("text", ["24:00", "10 pm", "22:60"])
def test_a_time_that_is_none_is_refused(text: str) -> None:
    _, said = read(f'start = "{text}"\nend = "04:00"', Window)
    assert f'zones.toml:1: start: is "{text}", where a time of day' in said[0]


def test_every_slip_of_a_table_is_said_at_once() -> None:
    text = ZONE.replace("400", "-4").replace('"pots"', '"sol"') + "colour = 1\n"
    _, said = read(text)
    assert len(said) == 3


def test_a_line_set_aside_is_not_missed_as_well() -> None:
    noun, said = read(ZONE.replace("area_ft2 = 400", "area_ft2 = 4,5"))
    assert noun is None
    assert said == [
        "zones.toml:3: area_ft2: is 4,5: the decimal sign is a point; "
        "write area_ft2 = 4.5"
    ]


# --- write then read gives the same ------------------------------------------


def written(noun: BaseModel, system: System, path: str = "") -> str:
    """A noun as TOML, with the keys that a face of that system shows."""
    own, tables = "", ""
    for name, value in noun:
        if isinstance(value, BaseModel):
            inner = f"{path}.{name}" if path else name
            tables += f"[{inner}]\n{written(value, system, inner)}"
        elif isinstance(value, tuple):
            own += f"{name} = {[*value]}\n"
        elif isinstance(value, bool):
            own += f"{name} = {str(value).lower()}\n"
        elif isinstance(value, str):
            own += f'{name} = "{value}"\n'
        elif isinstance(value, float):
            stem, suffix = split_suffix(name)
            shown = face_suffix(suffix, system) if suffix else ""
            key = f"{stem}_{shown}" if shown else name
            size = converted(value, suffix, to=shown) if shown else value
            own += f"{key} = {size!r}\n"
        elif value is not None:
            own += f"{name} = {value}\n"
    return own + tables


def same(one: Any, other: Any) -> bool:
    if isinstance(one, dict):
        return one.keys() == other.keys() and all(same(one[k], other[k]) for k in one)
    if isinstance(one, float):
        return bool(one == pytest.approx(other, rel=1e-12, abs=1e-12))
    return bool(one == other)


sizes = st.floats(0.01, 5000.0)
shares = st.floats(0.01, 1.0)
maybe = st.none()
plants = st.builds(
    Plant,
    name=st.just("holly"),
    kc=st.floats(0.05, 8.0),
    kc_by_month=maybe,
    stages=maybe,
    kc_area=st.sampled_from(["bed", "canopy", "pot top"]),
    canopy_width_m=maybe | sizes,
)
pots = st.builds(
    Pots,
    top_diameter_mm=st.floats(10.0, 5000.0),
    spacing_m=maybe | sizes,
    row_spacing_m=maybe,
    capture_factor=maybe | st.floats(0.1, 6.0),
    available_water_ml=maybe | sizes,
    substrate_volume_ml=maybe,
    container_capacity=maybe,
    unavailable_water=maybe,
    allowed_depletion=maybe | shares,
)
soils = st.builds(
    Soil,
    texture=st.just("loam"),
    field_capacity=maybe,
    wilting_point=maybe,
    root_depth_m=maybe | st.floats(0.01, 5.0),
    allowed_depletion=maybe | shares,
    slope=maybe | st.floats(0.0, 1.0),
)
common = {
    "id": st.just("Z1"),
    "name": st.just("yard"),
    "area_m2": sizes,
    "package": st.just("rotor"),
    "watered": st.sampled_from(["when due", "every allowed day"]),
    "fixed_minutes": maybe,
    "rain_counted": maybe,
    "start_depletion_mm": maybe | sizes,
    "assumed_du_lq": maybe | shares,
    "assumed_net_rate_mm_per_h": maybe | sizes,
    "plant": plants,
}
zones = st.builds(
    Zone, grown_in=st.just("pots"), pots=maybe | pots, soil=maybe, **common
) | st.builds(Zone, grown_in=st.just("soil"), pots=maybe, soil=maybe | soils, **common)
packages = st.builds(
    Package,
    id=st.just("rotor"),
    nozzle_flow_l_per_min=maybe | sizes,
    pressure_kpa=maybe | sizes,
    regulator_kpa=maybe,
    spacing_m=maybe | st.floats(0.1, 500.0),
    row_spacing_m=maybe | st.floats(0.1, 500.0),
)


@given(zones | packages, st.sampled_from(["us", "metric"]))
def test_write_then_read_gives_the_same_noun(
    noun: Zone | Package, system: System
) -> None:
    back, said = read(written(noun, system), type(noun))
    assert said == []
    assert same(back.model_dump(), noun.model_dump())


GROUPS = """
[plant]
name = "box"
kc = 0.6
kc_area = "bed"
[pots]
top_diameter_in = 10
gap_in = 0
[[pots.moved]]
on = 2026-06-02
gap_in = 12
[[group]]
name = "fern"
[group.plant]
name = "fern"
kc = 0.9
kc_area = "bed"
"""


def test_lists_of_tables_inside_a_table_are_read_with_their_units() -> None:
    noun, said = read(ZONE + GROUPS)
    assert said == []
    assert noun.pots.moved[0].gap_m == pytest.approx(0.3048)
    assert noun.group[0].plant.kc == 0.9


@pytest.mark.parametrize(
    ("good", "bad", "told"),
    [
        ("kc = 0.9", "kc = -1", "zones.toml:21: kc: is -1"),
        ("gap_in = 12", "gap_in = -2", "zones.toml:16: gap_in: is -2"),
        ("gap_in = 12", "", "give the new spacing or gap"),
        ('name = "fern"\n[', "[", "zones.toml:17: name is missing"),
        ("gap_in = 12", "gap = 12", "zones.toml:16: gap: gap = 12 has no"),
    ],
)
def test_a_slip_inside_a_list_of_tables_is_said_at_its_line(
    good: str, bad: str, told: str
) -> None:
    noun, said = read((ZONE + GROUPS).replace(good, bad))
    assert noun is None
    assert told in " | ".join(said)


def test_the_site_itself_is_a_noun_of_these() -> None:
    place = Place(
        latitude_deg=38.0, longitude_deg=0.0, elevation_m=3.0, time_zone="UTC"
    )
    kept = Site(name="Tern Hollow", units="us", place=place)
    text = 'name = "Tern Hollow"\nunits = "us"\n[place]\n' + written(place, "us")
    back, said = read(text, Site)
    assert said == []
    assert same(back.model_dump(), kept.model_dump())


@pytest.mark.parametrize(
    ("typed", "ec"),
    [
        ("water_ec_ds_per_m = 0.9", 0.9),
        ("water_ec_ms_per_cm = 0.9", 0.9),
        ("water_ec_us_per_cm = 900", 0.9),
    ],
)
def test_salt_of_the_water_is_read_in_each_unit_of_its_meter(
    typed: str, ec: float
) -> None:
    # 1 dS/m = 1 mS/cm = 1000 uS/cm by definition
    noun, _ = read(f'source = "well"\n{typed}\n', Supply)
    assert noun.water_ec_ds_per_m == pytest.approx(ec)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("water_ec_ds_per_m = 900", "write water_ec_us_per_cm = 900 if µS/cm is meant"),
        ("water_ec_ms_per_cm = 900", "write water_ec_us_per_cm = 900"),
        ("water_ec_us_per_cm = 0.9", "write water_ec_ms_per_cm = 0.9 if mS/cm"),
    ],
)
def test_micro_and_milli_siemens_taken_for_each_other_name_the_other_key(
    typed: str, meant: str
) -> None:
    noun, [said] = read(f'source = "well"\n{typed}\n', Supply)
    assert noun is None
    assert meant in said


def test_a_conductivity_that_no_slip_explains_names_its_limit() -> None:
    _, [said] = read('source = "well"\nwater_ec_us_per_cm = 90000\n', Supply)
    assert "at most 20000" in said
    assert "is meant" not in said


def test_an_unknown_crop_is_said_at_its_line_with_the_names() -> None:
    _, (said,) = read(ZONE + '[plant]\nname = "a"\ncrop = "tomatoe"\n')
    assert said.startswith("zones.toml:8")
    assert "did you mean tomato?" in said
    assert "turf warm season" in said


def test_a_plant_of_the_table_is_read_without_an_area() -> None:
    noun, said = read(
        ZONE + '[plant]\nname = "a"\ncrop = "Tomato"\nplanted = 2026-05-01\n'
        "height_in = 24\n"
    )
    assert said == []
    assert (noun.plant.crop, noun.plant.kc_area) == ("tomato", "bed")
    assert noun.plant.height_m == pytest.approx(0.6096)


def test_classes_of_a_landscape_are_read_in_any_case() -> None:
    noun, said = read(
        ZONE + '[plant]\nname = "a"\n[plant.landscape]\nspecies = "Low"\n'
        'density = "HIGH"\n'
    )
    assert said == []
    assert (noun.plant.landscape.species, noun.plant.landscape.density) == (
        "low",
        "high",
    )


def test_a_word_that_is_no_closure_is_told_the_words() -> None:
    _, (said,) = read(ZONE + '[plant]\nname = "a"\nclosure = "full"\n')
    assert "half closed" in said
