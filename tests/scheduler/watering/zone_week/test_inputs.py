"""One week's input and the names of its days."""

import datetime as dt

import numpy as np
import pytest

from tests.scheduler.watering.made import inputs, nights, zone


def test_days_are_named_by_date_where_dates_are_known() -> None:
    days = tuple(dt.date(2026, 6, 8) + dt.timedelta(d) for d in range(7))
    assert inputs(dates=days).day(2) == "Wed 10 Jun"


def test_days_without_dates_are_counted_from_one() -> None:
    assert inputs().day(2) == "day 3"


def test_allowed_nights_are_their_indices() -> None:
    assert inputs(allowed_day=nights(1, 4)).allowed_nights == (1, 4)


def test_only_the_counted_part_of_rain_reaches_the_roots() -> None:
    rain = inputs(zone(rain_counted=0.25), rain_mm=np.full(7, 8.0)).rain_at_roots_mm
    assert rain.tolist() == [2.0] * 7


def test_rain_counts_in_full_for_a_balance_when_nobody_says() -> None:
    rain = inputs(zone(rain_counted=None), rain_mm=np.full(7, 8.0)).rain_at_roots_mm
    assert rain.tolist() == [8.0] * 7


def test_a_position_between_two_cans_starts_between_them() -> None:
    share = np.array([1.5, 0.5, 1.0, 1.0])
    start = np.array([2.0, 10.0, 6.0, 6.0])
    made = inputs(share=share, start_depletion_mm=start)
    assert made.start_at_mm(0.75) == pytest.approx(8.0)


def test_one_starting_depletion_serves_every_position() -> None:
    assert inputs(start_depletion_mm=7.0).start_at_mm(0.8) == 7.0
