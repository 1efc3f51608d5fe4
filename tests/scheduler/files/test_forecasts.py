"""A forecast is one more station: from the folder to the week."""

import datetime as dt
from collections.abc import Callable
from pathlib import Path

from scheduler.errors import Finding
from scheduler.files.site_folder import read_site_folder
from scheduler.plan import WeekPlan, build_week

Change = Callable[[str, str, str], Path]
TODAY = dt.date(2026, 6, 8)
STATION = """
[[station]]
name = "weather office"
file = "weather/forecast.csv"
is_forecast = true
issued = {issued}
"""
ROWS = "\n".join(f"2026-06-{d:02},30,18,5" for d in range(8, 15))


def week(change: Change, issued: str = "2026-06-08") -> WeekPlan:
    window = "[[window]]"
    folder = change("site.toml", window, STATION.format(issued=issued) + window)
    table = folder / "weather" / "forecast.csv"
    table.write_text(f"date,tmax (°C),tmin (°C),rain (mm)\n{ROWS}\n", encoding="utf-8")
    found = read_site_folder(folder)
    assert found.site is not None
    assert found.findings == ()
    return build_week(found.site, found.history, TODAY)


def about_forecast(plan: WeekPlan) -> list[Finding]:
    return [one for one in plan.findings if "forecast 'weather office'" in one.where]


def test_a_forecast_in_the_folder_makes_the_week(change: Change) -> None:
    plan = week(change)
    assert plan.weather is not None
    assert set(plan.weather.eto_basis) == {"forecast"}
    assert about_forecast(plan) == []


def test_its_rain_is_carried_and_not_counted(change: Change) -> None:
    plan = week(change)
    assert plan.weather is not None
    assert plan.weather.rain_ahead_mm is not None
    assert plan.weather.rain_ahead_mm.tolist() == [5.0] * 7
    assert float(plan.weather.rain_mm.sum()) == 0.0


def test_one_of_tomorrow_is_a_finding(change: Change) -> None:
    assert "after today" in about_forecast(week(change, "2026-06-09"))[0].what


def test_a_forecast_without_its_day_of_issue_is_refused_with_its_line(
    change: Change,
) -> None:
    window = "[[window]]"
    undated = STATION.replace("issued = {issued}\n", "")
    found = read_site_folder(change("site.toml", window, undated + window))
    assert ["needs issued" in str(one) for one in found.findings] == [True]
    assert found.findings[0].where.startswith("site.toml:")
