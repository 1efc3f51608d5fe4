"""How dry the zone is on the first morning, and how that is known."""

import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.field.guess import ZoneCatch
from scheduler.issued import IssuedWeek, IssuedZone
from scheduler.need.outlook import Outlook
from scheduler.need.zone_use import zone_use
from scheduler.site import AsFound, Controller, Place, Site
from scheduler.trace import entered
from scheduler.watering.start import (
    DaysBehind,
    days_behind,
    rain_of_week,
    start_depletion,
)
from tests.scheduler.watering.made import FIRST_SHARE, store, zone

MONDAY = dt.date(2026, 6, 8)


def behind(**given: Any) -> DaysBehind:
    base: dict[str, Any] = {
        "dates": tuple(MONDAY - dt.timedelta(14 - d) for d in range(14)),
        "etc_mm_per_day": np.full(14, 4.0),
        "rain_mm": np.zeros(14),
        "share": FIRST_SHARE,
        "net_rate_mm_per_h": 12.0,
    }
    return DaysBehind(**(base | given))


def _weather() -> Outlook:
    date = np.datetime64("2026-05-25") + np.arange(14)
    none = entered("eto_mm", None)
    return Outlook(date, np.full(14, 5.0), np.zeros(14), ("measured",) * 14,
                   ("gauge",) * 14, none, none)  # fmt: skip


def _site(percent: int = 100) -> Site:
    here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
                 time_zone="UTC")  # fmt: skip
    clock = Controller(percent_adjust=percent)
    return Site(name="Tern Hollow", units="us", place=here, controller=clock)


CATCH = ZoneCatch(
    "Z4", "measured", FIRST_SHARE, None, None, 12.0, 0.7, 0.8, 0.8, 24, 1, "a test",
    "as found", MONDAY, entered("net_rate_mm_per_h", 12.0), entered("du_lq", 0.7),
)  # fmt: skip


def test_the_days_behind_hold_weather_catch_and_clock() -> None:
    use, _ = zone_use(zone(), _weather().date)
    found = days_behind(_site(130), (), _weather(), catch=CATCH, use=use)
    assert found is not None
    assert found.etc_mm_per_day.tolist() == [5.0] * 14
    assert (found.net_rate_mm_per_h, found.percent_adjust) == (12.0, 130)
    assert found.dates[-1] == MONDAY - dt.timedelta(1)


def test_without_a_catch_nothing_is_known_of_the_days_behind() -> None:
    use, _ = zone_use(zone(), _weather().date)
    assert days_behind(_site(), (), _weather(), catch=None, use=use) is None


# a clock that replaces each day's use exactly at the mean position: 20 min at 12 mm/h
EXACT = AsFound(minutes=20.0)


def test_an_entered_depletion_is_believed() -> None:
    depletion, trace, found = start_depletion(
        zone(start_depletion_mm=7.0, as_found=EXACT), store(), behind()
    )
    assert depletion.tolist() == [7.0]
    assert (trace.source, found) == ("entered", ())


def test_an_entered_depletion_stops_at_dry() -> None:
    one = zone(start_depletion_mm=99.0)
    assert start_depletion(one, store(40.0), None)[0].tolist() == [40.0]


def test_without_storage_there_is_no_depletion() -> None:
    depletion, trace, found = start_depletion(zone(), None, behind())
    assert depletion.tolist() == [0.0]
    assert (trace.value, found) == (None, ())


@pytest.mark.parametrize(
    ("one", "days"), [(zone(), behind()), (zone(as_found=EXACT), None)]
)
def test_without_a_record_half_of_what_is_allowed_is_assumed_and_noted(
    one: Any, days: Any
) -> None:
    depletion, trace, found = start_depletion(one, store(40.0, 16.0), days)
    assert depletion.tolist() == [8.0]
    assert trace.source == "assumed"
    assert [finding.level for finding in found] == ["note"]


def test_a_clock_that_replaces_the_use_leaves_the_mean_position_full() -> None:
    days = behind(share=np.array([0.5, 1.0, 1.0, 1.5]))
    depletion, _, found = start_depletion(zone(as_found=EXACT), store(), days)
    np.testing.assert_allclose(depletion[1:], 0.0, atol=1e-9)
    assert found == ()


def test_positions_drier_than_the_mean_start_drier() -> None:
    depletion, _, _ = start_depletion(zone(as_found=EXACT), store(), behind())
    assert depletion[np.argmin(FIRST_SHARE)] == depletion.max() > 0.0


def test_cycles_of_the_clock_as_found_are_added_up() -> None:
    twice = zone(as_found=AsFound(minutes=10.0, cycles=2))
    once = zone(as_found=EXACT)
    np.testing.assert_array_equal(
        start_depletion(twice, store(), behind())[0],
        start_depletion(once, store(), behind())[0],
    )


def test_nights_on_which_the_clock_was_off_dry_the_bed() -> None:
    # watered on Mondays only: six days at 4 mm since the last, never drier than dry
    rare = zone(as_found=AsFound(minutes=20.0, days=("mon",)))
    depletion, _, _ = start_depletion(rare, store(), behind())
    assert depletion.min() > 16.0
    assert depletion.max() <= 40.0


def test_the_last_night_before_the_week_counts_for_the_first_morning() -> None:
    # 20 minutes on two Sundays, the second just before the first Monday: 2 x 4 mm
    days = behind(etc_mm_per_day=np.ones(14), share=np.ones(4))
    sundays = zone(as_found=AsFound(minutes=20.0, days=("sun",)))
    never = zone(as_found=AsFound(minutes=0.0))
    wet = start_depletion(sundays, store(), days)[0]
    dry = start_depletion(never, store(), days)[0]
    np.testing.assert_allclose(dry - wet, 8.0)


def test_rain_that_does_not_count_for_the_zone_did_not_wet_it_before() -> None:
    dry_clock = AsFound(minutes=0.0)
    wet = behind(rain_mm=np.full(14, 4.0))
    covered = zone(as_found=dry_clock, rain_counted=0.0)
    opened = zone(as_found=dry_clock, rain_counted=1.0)
    assert start_depletion(covered, store(), wet)[0].min() > 30.0
    assert start_depletion(opened, store(), wet)[0].max() < 5.0


def test_the_trace_holds_the_mean_over_the_positions() -> None:
    depletion, trace, _ = start_depletion(zone(as_found=EXACT), store(), behind())
    assert trace.value == pytest.approx(depletion.mean())
    assert "14 days before" in trace.formula


def test_percent_adjust_scales_what_the_clock_ran_before() -> None:
    half = start_depletion(zone(as_found=EXACT), store(), behind(percent_adjust=50))
    ten = zone(as_found=AsFound(minutes=10.0))
    np.testing.assert_allclose(half[0], start_depletion(ten, store(), behind())[0])


def test_an_issued_week_replaces_the_clock_as_found_from_its_first_day() -> None:
    monday = MONDAY - dt.timedelta(7)
    week = tuple(monday + dt.timedelta(d) for d in range(7))
    dry = IssuedWeek("2026-W23", monday, (IssuedZone("z4", 0.0, 1, week),))
    days = behind(share=np.ones(4), issued=(dry,))
    depletion, trace, _ = start_depletion(zone(as_found=EXACT), store(), days)
    # Sunday night still ran as found; no water since, stressed past 16 of 40 mm
    assert depletion.min() > 20.0
    assert "found and told by 2026-W23" in trace.formula


def test_issued_weeks_alone_are_a_watering_record() -> None:
    first = MONDAY - dt.timedelta(14)
    week = tuple(first + dt.timedelta(d) for d in range(7))
    told = IssuedWeek("2026-W22", first, (IssuedZone("Z4", 20.0, 1, week),))
    days = behind(share=np.ones(4), issued=(told,))
    depletion, _, found = start_depletion(zone(), store(), days)
    np.testing.assert_allclose(depletion, 0.0, atol=1e-9)
    assert found == ()


def outlook_of(eto: str, rain: str, rain_mm: float = 0.0) -> Outlook:
    return Outlook(
        date=np.array([MONDAY - dt.timedelta(14 - d) for d in range(14)], "M8[D]"),
        eto_mm_per_day=np.full(14, 4.0),
        rain_mm=np.full(14, rain_mm),
        eto_basis=(eto,) * 14,
        rain_basis=(rain,) * 14,
        trace=entered("eto_mm", 56.0),
        rain_trace=entered("rain_counted_mm", 14 * rain_mm),
    )


@pytest.mark.parametrize(
    ("eto", "rain", "levels"),
    [
        ("measured", "gauge", []),
        ("same days of a typical year", "station", ["note"]),
        ("measured", "none counted ahead", ["note"]),
    ],
)
def test_weather_of_the_days_before_that_was_not_measured_is_said(
    eto: str, rain: str, levels: list[str]
) -> None:
    days = behind(weather=outlook_of(eto, rain))
    _, trace, found = start_depletion(zone(as_found=EXACT), store(), days)
    assert [one.level for one in found] == levels
    assert trace.find("eto_before_mm") is not None
    assert trace.find("rain_before_mm") is not None


def test_rain_of_last_week_is_not_counted_again_where_a_balance_holds_it() -> None:
    ahead = outlook_of("measured", "gauge", 3.0)
    rain, trace, found = rain_of_week(ahead, zone(), store(), is_last_week=True)
    assert rain.sum() == trace.value == 0.0
    assert [one.level for one in found] == ["note"]


def test_rain_of_the_planned_week_is_counted() -> None:
    ahead = outlook_of("measured", "gauge", 3.0)
    rain, trace, found = rain_of_week(ahead, zone(), store(), is_last_week=False)
    assert rain.sum() == trace.value == 42.0
    assert found == ()
