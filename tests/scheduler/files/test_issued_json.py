"""What an issued week's file says, and what reads it back."""

import json
from typing import Any

import pytest

from scheduler.files.issued_json import (
    file_stem,
    issued_week_of,
    revision_of,
    seal_of,
    sealed_text,
)

NUMBERS = {
    "eto_mm": 34.0, "kc": 0.9, "bed_factor": 1.0, "rain_mm": 0.0, "carried_mm": 1.0,
    "rule": "low half", "factor": 1.2, "factors": {"average": 1.0},
    "net_rate_mm_per_h": 9.5, "du_lq": 0.71, "nights": 6, "kept": 1.0,
    "exact_min": 21.7, "minutes": 22, "test": "measured a",
}  # fmt: skip
ZONE = {
    "zone": "Z4", "minutes_per_day": 22, "cycles": 1, "days": ["2026-06-08"],
    "was_minutes": 24.0, "was_from": "issued week 2026-W23", "change": -0.0833,
    "reason": "weather down 8 %", "numbers": NUMBERS,
    "overrides": [{"date": "2026-06-05", "minutes": 30.0, "reason": "hot"}],
}  # fmt: skip
OFF: dict[str, Any] = {
    "zone": "Z9",
    "minutes_per_day": None,
    "status": "blocked",
    "days": [],
}
WEEK: dict[str, Any] = {
    "format": 1,
    "start": "2026-06-08",
    "zones": [ZONE, OFF],
    "inputs": {"a": "b"},
}


def test_was_change_and_reason_are_read_back() -> None:
    one = issued_week_of("2026-W24", WEEK).zones[0]
    assert (one.was_minutes, one.change, one.reason) == (
        24.0,
        -0.0833,
        "weather down 8 %",
    )


def test_the_key_numbers_are_read_back() -> None:
    numbers = issued_week_of("2026-W24", WEEK).zones[0].numbers
    assert numbers is not None
    assert (numbers.eto_mm, numbers.nights, numbers.factors) == (
        34.0,
        6,
        (("average", 1.0),),
    )


def test_a_week_before_anything_was_learned_has_no_correction() -> None:
    numbers = issued_week_of("2026-W24", WEEK).zones[0].numbers
    assert numbers is not None
    assert numbers.learned == 1.0


def test_overrides_are_read_back() -> None:
    (kept,) = issued_week_of("2026-W24", WEEK).zones[0].overrides
    assert (kept.minutes, kept.reason) == (30.0, "hot")


def test_a_zone_without_minutes_was_left() -> None:
    assert issued_week_of("2026-W24", WEEK).left == (("Z9", "blocked"),)


def test_a_number_that_nobody_knew_leaves_none() -> None:
    odd = {**WEEK, "zones": [{**ZONE, "numbers": {**NUMBERS, "du_lq": None}}]}
    assert issued_week_of("2026-W24", odd).zones[0].numbers is None


@pytest.mark.parametrize(
    ("name", "revision"), [("2026-W24", 1), ("2026-W24.r2", 2), ("2026-W24.r10", 10)]
)
def test_a_name_says_its_revision(name: str, revision: int) -> None:
    assert revision_of(name) == revision
    assert file_stem("2026-W24", revision) == name


@pytest.mark.parametrize("minutes", [-1, 1e999])
def test_minutes_that_no_clock_runs_are_refused(minutes: float) -> None:
    odd = {**WEEK, "zones": [{**ZONE, "minutes_per_day": minutes}]}
    with pytest.raises(ValueError, match="minutes_per_day is"):
        issued_week_of("2026-W24", odd)


def test_the_seal_fits_what_was_written() -> None:
    data = json.loads(sealed_text(WEEK))
    assert data["seal"] == seal_of(data)


def test_the_seal_does_not_fit_other_minutes() -> None:
    data = json.loads(sealed_text(WEEK))
    data["zones"][0]["minutes_per_day"] = 23
    assert data["seal"] != seal_of(data)


def test_spaces_and_the_order_of_keys_are_no_change() -> None:
    data = json.loads(sealed_text(WEEK))
    again = json.loads(json.dumps(dict(reversed(data.items())), indent=7))
    assert again["seal"] == seal_of(again)


def test_a_number_that_json_cannot_hold_becomes_null() -> None:
    assert json.loads(sealed_text({"x": [float("nan")]}))["x"] == [None]
