"""Issued weeks are read as they were told to the clock."""

from pathlib import Path

import pytest

from scheduler.files.folder_reading import FolderReading
from scheduler.files.issued_weeks import read_issued

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
