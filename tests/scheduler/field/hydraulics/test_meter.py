"""What a meter card tells, and what it cannot."""

import pytest

from scheduler.field.hydraulics.meter import MeterCheck, meter_check
from scheduler.record import MeterCard
from scheduler.units import L_PER_US_GALLON
from tests.scheduler.field.hydraulics.made import PACKAGE, ZONE, card, visit
from tests.scheduler.field.made import can_test, run


def checked(one: MeterCard) -> tuple[MeterCheck | None, list[str]]:
    found, said = meter_check(visit(meter=one), ZONE, PACKAGE, units="us")
    return found, [f"{each.level} {each}" for each in said]


def test_volume_is_dial_times_multiplier_in_the_unit() -> None:
    found, said = checked(card(100, 431, multiplier=10.0))
    assert found is not None
    assert found.volume_m3 == pytest.approx(3310 * L_PER_US_GALLON / 1000)
    assert said == []


def test_the_minutes_are_those_of_the_run_unless_given() -> None:
    own, _ = checked(card(0, 3310))
    other, _ = checked(card(0, 3310, minutes=60.0))
    assert own is not None
    assert other is not None
    assert (own.minutes, own.has_run_minutes) == (30.0, True)
    assert (other.minutes, other.has_run_minutes) == (60.0, False)


# 1 inch on 1 acre is 27,154 gal (Alabama Extension): over 2 h, half an inch an hour.
def test_an_inch_on_an_acre_in_two_hours_is_half_an_inch_an_hour() -> None:
    acre = ZONE.model_copy(update={"area_m2": 4046.8564224})
    test = visit(meter=card(0, 27154, minutes=120.0))
    found, _ = meter_check(test, acre, None, units="us")
    assert found is not None
    assert found.rate_mm_per_h == pytest.approx(12.7, rel=1e-4)


def test_flow_is_shared_by_the_heads_of_the_area() -> None:
    found, _ = checked(card(0, 3312))
    assert found is not None
    assert found.heads == pytest.approx(24.0, rel=1e-4)
    assert found.flow_per_head_l_per_min == pytest.approx(
        4.6 * L_PER_US_GALLON, rel=1e-4
    )


def test_a_dial_rolls_over_at_its_digits() -> None:
    found, said = checked(card(999_000, 2_312, digits=6))
    assert found is not None
    assert found.volume_m3 == pytest.approx(3312 * L_PER_US_GALLON / 1000)
    assert "note" in said[0]
    assert "3312 passed" in said[0]


@pytest.mark.parametrize(
    ("one", "words"),
    [
        (card(500, 100), "went backwards (start 500, stop 100), so it is not used"),
        (card(5000, 1000, digits=6), "a swap of the two 4000, which is likelier"),
        (card(123456, 100, digits=5), "has more than 5 digits"),
        (card(100, 100), "did not move"),
    ],
)
def test_a_dial_that_cannot_be_is_not_used(one: MeterCard, words: str) -> None:
    found, (said,) = checked(one)
    assert found is None
    assert words in said


def test_several_runs_need_to_be_told_apart() -> None:
    test = can_test(run(), run(name="run2"), meter=card(0, 3312))
    found, (said,) = meter_check(test, ZONE, PACKAGE, units="us")
    assert found is not None
    assert found.flow_l_per_min is None
    assert "does not say which of 2 runs" in said.what


def test_heads_and_spacing_that_do_not_fill_the_area_are_said() -> None:
    zone = ZONE.model_copy(update={"heads": 30.0})
    _, (said,) = meter_check(visit(meter=card(0, 3312)), zone, PACKAGE, units="us")
    assert "30 heads on 900 ft² each make 27,000 ft²" in said.what


def test_the_chain_shows_the_dial() -> None:
    found, _ = checked(card(100, 431, multiplier=10.0))
    assert found is not None
    assert found.trace is not None
    volume = found.trace.find("meter_volume_m3")
    assert volume is not None
    assert volume.note.endswith("100 to 431 gal x 10")
