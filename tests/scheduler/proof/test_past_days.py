"""Stations and a gauge in; ETo and rain of past days out."""

import datetime as dt

import pytest

from scheduler.proof.past_days import MEASURED_SD, STAND_IN_SD, PastDays
from tests.scheduler.proof.yard import DAY, TODAY, dry_gauge, past_days, station

TWO = (DAY, DAY + dt.timedelta(days=1))


def test_eto_of_two_days_is_their_sum() -> None:
    past = past_days().use_of(TWO)
    assert past is not None
    assert (past.eto_mm, past.is_measured) == (10.0, True)


def test_errors_of_two_days_partly_cancel() -> None:
    past = past_days().use_of(TWO)
    assert past is not None
    assert past.sd == pytest.approx(MEASURED_SD / 2**0.5)


def test_days_of_a_typical_year_are_known_less_well() -> None:
    past = PastDays([station(typical=True)], dry_gauge(), TODAY).use_of([DAY])
    assert past is not None
    assert (past.sd, past.is_measured) == (STAND_IN_SD, False)


def test_rain_of_the_gauge_is_told() -> None:
    past = past_days(rain=dry_gauge({DAY: 12.0})).use_of(TWO)
    assert past is not None
    assert past.rain_mm == 12.0


def test_without_any_weather_nothing_is_known() -> None:
    assert PastDays([], None, TODAY).use_of([DAY]) is None


def test_a_day_without_any_eto_cannot_be_compared_with() -> None:
    assert PastDays([station(0.0)], None, TODAY).use_of([DAY]) is None


def test_days_that_were_asked_for_before_are_not_looked_up_again() -> None:
    days = past_days()
    assert days.use_of(TWO) is days.use_of(TWO)
