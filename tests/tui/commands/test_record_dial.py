"""What a reading makes of its dial is said before it is written."""

from pathlib import Path

import pytest

from tests.tui.commands.recorded import copied_demo, lines, run


@pytest.fixture
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return copied_demo(tmp_path, monkeypatch)


def read(site: Path, reading: str, more: str = "") -> str:
    said = run(site, f'meter pump --reading "{reading}" --multiplier 1 {more}').stderr
    return " ".join(said.split())


def test_a_meter_of_another_name_is_said(site: Path) -> None:
    read(site, "10 m3")
    result = run(site, 'meter pomp --reading "12 m3" --multiplier 1')
    assert "first reading of 'pomp'; the meters so far: pump" in result.stderr


def test_a_dial_that_fell_is_warned_of_and_written(site: Path) -> None:
    read(site, "500 m3", "--on 2026-06-01")
    said = read(site, "20 m3")
    assert "the dial of 'pump' fell from 500 (log.csv:" in said
    assert "add the digits of the dial if it rolled over, or new dial" in said
    assert len(lines(site)) == 2


def test_a_dial_that_rolled_over_is_not_warned_of(site: Path) -> None:
    read(site, "990 m3", "--on 2026-06-01 --digits 3")
    assert "fell" not in read(site, "20 m3")


def test_a_new_dial_did_not_fall(site: Path) -> None:
    read(site, "500 m3", "--on 2026-06-01")
    assert "fell" not in read(site, "20 m3", "--new-dial")


def test_a_reading_written_for_an_earlier_day_is_held_against_its_own_day(
    site: Path,
) -> None:
    read(site, "500 m3", "--on 2026-06-01")
    assert "fell" not in read(site, "400 m3", "--on 2026-05-25")


@pytest.mark.parametrize("form", ["--reading -5", '--reading "-5 gal"', "--reading=-5"])
def test_a_reading_below_zero_is_refused_in_plain_words(site: Path, form: str) -> None:
    result = run(site, f"meter pump {form}")
    assert result.exit_code == 2
    assert "No such option" not in result.stderr
    assert "--reading: " in result.stderr
    assert "-5" in result.stderr
