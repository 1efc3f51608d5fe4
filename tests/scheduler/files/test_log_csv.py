"""log.csv of a folder: facts, and what the lines say together."""

from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.errors import Finding
from scheduler.files.folder_reading import FolderReading
from scheduler.files.log_csv import read_log
from scheduler.files.site_folder import read_site_folder
from scheduler.log import LeachingPot, Log, MeterReading, Watering

HEAD = "# format = 1\ndate,time,what,zone,item,details,note,entered\n"
ZONES = ("Z1", "Z2", "Z4")
PACKAGES = ("yard-30",)
Read = Callable[..., tuple[Log, list[Finding]]]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    def reading(
        *lines: str, zones: tuple[str, ...] | None = ZONES
    ) -> tuple[Log, list[Finding]]:
        text = HEAD + "".join(f"{line}\n" for line in lines)
        (tmp_path / "log.csv").write_text(text, encoding="utf-8")
        folder = FolderReading(tmp_path)
        return read_log(folder, zones, PACKAGES), folder.findings

    return reading


def night(day: int, minutes: int = 24, zone: str = "Z4") -> str:
    return f"2026-06-{day:02},,watering,{zone},,ran {minutes} min,,"


def dial(day: int, details: str, zones: str = "", name: str = "pump house") -> str:
    return f"2026-06-{day:02},,meter,{zones},{name},{details},,"


def pot(place: str, details: str = "in 400 mL; out 100 mL; ran 24 min") -> str:
    return f"2026-06-03,06:40,leaching,Z4,{place},{details},,"


# --- the file ----------------------------------------------------------------


def test_a_site_without_a_log_has_an_empty_one(tmp_path: Path) -> None:
    folder = FolderReading(tmp_path)
    assert (read_log(folder, ZONES, PACKAGES), folder.findings) == (Log(), [])


@pytest.mark.parametrize("data", [b"", b"\n \n", b"\0\0\0\0"])
def test_a_log_of_which_nothing_reached_the_disk_is_an_empty_one(
    tmp_path: Path, data: bytes
) -> None:
    (tmp_path / "log.csv").write_bytes(data)
    folder = FolderReading(tmp_path)
    assert (read_log(folder, ZONES, PACKAGES), folder.findings) == (Log(), [])


@pytest.mark.parametrize(
    ("data", "message"),
    [(b"\xff\xfed\x00", "UTF-16"), (b"PK\x03\x04rest", "save the table as CSV")],
)
def test_a_file_that_is_no_text_is_said_to_be_none(
    tmp_path: Path, data: bytes, message: str
) -> None:
    (tmp_path / "log.csv").write_bytes(data)
    folder = FolderReading(tmp_path)
    assert read_log(folder, ZONES, PACKAGES) == Log()
    assert message in str(folder.findings[0])


def test_a_folder_in_its_place_is_said(tmp_path: Path) -> None:
    (tmp_path / "log.csv").mkdir()
    folder = FolderReading(tmp_path)
    assert read_log(folder, ZONES, PACKAGES) == Log()
    assert "is a folder" in str(folder.findings[0])


def test_a_file_that_may_not_be_read_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(path: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    (tmp_path / "log.csv").write_text(HEAD, encoding="utf-8")
    monkeypatch.setattr(Path, "read_bytes", refuse)
    folder = FolderReading(tmp_path)
    assert read_log(folder, ZONES, PACKAGES) == Log()
    assert "Permission denied" in str(folder.findings[0])


def test_every_wrong_line_is_said_and_every_good_one_read(read: Read) -> None:
    log, said = read(
        night(1), "x,,y,,,,,", night(2), "2026-06-03,,watering,Z4", night(4)
    )
    assert [one.date.day for one in log.entries] == [1, 2, 4]
    assert [one.where for one in said] == [
        "log.csv:6",
        "log.csv:4: date",
        "log.csv:4: what",
    ]


def test_the_log_is_part_of_what_happened_at_a_site(site: Path) -> None:
    (site / "log.csv").write_text(HEAD + night(1, zone="Z1") + "\n", encoding="utf-8")
    found = read_site_folder(site)
    assert [type(one) for one in found.history.log.entries] == [Watering]
    assert found.findings == ()
    assert "log.csv" in found.digests


# --- what the lines say together ---------------------------------------------


def test_a_line_that_stands_twice_counts_once_and_is_said(read: Read) -> None:
    log, said = read(night(1), night(2), night(1))
    assert len(log.entries) == 2
    assert "log.csv:5: says the same as line 3" in str(said[0])


def test_a_zone_that_is_not_known_is_kept_and_said_once(read: Read) -> None:
    log, said = read(night(1, zone="Z44"), night(2, zone="Z44"))
    assert len(log.entries) == 2
    (one,) = said
    assert one.level == "warning"
    assert "there is no zone 'Z44' in zones.toml (1 more line names it)" in one.what
    assert "did you mean Z4?" in one.fix


def test_a_zone_in_other_letters_is_told_by_its_own(read: Read) -> None:
    _, (one,) = read(night(1, zone="z4"))
    assert one.fix.startswith("did you mean Z4?")


def test_no_zone_is_missed_where_one_may_be_lost(read: Read) -> None:
    assert read(night(1, zone="Z44"), zones=None)[1] == []


def test_zones_of_a_meter_that_are_parted_by_spaces_are_told_how(read: Read) -> None:
    _, said = read(dial(1, "reading 4 m3; multiplier 1", zones="Z1 Z2"))
    assert "write Z1; Z2 if these are several" in str(said[0])


def test_a_package_that_is_not_known_is_said(read: Read) -> None:
    _, said = read("2026-06-03,,hardware,,yard-3,,new nozzles,")
    assert "log.csv:3: package: there is no package 'yard-3'" in str(said[0])


def test_a_meter_keeps_what_was_said_of_its_dial(read: Read) -> None:
    log, said = read(
        dial(1, "reading 10 m3; multiplier 100; digits 5", zones="Z1; Z2"),
        dial(8, "reading 12 m3"),
    )
    one, two = log.of(MeterReading)
    assert (two.multiplier, two.digits, two.zones) == (100.0, 5, ("Z1", "Z2"))
    assert two.dial_m3 - one.dial_m3 == 200.0
    assert said == []


def test_what_a_meter_keeps_goes_by_date_not_by_line(read: Read) -> None:
    log, _ = read(
        dial(8, "reading 12 m3"), dial(1, "reading 10 m3; multiplier 100; shared")
    )
    assert [one.is_shared for one in log.entries if isinstance(one, MeterReading)] == [
        True,
        True,
    ]


def test_a_new_dial_keeps_no_multiplier_but_its_zones(read: Read) -> None:
    log, said = read(
        dial(1, "reading 10 m3; multiplier 100", zones="Z1"),
        dial(8, "reading 0 m3; new dial"),
    )
    new = log.of(MeterReading)[1]
    assert (new.multiplier, new.zones, new.is_new) == (None, ("Z1",), True)
    assert "says no multiplier" in str(said[0])


def test_a_meter_keeps_nothing_of_another(read: Read) -> None:
    log, _ = read(
        dial(1, "reading 10 m3; multiplier 100"), dial(8, "reading 5 m3", name="house")
    )
    assert log.of(MeterReading)[1].multiplier is None


def test_a_meter_that_never_says_its_multiplier_is_asked_once(read: Read) -> None:
    _, said = read(dial(1, "reading 10 m3"), dial(8, "reading 12 m3"))
    (one,) = said
    assert (one.level, one.where) == ("note", "log.csv:3: multiplier")


def test_a_pot_that_stands_twice_in_a_check_is_said(read: Read) -> None:
    log, said = read(pot("A1"), pot("a1", "in 400 mL; out 120 mL"))
    assert len(log.of(LeachingPot)) == 2
    assert "log.csv:4: item: pot 'a1' stands in this check already" in str(said[0])


def test_minutes_of_one_check_that_differ_are_said(read: Read) -> None:
    _, said = read(pot("A1"), pot("A2", "in 400 mL; out 120 mL; ran 42 min"))
    assert "ran 42 min, but 24 min in log.csv:3" in str(said[0])
