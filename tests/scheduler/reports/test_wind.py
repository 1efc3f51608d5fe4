"""The usual wind as text and JSON."""

import numpy as np
import pytest

from scheduler.field.wind_course import WindCourse, wind_courses
from scheduler.reports.wind import wind_json, wind_text
from tests.scheduler.field.test_wind_course import NIGHT, daily, site
from tests.scheduler.field.wind.made import wind_log


@pytest.fixture(scope="module")
def courses() -> tuple[WindCourse, ...]:
    mast = daily(12, height_m=10.0, gust=np.full(288, 6.0))
    return wind_courses(site(NIGHT), [mast])


def test_every_hour_has_a_line_with_its_means(courses: tuple[WindCourse, ...]) -> None:
    lines = wind_text(courses, "metric").splitlines()
    (noon,) = (one for one in lines if one.startswith("12 "))
    assert noon.split() == ["12", *["–"] * 6, "2.2", *["–"] * 5, "2.2", "6.0", "0%"]


def test_days_stand_below_the_means(courses: tuple[WindCourse, ...]) -> None:
    (days,) = (
        one for one in wind_text(courses, "us").splitlines() if one[:5] == "days "
    )
    assert days.split() == ["days", *["–"] * 6, "12", *["–"] * 5]


def test_the_text_fits_80_columns(courses: tuple[WindCourse, ...]) -> None:
    assert max(map(len, wind_text(courses, "us").splitlines())) <= 80


def test_the_height_is_said(courses: tuple[WindCourse, ...]) -> None:
    text = " ".join(wind_text(courses, "us").split())
    assert "at 2 m, brought down from 10 m" in text
    assert "gust: the highest, at the sensor (10 m)" in text


def test_a_mean_of_few_days_is_marked() -> None:
    # from the evening of 25 July on: nine days of July, a few of August
    log = wind_log([2.0] * 24 * 12, start="2026-07-23T04:00", step_min=60)
    text = wind_text(wind_courses(site(), [log]), "metric")
    (noon,) = (one for one in text.splitlines() if one.startswith("12 "))
    assert noon.split()[7:9] == ["2.0", "2.0*"]


def test_what_the_trade_says_is_marked_as_without_source(
    courses: tuple[WindCourse, ...],
) -> None:
    text = " ".join(wind_text(courses, "us").split())
    assert "common practice, no source" in text
    assert "highest from 12:00 (as said)" in text
    assert wind_json(courses, ())["logs"][0]["common_practice"]["drops_at_about_17"]


def test_the_calmest_hours_are_named(courses: tuple[WindCourse, ...]) -> None:
    assert "calmest 7 hours in a row: 00:00 to 07:00" in wind_text(courses, "us")
    calmest = wind_json(courses, ())["logs"][0]["calmest"]
    assert (calmest["start_hour"], calmest["hours"]) == (0, 7)


def test_the_json_has_months_and_hours(courses: tuple[WindCourse, ...]) -> None:
    (log,) = wind_json(courses, ())["logs"]
    for key in ("mean_m_per_s", "gust_m_per_s", "calm_share", "n_rows", "n_days"):
        assert log[key].shape == (12, 24)


def test_a_logger_of_one_morning_gets_one_line() -> None:
    text = wind_text(wind_courses(site(), [wind_log([2.0] * 12)]), "us")
    assert "too little for a usual wind" in text
    assert "hour " not in text.splitlines()[0][:5]


def test_without_a_log_the_way_to_one_is_said() -> None:
    assert "[[wind_log]]" in wind_text((), "us")
