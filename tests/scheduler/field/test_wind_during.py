"""The wind during a run: of a log, as typed, or unknown."""

import datetime as dt
from dataclasses import replace

import pytest

from scheduler.field.wind_during import SiteWind, WindDuring, wind_during
from scheduler.record import CanRun, WindLog
from tests.scheduler.field.made import run
from tests.scheduler.field.wind.made import (
    M_PER_S_PER_MPH,
    NEW_YORK,
    morning_log,
    wind_log,
)

MORNING = dt.datetime.fromisoformat("2026-05-12T06:10")


def morning_run(wind_mph: float | None = None, **given: object) -> CanRun:
    wind = None if wind_mph is None else wind_mph * M_PER_S_PER_MPH
    one = replace(run(minutes=40.0), start=MORNING, wind_m_per_s=wind)
    return replace(one, **given)  # type: ignore[arg-type]


def during(one: CanRun, *logs: WindLog) -> WindDuring:
    return wind_during(one, SiteWind(logs, NEW_YORK))


def mph(wind: WindDuring) -> float:
    assert wind.mean_m_per_s is not None
    return wind.mean_m_per_s / M_PER_S_PER_MPH


# Worked by hand: eight rows of 5 minutes, two missing.
def test_the_log_gives_the_mean_and_the_share_of_the_run() -> None:
    wind = during(morning_run(), morning_log())
    assert mph(wind) == pytest.approx(2.8)
    assert (wind.source, wind.share_logged, wind.band) == ("log", 0.75, "calm")


def test_another_clock_with_another_answer_is_asked_about_with_both_answers() -> None:
    said = during(morning_run(), morning_log()).findings
    (doubt,) = (one for one in said if one.level == "warning")
    assert "if the log were local: 9.1 mph" in doubt.what
    assert "utc as declared: 2.8 mph" in doubt.what
    assert "run1.csv" in doubt.where


def test_a_confirmed_clock_is_not_asked_about() -> None:
    said = during(morning_run(), morning_log(clock_is_confirmed=True)).findings
    assert all(one.level == "note" for one in said)


def test_gust_and_direction_come_with_the_mean() -> None:
    log = wind_log([1.0] * 8, gust=[2.0] * 7 + [3.0], direction=[350.0, 10.0] * 4)
    wind = during(morning_run(), log)
    assert wind.gust_m_per_s == 3.0
    assert wind.direction_deg == pytest.approx(0.0, abs=1e-6)


def test_the_log_that_covers_most_of_the_run_is_taken() -> None:
    short = replace(wind_log([9.0] * 7), name="short")
    assert during(morning_run(), short, wind_log([1.0] * 8)).mean_m_per_s == 1.0


def test_the_typed_wind_stands_where_no_log_covers_the_run() -> None:
    elsewhere = wind_log([1.0] * 8, start="2026-06-01T10:10")
    wind = during(morning_run(2.5), elsewhere)
    assert mph(wind) == pytest.approx(2.5)
    assert (wind.source, wind.share_logged, wind.findings) == ("typed", 0.0, ())


def test_too_little_of_the_run_logged_is_wind_unknown() -> None:
    wind = during(morning_run(), wind_log([1.0] * 5))
    assert (wind.mean_m_per_s, wind.band, wind.share_logged) == (None, "unknown", 0.625)
    assert "wind unknown" in wind.findings[0].what


def test_too_little_logged_leaves_the_typed_wind_and_says_so() -> None:
    wind = during(morning_run(2.5), wind_log([1.0] * 5))
    assert wind.source == "typed"
    assert "the wind in test.toml stands" in wind.findings[0].what


def test_a_clock_that_would_cover_the_run_is_named() -> None:
    # four hours early: what a log on the local clock looks like when read as UTC
    wind = during(morning_run(), wind_log([1.0] * 8, start="2026-05-12T06:10",
                                          time_zone=NEW_YORK))  # fmt: skip
    assert wind.band == "unknown"
    assert "local: 2.2 mph" in wind.findings[0].what


def test_a_log_far_from_the_typed_wind_is_a_warning() -> None:
    wind = during(morning_run(9.0), wind_log([1.0] * 8))
    assert wind.mean_m_per_s == 1.0
    assert any("9.0 mph" in one.what for one in wind.findings)


def test_a_start_that_came_twice_is_refused() -> None:
    night = morning_run(start=dt.datetime.fromisoformat("2026-11-01T01:30"))
    wind = during(night, wind_log([1.0] * 8))
    assert wind.band == "unknown"
    assert wind.findings[0].level == "stop"
    assert "came twice" in wind.findings[0].what


def test_a_start_with_its_offset_is_not_refused() -> None:
    offset = dt.timezone(dt.timedelta(hours=-5))
    night = morning_run(start=dt.datetime(2026, 11, 1, 1, 30, tzinfo=offset))
    log = wind_log([1.0] * 8, start="2026-11-01T06:30")
    assert during(night, log).mean_m_per_s == 1.0


def test_without_a_start_no_log_can_be_asked() -> None:
    wind = during(morning_run(start=None), wind_log([1.0] * 8))
    assert wind.band == "unknown"
    assert "start" in wind.findings[0].what


def test_a_mast_of_10_m_is_said() -> None:
    wind = during(morning_run(), wind_log([1.0] * 8, height_m=10.0))
    assert wind.mean_m_per_s == 1.0
    assert any("10 m above the ground" in one.what for one in wind.findings)
