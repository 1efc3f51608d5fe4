"""Tests are read with their runs; one bad run or exclusion stops no other."""

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from scheduler.files.site_folder import read_site_folder
from scheduler.record import CanTest

Change = Callable[[str, str, str], Path]
TOML = "tests/2026-05-12-Z2/test.toml"
RUN = "tests/2026-05-12-Z2/run1.csv"


def read(site: Path, level: str = "stop") -> tuple[tuple[CanTest, ...], list[str]]:
    found = read_site_folder(site)
    said = [str(one) for one in found.findings if one.level == level]
    return found.history.tests, said


def test_a_test_is_read_with_its_run(site: Path) -> None:
    (test,), _ = read(site)
    assert (test.zone, test.date, test.name) == (
        "Z2",
        dt.date(2026, 5, 12),
        "2026-05-12-Z2",
    )
    run = test.runs[0]
    assert run.unit == "ml"
    assert run.minutes == 30
    assert run.start == dt.datetime(2026, 5, 12, 5, 40)  # noqa: DTZ001 - clock time
    assert run.wind_m_per_s == pytest.approx(3 * 0.44704)


def test_the_mouth_is_a_circle_of_the_diameter(site: Path) -> None:
    # 4.25 in: pi/4 * 10.795^2 cm2
    assert read(site)[0][0].mouth_area_cm2 == pytest.approx(91.5247, abs=1e-3)


def test_the_mouth_may_be_an_area(change: Change) -> None:
    (test,), _ = read(change(TOML, "mouth_in = 4.25", "mouth_area_in2 = 14"))
    assert test.mouth_area_cm2 == pytest.approx(14 * 6.4516)


def test_readings_stand_as_the_cans_stood(site: Path) -> None:
    run = read(site)[0][0].runs[0]
    np.testing.assert_array_equal(run.reading[0], [41, 52, 60, 48])
    assert run.code[1] == ("", "", "k", "")
    assert run.label[2] == ("A3", "B3", "C3", "D3")


def test_an_exclusion_finds_its_can_in_any_case(site: Path) -> None:
    excluded = read(site)[0][0].runs[0].excluded
    assert [(one.row, one.column) for one in excluded] == [(1, 1)]


def test_the_zone_is_written_as_in_zones_toml(change: Change) -> None:
    (test,), _ = read(change(TOML, '"Z2"', '"z2"'))
    assert test.zone == "Z2"


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        (
            'zone = "Z2"',
            'zone = "Z9"',
            'test.toml:2: zone: is "Z9", and there is no suc',
        ),
        ("minutes = 30", 'minutes = "0:30"', "write the minutes: minutes = 30"),
        ("minutes = 30", "minutes = 0:30", "write minutes = 30 for half an hour"),
        ("minutes = 30", "minutes = 0", "is 0; it must be above 0"),
        ("minutes = 30", "minutes = 2000", "is 2000; it must be at most 1440"),
        ("run1.csv", "run7.csv", "no such file in the folder"),
        ('unit = "mL"', 'unit = "cups"', 'is "cups"; cans are not read in that'),
        ('unit = "mL"', "", "unit is missing"),
        ("mouth_in = 4.25", "mouth_in = 108", "is 108; it must be at most"),
        ("mouth_in = 4.25", "mouth = 4.25", "has no unit; write mouth_mm or mouth_in"),
        ("mouth_in = 4.25", "mouth_in = 4\nmouth_mm = 100", "given twice"),
        (
            "mouth_in = 4.25",
            "mouth_in = 4\nmouth_area_in2 = 14",
            "as width and as area",
        ),
        ("date = 2026-05-12", "", "date is missing"),
        ("date = 2026-05-12", "date = 2026-05-12T05:40:00", "where a date such as"),
        ('can = "b2"', 'can = "E9"', "no such can in the run; the cans are A1 to D3"),
        ('reason = "a leaf lay over the mouth"', "", "left out without a reason"),
        ('"a leaf lay over the mouth"', '" "', "left out without a reason"),
    ],
)
def test_a_slip_is_said_with_its_remedy(
    change: Change, old: str, new: str, message: str
) -> None:
    _, said = read(change(TOML, old, new))
    assert len(said) == 1
    assert message in said[0]


def test_an_exclusion_without_reason_keeps_its_can(change: Change) -> None:
    reason = 'reason = "a leaf lay over the mouth"'
    (test,), _ = read(change(TOML, reason, ""))
    assert test.runs[0].excluded == ()


def test_a_can_left_out_twice_is_a_warning(site: Path) -> None:
    path = site / TOML
    again = '[[run.exclude]]\ncan = "B2"\nreason = "again"\n'
    path.write_text(path.read_text("utf-8") + again, encoding="utf-8")
    (test,), said = read(site, "warning")
    assert "left out twice" in said[0]
    assert len(test.runs[0].excluded) == 1


def test_a_bad_run_does_not_stop_the_other(site: Path) -> None:
    path = site / TOML
    more = '[[run]]\nfile = "run2.csv"\nminutes = 30\n'
    path.write_text(path.read_text("utf-8") + more, encoding="utf-8")
    (site / RUN).with_name("run2.csv").write_text("41,x\n52,60\n", encoding="utf-8")
    (test,), said = read(site)
    assert [run.name for run in test.runs] == ["run1"]
    assert "run2.csv:1: column B: 'x' is neither a reading nor a code" in said[0]


def test_a_file_named_twice_is_used_once(site: Path) -> None:
    path = site / TOML
    more = '[[run]]\nfile = "run1.csv"\nminutes = 30\n'
    path.write_text(path.read_text("utf-8") + more, encoding="utf-8")
    (test,), said = read(site)
    assert len(test.runs) == 1
    assert "which line 11 names already" in said[0]


def test_a_bad_test_does_not_stop_the_others(site: Path) -> None:
    other = site / "tests" / "2026-06-01-Z1"
    other.mkdir()
    (other / "test.toml").write_text("format = 1\nzone = 5\n", encoding="utf-8")
    tests, said = read(site)
    assert [test.zone for test in tests] == ["Z2"]
    assert said


def test_a_test_folder_without_test_toml_is_named(site: Path) -> None:
    (site / "tests" / "2026-06-01-Z1").mkdir()
    assert "tests/2026-06-01-Z1: holds no test.toml" in read(site)[1][0]


def test_a_test_without_runs_is_refused(site: Path) -> None:
    head = 'format = 1\nzone = "Z2"\ndate = 2026-05-12\ncondition = "as found"\n'
    (site / TOML).write_text(head, encoding="utf-8")
    tests, said = read(site)
    assert tests == ()
    assert "neither a run nor a stated result" in said[0]


def test_a_run_without_minutes_is_a_warning(change: Change) -> None:
    (test,), said = read(change(TOML, "minutes = 30", ""), "warning")
    assert test.runs[0].minutes is None
    assert "the rate cannot" in said[0]


def test_a_condition_that_is_not_given_is_a_note(change: Change) -> None:
    (test,), said = read(change(TOML, 'condition = "as found"', ""), "note")
    assert test.condition == "as found"
    assert 'read as "as found"' in said[0]


def test_a_table_that_no_run_names_is_a_note(site: Path) -> None:
    (site / RUN).with_name("run2.csv").write_text("41,52\n", encoding="utf-8")
    assert "run2.csv: is not named by a [[run]]" in read(site, "note")[1][0]


def test_a_run_on_another_day_is_a_warning(change: Change) -> None:
    site = change(TOML, "start = 2026-05-12T", "start = 2026-06-12T")
    assert "starts on 2026-06-12" in read(site, "warning")[1][0]


# --- results without readings ------------------------------------------------


def stated(site: Path, lines: str) -> tuple[tuple[CanTest, ...], list[str]]:
    head = 'format = 1\nzone = "Z2"\ndate = 2026-05-12\ncondition = "as found"\n'
    (site / RUN).unlink()
    (site / TOML).write_text(f"{head}[stated]\n{lines}\n", encoding="utf-8")
    return read(site)


def test_a_stated_result_is_read(site: Path) -> None:
    lines = 'du_lq = 0.71\nnet_rate_in_per_h = 0.48\nsource = "audit of 2024"'
    (test,), said = stated(site, lines)
    assert said == []
    assert test.stated is not None
    assert test.stated.net_rate_mm_per_h == pytest.approx(12.192)


@pytest.mark.parametrize(
    ("du", "message"),
    [
        ("1.12", "test.toml:6: du_lq: is 1.12; a uniformity is between 0 and 1"),
        ("71", "write 0.71 if 71 % is meant"),
        ("0", "is 0; a uniformity is between 0 and 1"),
        ("-0.5", "is -0.5; a uniformity is between 0 and 1"),
    ],
)
def test_an_impossible_uniformity_is_refused(site: Path, du: str, message: str) -> None:
    tests, said = stated(site, f'du_lq = {du}\nsource = "audit"')
    assert tests == ()
    assert message in said[0]


def test_a_stated_result_names_its_source(site: Path) -> None:
    assert "source is missing" in stated(site, "du_lq = 0.7")[1][0]
