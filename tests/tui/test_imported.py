"""Readings from a list or a table: read, worked up, kept as a draft."""

import shutil
from pathlib import Path

import pytest

from scheduler.errors import QuantityError, SchedulerError
from tui import imported
from tui.draft_journal import kept_drafts

LIST = "41 52 60 48 | 55 - 63 k"


def test_a_list_gives_rate_and_uniformity_of_its_cans() -> None:
    said = {"readings": "40 50 60 50", "mouth": "100 mm", "minutes": "30"}
    result = imported.read_readings(said).result
    assert result is not None
    # the driest of four over the mean; 50 mL over 78.54 cm2 in half an hour
    assert result.uniformity.du_lq == pytest.approx(40 / 50)
    assert result.catch.net_rate_mm_per_h == pytest.approx(2 * 50 / 78.53982 * 10)


def test_a_path_is_read_as_a_table(tmp_path: Path) -> None:
    table = tmp_path / "cans.csv"
    table.write_text("41,52,60\n48,55,63\n", "utf-8")
    run = imported.read_readings({"readings": f"'{table}'", "unit": "mL"}).run
    assert run is not None
    assert run.reading.tolist() == [[41, 52, 60], [48, 55, 63]]


def test_a_text_that_begins_like_a_home_is_read_as_a_list() -> None:
    found = imported.read_readings({"readings": "~nobody-of-that-name"}).findings
    assert [one.level for one in found] == ["stop"]


def test_what_is_said_about_a_table_is_followed(tmp_path: Path) -> None:
    table = tmp_path / "cans.csv"
    table.write_text("41,52,93\n48,55,103\n60,61,121\n", "utf-8")
    said = {"readings": str(table), "unit": "mL", "table": "total=column"}
    run = imported.read_readings(said).run
    assert run is not None
    assert run.reading.tolist() == [[41, 52], [48, 55], [60, 61]]


def test_a_slip_in_a_list_is_a_stop_and_nothing_is_kept() -> None:
    read = imported.read_readings({"readings": "41 5x2"})
    assert read.run is None
    assert read.findings[0].level == "stop"


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("readings", "", "no readings yet"),
        ("unit", "psi", "use mL"),
        ("minutes", "half", "half"),
        ("minutes", "0", "no time"),
    ],
)
def test_a_field_that_is_not_understood_is_refused(
    field: str, typed: str, said: str
) -> None:
    with pytest.raises(QuantityError, match=said):
        imported.read_readings({"readings": LIST, field: typed})


def test_an_unknown_choice_is_refused(tmp_path: Path) -> None:
    table = tmp_path / "cans.csv"
    table.write_text("41,52\n", "utf-8")
    with pytest.raises(QuantityError, match="total=row"):
        imported.read_readings({"readings": str(table), "table": "colour=red"})


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory, demo: Path) -> Path:
    return shutil.copytree(demo, tmp_path_factory.mktemp("imported") / "site")


def test_readings_wait_as_the_draft_of_a_test_of_a_zone(site: Path) -> None:
    said = {"readings": LIST, "mouth": "4.25 in", "minutes": "30"}
    imported.kept_readings(site, "z4", imported.read_readings(said))
    (kept,) = kept_drafts(site, "Z4")
    assert kept.draft.now.cells == (("41", "52", "60", "48"), ("55", "-", "63", "k"))
    assert kept.draft.setup.mouth == (4.25, "in")
    assert kept.draft.setup.minutes == 30
    assert kept.draft.is_changed


def test_a_draft_that_waits_is_not_written_over(site: Path) -> None:
    read = imported.read_readings({"readings": LIST})
    imported.kept_readings(site, "Z3", read)
    with pytest.raises(SchedulerError):
        imported.kept_readings(site, "Z3", read)


def test_a_zone_that_is_not_there_is_answered_with_those_that_are(site: Path) -> None:
    with pytest.raises(QuantityError, match="Z1, Z2"):
        imported.kept_readings(site, "Q7", imported.read_readings({"readings": LIST}))
