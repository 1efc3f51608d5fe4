"""A field is checked as it is typed, against everything else in the folder."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files.demo import demo_source
from scheduler.files.field_edits import (
    Typed,
    added,
    copied,
    free_id,
    removed,
    typed_into,
    with_section,
    without_section,
)
from scheduler.files.folder_edits import FolderEdits, new_findings, read_texts
from scheduler.files.site_things import KINDS, Field, Section, Thing, sections, things


@pytest.fixture(scope="module")
def edits(tmp_path_factory: pytest.TempPathFactory) -> FolderEdits:
    source = Path(str(demo_source())) / "tern_hollow"
    folder = shutil.copytree(source, tmp_path_factory.mktemp("made") / "site")
    return read_texts(folder)


def spot(
    edits: FolderEdits, name: str, words: str, field: str
) -> tuple[Thing, Section, Field]:
    thing = next(o for o in things(edits.now) if name in (o.name, o.kind.name))
    found = sections(edits.now[thing.kind.file], thing)
    section = next(one for one in found if one.words == words)
    return thing, section, next(o for o in section.fields if o.field.name == field)


def typed(edits: FolderEdits, at: tuple[str, str, str], text: str) -> Typed:
    return typed_into(edits, *spot(edits, *at), text)


@pytest.mark.parametrize(
    ("at", "text", "what", "fix"),
    [
        (("Z4", "", "area_m2"), "-4", "is -4; it must be above 0", "area_ft2 above"),
        (("Z4", "", "area_m2"), "3 kg", "no unit of area", "write one of"),
        (("Z4", "", "watered"), "due", "not a choice", "when due"),
        (("Z4", "", "package"), "yard-31", "no such package", "yard-30"),
        (("Z4", "", "days"), "mon sut", 'is "sut"', "did you mean sun"),
        (("Z4", "pots", "allowed_depletion"), "40", "at most 1", "40 % is meant"),
        (("site", "place", "time_zone"), "Utopia", "no time zone", "America"),
        (("window", "", "start"), "25:00", "time of day", '"05:30"'),
        (("T4", "", "zones"), "Z4, Z99", 'names "Z99"', "Z9"),
        (("site", "", "units"), "", "is missing", "add units"),
    ],
)
def test_a_value_that_cannot_stand_is_refused_with_the_remedy(
    edits: FolderEdits, at: tuple[str, str, str], text: str, what: str, fix: str
) -> None:
    done = typed(edits, at, text)
    assert done.edits is None
    assert done.wrong is not None
    assert what in done.wrong.what
    assert fix in done.wrong.fix


def test_a_value_that_can_stand_is_taken(edits: FolderEdits) -> None:
    done = typed(edits, ("Z4", "", "area_m2"), "2000 m2")
    assert done.wrong is None
    assert done.edits is not None
    assert "area_m2 = 2000" in done.edits.now["zones.toml"]


def test_a_value_that_needs_another_is_taken_and_said(edits: FolderEdits) -> None:
    done = typed(edits, ("Z4", "", "watered"), "fixed minutes")
    assert done.edits is not None
    assert done.wrong is not None
    assert "needs fixed_minutes" in done.wrong.what


def test_the_same_value_changes_nothing(edits: FolderEdits) -> None:
    assert typed(edits, ("Z4", "", "area_m2"), "21600").edits is edits


def test_nothing_typed_takes_the_key_out(edits: FolderEdits) -> None:
    done = typed(edits, ("Z2", "", "structure_factor"), "").edits
    assert done is not None
    assert "structure_factor" not in done.now["zones.toml"]


# --- tables ------------------------------------------------------------------


@pytest.mark.parametrize("kind", [one for one in KINDS if one.is_list])
def test_a_new_thing_of_a_list_is_one_more(edits: FolderEdits, kind: object) -> None:
    one = next(k for k in KINDS if k == kind)
    count = sum(thing.kind == one for thing in things(edits.now))
    assert sum(t.kind == one for t in things(added(edits, one).now)) == count + 1


@pytest.mark.parametrize("name", ["zone", "package", "option", "window", "shortage"])
def test_a_new_thing_makes_nothing_unreadable(edits: FolderEdits, name: str) -> None:
    kind = next(one for one in KINDS if one.name == name)
    found = new_findings(added(edits, kind))
    assert [one for one in found if one.level == "stop"] == []


def test_a_table_that_is_there_once_is_not_added_again(edits: FolderEdits) -> None:
    with pytest.raises(SaveError, match="is there already"):
        added(edits, next(one for one in KINDS if one.name == "tariff"))


def test_a_copy_of_a_zone_has_the_next_id(edits: FolderEdits) -> None:
    thing = next(one for one in things(edits.now) if one.name == "Z4")
    done = copied(edits, thing)
    new = [one.name for one in things(done.now) if one.kind == thing.kind]
    assert new[-1] == "Z10"


def test_the_next_id_of_packages_is_no_ones(edits: FolderEdits) -> None:
    kind = next(one for one in KINDS if one.name == "package")
    assert free_id(edits, kind) == "P1"


def test_a_thing_added_and_removed_leaves_the_text_as_it_was(
    edits: FolderEdits,
) -> None:
    kind = next(one for one in KINDS if one.name == "window")
    more = added(edits, kind)
    last = [one for one in things(more.now) if one.kind == kind][-1]
    assert removed(more, last).now == edits.now


def test_a_table_inside_a_zone_comes_and_goes(edits: FolderEdits) -> None:
    thing = next(one for one in things(edits.now) if one.name == "Z4")
    found = sections(edits.now["zones.toml"], thing)
    intake = next(one for one in found if one.words == "intake")
    more = with_section(edits, thing, intake, ("first_runoff_min = 20",))
    assert "[zone.intake]\nfirst_runoff_min = 20\n" in more.now["zones.toml"]
    assert without_section(more, thing, intake).now == edits.now


def test_an_item_is_added_to_its_own_option(edits: FolderEdits) -> None:
    thing = next(one for one in things(edits.now) if one.name == "T4")
    item = sections(edits.now["options.toml"], thing)[-1]
    line = ('what = "cap"', 'counted_by = "head"')
    done = with_section(edits, thing, item, line)
    assert new_findings(done) == ()
    (fourth,) = done.changes("options.toml")
    assert fourth.place == ("option", "T4", "items", 2)


def test_nothing_is_added_to_a_file_that_cannot_be_read(edits: FolderEdits) -> None:
    kind = next(one for one in KINDS if one.name == "zone")
    without = {name: text for name, text in edits.now.items() if name != kind.file}
    with pytest.raises(SaveError, match=r"zones\.toml: cannot be read"):
        added(replace(edits, now=without), kind)


# --- several clocks ----------------------------------------------------------


@pytest.fixture(scope="module")
def clocks(edits: FolderEdits) -> FolderEdits:
    """The site with two clocks in place of one."""
    kept = edits.now["site.toml"].replace("[controller]", '[[controller]]\nid = "N"')
    assert kept != edits.now["site.toml"]
    two = f'{kept}\n[[controller]]\nid = "S"\nstations = 4\n'
    return edits.with_text("site.toml", two)


def test_a_value_is_typed_into_one_clock_of_several(clocks: FolderEdits) -> None:
    done = typed(clocks, ("S", "", "stations"), "6").edits
    assert done is not None
    wanted = clocks.now["site.toml"].replace("stations = 4", "stations = 6")
    assert done.now["site.toml"] == wanted


def test_one_clock_of_several_is_removed_and_the_others_stay(
    clocks: FolderEdits,
) -> None:
    north = spot(clocks, "N", "", "id")[0]
    text = removed(clocks, north).now["site.toml"]
    assert [line for line in text.splitlines() if line.startswith("id")] == ['id = "S"']


def test_another_clock_has_an_id_that_is_free(clocks: FolderEdits) -> None:
    north = spot(clocks, "N", "", "id")[0]
    for done in (added(clocks, north.kind), copied(clocks, north)):
        found = [one for one in things(done.now) if one.kind == north.kind]
        assert len({one.name for one in found}) == 3
