"""A whole folder is read, and one bad file, zone or test never hides the good ones."""

import datetime as dt
import random
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from scheduler.errors import SiteFolderError
from scheduler.files.site_folder import SiteFolder, read_site_folder
from scheduler.files.text_file import digest_of

Change = Callable[[str, str, str], Path]


def said(found: SiteFolder, level: str = "stop") -> list[str]:
    return [str(one) for one in found.findings if one.level == level]


# --- a good site -------------------------------------------------------------


def test_a_good_site_has_no_findings(site: Path) -> None:
    assert read_site_folder(site).findings == ()


def test_numbers_are_converted_on_the_way_in(site: Path) -> None:
    read = read_site_folder(site).site
    assert read is not None
    # 1 ft2 = 0.09290304 m2 by definition of the foot
    assert read.zones[0].area_m2 == pytest.approx(12000 * 0.09290304, rel=1e-12)


def test_a_window_takes_text_and_toml_times(site: Path) -> None:
    read = read_site_folder(site).site
    assert read is not None
    window = read.windows[0]
    assert (window.start, window.end) == (dt.time(22), dt.time(4, 30))


def test_weather_comes_in_days(site: Path) -> None:
    series = read_site_folder(site).history.weather[0]
    assert series.tmax_degc[0] == pytest.approx(25.0)
    assert series.rain_mm[1] == pytest.approx(12.7)
    assert series.elevation_m == pytest.approx(40 * 0.3048)


def test_rain_comes_in_millimetres(site: Path) -> None:
    rain = read_site_folder(site).history.rain
    assert rain is not None
    np.testing.assert_allclose(rain.rain_mm, [5.08])


def test_issued_weeks_are_read(site: Path) -> None:
    week = read_site_folder(site).history.issued[0]
    assert week.start == dt.date(2026, 5, 11)
    assert week.zones[0].minutes_per_day == 12.0


def test_each_file_read_has_its_fingerprint(site: Path) -> None:
    digests = read_site_folder(site).digests
    for name, digest in digests.items():
        assert digest == digest_of((site / name).read_bytes())
    assert "tests/2026-05-12-Z2/run1.csv" in digests


# --- folders and files that are not there ------------------------------------


def test_a_missing_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SiteFolderError, match="no such folder"):
        read_site_folder(tmp_path / "nowhere")


def test_a_file_is_no_site_folder(site: Path) -> None:
    with pytest.raises(SiteFolderError, match="is not a folder"):
        read_site_folder(site / "site.toml")


def test_without_site_toml_there_is_no_site(site: Path) -> None:
    (site / "site.toml").unlink()
    found = read_site_folder(site)
    assert found.site is None
    assert said(found) == ["site.toml: is not there; put the file there"]


def test_without_site_toml_the_tests_are_still_read(site: Path) -> None:
    (site / "site.toml").unlink()
    assert len(read_site_folder(site).history.tests) == 1


def test_without_zones_toml_the_site_has_no_zones(site: Path) -> None:
    (site / "zones.toml").unlink()
    found = read_site_folder(site)
    assert found.site is not None
    assert found.site.zones == ()
    assert said(found) == ["zones.toml: is not there; put the file there"]


def test_a_site_needs_no_packages(site: Path, change: Change) -> None:
    change("zones.toml", 'package = "rotor"\n', "")
    (site / "packages.toml").unlink()
    assert read_site_folder(site).findings == ()


@pytest.mark.parametrize("name", ["site.toml", "zones.toml", "packages.toml",
                                  "rain.csv", "weather/quellan.csv",
                                  "tests/2026-05-12-Z2/test.toml",
                                  "tests/2026-05-12-Z2/run1.csv",
                                  "weeks/2026-W20.json"])  # fmt: skip
@pytest.mark.parametrize(
    ("content", "message"),
    [
        (b"", "is empty"),
        (b"\x00\x01\x02" * 40, "not a text file"),
        ("format = 1".encode("utf-16"), "UTF-16"),
        (b"PK\x03\x04rest", "spreadsheet or zip"),
        (None, "is a folder"),
    ],
)
def test_a_file_without_text_is_named(
    site: Path, name: str, content: bytes | None, message: str
) -> None:
    path = site / name
    path.unlink()
    if content is None:
        path.mkdir()
    else:
        path.write_bytes(content)
    assert any(one.startswith(f"{name}: ") and message in one
               for one in said(read_site_folder(site)))  # fmt: skip


def test_windows_text_is_read_with_a_note(site: Path, change: Change) -> None:
    change("site.toml", "Tern Hollow Nursery", "Tern Höllow")
    path = site / "site.toml"
    path.write_bytes(path.read_text(encoding="utf-8").encode("cp1252"))
    found = read_site_folder(site)
    assert found.site is not None
    assert found.site.name == "Tern Höllow"
    assert "Windows-1252" in said(found, "note")[0]


def test_a_byte_order_mark_is_no_part_of_the_text(site: Path) -> None:
    path = site / "zones.toml"
    path.write_bytes(b"\xef\xbb\xbf" + path.read_bytes())
    assert read_site_folder(site).findings == ()


def test_windows_newlines_change_nothing(site: Path) -> None:
    for path in site.rglob("*.*"):
        if path.is_file():
            path.write_bytes(path.read_bytes().replace(b"\n", b"\r\n"))
    assert read_site_folder(site).findings == ()


def test_another_format_is_refused(change: Change) -> None:
    found = read_site_folder(change("zones.toml", "format = 1", "format = 2"))
    assert "zones.toml:1: format: is 2; this program reads format = 1" in said(found)[0]
    assert found.site is not None
    assert found.site.zones == ()


def test_a_missing_format_is_a_warning(change: Change) -> None:
    found = read_site_folder(change("zones.toml", "format = 1", ""))
    assert "read as format = 1" in said(found, "warning")[0]


# --- one bad thing hides nothing else ----------------------------------------


def test_a_bad_zone_is_left_out_and_the_other_stays(change: Change) -> None:
    found = read_site_folder(change("zones.toml", "area_ft2 = 12000", "area_ft2 = -4"))
    assert said(found) == [
        "zones.toml:7: area_ft2: is -4; it must be above 0; write area_ft2 above 0"
    ]
    assert found.site is not None
    assert [zone.id for zone in found.site.zones] == ["Z2"]


def test_a_test_of_a_bad_zone_is_no_second_finding(change: Change) -> None:
    found = read_site_folder(change("zones.toml", "area_m2 = 900", "area_m2 = 0"))
    assert len(said(found)) == 1


def test_a_line_that_toml_refuses_costs_one_zone(change: Change) -> None:
    found = read_site_folder(change("zones.toml", "kc = 0.8", "kc = .8"))
    assert said(found) == [
        "zones.toml:30: kc: is .8: a number needs a digit before the point; "
        "write kc = 0.8"
    ]
    assert found.site is not None
    assert [zone.id for zone in found.site.zones] == ["Z1"]


def test_bad_packages_do_not_stop_zones(site: Path) -> None:
    (site / "packages.toml").write_text("format = 1\n[[package\n", encoding="utf-8")
    found = read_site_folder(site)
    assert found.site is not None
    assert len(found.site.zones) == 2
    assert len(said(found)) == 1


def test_a_bad_price_hides_no_zone(site: Path) -> None:
    path = site / "site.toml"
    tariff = '\n[tariff]\ncurrency = "$"\nwater_price_money_per_kgal = -1\n'
    path.write_text(path.read_text("utf-8") + tariff, encoding="utf-8")
    found = read_site_folder(site)
    assert found.site is not None
    assert found.site.tariff is None
    assert "water_price_money_per_kgal: is -1" in said(found)[0]


def test_a_bad_place_leaves_no_site(change: Change) -> None:
    found = read_site_folder(change("site.toml", "= 38.4", "= 138.4"))
    assert found.site is None
    assert "latitudes run from -66 to 66" in said(found)[0]


@pytest.mark.parametrize("name", ["Mars/Base", "America", "../etc"])
def test_an_unknown_time_zone_leaves_no_site(change: Change, name: str) -> None:
    found = read_site_folder(change("site.toml", "America/New_York", name))
    assert found.site is None
    assert "time_zone" in said(found)[0]
    assert "no time zone" in said(found)[0]


def test_the_plural_of_a_table_is_corrected(change: Change) -> None:
    found = read_site_folder(change("site.toml", "[[station]]", "[[stations]]"))
    assert "did you mean station?" in said(found)[0]


# --- names that point elsewhere ----------------------------------------------


def test_two_zones_of_one_id_are_both_left_out(change: Change) -> None:
    found = read_site_folder(change("zones.toml", 'id = "Z2"', 'id = "z1"'))
    assert 'zones.toml:21: id: is "z1", and so is the zone on line 4' in said(found)[0]
    assert found.site is not None
    assert found.site.zones == ()


def test_a_package_that_is_not_there_is_named(change: Change) -> None:
    found = read_site_folder(change("zones.toml", '"rotor"', '"rotr"'))
    assert said(found) == [
        'zones.toml:8: package: is "rotr", and there is no such package; '
        "did you mean rotor?"
    ]


def test_a_valve_of_two_zones_is_a_warning(change: Change) -> None:
    found = read_site_folder(change("zones.toml", 'valve = "2"', 'valve = "1"'))
    assert (
        "zones.toml:23: valve: is 1, the valve of zone Z1" in said(found, "warning")[0]
    )
    assert said(found) == []


def test_a_weather_file_that_is_not_there_is_named(change: Change) -> None:
    found = read_site_folder(change("site.toml", "quellan.csv", "quelan.csv"))
    assert "site.toml:13: file" in said(found)[0]
    assert "no such file" in said(found)[0]


def test_weather_that_no_station_names_is_a_note(site: Path) -> None:
    (site / "weather" / "old.csv").write_text("date,tmax (°F)\n", encoding="utf-8")
    assert "weather/old.csv" in said(read_site_folder(site), "note")[0]


def test_an_issued_week_that_cannot_be_read_is_named(site: Path) -> None:
    (site / "weeks" / "2026-W21.json").write_text('{"format": 1', encoding="utf-8")
    found = read_site_folder(site)
    assert "weeks/2026-W21.json" in said(found)[0]
    assert len(found.history.issued) == 1


# --- anything at all ---------------------------------------------------------


@pytest.mark.parametrize("seed", range(40))
def test_a_damaged_file_gives_findings_and_never_raises(site: Path, seed: int) -> None:
    dice = random.Random(seed)
    paths = sorted(path for path in site.rglob("*") if path.is_file())
    path = dice.choice(paths)
    data = bytearray(path.read_bytes())
    for _ in range(3):
        at = dice.randrange(len(data))
        piece = dice.choice([b'"', b"[[", b"\n", b",", b"=", b"\xff", b"-9999", b"{}"])
        data[at : at + dice.choice([0, 5])] = piece
    path.write_bytes(data)
    for one in read_site_folder(site).findings:
        assert one.where
        assert one.what
        assert one.fix
        assert "Input should" not in one.what


def test_reading_a_site_loads_no_heavy_library() -> None:
    code = "import sys, scheduler.files.site_folder; print(*sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", code], check=True, capture_output=True, text=True
    )
    loaded = set(done.stdout.split())
    assert loaded.isdisjoint({"pandas", "scipy", "tomlkit", "textual", "click"})


# --- tables of the wrong shape ---------------------------------------------------


def test_a_value_where_a_table_should_be_is_refused(change: Change) -> None:
    site = change("site.toml", "format = 1", "format = 1\nsupply = 5")
    found = read_site_folder(site)
    assert said(found) == [
        "site.toml:2: supply: is 5, not a table; write [supply] on a line and its "
        "keys below"
    ]
    assert found.site is not None


def test_one_table_where_a_list_should_be_is_refused(change: Change) -> None:
    found = read_site_folder(change("site.toml", "[[window]]", "[window]"))
    assert "write [[window]] for each of them" in said(found)[0]


def test_one_run_without_double_brackets_is_refused(site: Path) -> None:
    path = site / "tests/2026-05-12-Z2/test.toml"
    text = path.read_text("utf-8").split("[[run.exclude]]")[0]
    path.write_text(text.replace("[[run]]", "[run]"), encoding="utf-8")
    assert "write [[run]] for each run" in said(read_site_folder(site))[0]


def test_a_list_of_numbers_for_zones_is_refused(site: Path) -> None:
    (site / "zones.toml").write_text("format = 1\nzone = [1, 2]\n", encoding="utf-8")
    assert "zones.toml:2: zone: is 1, not a table" in said(read_site_folder(site))[0]


def test_zones_toml_without_zones_is_refused(site: Path) -> None:
    (site / "zones.toml").write_text("format = 1\n", encoding="utf-8")
    assert "zones.toml: holds no zone" in said(read_site_folder(site))[0]


def test_a_stray_key_in_zones_toml_is_named(change: Change) -> None:
    found = read_site_folder(change("zones.toml", "format = 1", "format = 1\nx = 2"))
    assert said(found) == [
        "zones.toml:2: x: x = 2 is not known in zones.toml; write [[zone]], "
        "or delete it"
    ]


def test_blocked_hours_are_read_with_their_zones(site: Path) -> None:
    file = site / "site.toml"
    text = file.read_text(encoding="utf-8")
    blocked = (
        '\n[[blocked]]\nstart = "03:00"\nend = "05:00"\ndays = ["tue"]\n'
        'reason = "spraying"\nzones = ["Z1"]\n'
    )
    file.write_text(text + blocked, encoding="utf-8")
    read = read_site_folder(site).site
    assert read is not None
    (one,) = read.blocked_hours
    assert (one.start, one.reason, one.zones) == (dt.time(3), "spraying", ("Z1",))
