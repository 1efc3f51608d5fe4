"""Pot weights in; what a pot used in a day, and its Kc, out."""

import dataclasses
import datetime as dt
import math

import numpy as np
import pytest

from scheduler.errors import Finding
from scheduler.log import HandWater, Log, PotWeight, Watering
from scheduler.proof.weights import WeighedDay, weighed_days
from tests.scheduler.proof.yard import DAY, PLACE, POTS, nights_of, weight, yard

NEXT = DAY + dt.timedelta(days=1)
SKIPPED = Watering(where="log.csv:3", typed="", date=DAY, zone="Z4", minutes=0.0,
                   is_skipped=True)  # fmt: skip


def days_of(
    *entries: PotWeight | Watering | HandWater,
) -> tuple[tuple[WeighedDay, ...], tuple[Finding, ...]]:
    log = Log(entries)
    return weighed_days(log, nights_of(yard(), log), PLACE)


def test_500_ml_of_a_254_mm_pot_at_5_mm_eto_is_a_kc_of_1_97() -> None:
    # pot top pi/4 x 25.4^2 = 506.7 cm2; 500 mL are 9.87 mm; 9.87 / 5 = 1.97
    found, _ = days_of(weight("A1", 5, 9000.0), weight("A1", 21, 8500.0))
    assert found[0].kc_on_pot_top(POTS, 5.0) == pytest.approx(1.97, abs=0.005)


def test_two_mornings_with_a_skipped_night_between_are_a_whole_day() -> None:
    found, _ = days_of(weight("A1", 6, 9000.0), weight("A1", 6, 8480.0, NEXT), SKIPPED)
    assert found[0].part_of_day == pytest.approx(1.0)
    assert found[0].mean_loss_ml == pytest.approx(520.0)


def test_two_mornings_with_a_watering_between_tell_nothing() -> None:
    assert days_of(weight("A1", 6, 9000.0), weight("A1", 6, 8480.0, NEXT)) == ((), ())


def test_from_sunrise_to_the_highest_sun_is_half_a_day() -> None:
    light = 14.5
    sunrise = 13.0 - light / 2
    assert sunrise == 5.75
    found, _ = days_of(weight("A1", 5, 9000.0), weight("A1", 13, 8750.0))
    assert found[0].part_of_day == pytest.approx(0.5, abs=0.001)
    assert found[0].mean_loss_ml == pytest.approx(500.0, rel=0.01)


def test_weighings_in_between_change_nothing() -> None:
    ends = [weight("A1", 6, 9000.0), weight("A1", 19, 8500.0)]
    one, _ = days_of(*ends)
    more, _ = days_of(ends[0], weight("A1", 12, 8800.0), ends[1])
    assert more[0].mean_loss_ml == pytest.approx(one[0].mean_loss_ml)
    assert len(more[0].daily_loss_ml) == 1


def test_pots_of_one_day_are_averaged() -> None:
    pots = [("A1", 500.0), ("B1", 600.0), ("C1", 400.0)]
    both = [
        one
        for place, lost in pots
        for one in (weight(place, 5, 9000.0), weight(place, 21, 9000.0 - lost))
    ]
    found, _ = days_of(*both)
    assert found[0].mean_loss_ml == pytest.approx(500.0, rel=0.001)
    assert found[0].is_enough


def test_one_pot_is_not_enough_to_teach() -> None:
    found, _ = days_of(weight("A1", 5, 9000.0), weight("A1", 21, 8500.0))
    assert not found[0].is_enough


def test_two_pots_that_agree_still_have_an_error() -> None:
    two = [
        one for p in ("A1", "B1") for one in (weight(p, 5, 9e3), weight(p, 21, 8.5e3))
    ]
    found, _ = days_of(*two)
    # (4 x 0.2^2 + 0) / 5, over two pots
    assert found[0].log_sd == pytest.approx(math.sqrt(0.16 / 5 / 2))


def test_a_pot_that_gained_weight_got_water() -> None:
    found, said = days_of(weight("A1", 6, 9000.0), weight("A1", 19, 9100.0))
    assert found == ()
    assert "lost no weight since 06:00" in said[0].what


def test_hand_water_between_two_weighings_voids_them() -> None:
    water = HandWater(
        where="log.csv:7", typed="", date=DAY, time=dt.time(12), zone="Z4", minutes=5.0
    )
    assert days_of(weight("A1", 6, 9e3), weight("A1", 19, 8.9e3), water) == ((), ())


def test_a_weighing_without_a_time_is_said() -> None:
    bare = dataclasses.replace(weight("A1", 6, 9000.0), time=None)
    _, said = days_of(bare, weight("A1", 19, 8500.0))
    assert "without a time" in said[0].what


def test_two_hours_say_nothing_of_a_day() -> None:
    found, said = days_of(weight("A1", 7, 9000.0), weight("A1", 9, 8950.0))
    assert found == ()
    assert "of the day's ETo lies between" in said[0].what


def test_old_weighings_are_passed_over_without_a_word() -> None:
    log = Log((weight("A1", 7, 9000.0), weight("A1", 9, 9050.0)))
    assert weighed_days(log, nights_of(yard(), log), PLACE, said_from=NEXT)[1] == ()


def test_pots_of_other_zones_are_left_out() -> None:
    others = [weight("A1", 5, 9e3, zone="Z5"), weight("A1", 21, 8.5e3, zone="Z5")]
    assert days_of(*others) == ((), ())


def test_the_order_of_lines_does_not_matter() -> None:
    every = [
        one
        for p, lost in (("A1", 500.0), ("B1", 430.0))
        for one in (weight(p, 5, 9e3), weight(p, 21, 9e3 - lost))
    ]
    one, other = days_of(*every)[0], days_of(*reversed(every))[0]
    assert np.allclose(sorted(one[0].daily_loss_ml), sorted(other[0].daily_loss_ml))
    assert one[0].log_sd == pytest.approx(other[0].log_sd)
