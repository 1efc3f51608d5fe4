"""The log of the demo site says what its ABOUT.md promises."""

from pathlib import Path

import numpy as np
import pytest

from scheduler.files.demo import demo_source
from scheduler.files.log_kinds import KINDS
from scheduler.files.site_folder import SiteFolder, read_site_folder
from scheduler.log import FrostNight, MeterReading, Override, Respacing
from scheduler.need.leaching import pooled_leaching_fraction

SHIPPED = demo_source() / "tern_hollow"


@pytest.fixture(scope="module")
def folder() -> SiteFolder:
    return read_site_folder(Path(SHIPPED))


def test_every_line_is_read_without_a_finding(folder: SiteFolder) -> None:
    text = (SHIPPED / "log.csv").read_text(encoding="utf-8")
    lines = [one for one in text.splitlines() if one[:1].isdigit()]
    assert len(folder.history.log.entries) == len(lines)
    assert not [one for one in folder.findings if one.where.startswith("log.csv")]


def test_six_pots_of_z4_leached_12_to_61_percent_and_38_together(
    folder: SiteFolder,
) -> None:
    (check,) = folder.history.log.leaching_checks("Z4")
    parts = [one.fraction for one in check.pots]
    came = np.array([one.in_ml for one in check.pots], dtype=np.float64)
    drained = np.array([one.out_ml for one in check.pots], dtype=np.float64)
    assert check.minutes == 24.0
    assert [round(min(parts), 2), round(max(parts), 2)] == [0.12, 0.61]
    assert pooled_leaching_fraction(came, drained) == pytest.approx(0.38, abs=0.005)


def test_pots_stand_where_cans_of_the_test_of_z4_stood(folder: SiteFolder) -> None:
    (test,) = (one for one in folder.history.tests if one.zone == "Z4")
    (check,) = folder.history.log.leaching_checks("Z4")
    rows, columns = test.runs[0].reading.shape
    for pot in check.pots:
        assert pot.position is not None
        assert pot.position[0] < rows
        assert pot.position[1] < columns


def test_the_meter_is_read_weekly_and_rolls_over_once(folder: SiteFolder) -> None:
    dials = folder.history.log.of(MeterReading)
    days = np.diff(np.array([one.date for one in dials], dtype="datetime64[D]"))
    falls = np.diff([one.dial_m3 for one in dials]) < 0
    assert set(days.astype(int)) == {7}
    assert falls.sum() == 1
    assert {(one.multiplier, one.digits, len(one.zones)) for one in dials} == {
        (10.0, 6, 9)
    }


def test_the_dial_of_the_meter_fits_the_test_read_on_it(folder: SiteFolder) -> None:
    (card,) = (one.meter for one in folder.history.tests if one.meter is not None)
    before, after = (
        one.reading
        for one in folder.history.log.of(MeterReading)
        if one.date.isoformat() in ("2026-05-11", "2026-05-18")
    )
    assert before < card.start < card.stop < after


def test_the_frost_night_stands_apart(folder: SiteFolder) -> None:
    (night,) = folder.history.log.of(FrostNight)
    assert (night.minutes, night.zones) == (330.0, ())


def test_z4_was_respaced_and_z5_overridden(folder: SiteFolder) -> None:
    log = folder.history.log
    assert [one.zone for one in log.of(Respacing)] == ["Z4"]
    assert [(one.zone, one.minutes) for one in log.of(Override)] == [("Z5", 50.0)]


def test_the_demo_shows_most_kinds_of_line(folder: SiteFolder) -> None:
    shown = {type(one) for one in folder.history.log.entries}
    assert shown == {kind.fact for kind in KINDS.values()}
