"""A zone that gets another id keeps its tests, its log, its options and its minutes."""

import datetime as dt
import json
import re
import shutil
from pathlib import Path

import pytest

from scheduler.files.demo import demo_source
from scheduler.files.field_edits import copied, free_id, typed_into
from scheduler.files.folder_edits import (
    FolderEdits,
    conflicts,
    kept_on_top,
    read_texts,
    saved_edits,
)
from scheduler.files.issue_writing import issue_week
from scheduler.files.noun_fields import fields_of
from scheduler.files.site_folder import SiteFolder, read_site_folder
from scheduler.files.site_things import KINDS, sections, things
from scheduler.files.toml_edit import with_value
from scheduler.files.zone_renaming import KEY, MENTIONS
from scheduler.plan import build_week
from scheduler.reports.machine import week_json

MONDAY = dt.date(2026, 6, 8)
NEXT = MONDAY + dt.timedelta(days=7)
AT = "2026-06-08T11:02:03Z"


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site with an issued week, and mentions of Z4 wherever there can be."""
    source = demo_source() / "tern_hollow"
    site = Path(shutil.copytree(source, tmp_path_factory.mktemp("made") / "site"))
    more = '\n[[blocked]]\nstart = "12:00"\nend = "13:00"\nreason = "people"\n'
    more += 'zones = ["Z5",  # by hand\n  "z4", ]\n'
    text = (site / "site.toml").read_text("utf-8")
    (site / "site.toml").write_text(text + more, "utf-8")
    zones = (site / "zones.toml").read_text("utf-8")
    zones = zones.replace('id = "Z3"\n', "id = \"Z3\"\nnot_with = [ 'Z4' ]  # pump\n")
    (site / "zones.toml").write_text(zones, "utf-8")
    meter = '[meter]\nstart = 1000\nstop = 1900\nunit = "gal"\nmultiplier = 1\n'
    test = site / "tests" / "2026-05-19-Z5" / "test.toml"
    test.write_text(test.read_text("utf-8") + meter + 'other_zones = ["Z4"]\n', "utf-8")
    found = read_site_folder(site)
    assert found.site is not None
    plan = build_week(found.site, found.history, MONDAY)
    issue_week(found, plan, issued_at=AT, forced="Z9 stays as it is")
    return site


@pytest.fixture
def site(made: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(made, tmp_path / "site"))


def renamed(edits: FolderEdits, was: str, now: str) -> FolderEdits:
    thing = next(
        one for one in things(edits.now) if (one.kind.name, one.name) == ("zone", was)
    )
    own = sections(edits.now["zones.toml"], thing)[0]
    field = next(one for one in own.fields if one.field.name == "id")
    done = typed_into(edits, thing, own, field, now).edits
    assert done is not None
    return done


def week(found: SiteFolder) -> str:
    assert found.site is not None
    plan = build_week(found.site, found.history, NEXT, start=NEXT)
    return json.dumps(week_json(plan, found.findings), indent=1, default=str)


def test_the_plan_of_a_renamed_zone_is_the_same_but_for_its_id(site: Path) -> None:
    before = read_site_folder(site)
    saved_edits(renamed(read_texts(site), "Z4", "Z4-east"))
    after = read_site_folder(site)
    now = week(after).replace("Z4-east", "Z4")
    # the lines that carry the new key have moved the others by one
    assert now == week(before)
    assert after.findings == ()


def test_a_rename_writes_ids_and_no_other_byte(site: Path) -> None:
    before = {one: one.read_bytes() for one in site.rglob("*") if one.is_file()}
    saved_edits(renamed(read_texts(site), "Z4", "X4"))
    changed = {one for one, data in before.items() if one.read_bytes() != data}
    assert {one.name for one in changed} == {"site.toml", "zones.toml", "options.toml"}
    for one in changed:
        back = one.read_bytes().replace(b'formerly = ["Z4"]\n', b"")
        back = back.replace(
            b'"Z5",  # by hand\n  "X4", ]', b'"Z5",  # by hand\n  "z4", ]'
        )
        back = back.replace(b'[ "X4" ]', b"[ 'Z4' ]").replace(b'"X4"', b'"Z4"')
        assert back == before[one]


def test_a_rename_and_its_way_back_leave_every_byte(site: Path) -> None:
    edits = read_texts(site)
    text = edits.now["zones.toml"].replace("'Z4'", '"Z4"')
    saved_edits(edits.with_text("zones.toml", text))
    edits = read_texts(site)
    there = renamed(renamed(edits, "Z4", "X4"), "X4", "Y4")
    assert 'formerly = ["Z4"]' in there.now["zones.toml"]
    back = renamed(there, "Y4", "Z4")
    assert back.changed == ("site.toml",)  # where it stood in small letters
    assert '"Z5",  # by hand\n  "Z4", ]' in back.now["site.toml"]


def test_an_id_that_was_saved_meanwhile_is_kept_as_well(site: Path) -> None:
    edits = saved_edits(renamed(read_texts(site), "Z4", "X4"))
    text = renamed(edits, "X4", "Y4").now["zones.toml"]
    assert 'formerly = ["Z4", "X4"]' in text
    again = renamed(renamed(edits, "X4", "Y4"), "Y4", "Z4").now["zones.toml"]
    assert 'formerly = ["X4"]' in again


def test_a_file_that_changed_meanwhile_is_a_difference_and_the_id_goes_on_top(
    site: Path,
) -> None:
    done = renamed(read_texts(site), "Z4", "X4")
    options = site / "options.toml"
    options.write_text(options.read_text("utf-8") + "# theirs\n", "utf-8")
    assert [one.file for one in conflicts(done)] == ["options.toml"]
    on_top, lost = kept_on_top(done, "options.toml")
    saved_edits(on_top)
    text = options.read_text("utf-8")
    assert (text.count('"X4"'), text.count('"Z4"'), lost) == (2, 0, ())
    assert text.endswith("# theirs\n")


def test_of_two_zones_with_one_id_nothing_follows(site: Path) -> None:
    path = site / "zones.toml"
    path.write_text(path.read_text("utf-8").replace('"Z5"', '"Z4"'), "utf-8")
    edits = read_texts(site)
    done = renamed(edits, "Z4", "X4")
    assert done.changed == ("zones.toml",)
    assert KEY not in done.now["zones.toml"]


def test_a_new_zone_does_not_get_an_id_that_another_one_had(site: Path) -> None:
    zone = next(one for one in KINDS if one.name == "zone")
    edits = read_texts(site)
    last = free_id(edits, zone)
    taken = saved_edits(renamed(edits, "Z9", last))
    freed = renamed(taken, last, "Y1")
    assert re.fullmatch(r"Z\d+", last)
    assert free_id(freed, zone) == f"Z{int(last[1:]) + 1}"


@pytest.mark.parametrize("is_saved", [False, True])
def test_an_id_that_a_zone_only_passed_through_stays_with_the_one_that_had_it(
    site: Path, is_saved: bool
) -> None:
    edits = renamed(read_texts(site), "Z4", "X4")
    edits = saved_edits(edits) if is_saved else edits
    done = renamed(renamed(edits, "Z5", "Z4"), "Z4", "Y5")
    text = done.now["zones.toml"]
    assert text.count('formerly = ["Z4"]') == 1
    assert 'formerly = ["Z5"]' in text
    saved_edits(done)
    zones = {one.zone for one in read_site_folder(site).history.tests}
    assert {"X4", "Y5"} <= zones


def test_an_id_that_was_saved_with_two_zones_is_followed_to_neither(site: Path) -> None:
    edits = saved_edits(renamed(read_texts(site), "Z4", "X4"))
    edits = saved_edits(renamed(edits, "Z5", "Z4"))
    text = renamed(edits, "Z4", "Y5").now["zones.toml"]
    said = read_site_folder(site, {"zones.toml": text}).findings
    assert any("neither is followed" in one.what for one in said)


def test_an_old_id_that_a_zone_takes_again_stays_its_own(site: Path) -> None:
    edits = saved_edits(renamed(read_texts(site), "Z4", "X4"))
    done = renamed(renamed(edits, "X4", "Z4"), "Z4", "W4")
    assert 'formerly = ["X4", "Z4"]' in done.now["zones.toml"]


def test_a_copy_of_a_renamed_zone_takes_none_of_its_records(site: Path) -> None:
    edits = renamed(read_texts(site), "Z4", "X4")
    zone = next(one for one in things(edits.now) if one.name == "X4")
    twin = copied(edits, zone)
    assert twin.now["zones.toml"].count(KEY) == 1
    saved_edits(twin)
    tests = read_site_folder(site).history.tests
    assert "X4" in {one.zone for one in tests}
    assert "Z4" not in {one.zone for one in tests}


def test_old_ids_that_were_typed_by_hand_stay_through_a_rename(site: Path) -> None:
    edits = read_texts(site)
    text = with_value(edits.now["zones.toml"], ("zone", 3, KEY), '["bench"]')
    done = renamed(edits.with_text("zones.toml", text), "Z4", "X4")
    assert 'formerly = ["bench", "Z4"]' in done.now["zones.toml"]


def test_every_list_of_ids_of_zones_is_followed() -> None:
    lists = {
        (kind.file, kind.name, name)
        for kind in KINDS
        for name, field in fields_of(kind.model).items()
        if field.is_list and field.noun is None and not field.choices
        if name in ("zones", "not_with") or "zone" in name
    }
    assert lists == set(MENTIONS)
