"""Everything a site folder holds is listed, with what is typed and what is not."""

from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.demo import demo_source
from scheduler.files.site_things import (
    FILES,
    Section,
    Thing,
    place_of,
    sections,
    things,
)


@pytest.fixture(scope="module")
def texts() -> dict[str, str]:
    folder = Path(str(demo_source())) / "tern_hollow"
    return {name: (folder / name).read_text("utf-8") for name in FILES}


def thing(texts: dict[str, str], name: str) -> Thing:
    return next(one for one in things(texts) if name in (one.name, one.kind.name))


def section(texts: dict[str, str], name: str, words: str) -> Section:
    one = thing(texts, name)
    found = sections(texts[one.kind.file], one)
    return next(part for part in found if part.words == words)


def test_every_table_of_the_demo_is_a_thing(texts: dict[str, str]) -> None:
    tables = {
        line.strip("[] ").split("]")[0]
        for text in texts.values()
        for line in text.splitlines()
        if line.startswith("[")
    }
    top = {one for one in tables if "." not in one and one != "place"}
    given = {one.kind.name for one in things(texts) if one.is_given and one.kind.name}
    assert given == top


def test_a_table_not_given_is_listed_as_such(texts: dict[str, str]) -> None:
    assert not thing(texts, "shortage").is_given


def test_a_window_is_called_by_its_hours(texts: dict[str, str]) -> None:
    assert thing(texts, "window").name == "22:00 – 04:30"


def test_a_field_has_what_is_typed_its_unit_and_its_line(texts: dict[str, str]) -> None:
    fields = section(texts, "Z4", "").fields
    area = next(one for one in fields if one.field.name == "area_m2")
    assert (area.key, area.text, area.suffix) == ("area_ft2", "21600", "ft2")
    assert texts["zones.toml"].splitlines()[area.line - 1] == "area_ft2 = 21600"


def test_a_field_not_given_has_its_default(texts: dict[str, str]) -> None:
    fields = section(texts, "Z4", "").fields
    share = next(one for one in fields if one.field.name == "share_served")
    assert (share.typed, share.default) == ("", "0.9")


def test_a_field_not_given_has_the_unit_of_its_neighbours(
    texts: dict[str, str],
) -> None:
    keys = [one.key for one in section(texts, "Z4", "pots").fields]
    assert "row_spacing_in" in keys  # as spacing_in is


def test_tables_inside_a_thing_are_sections_given_or_not(texts: dict[str, str]) -> None:
    assert section(texts, "Z6", "plant stages").is_given
    assert not section(texts, "Z4", "soil").is_given
    assert section(texts, "T4", "items 3").header == "[[option.items]]"


def test_the_place_belongs_to_the_site(texts: dict[str, str]) -> None:
    assert section(texts, "site", "place").is_given


def test_a_zone_is_found_by_its_id_in_any_case(texts: dict[str, str]) -> None:
    assert place_of(texts["zones.toml"], "zone", "z4") == ("zone", 3)


def test_a_zone_that_is_not_there_is_refused(texts: dict[str, str]) -> None:
    with pytest.raises(SaveError, match="no zone Z99"):
        place_of(texts["zones.toml"], "zone", "Z99")


CLOCKS = """format = 1
[[controller]]
id = "N"
max_valves_at_once = 2

[[controller]]
id = "S"
name = "south"
max_starts_per_day = 4
"""


def test_each_of_several_clocks_is_a_thing_with_its_own_fields() -> None:
    found = [
        one for one in things({"site.toml": CLOCKS}) if one.kind.name == "controller"
    ]
    assert [(one.name, one.place) for one in found] == [
        ("N", ("controller", 0)),
        ("S", ("controller", 1)),
    ]
    fields = {one.field.name: one.text for one in sections(CLOCKS, found[1])[0].fields}
    assert (fields["max_starts_per_day"], fields["max_valves_at_once"]) == ("4", "")
