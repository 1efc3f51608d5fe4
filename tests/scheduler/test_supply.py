"""The nouns of water."""

import datetime as dt

import pytest
from pydantic import ValidationError

from scheduler.supply import Shortage


def test_a_shortage_is_on_from_its_first_to_its_last_day() -> None:
    short = Shortage(cut=0.2, start=dt.date(2026, 6, 1), end=dt.date(2026, 6, 30))
    days = (dt.date(2026, 5, 31), dt.date(2026, 6, 1), dt.date(2026, 6, 30))
    assert [short.is_on(day) for day in days] == [False, True, True]


def test_a_shortage_without_dates_is_always_on() -> None:
    assert Shortage(days=("mon",)).is_on(dt.date(2026, 6, 1))


@pytest.mark.parametrize(
    ("given", "told"),
    [
        ({}, "give volume"),
        ({"volume_m3": 10.0, "cut": 0.2}, "not both"),
        ({"cut": 0.2, "start": dt.date(2026, 6, 2), "end": dt.date(2026, 6, 1)},
         "ends before it starts"),
    ],
)  # fmt: skip
def test_a_shortage_that_says_nothing_or_two_things_is_refused(
    given: dict[str, object], told: str
) -> None:
    with pytest.raises(ValidationError, match=told):
        Shortage.model_validate(given)
