import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.errors import Finding
from scheduler.need.outlook import Outlook, outlook
from scheduler.record import Origin, RainSeries
from tests.scheduler.need.made import day, days, station

TODAY = day("2026-06-08")
AHEAD = days("2026-06-08")


def _typical(**changes: Any) -> Any:
    # the year a typical file was stitched into is meaningless; day n has ETo n / 100
    eto = np.arange(1, 366) / 100
    return station("1990-01-01", eto, name="typical", is_typical_year=True, **changes)


def _answer(*series: Any, rain: RainSeries | None = None, dates: Any = AHEAD,
            today: dt.date = TODAY) -> tuple[Outlook, tuple[Finding, ...]]:  # fmt: skip
    found, findings = outlook(series, rain, dates=dates, today=today)
    assert found is not None, findings
    return found, findings


def _levels(findings: tuple[Finding, ...], where: str = "weather") -> list[str]:
    return [one.level for one in findings if one.where.startswith(where)]


# --- days before today ------------------------------------------------------


def test_a_day_before_today_is_measured() -> None:
    found, findings = _answer(
        station("2026-06-01", np.arange(1.0, 8.0)), dates=days("2026-06-01")
    )
    assert found.eto_mm_per_day.tolist() == [1, 2, 3, 4, 5, 6, 7]
    assert set(found.eto_basis) == {"measured"}
    assert _levels(findings) == []


def test_the_first_station_that_knows_the_day_is_used() -> None:
    near = station("2026-06-01", [5.0, np.nan, 5.0, 5.0, 5.0, 5.0, 5.0])
    far = station("2026-06-01", np.full(7, 9.0), name="far")
    found, _ = _answer(near, far, dates=days("2026-06-01"))
    assert found.eto_mm_per_day.tolist() == [5, 9, 5, 5, 5, 5, 5]


def test_a_gap_is_filled_from_the_typical_year_and_said() -> None:
    gap = station("2026-06-01", [5.0, np.nan, 5.0, 5.0, 5.0, 5.0, 5.0])
    found, findings = _answer(gap, _typical(), dates=days("2026-06-01"))
    # 2 June is day 153
    assert found.eto_mm_per_day[1] == pytest.approx(1.53)
    assert found.eto_basis[1] == "same days of a typical year"
    assert "the first is 2026-06-02" in findings[0].what
    assert _levels(findings) == ["warning"]


def test_a_gap_without_any_other_year_takes_the_last_days_never_zero() -> None:
    gap = station("2026-06-01", [4.0, np.nan, 6.0])
    found, _ = _answer(gap, dates=days("2026-06-01", 3))
    assert found.eto_mm_per_day.tolist() == [4.0, 5.0, 6.0]


# --- today and later -------------------------------------------------------------


def test_the_week_ahead_is_the_same_days_of_the_typical_year() -> None:
    found, findings = _answer(station("2026-06-01", np.full(7, 5.0)), _typical())
    # 8 June is day 159
    assert found.eto_mm_per_day == pytest.approx(np.arange(159, 166) / 100)
    assert set(found.eto_basis) == {"same days of a typical year"}
    assert _levels(findings) == []


def test_two_own_years_come_before_a_typical_year() -> None:
    own = station("2024-01-01", np.full(731, 7.0))
    found, _ = _answer(own, _typical())
    assert found.eto_mm_per_day.tolist() == [7.0] * 7
    assert set(found.eto_basis) == {"own average for those days"}


def test_one_own_year_comes_after_a_typical_year() -> None:
    found, _ = _answer(station("2025-01-01", np.full(365, 7.0)), _typical())
    assert set(found.eto_basis) == {"same days of a typical year"}


def _forecast(n: int = 7, **changes: Any) -> Any:
    origin = Origin(issued=TODAY)
    return station("2026-06-08", np.full(n, 6.0), name="office", origin=origin,
                   **changes)  # fmt: skip


def test_a_forecast_comes_before_every_average() -> None:
    own = station("2024-01-01", np.full(731, 7.0))
    found, _ = _answer(own, _typical(), _forecast())
    assert found.eto_mm_per_day.tolist() == [6.0] * 7
    assert set(found.eto_basis) == {"forecast"}


def test_days_beyond_the_forecast_are_those_of_the_own_years() -> None:
    found, _ = _answer(station("2024-01-01", np.full(731, 7.0)), _forecast(3))
    assert found.eto_mm_per_day.tolist() == [6.0] * 3 + [7.0] * 4


def test_a_forecast_is_no_measurement_of_days_gone_by() -> None:
    gone = station(
        "2026-06-01", np.full(7, 6.0), origin=Origin(issued=day("2026-06-01"))
    )
    found, _ = _answer(gone, _typical(), dates=days("2026-06-01"))
    assert set(found.eto_basis) == {"same days of a typical year"}


def test_the_trace_names_the_day_of_issue_and_the_distance() -> None:
    near = Origin(issued=TODAY, distance_km=17.7)
    found, _ = _answer(station("2026-06-08", np.full(7, 6.0), origin=near))
    (part,) = found.trace.inputs
    assert part.source == (
        "county (issued 2026-06-08, 17.7 km (11.0 mi) away, grass reference)"
    )


def test_the_trace_says_that_alfalfa_reference_was_turned_into_grass() -> None:
    tall = Origin(reference="alfalfa")
    found, _ = _answer(station("2026-06-01", np.full(7, 5.0), origin=tall))
    assert "alfalfa reference of the station turned" in found.trace.inputs[0].source


def test_29_february_is_28_february_of_the_typical_year() -> None:
    found, _ = _answer(_typical(), dates=days("2028-02-28", 3), today=day("2028-02-01"))
    assert found.eto_mm_per_day == pytest.approx([0.59, 0.59, 0.60])


def test_without_a_typical_year_the_own_years_answer_within_three_days() -> None:
    found, _ = _answer(station("2025-01-01", np.arange(1, 366) / 100))
    # a straight line: the mean over 7 days is its middle
    assert found.eto_mm_per_day == pytest.approx(np.arange(159, 166) / 100)
    assert set(found.eto_basis) == {"own average for those days"}


def test_days_of_this_year_are_no_average_over_years() -> None:
    found, _ = _answer(station("2026-05-01", np.full(38, 5.0)))
    assert set(found.eto_basis) == {"last week's average"}


def test_the_own_average_reaches_over_new_year() -> None:
    winter = station("2024-12-29", [1.0, 1.0, 1.0, 2.0, 2.0, 2.0, 2.0])
    found, _ = _answer(winter, dates=days("2026-01-01", 1), today=day("2026-01-01"))
    assert found.eto_mm_per_day[0] == pytest.approx((3 * 1.0 + 4 * 2.0) / 7)


def test_without_other_years_the_last_seven_measured_days_answer() -> None:
    known = station("2026-05-25", [*[9.0] * 7, *np.arange(1.0, 8.0)])
    found, findings = _answer(known)
    assert found.eto_mm_per_day.tolist() == [4.0] * 7
    assert _levels(findings) == ["note"]


def test_an_average_of_two_weeks_ago_is_a_warning() -> None:
    _, findings = _answer(station("2026-05-20", np.full(6, 5.0)))
    assert _levels(findings) == ["warning"]
    assert "(14 days ago)" in findings[0].what


def test_weather_of_two_months_ago_says_nothing_about_next_week() -> None:
    found, findings = outlook(
        [station("2026-03-01", np.full(30, 3.0))], None, dates=AHEAD, today=TODAY
    )
    assert found is None
    assert (findings[0].level, "2026-03-30" in findings[0].what) == ("stop", True)


def test_a_station_without_a_day_before_today_is_passed_over() -> None:
    new = station("2026-06-08", [9.0], name="new")
    found, _ = _answer(new, station("2026-06-01", np.full(7, 5.0)))
    assert found.eto_mm_per_day.tolist() == [5.0] * 7


def test_without_any_weather_there_is_a_stop() -> None:
    found, findings = outlook([], None, dates=AHEAD, today=TODAY)
    assert found is None
    assert [one.level for one in findings] == ["stop"]


def test_what_was_measured_after_today_is_not_known_today() -> None:
    # a site pinned to a date must not see its own future
    known = station("2026-06-01", [*[5.0] * 7, *[9.0] * 7])
    found, _ = _answer(known, rain=None)
    assert found.eto_mm_per_day.tolist() == [5.0] * 7


# --- rain --------------------------------------------------------------------------


def _gauge(first: str, mm: list[float]) -> RainSeries:
    return RainSeries("rain.csv", days(first, len(mm)), np.array(mm))


def test_the_gauge_comes_before_the_station() -> None:
    known = station("2026-06-01", np.full(7, 5.0), rain_mm=np.full(7, 9.0))
    found, findings = _answer(
        known, rain=_gauge("2026-06-01", [0.0, 4.0]), dates=days("2026-06-01")
    )
    assert found.rain_mm.tolist() == [0, 4, 9, 9, 9, 9, 9]
    assert found.rain_basis == ("gauge",) * 2 + ("station",) * 5
    assert _levels(findings, "rain") == []


def test_the_station_tells_rain_of_a_day_whose_eto_it_lost() -> None:
    known = station("2026-06-05", [5.0, np.nan, 5.0], rain_mm=np.array([0.0, 7.0, 0.0]))
    found, _ = _answer(known, dates=days("2026-06-05", 3))
    assert found.rain_mm.tolist() == [0.0, 7.0, 0.0]


def test_rain_that_nobody_wrote_down_is_unknown_and_said() -> None:
    found, findings = _answer(
        station("2026-06-01", np.full(7, 5.0)), dates=days("2026-06-01")
    )
    assert set(found.rain_basis) == {"unknown, none counted"}
    assert _levels(findings, "rain") == ["warning"]


def test_no_rain_is_counted_ahead_and_said() -> None:
    found, findings = _answer(_typical(rain_mm=np.full(365, 6.0)))
    assert found.rain_mm.tolist() == [0.0] * 7
    assert set(found.rain_basis) == {"none counted ahead"}
    assert _levels(findings, "rain") == ["note"]


def test_a_gauge_reading_of_this_morning_counts_but_none_of_tomorrow() -> None:
    found, _ = _answer(_typical(), rain=_gauge("2026-06-08", [3.0, 50.0]))
    assert found.rain_mm.tolist() == [3.0] + [0.0] * 6


def test_rain_of_a_typical_year_never_fell() -> None:
    found, _ = _answer(_typical(rain_mm=np.full(365, 6.0)), dates=days("2026-06-01"))
    assert set(found.rain_basis) == {"unknown, none counted"}


def test_readings_out_of_order_are_found_by_their_date() -> None:
    gauge = RainSeries(
        "rain.csv",
        np.array(["2026-06-03", "2026-06-01"], dtype="datetime64[D]"),
        np.array([3.0, 1.0]),
    )
    found, _ = _answer(_typical(), rain=gauge, dates=days("2026-06-01", 3))
    assert found.rain_mm.tolist() == [1.0, 0.0, 3.0]


def test_rain_of_a_forecast_is_shown_and_never_counted() -> None:
    found, findings = _answer(_forecast(rain_mm=np.full(7, 6.0)))
    assert found.rain_mm.tolist() == [0.0] * 7
    assert found.rain_ahead_mm is not None
    assert found.rain_ahead_mm.tolist() == [6.0] * 7
    assert "a forecast expects 42.0 mm" in findings[-1].what


def test_rain_below_a_fifth_of_eto_is_said_to_be_little() -> None:
    _, findings = _answer(_forecast(rain_mm=np.array([1.0, 9.0, *[0.0] * 5])))
    assert "on 1 days less than a fifth" in findings[-1].what


# --- trace ---------------------------------------------------------------------------


def test_the_trace_adds_up_and_names_each_source_with_its_days() -> None:
    found, _ = _answer(station("2026-06-01", np.full(7, 5.0), trace_note="stated"))
    assert found.trace.value == pytest.approx(float(found.eto_mm_per_day.sum()))
    (part,) = found.trace.inputs
    assert part.value == found.trace.value
    assert part.formula.startswith("last week's average: 5.0, 5.0")
    assert part.source == "county (grass reference): stated"


def test_the_trace_of_rain_names_the_gauge() -> None:
    found, _ = _answer(_typical(), rain=_gauge("2026-06-08", [3.0]))
    first = found.rain_trace.inputs[0]
    assert (first.value, first.formula) == (3.0, "gauge: 3.0 mm")
    assert first.source == "rain.csv"
