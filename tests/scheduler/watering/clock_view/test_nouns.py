"""What a clock holds, as values."""

import datetime as dt

from scheduler.watering.clock_view.nouns import Program, Station


def test_a_start_takes_its_stations_and_the_delays_between_them() -> None:
    stations = (Station(1, "Z1", 20), Station(2, "Z2", 15), Station(5, "Z5", 10))
    assert Program("A", ("mon",), (dt.time(22),), stations).length_min(2) == 49
