"""Hours that end before they start are a night, or are asked about."""

from pathlib import Path

import pytest

from scheduler.files.site_folder import read_site_folder
from tests.small_site import SITE, small_site


def said(folder: Path, start: str, end: str, table: str = "window") -> list[str]:
    site = small_site(folder / "yard")
    more = f'\n[[{table}]]\nstart = "{start}"\nend = "{end}"\n'
    if table == "blocked":
        more += 'reason = "people"\n'
    (site / "site.toml").write_text(SITE + more, "utf-8")
    return [str(one) for one in read_site_folder(site).findings]


@pytest.mark.parametrize("table", ["window", "blocked"])
def test_hours_that_end_before_they_start_and_are_no_night_are_asked_about(
    tmp_path: Path, table: str
) -> None:
    # 06:00 to 05:00 of the next day: 24 h less 1 h
    assert said(tmp_path, "06:00", "05:00", table) == [
        'site.toml:23: end: is "05:00", before the start "06:00": read as the next '
        'morning, 23 h; swap them if the hours from "05:00" to "06:00" of one day are '
        "meant"
    ]


def test_hours_without_length_are_read_as_a_whole_day_and_said(tmp_path: Path) -> None:
    (found,) = said(tmp_path, "06:00", "06:00")
    assert 'site.toml:23: end: is "06:00", as the start: read as the whole' in found


@pytest.mark.parametrize(
    ("start", "end"), [("22:00", "04:30"), ("17:00", "09:00"), ("04:00", "21:00")]
)
def test_a_night_and_a_day_are_no_slip(tmp_path: Path, start: str, end: str) -> None:
    assert said(tmp_path, start, end) == []
