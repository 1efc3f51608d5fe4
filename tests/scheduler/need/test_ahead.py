"""The planned week's ETo, and how cool or hot it may turn out."""

import datetime as dt
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.errors import Finding
from scheduler.need.ahead import WeekRange, week_ahead
from scheduler.need.outlook import Outlook
from scheduler.need.reference_et import ReferenceET
from scheduler.record import Origin
from tests.scheduler.need.made import day, days, station

TODAY = day("2026-06-08")
WEEK = days("2026-06-08")


def years(*eto: float, **given: Any) -> ReferenceET:
    """Whole years up to 2025, each with one ETo a day."""
    first = 2026 - len(eto)
    n = [(dt.date(first + i + 1, 1, 1) - dt.date(first + i, 1, 1)).days
         for i in range(len(eto))]  # fmt: skip
    return station(f"{first}-01-01", np.repeat(eto, n), **given)


def told(eto: float) -> ReferenceET:
    """A forecast of this morning."""
    origin = Origin(issued=TODAY)
    return station("2026-06-08", np.full(7, eto), name="office", origin=origin)


def ahead(*series: ReferenceET, dates: Any = WEEK) -> tuple[Outlook, WeekRange]:
    found, spread, _ = week_ahead(series, None, dates=dates, today=TODAY)
    assert found is not None
    assert spread is not None
    return found, spread


def said(*series: ReferenceET) -> list[Finding]:
    _, _, findings = week_ahead(series, None, dates=WEEK, today=TODAY)
    return [one for one in findings if one.where == "weather: range"]


def test_the_range_is_that_of_the_weekly_sums_by_hand() -> None:
    # sums 28, 35, 42: mean 35, s 7, t(0.9, 2) 1.8856 x sqrt(4/3): half 15.24
    _, found = ahead(years(4.0, 5.0, 6.0))
    assert found.n_years == 3
    assert found.cool.value == pytest.approx(35 - 15.24, abs=0.01)
    assert found.hot.value == pytest.approx(35 + 15.24, abs=0.01)


def test_each_day_moves_in_proportion() -> None:
    found, spread = ahead(years(4.0, 5.0, 6.0), told(5.0))
    ratio = spread.hot_mm_per_day / found.eto_mm_per_day
    np.testing.assert_allclose(ratio, ratio[0])


def test_a_day_that_is_measured_already_differs_no_more() -> None:
    now = station("2026-06-06", [9.0, 9.0], name="now")
    _, spread = ahead(years(4.0, 5.0, 6.0), now, dates=days("2026-06-06"))
    assert spread.cool_mm_per_day[:2].tolist() == [9.0, 9.0]
    assert spread.cool_mm_per_day[2] < 5.0


def test_days_gone_by_have_no_range_and_nothing_to_say_of_one() -> None:
    found, spread, findings = week_ahead(
        [years(4.0, 5.0, 6.0)], None, dates=days("2025-06-08"), today=TODAY
    )
    assert (found is not None, spread) == (True, None)
    assert [one for one in findings if one.where == "weather: range"] == []


def test_one_typical_year_has_no_range_and_that_is_noted() -> None:
    typical = station("1990-01-01", np.full(365, 5.0), is_typical_year=True)
    found, spread, _ = week_ahead([typical], None, dates=WEEK, today=TODAY)
    assert (found is not None, spread) == (True, None)
    assert "one typical year has no spread" in said(typical)[0].what


def test_two_other_years_are_too_few_and_that_is_noted() -> None:
    assert "2 other years of these dates cannot tell" in said(years(4.0, 5.0))[0].what


def test_without_any_other_year_there_is_no_range() -> None:
    new = station("2026-06-01", np.full(7, 5.0))
    assert "no other year" in said(new)[0].what


def test_without_any_weather_nothing_is_said_of_a_range() -> None:
    assert said() == []


def test_the_first_station_with_enough_years_tells_the_range() -> None:
    _, found = ahead(years(5.0, 6.0), years(4.0, 5.0, 6.0, 5.0, name="old"))
    assert (found.n_years, "old" in found.cool.source) == (4, True)


def test_a_forecast_beyond_the_range_is_reached_and_noted() -> None:
    found, spread = ahead(years(5.0, 5.1, 5.2), told(9.0))
    assert spread.hot.value == pytest.approx(float(found.eto_mm_per_day.sum()))
    assert "hotter than nine in ten" in said(years(5.0, 5.1, 5.2), told(9.0))[0].what


def test_this_years_own_days_tell_nothing_of_how_years_differ() -> None:
    same = years(4.0, 5.0, 6.0)
    more = station("2026-01-01", np.full(300, 20.0), name="this year")
    assert ahead(same)[1].hot.value == ahead(same, more)[1].hot.value


@given(
    st.lists(st.floats(0.5, 9.0), min_size=3, max_size=8),
    st.one_of(st.none(), st.floats(0.1, 12.0)),
)
def test_the_planned_week_lies_between_the_cool_and_the_hot_one(
    eto: list[float], forecast: float | None
) -> None:
    extra = [] if forecast is None else [told(forecast)]
    found, spread = ahead(years(*eto), *extra)
    assert (spread.cool_mm_per_day <= found.eto_mm_per_day + 1e-9).all()
    assert (spread.hot_mm_per_day >= found.eto_mm_per_day - 1e-9).all()
