"""The wind of one day, by the clock on the wall."""

import datetime as dt

import numpy as np

from scheduler.field.wind.day import day_wind
from tests.scheduler.field.wind.made import NEW_YORK, wind_log

DAY = dt.date(2026, 5, 12)


def test_a_row_at_ten_past_ten_utc_stands_at_ten_past_six_in_new_york() -> None:
    found = day_wind(wind_log([2.0, 3.0]), DAY, time_zone=NEW_YORK)
    assert found is not None
    assert found.minute.tolist() == [370.0, 375.0]
    assert found.speed_m_per_s.tolist() == [2.0, 3.0]


def test_rows_of_other_days_are_left_out() -> None:
    # 03:50 UTC is 23:50 of the day before in New York
    log = wind_log(np.arange(1.0, 6.0), start="2026-05-12T03:50")
    found = day_wind(log, DAY, time_zone=NEW_YORK)
    assert found is not None
    assert found.minute.tolist() == [0.0, 5.0, 10.0]
    assert found.speed_m_per_s.tolist() == [3.0, 4.0, 5.0]


def test_rows_without_a_speed_are_gaps() -> None:
    found = day_wind(wind_log([2.0, np.nan, 3.0]), DAY, time_zone=NEW_YORK)
    assert found is not None
    assert found.minute.tolist() == [370.0, 380.0]


def test_rows_in_any_order_come_out_in_that_of_the_day() -> None:
    log = wind_log([2.0, 3.0, 4.0])
    back = wind_log([4.0, 3.0, 2.0])
    turned = type(log)(
        log.start_utc[::-1], 300.0, back.speed_m_per_s, log.gust_m_per_s,
        log.direction_deg, 2.0, "mast", "m.csv",
    )  # fmt: skip
    found = day_wind(turned, DAY, time_zone=NEW_YORK)
    assert found is not None
    assert found.speed_m_per_s.tolist() == [2.0, 3.0, 4.0]


def test_a_day_without_rows_is_none() -> None:
    log = wind_log([2.0])
    assert day_wind(log, dt.date(2026, 5, 13), time_zone=NEW_YORK) is None
