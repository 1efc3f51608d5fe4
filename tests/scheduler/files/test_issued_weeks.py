"""Issued weeks are read as they were told to the clock."""

import json
from pathlib import Path

import pytest

from scheduler.files.folder_reading import FolderReading
from scheduler.files.issued_json import sealed_text
from scheduler.files.issued_weeks import read_issued, week_files

ZONE = '{"zone": "Z1", "minutes_per_day": 12, "cycles": 2, "days": ["2026-05-12"]}'


def read(tmp_path: Path, *texts: str) -> tuple[list[str], list[str]]:
    (tmp_path / "weeks").mkdir()
    for i, text in enumerate(texts):
        path = tmp_path / "weeks" / f"2026-W{20 + i}.json"
        path.write_text(text, encoding="utf-8")
    reading = FolderReading(tmp_path)
    weeks = read_issued(reading)
    return [week.name for week in weeks], [str(one) for one in reading.findings]


def week(start: str, zones: str = ZONE) -> str:
    return f'{{"format": 1, "start": "{start}", "zones": [{zones}]}}'


def test_a_site_without_issued_weeks_has_none(tmp_path: Path) -> None:
    assert read_issued(FolderReading(tmp_path)) == ()


def test_weeks_come_by_their_start(tmp_path: Path) -> None:
    names, said = read(tmp_path, week("2026-05-18"), week("2026-05-11"))
    assert (names, said) == (["2026-W21", "2026-W20"], [])


def test_a_zone_that_was_off_is_left_out(tmp_path: Path) -> None:
    (tmp_path / "weeks").mkdir()
    off = '{"zone": "Z2", "minutes_per_day": null, "days": []}'
    text = week("2026-05-11", f"{ZONE}, {off}")
    (tmp_path / "weeks" / "2026-W20.json").write_text(text, encoding="utf-8")
    (read_week,) = read_issued(FolderReading(tmp_path))
    assert [zone.zone for zone in read_week.zones] == ["Z1"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ('{"format": 1', "line 1"),
        ("[]", "cannot be read as an issued week"),
        ('{"format": 2}', "its format is 2, not 1"),
        ('{"format": 1, "start": "2026-05-11"}', "zones is missing"),
        (week("soon"), "cannot be read"),
        (week("2026-05-11", ZONE.replace("12,", '"x",')), "cannot be read"),
        (week("2026-05-11", ZONE.replace("12,", "1" + "0" * 400 + ",")), "cannot be"),
        (week("2026-05-11", "5"), "cannot be read"),
    ],
)
def test_a_week_that_cannot_be_read_hides_no_other(
    tmp_path: Path, text: str, message: str
) -> None:
    names, said = read(tmp_path, text, week("2026-05-18"))
    assert names == ["2026-W21"]
    assert message in said[0]


def test_the_timetable_of_an_issued_week_is_read(tmp_path: Path) -> None:
    run = '{"zone": "Z1", "start": "2026-05-12T23:10", "end": "2026-05-12T23:22"}'
    (tmp_path / "weeks").mkdir()
    text = week("2026-05-11").replace('"zones"', f'"timetable": [{run}], "zones"')
    (tmp_path / "weeks" / "2026-W20.json").write_text(text, encoding="utf-8")
    (read_week,) = read_issued(FolderReading(tmp_path))
    assert [str(one.start) for one in read_week.runs] == ["2026-05-12 23:10:00"]


def test_a_week_that_was_changed_by_hand_is_said_and_still_read(tmp_path: Path) -> None:
    text = sealed_text(json.loads(week("2026-05-11")))
    names, said = read(tmp_path, text.replace("12", "21", 1), week("2026-05-18"))
    assert names == ["2026-W20", "2026-W21"]
    assert "was changed after it was issued" in said[0]


def test_a_week_as_it_was_issued_has_nothing_said(tmp_path: Path) -> None:
    _, said = read(tmp_path, sealed_text(json.loads(week("2026-05-11"))))
    assert said == []


def test_revisions_come_by_their_number(tmp_path: Path) -> None:
    (tmp_path / "weeks").mkdir()
    for name in ("2026-W20", "2026-W20.r10", "2026-W20.r2"):
        path = tmp_path / "weeks" / f"{name}.json"
        path.write_text(week("2026-05-11"), encoding="utf-8")
    weeks = read_issued(FolderReading(tmp_path))
    assert [one.revision for one in weeks] == [1, 2, 10]


def test_files_that_cannot_be_read_are_named_as_well(tmp_path: Path) -> None:
    (tmp_path / "weeks").mkdir()
    (tmp_path / "weeks" / "2026-W20.json").write_bytes(b"")
    assert week_files(FolderReading(tmp_path)) == ("2026-W20.json",)
