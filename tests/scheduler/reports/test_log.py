"""Facts of the log as JSON."""

import datetime as dt
import json

from scheduler.log import MeterReading, Watering
from scheduler.reports.log import entry_json, recorded_json, taken_back_json
from scheduler.reports.machine import clean

DAY = dt.date(2026, 6, 3)


def test_a_fact_is_its_kind_and_its_fields_in_si_units() -> None:
    night = Watering(
        where="line 1", typed="", date=DAY, time=dt.time(6, 40), zone="Z4", minutes=24.0
    )
    assert entry_json(night) == {
        "fact": "Watering",
        "date": "2026-06-03",
        "time": "06:40:00",
        "zone": "Z4",
        "note": "",
        "minutes": 24.0,
        "is_skipped": False,
    }


def test_what_was_written_is_json_with_the_lines() -> None:
    dial = MeterReading(
        where="",
        typed="",
        date=DAY,
        meter="pump",
        reading=1.0,
        unit="gal",
        zones=("Z1",),
    )
    found = json.loads(json.dumps(clean(recorded_json([dial], ["a line"]))))
    assert (found["format"], found["lines"]) == (1, ["a line"])
    assert found["written"][0]["zones"] == ["Z1"]


def test_what_was_taken_back_is_the_lines() -> None:
    assert taken_back_json(["a", "b"])["taken_back"] == ["a", "b"]
