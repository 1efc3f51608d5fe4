"""One zone's week: which nights, how many minutes, and what the roots then see."""

import datetime as dt
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.root_zone.intake import intake_model
from scheduler.root_zone.storage import Storage
from scheduler.site import Plant, Zone
from scheduler.trace import entered
from scheduler.watering.zone_week import ZoneWeek, ZoneWeekInput, zone_week

SHARE = np.linspace(0.6, 1.4, 24)
STORE = Storage(40.0, 18.0, entered("allowed_depletion_mm", 18.0))
MONDAY = dt.date(2026, 6, 8)
USE = st.one_of(st.just(0.0), st.floats(0.01, 10))  # no day uses a denormal depth


def zone(**given: Any) -> Zone:
    base: dict[str, Any] = {
        "id": "Z1", "name": "bay", "area_m2": 100.0, "grown_in": "soil",
        "plant": Plant(name="oaks", kc=1.0, kc_area="bed"),
    }  # fmt: skip
    return Zone(**(base | given))


def week(
    one: Zone,
    *,
    etc: float = 5.0,
    rain: float = 0.0,
    storage: Storage | None = STORE,
    start: float = 0.0,
    allowed: Any = (True,) * 7,
    share: Any = SHARE,
    rounding: Any = "nearest",
) -> ZoneWeek:
    inputs = ZoneWeekInput(
        zone=one,
        share=np.asarray(share),
        net_rate_mm_per_h=12.0,
        du_lq=0.7,
        du_lh=0.8,
        etc_mm_per_day=np.full(7, etc),
        rain_mm=np.full(7, rain),
        storage=storage,
        start_depletion_mm=start,
        allowed_day=np.array(allowed),
        intake=intake_model(one)[0],
        rounding=rounding,
        max_cycles=None,
        dates=tuple(MONDAY + dt.timedelta(n) for n in range(7)),
    )
    return zone_week(
        inputs,
        rate_trace=entered("net_rate_mm_per_h", 12.0),
        du_trace=entered("du_lq", 0.7),
        etc_trace=entered("etc_mm", 7 * etc),
    )


def test_a_soil_waits_until_the_allowed_depletion_is_near() -> None:
    # 5 mm a day, 18 mm allowed: after three days 15 mm are gone, a fourth passes it
    found = week(zone(rule="average"))
    assert found.day_index[0] == 2
    assert found.need_mm == pytest.approx(15.0 * len(found.day_index))


def test_a_forbidden_night_moves_the_watering_forward() -> None:
    # Wednesday to Friday are closed: Tuesday must carry the zone to Saturday
    closed = (True, True, False, False, False, True, True)
    assert week(zone(rule="average"), allowed=closed).day_index[0] == 1


def test_the_dry_part_asks_earlier_than_the_mean() -> None:
    # both start 16 mm down at every position; nothing else differs but the rule
    mean = week(zone(rule="average"), etc=1.0, start=16.0)
    dry = week(zone(rule="low quarter"), etc=1.0, start=16.0)
    assert dry.day_index[0] <= mean.day_index[0]


def test_nothing_due_is_said_with_a_guess_of_when() -> None:
    found = week(zone(), etc=0.5)
    assert (found.day_index, found.minutes_week, found.need_mm) == ((), 0, 0.0)
    assert any("not due" in one.what for one in found.findings)


def test_every_allowed_night_waters_what_the_days_took() -> None:
    found = week(zone(watered="every allowed day", rule="average"))
    assert found.day_index == tuple(range(7))
    assert found.need_mm == pytest.approx(35.0)


def test_without_a_balance_the_weeks_use_less_counted_rain_is_replaced() -> None:
    one = zone(watered="every allowed day", rule="average", rain_counted=0.5)
    found = week(one, rain=2.0, storage=None)
    assert found.need_mm == pytest.approx(35.0 - 7.0)
    assert found.effective_rain_mm == pytest.approx(7.0)


def test_rain_in_a_balance_is_counted_once_and_only_up_to_the_deficit() -> None:
    dry = week(zone(rule="average"), start=10.0)
    wet = week(zone(rule="average"), start=10.0, rain=3.0)
    assert wet.need_mm < dry.need_mm
    assert wet.effective_rain_mm <= 21.0


def test_the_factor_multiplies_the_need_once() -> None:
    found = week(zone(rule="low half"))
    assert found.gross_depth_mm == pytest.approx(found.need_mm * found.factor)
    assert found.minutes_exact == pytest.approx(found.gross_depth_mm / 12.0 * 60)


def test_the_realised_depth_is_what_whole_minutes_give() -> None:
    found = week(zone(rule="low half"))
    assert found.realised_depth_mm == pytest.approx(found.minutes_week / 60 * 12.0)
    expected = found.realised_depth_mm / found.gross_depth_mm - 1
    assert found.realised_error == pytest.approx(expected)


def test_quarters_show_what_is_realised_over_need() -> None:
    found = week(zone(rule="low quarter"))
    mean = found.realised_depth_mm / found.need_mm
    assert np.mean(found.quarters) == pytest.approx(mean)


def test_rounding_up_never_gives_less_than_asked() -> None:
    found = week(zone(rule="low half"), rounding="up")
    assert found.realised_error >= -1e-9


def test_the_served_position_stays_within_its_allowance() -> None:
    found = week(zone(rule="low quarter"))
    assert found.served_depletion_mm.max() <= STORE.allowed_mm + 0.5


def test_a_start_beyond_the_allowance_warns() -> None:
    found = week(zone(), start=25.0)
    assert any(
        one.level == "warning" and "at the start" in one.what for one in found.findings
    )


def test_no_allowed_night_stops() -> None:
    found = week(zone(watered="every allowed day"), allowed=(False,) * 7)
    assert any(one.level == "stop" for one in found.findings)


def test_fixed_minutes_know_no_weather() -> None:
    one = zone(watered="fixed minutes", fixed_minutes=6.0, fixed_reason="mist")
    assert week(one, etc=0.0).minutes_week == week(one, etc=12.0).minutes_week == 42


def test_a_rule_whose_positions_caught_nothing_stops() -> None:
    share = np.concatenate([np.zeros(12), np.full(12, 2.0)])
    found = week(zone(rule="share served"), share=share)
    assert any(one.level == "stop" for one in found.findings)
    assert found.minutes_week == 0


def test_the_trace_reaches_need_rate_and_factor() -> None:
    names = [one.name for one in week(zone()).traces["minutes_per_day"].chain()]
    assert {"etc_mm", "need_mm", "factor", "net_rate_mm_per_h"} <= set(names)


@given(etc=USE, rain=st.floats(0, 10), start=st.floats(0, 30))
def test_need_is_never_negative(etc: float, rain: float, start: float) -> None:
    assert week(zone(), etc=etc, rain=rain, start=start).need_mm >= 0


@given(etc=USE, rain=st.floats(0, 5), more=st.floats(0, 5))
def test_more_rain_never_needs_more_water(etc: float, rain: float, more: float) -> None:
    one = zone(watered="every allowed day", rule="average")
    less = week(one, etc=etc, rain=rain).need_mm
    assert week(one, etc=etc, rain=rain + more).need_mm <= less + 1e-9
