"""Dials: volumes between readings, roll-over, changes, and dials that fall."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.proof.dial import dial_intervals, moment
from tests.scheduler.proof.made import day, dial


def volumes(*readings: object) -> list[float | None]:
    found, _ = dial_intervals(readings)  # type: ignore[arg-type]
    return [one.volume_m3 for one in found]


def words(*readings: object) -> str:
    _, said = dial_intervals(readings)  # type: ignore[arg-type]
    return " | ".join(str(one) for one in said)


def test_the_volume_is_the_dial_after_less_the_dial_before() -> None:
    assert volumes(dial(1, 100.0), dial(8, 130.0)) == [30.0]


def test_a_multiplier_of_ten_makes_ten_times_the_water() -> None:
    two = (dial(1, 100.0, multiplier=10.0), dial(8, 130.0, multiplier=10.0))
    assert volumes(*two) == [300.0]


def test_a_dial_of_three_digits_rolls_over_at_a_thousand() -> None:
    assert volumes(dial(1, 990.0, digits=3), dial(8, 20.0, digits=3)) == [30.0]


def test_a_dial_that_falls_without_digits_is_a_finding_with_both_readings() -> None:
    two = (dial(1, 990.0), dial(8, 20.0))
    assert volumes(*two) == [None]
    assert "fell from 990 (log.csv:1) to 20" in words(*two)


def test_a_fall_of_a_little_is_rather_a_slip_than_a_roll_over() -> None:
    two = (dial(1, 500.0, digits=3), dial(8, 490.0, digits=3))
    assert volumes(*two) == [None]
    assert "a slip is likelier" in words(*two)


def test_a_reading_with_more_digits_than_the_dial_is_named() -> None:
    assert "more digits than the dial" in words(
        dial(1, 5000.0, digits=3), dial(8, 20.0, digits=3)
    )


def test_a_digit_too_many_is_no_water() -> None:
    two = (dial(1, 500.0, digits=3), dial(8, 5200.0, digits=3))
    assert volumes(*two) == [None]
    assert "5200 has more digits than the dial (3)" in words(*two)


def test_water_before_a_new_dial_is_not_known_and_that_is_said() -> None:
    two = (dial(1, 990.0), dial(8, 3.0, is_new=True))
    assert volumes(*two) == [None]
    assert "a new dial" in words(*two)


def test_a_dial_changed_on_the_day_of_its_last_reading_loses_nothing() -> None:
    three = (dial(1, 900.0), dial(8, 990.0), dial(8, 3.0, is_new=True), dial(15, 93.0))
    assert volumes(*three) == [90.0, 0.0, 90.0]
    assert words(*three) == ""


def test_a_new_dial_with_another_multiplier_counts_by_its_own() -> None:
    three = (
        dial(1, 100.0, multiplier=10.0),
        dial(8, 130.0, multiplier=10.0),
        dial(8, 0.0, multiplier=100.0, is_new=True),
        dial(15, 3.0, multiplier=100.0),
    )
    assert volumes(*three) == [300.0, 0.0, 300.0]


def test_a_multiplier_that_changes_while_the_volume_goes_on_is_believed() -> None:
    four = (
        dial(1, 1000.0, multiplier=10.0),
        dial(8, 1030.0, multiplier=10.0),
        dial(15, 106.0, multiplier=100.0),
        dial(22, 109.0, multiplier=100.0),
    )
    assert volumes(*four) == [300.0, 300.0, 300.0]
    assert "as one volume that went on" in words(*four)


def test_a_multiplier_that_was_mended_counts_the_number_that_went_on() -> None:
    four = (
        dial(1, 1000.0, multiplier=10.0),
        dial(8, 1030.0, multiplier=10.0),
        dial(15, 1060.0, multiplier=100.0),
        dial(22, 1090.0, multiplier=100.0),
    )
    assert volumes(*four) == [300.0, 3000.0, 3000.0]
    assert "all at the new multiplier" in words(*four)


def test_a_multiplier_that_changes_with_nothing_to_compare_is_not_guessed() -> None:
    two = (dial(1, 1000.0, multiplier=10.0), dial(8, 1060.0, multiplier=100.0))
    assert volumes(*two) == [None]
    assert "the water between is not known" in words(*two)


def test_meters_do_not_mix() -> None:
    four = (
        dial(1, 10.0), dial(1, 500.0, meter="well"), dial(8, 20.0),
        dial(8, 700.0, meter="well"),
    )  # fmt: skip
    found, _ = dial_intervals(four)
    assert [(one.meter, one.volume_m3) for one in found] == [
        ("pump", 10.0),
        ("well", 200.0),
    ]


def test_an_interval_has_the_nights_that_begin_in_it() -> None:
    found, _ = dial_intervals((dial(1, 10.0), dial(3, 20.0)))
    assert found[0].nights == (day(1), day(2))
    assert found[0].days == 2.0


def test_something_done_without_a_time_was_done_at_noon() -> None:
    (one,), _ = dial_intervals((dial(1, 10.0), dial(3, 20.0)))
    assert one.holds(day(1), None)
    assert not one.holds(day(3), None)
    assert not one.holds(day(1), dt.time(6))


def test_a_reading_without_a_time_is_the_first_of_its_day() -> None:
    assert moment(dial(1, 10.0, time=None)).isoformat() == "2026-06-01T00:00:00"


def test_the_trace_names_both_lines() -> None:
    (one,), _ = dial_intervals((dial(1, 100.0), dial(8, 130.0)))
    assert [x.note.split(":")[1] for x in one.trace.inputs] == ["1", "8"]


RISES = st.lists(st.floats(0.0, 400.0), min_size=2, max_size=8)


@given(rises=RISES, data=st.data())
def test_any_order_of_lines_gives_the_same(
    rises: list[float], data: st.DataObject
) -> None:
    dials = [dial(7 * i, sum(rises[:i])) for i in range(1, len(rises) + 1)]
    mixed = data.draw(st.permutations(dials))
    assert dial_intervals(mixed) == dial_intervals(dials)


@given(rises=RISES)
def test_volumes_add_up_over_intervals(rises: list[float]) -> None:
    dials = [dial(7 * i, sum(rises[:i])) for i in range(1, len(rises) + 1)]
    parts = [one.volume_m3 or 0.0 for one in dial_intervals(dials)[0]]
    whole = dial_intervals((dials[0], dials[-1]))[0][0].volume_m3
    assert sum(parts) == pytest.approx(whole, abs=1e-9)


@given(rises=RISES, start=st.floats(0.0, 999.0))
def test_a_roll_over_gives_the_same_as_none(rises: list[float], start: float) -> None:
    sums = [start + sum(rises[:i]) for i in range(len(rises) + 1)]
    long = [dial(7 * i + 1, one, digits=6) for i, one in enumerate(sums)]
    short = [dial(7 * i + 1, one % 1000, digits=3) for i, one in enumerate(sums)]
    for a, b in zip(dial_intervals(long)[0], dial_intervals(short)[0], strict=True):
        assert b.volume_m3 == pytest.approx(a.volume_m3, abs=1e-6)
