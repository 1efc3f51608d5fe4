"""[[wind_log]] of site.toml, and the package of a test."""

from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.files.site_folder import SiteFolder, read_site_folder

Change = Callable[[str, str, str], Path]
LOG = """\
time,wind speed (mph),gust (mph),wind direction (deg)
2026-05-12 09:45,2.0,3.0,200
2026-05-12 09:50,3.0,4.0,210
"""
TABLE = """\
[[wind_log]]
name = "yard"
file = "wind/yard.csv"
clock = "utc"
stamp = "end"
interval_min = 5
height_ft = 6.6

[[window]]
"""


@pytest.fixture
def windy(site: Path, change: Change) -> Path:
    change("site.toml", "[[window]]\n", TABLE)
    (site / "wind").mkdir()
    (site / "wind" / "yard.csv").write_text(LOG, encoding="utf-8")
    return site


def said(found: SiteFolder) -> list[str]:
    return [str(one) for one in found.findings]


def test_a_wind_log_is_read_without_a_finding(windy: Path) -> None:
    found = read_site_folder(windy)
    assert said(found) == []
    (log,) = found.history.wind
    assert (log.name, log.time_zone) == ("yard", "America/New_York")
    assert str(log.start_utc[0]) == "2026-05-12T09:40:00"
    assert log.height_m == pytest.approx(2.01, abs=0.01)


def test_the_noun_stands_in_the_site(windy: Path) -> None:
    site = read_site_folder(windy).site
    assert site is not None
    assert [one.file for one in site.wind_logs] == ["wind/yard.csv"]


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ('clock = "utc"', 'clock = "summer"', '"summer" is no clock'),
        ('clock = "utc"', 'clock = "+25:00"', "is no clock"),
        ('clock = "utc"\n', "", "clock is missing"),
        ('stamp = "end"', 'stamp = "middle"', "not a choice"),
        ("interval_min = 5", "interval_min = 0", "must be above 0"),
        ("wind/yard.csv", "wind/gone.csv", "there is no such file"),
    ],
)
def test_a_wrong_table_is_named_and_hides_nothing(
    windy: Path, change: Change, old: str, new: str, message: str
) -> None:
    found = read_site_folder(change("site.toml", old, new))
    assert any(message in one and one.startswith("site.toml:") for one in said(found))
    assert found.site is not None
    assert len(found.site.zones) == 2
    assert len(found.history.weather) == 1


def test_an_offset_is_a_clock(windy: Path, change: Change) -> None:
    found = read_site_folder(change("site.toml", '"utc"', '"+01:00"'))
    assert str(found.history.wind[0].start_utc[0]) == "2026-05-12T08:40:00"


def test_one_bad_log_never_hides_the_other(windy: Path, change: Change) -> None:
    second = TABLE.replace("yard", "shed")
    change("site.toml", "[[window]]\n", second)
    (windy / "wind" / "shed.csv").write_text("no table at all\n", encoding="utf-8")
    found = read_site_folder(windy)
    assert [one.name for one in found.history.wind] == ["yard"]
    assert any(one.startswith("wind/shed.csv") for one in said(found))


def test_a_log_that_nobody_names_is_noted(windy: Path) -> None:
    (windy / "wind" / "other.csv").write_text(LOG, encoding="utf-8")
    assert any("not named by a [[wind_log]]" in one for one in said(
        read_site_folder(windy)))  # fmt: skip


def test_a_test_names_its_package_in_any_case(change: Change) -> None:
    head = 'condition = "as found"'
    name = "tests/2026-05-12-Z2/test.toml"
    found = read_site_folder(change(name, head, f'{head}\npackage = "Rotor"'))
    assert said(found) == []
    assert found.history.tests[0].package == "rotor"


def test_a_package_that_is_not_there_is_named(change: Change) -> None:
    head = 'condition = "as found"'
    name = "tests/2026-05-12-Z2/test.toml"
    found = read_site_folder(change(name, head, f'{head}\npackage = "roto"'))
    assert any("no such package" in one and "rotor?" in one for one in said(found))
