"""The lines of the page of what is given, told without a screen."""

from dataclasses import replace

import pytest

from scheduler.errors import Finding
from scheduler.files.site_things import Field, Section, Thing, sections, things
from tests.small_site import SITE, ZONES
from tui.screens import given_words as words

TEXTS = {"site.toml": SITE, "zones.toml": ZONES}


@pytest.fixture(scope="module")
def zone() -> tuple[Thing, Section]:
    thing = next(one for one in things(TEXTS) if one.name == "Z1")
    return thing, sections(ZONES, thing)[0]


def field(section: Section, name: str) -> Field:
    return next(one for one in section.fields if one.field.name == name)


def told(section: Section, one: Field, was: str | None = None, guess: str = "") -> str:
    line = words.field_line(section, one, was=was, guessed=guess, is_typing=False)
    return " ".join(line.text.plain.split())


def test_lists_stand_under_their_heads_and_missing_ones_say_none() -> None:
    listed = [(str(i), one) for i, one in enumerate(things(TEXTS))]
    lines = {one.text.plain.strip() for one in words.thing_lines(listed, {}, 36)}
    assert {"zones", "Z1  Bench, fertigated", "packages   none",
            "prices   not given", "22:00 – 04:30"} <= lines  # fmt: skip


def test_one_of_several_clocks_goes_by_its_id() -> None:
    text = '[[controller]]\nid = "N"\n[[controller]]\nid = "S"\nname = "south"\n'
    listed = [(str(i), one) for i, one in enumerate(things({"site.toml": text}))]
    lines = {one.text.plain.strip() for one in words.thing_lines(listed, {}, 36)}
    assert {"clock N", "clock S"} <= lines


def test_a_changed_thing_is_marked() -> None:
    listed = [(str(i), one) for i, one in enumerate(things(TEXTS))]
    lines = {
        one.key: one.text.plain for one in words.thing_lines(listed, {"1": "●"}, 36)
    }
    assert lines["1"].startswith("● water and pump")


def test_a_field_has_its_value_and_unit(zone: tuple[Thing, Section]) -> None:
    assert told(zone[1], field(zone[1], "area_m2")) == "area 2400 ft²"


def test_a_changed_field_says_what_it_was(zone: tuple[Thing, Section]) -> None:
    line = told(zone[1], field(zone[1], "area_m2"), "2300")
    assert line == "● area 2400 ft² was 2300"


def test_a_field_not_given_has_what_stands_for_it(zone: tuple[Thing, Section]) -> None:
    one = field(zone[1], "share_served")
    assert told(zone[1], one) == "share served 0.9 default"
    assert told(zone[1], one, guess="0.8") == "share served 0.8 used"


def test_another_unit_is_said_with_what_it_was(zone: tuple[Thing, Section]) -> None:
    old = field(zone[1], "area_m2")
    new = replace(old, key="area_m2", typed="200", text="200")
    assert words.was_text(new, old) == "2400 ft²"
    assert words.was_text(old, old) is None
    assert words.was_text(old, None) == "not given"


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("watered", "one of when due"),
        ("days", "any of mon"),
        ("area_m2", "or with its unit: cm²"),
        ("priority", "a whole number; nothing typed: not given"),
        ("not_with", "several with commas"),
        ("id", "must be given"),
    ],
)
def test_what_may_be_typed_is_said(
    zone: tuple[Thing, Section], name: str, said: str
) -> None:
    assert said in words.hint(field(zone[1], name))


def test_a_long_remedy_goes_over_several_lines() -> None:
    wrong = Finding("stop", "zones.toml:3", "is -4; it must be above 0", "write " * 9)
    lines = words.wrong_lines(wrong, "", 40)
    assert len(lines) > 1
    assert all(one.text.cell_length <= 40 for one in lines)
    assert "✖ is -4" in lines[0].text.plain
