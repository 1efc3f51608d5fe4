"""Facts of the log: what they say in SI-style units, and which belong together."""

import datetime as dt

import pytest

from scheduler.log import (
    DrySpot,
    LeachingPot,
    Log,
    MeterReading,
    Watering,
    position_of,
)

DAY = dt.date(2026, 6, 3)


def pot(
    place: str, *, day: int = 3, hour: int | None = 6, minutes: float | None = 24.0
) -> LeachingPot:
    return LeachingPot(
        where=f"log.csv:{place}",
        typed="",
        date=dt.date(2026, 6, day),
        time=None if hour is None else dt.time(hour),
        zone="Z4",
        place=place,
        in_ml=400.0,
        out_ml=100.0,
        minutes=minutes,
    )


def dial(
    reading: float, *, multiplier: float | None, digits: int | None = None
) -> MeterReading:
    return MeterReading(
        where="log.csv:2",
        typed="",
        date=DAY,
        meter="pump house",
        reading=reading,
        unit="m3",
        multiplier=multiplier,
        digits=digits,
    )


def test_a_pot_of_400_ml_that_drains_100_leaches_a_quarter() -> None:
    assert pot("A1").fraction == 0.25


def test_a_part_that_was_noted_stands_for_volumes_that_were_not() -> None:
    one = LeachingPot(
        where="", typed="", date=DAY, zone="Z4", place="A1", stated_fraction=0.3
    )
    assert one.fraction == 0.3


def test_a_dial_counts_with_its_multiplier() -> None:
    assert dial(12.0, multiplier=100.0).dial_m3 == 1200.0


def test_a_dial_without_multiplier_counts_as_it_stands() -> None:
    assert dial(12.0, multiplier=None).dial_m3 == 12.0


def test_a_dial_of_five_digits_starts_again_at_100_000_of_its_unit() -> None:
    assert dial(1.0, multiplier=10.0, digits=5).roll_over_m3 == 1e6


def test_a_dial_of_unknown_digits_has_no_roll_over() -> None:
    assert dial(1.0, multiplier=10.0).roll_over_m3 is None


def test_pots_of_one_zone_day_and_time_are_one_check() -> None:
    log = Log((pot("A1"), pot("A2"), pot("A1", day=10)))
    checks = log.leaching_checks("Z4")
    assert [(one.date.day, len(one.pots)) for one in checks] == [(3, 2), (10, 1)]


def test_a_check_knows_its_minutes_from_the_pots_that_say_them() -> None:
    check = Log((pot("A1"), pot("A2", minutes=None))).leaching_checks()[0]
    assert check.minutes == 24.0


def test_a_check_told_two_ways_has_no_minutes() -> None:
    check = Log((pot("A1"), pot("A2", minutes=30.0))).leaching_checks()[0]
    assert check.minutes is None


def test_facts_come_by_date_and_time_whatever_their_order_in_the_file() -> None:
    log = Log((pot("A1", day=10), pot("A2"), pot("A3", hour=None)))
    assert [one.place for one in log.of(LeachingPot)] == ["A3", "A2", "A1"]


def test_facts_of_another_kind_or_zone_stay_out() -> None:
    night = Watering(where="", typed="", date=DAY, zone="Z5", minutes=30.0)
    log = Log((pot("A1"), night))
    assert (log.of(Watering), log.of(Watering, "Z4")) == ((night,), ())


@pytest.mark.parametrize(
    ("place", "found"),
    [
        ("A1", (0, 0)),
        ("aa 12", (11, 26)),
        ("row 2 col 3", (1, 2)),
        ("r2c3", (1, 2)),
        ("Row 2, column 3", (1, 2)),
        ("N corner", None),
        ("A0", None),
        ("row 0 col 1", None),
        ("", None),
    ],
)
def test_a_place_in_a_grid_is_row_and_column_from_0(
    place: str, found: tuple[int, int] | None
) -> None:
    assert position_of(place) == found


def test_a_dry_spot_named_like_a_can_has_its_position() -> None:
    spot = DrySpot(where="", typed="", date=DAY, zone="Z4", place="C2")
    assert spot.position == (1, 2)
