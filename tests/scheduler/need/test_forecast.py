"""Which forecasts may be used, and what they say of rain."""

import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.need.forecast import (
    forecast_rain_mm,
    negligible_rain_mm,
    on_days,
    usable_forecasts,
)
from scheduler.need.reference_et import ReferenceET
from scheduler.record import Origin
from tests.scheduler.need.made import days, station

NOW = np.datetime64("2026-06-08")
WEEK = days("2026-06-08")


def told(
    issued: str, first: str = "2026-06-08", n: int = 7, **given: Any
) -> ReferenceET:
    """A forecast of n days of 6 mm, issued on a day."""
    origin = Origin(issued=dt.date.fromisoformat(issued))
    named = {"name": "office"} | given
    return station(first, np.full(n, 6.0), origin=origin, **named)


def test_a_forecast_of_this_morning_is_used_without_a_word() -> None:
    used, said = usable_forecasts([told("2026-06-08")], WEEK, NOW)
    assert ([one.name for one in used], said) == (["office"], ())


def test_what_was_measured_is_no_forecast() -> None:
    assert (
        usable_forecasts([station("2026-06-08", np.full(7, 5.0))], WEEK, NOW)[0] == ()
    )


def test_the_newest_forecast_is_asked_first() -> None:
    both = [told("2026-06-07"), told("2026-06-08", name="later")]
    used, _ = usable_forecasts(both, WEEK, NOW)
    assert used[0].name == "later"


def test_days_before_the_issue_are_no_forecast() -> None:
    used, _ = usable_forecasts([told("2026-06-08", "2026-06-01", 14)], WEEK, NOW)
    assert used[0].date[0] == NOW


def test_a_forecast_of_days_gone_by_is_a_finding_and_not_used() -> None:
    used, said = usable_forecasts([told("2026-05-30", "2026-05-30")], WEEK, NOW)
    assert used == ()
    assert "its last day is 2026-06-05" in said[0].what


def test_a_forecast_without_days_is_a_finding() -> None:
    _, said = usable_forecasts([told("2026-06-08", n=0)], WEEK, NOW)
    assert "it has no day" in said[0].what


def test_a_forecast_issued_tomorrow_is_a_finding_and_not_used() -> None:
    used, said = usable_forecasts([told("2026-06-09")], WEEK, NOW)
    assert used == ()
    assert "after today" in said[0].what


def test_an_old_forecast_is_used_with_a_warning() -> None:
    used, said = usable_forecasts([told("2026-06-04", "2026-06-04", 14)], WEEK, NOW)
    assert len(used) == 1
    assert (said[0].level, "4 days ago" in said[0].what) == ("warning", True)


def test_days_gone_by_need_no_forecast() -> None:
    past = days("2026-06-01")
    assert usable_forecasts([told("2026-06-09")], past, NOW) == ((), ())


def test_rain_ahead_is_the_newest_forecasts() -> None:
    new = told("2026-06-08", n=2, rain_mm=np.array([3.0, np.nan]))
    old = told("2026-06-07", rain_mm=np.arange(7.0))
    rain = forecast_rain_mm((new, old), WEEK, NOW)
    np.testing.assert_array_equal(rain, [3, 1, 2, 3, 4, 5, 6])


def test_no_rain_lies_ahead_of_days_gone_by() -> None:
    old = told("2026-06-01", "2026-06-01", rain_mm=np.arange(7.0))
    assert np.isnan(forecast_rain_mm((old,), days("2026-06-01"), NOW)).all()


def test_values_are_found_by_their_day() -> None:
    date = np.array(["2026-06-09", "2026-06-08"], dtype="datetime64[D]")
    found = on_days(date, np.array([2.0, 1.0]), days("2026-06-08", 3))
    np.testing.assert_array_equal(found, [1.0, 2.0, np.nan])


# FAO-56 p. 170: rain below a fifth of the day's ETo may be ignored
@pytest.mark.parametrize(("eto", "rain"), [(5.0, 1.0), (7.5, 1.5)])
def test_a_fifth_of_eto_is_rain_that_may_be_ignored(eto: float, rain: float) -> None:
    assert float(negligible_rain_mm(eto)) == pytest.approx(rain)
