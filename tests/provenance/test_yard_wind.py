"""The demo site's wind: invented mornings, and the mast made from the typical year."""

import csv
import tomllib
from collections import defaultdict

import numpy as np
import pytest

from scheduler.field.evaluation import evaluated_site
from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder
from tests.provenance.yard_wind import (
    DIRECTION,
    GUST_TIMES,
    MORNINGS,
    SPEED,
    mast_text,
    wind_text,
)

SHIPPED = demo_source() / "tern_hollow"


def test_the_shipped_log_is_what_the_maker_writes() -> None:
    text = (SHIPPED / "wind" / "yard_logger.csv").read_text("utf-8")
    assert text == wind_text()


def test_every_test_of_the_demo_has_its_morning() -> None:
    tomls = (SHIPPED / "tests").glob("*/test.toml")
    dates = {str(tomllib.loads(one.read_text("utf-8"))["date"]) for one in tomls}
    assert dates == set(MORNINGS)


def test_every_run_of_the_demo_has_logged_wind_and_no_doubt_about_it() -> None:
    found = read_site_folder(SHIPPED)
    assert found.site is not None
    for test in evaluated_site(found.site, found.history, with_ranges=False):
        for run in test.runs:
            assert run.wind is not None
            assert (run.wind.source, run.wind.share_logged) == ("log", 1.0)
            assert run.wind.findings == ()


# --- the mast ---------------------------------------------------------------------


def rows_of(text: str) -> list[list[str]]:
    """Rows below the remarks and the header."""
    return list(csv.reader(one for one in text.splitlines() if one[:1] != "#"))[1:]


def mast() -> str:
    return (SHIPPED / "wind" / "mast_year.csv").read_text("utf-8")


def test_the_mast_has_every_hour_of_a_year_before_the_first_test() -> None:
    stamps = np.array(
        [row[0].replace(" ", "T") for row in rows_of(mast())], "datetime64[m]"
    )
    assert (np.diff(stamps) == np.timedelta64(60, "m")).all()
    assert (stamps.size, str(stamps[-1])) == (8760, "2026-03-01T00:00")
    assert str(stamps[-1]) < min(MORNINGS)


def test_the_mast_blows_each_day_as_the_typical_year_does() -> None:
    # the daily means of the shipped weather come from the same hours of the public file
    weather = (SHIPPED / "weather" / "greensboro_typical_year.csv").read_text("utf-8")
    daily = {row[0][5:]: float(row[6]) for row in rows_of(weather)}
    hours = defaultdict(list)
    for stamp, speed, _, _ in rows_of(mast()):
        # a stamp ends its hour, so that of midnight belongs to the day before
        moment = np.datetime64(stamp.replace(" ", "T"), "m") - np.timedelta64(1, "m")
        hours[str(moment)[5:10]].append(float(speed))
    assert hours.keys() == daily.keys()
    for day, speeds in hours.items():
        assert np.mean(speeds) == pytest.approx(daily[day], abs=0.006), day


def test_a_gust_is_the_stated_part_above_its_mean() -> None:
    for _, speed, gust, _ in rows_of(mast()):
        low, high = (float(speed) * times for times in GUST_TIMES)
        assert low - 0.051 <= float(gust) <= high + 0.051


def test_hours_begin_with_march_and_end_with_february() -> None:
    # 8760 hours with their number as direction: March begins after 59 days
    hours = [{SPEED: "2.0", DIRECTION: f"{i}"} for i in range(8760)]
    rows = rows_of(mast_text(hours))
    assert (rows[0][0], rows[0][3]) == ("2025-03-01 01:00", str(59 * 24))
    assert (rows[-1][0], rows[-1][3]) == ("2026-03-01 00:00", str(59 * 24 - 1))


@pytest.mark.parametrize(
    "said", ["NOT logged", "TMY3", "Gusts are invented", "make_tern_hollow", "10 m"]
)
def test_the_first_lines_of_the_mast_say_where_it_is_from(said: str) -> None:
    remarks = [one for one in mast().splitlines() if one.startswith("#")]
    assert said in " ".join(remarks)
