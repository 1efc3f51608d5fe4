"""What a record calls a zone is found by the ids that the zone had before."""

from pathlib import Path

import pytest

from scheduler.files.site_folder import SiteFolder, read_site_folder
from scheduler.log import MeterReading, Watering
from tests.small_site import small_site

LOG = """\
# format = 1
date,time,what,zone,item,details,note,entered
2026-06-03,,watering,A1,,ran 6 min,,
2026-06-04,,watering,Z1,,ran 7 min,,
2026-06-04,07:00,meter,a1; Z2,pump,reading 100 gal; multiplier 1; digits 6,,
"""
TEST = 'format = 1\nzone = "a1"\ndate = 2026-05-04\ncondition = "as found"\n' + (
    '[stated]\ndu_lq = 0.7\nsource = "a sheet"\n'
)
WEEK = """{"format": 1, "start": "2026-06-01", "zones": [
 {"zone": "A1", "minutes_per_day": 6, "days": ["2026-06-01"]},
 {"zone": "B7", "minutes_per_day": null, "status": "off"}],
 "timetable": [
 {"zone": "A1", "start": "2026-06-01T22:00", "end": "2026-06-01T22:06"}]}"""


@pytest.fixture
def site(tmp_path: Path) -> Path:
    folder = small_site(tmp_path / "yard")
    (folder / "log.csv").write_text(LOG, "utf-8")
    for name, text in (("tests/t/test.toml", TEST), ("weeks/2026-W23.json", WEEK)):
        (folder / name).parent.mkdir(parents=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def read(site: Path, *formerly: tuple[str, str]) -> SiteFolder:
    """The folder, whose zones had other ids before."""
    path = site / "zones.toml"
    text = path.read_text("utf-8")
    for zone, names in formerly:
        line = f'id = "{zone}"\n'
        text = text.replace(line, f"{line}formerly = {names}\n")
    path.write_text(text, "utf-8")
    return read_site_folder(site)


def test_a_test_of_before_is_one_of_the_zone(site: Path) -> None:
    (test,) = read(site, ("Z1", '["A1"]')).history.tests
    assert test.zone == "Z1"


def test_lines_of_the_log_under_both_ids_are_the_zone_s(site: Path) -> None:
    log = read(site, ("Z1", '["A1"]')).history.log
    assert [one.minutes for one in log.of(Watering, "Z1")] == [6, 7]
    assert log.of(MeterReading)[0].zones == ("Z1", "Z2")


def test_issued_weeks_under_the_old_id_are_the_zone_s(site: Path) -> None:
    found = read(site, ("Z1", '["A1"]'), ("Z2", '["b6", "b7"]'))
    (week,) = found.history.issued
    assert (week.zones[0].zone, week.runs[0].zone) == ("Z1", "Z1")
    assert week.left == (("Z2", "off"),)
    assert found.findings == ()


def test_without_the_old_id_the_remedy_names_the_key(site: Path) -> None:
    said = [str(one) for one in read(site).findings]
    wanted = 'of a zone that got another id, write formerly = ["a1"] in its [[zone]]'
    assert any("tests/t/test.toml:2: zone" in one and wanted in one for one in said)
    assert any("log.csv:3: zone" in one and 'formerly = ["A1"]' in one for one in said)


def test_an_id_that_another_zone_has_now_is_said_and_stays_with_that(
    site: Path,
) -> None:
    found = read(site, ("Z2", '["Z1", "A1"]'))
    (said,) = (one for one in found.findings if "formerly" in one.where)
    assert said.what == 'names "Z1", which is the id of another zone now'
    assert 'take "Z1" out' in said.fix
    log = found.history.log
    assert [one.minutes for one in log.of(Watering, "Z1")] == [7]
    assert [one.minutes for one in log.of(Watering, "Z2")] == [6]


def test_an_id_that_two_zones_had_is_said_and_followed_to_neither(site: Path) -> None:
    found = read(site, ("Z1", '["A1"]'), ("Z2", '["a1"]'))
    (said,) = (one for one in found.findings if "neither is followed" in one.what)
    assert said.where.startswith("zones.toml:")
    assert {one.zone for one in found.history.log.of(Watering)} == {"A1", "Z1"}


def test_records_of_an_id_that_two_zones_had_name_the_way_out(site: Path) -> None:
    found = read(site, ("Z1", '["A1"]'), ("Z2", '["a1"]'))
    fixes = {one.where: one.fix for one in found.findings}
    wanted = "formerly names it in two zones of zones.toml: leave it with one of them"
    assert fixes["tests/t/test.toml:2: zone"].endswith(wanted)
    assert fixes["log.csv:3: zone"].endswith(wanted)


def test_the_same_id_in_other_letters_is_followed(site: Path) -> None:
    found = read(site, ("Z1", '["A1", "z1"]'))
    assert found.findings == ()


def test_an_option_with_the_old_id_is_told_the_new_one(site: Path) -> None:
    option = 'format = 1\n[[option]]\nid = "T"\nname = "t"\ndeed = "replace"\n'
    (site / "options.toml").write_text(f'{option}zones = ["A1"]\n', "utf-8")
    said = [one.fix for one in read(site, ("Z1", '["A1"]')).findings]
    assert 'write "Z1", as it is called now' in said


@pytest.mark.parametrize("names", ['["A1"', '"A1"', "A1"])
def test_while_old_ids_cannot_be_read_no_record_is_a_stranger_s(
    site: Path, names: str
) -> None:
    found = read(site, ("Z1", names))
    assert [one.where for one in found.findings] == ["zones.toml:6: formerly"]


@pytest.mark.parametrize("names", ["3", "[3]"])
def test_ids_that_are_none_are_said_by_the_noun_alone(site: Path, names: str) -> None:
    found = read(site, ("Z1", names))
    assert [one.where for one in found.findings if one.where.endswith("formerly")] == [
        "zones.toml:6: formerly"
    ]
