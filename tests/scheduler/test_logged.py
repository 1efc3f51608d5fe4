"""Nouns of files that stations and loggers write."""

import pytest
from pydantic import ValidationError

from scheduler.logged import WindFile


@pytest.mark.parametrize("clock", ["local", "standard", "utc", "+01:00", "-09:30"])
def test_a_logger_runs_on_a_known_clock(clock: str) -> None:
    assert WindFile(name="mast", file="a.csv", clock=clock, stamp="end").clock == clock


@pytest.mark.parametrize("clock", ["EST", "+15:00", "5"])
def test_a_strange_clock_is_refused(clock: str) -> None:
    with pytest.raises(ValidationError, match="is no clock"):
        WindFile(name="mast", file="a.csv", clock=clock, stamp="end")
