"""Checks and weighed days held against modelled use."""

import dataclasses
import datetime as dt
import math

import pytest

from scheduler.errors import Finding
from scheduler.log import Log, Watering
from scheduler.need.zone_use import ZoneUse
from scheduler.proof.leaching_check import checked_pots
from scheduler.proof.observed import SeenCheck, SeenWeights, seen_check, seen_weights
from scheduler.proof.past_days import PastDays
from scheduler.proof.weights import weighed_days
from scheduler.site import Plant, Pots, Zone
from tests.scheduler.proof.yard import (
    DAY,
    PLACE,
    SIX,
    TODAY,
    catch,
    dry_gauge,
    nights_of,
    past_days,
    pots_of_check,
    use_of,
    weight,
    yard,
)

NIGHT = DAY - dt.timedelta(days=1)


def seen(
    volumes: dict[str, tuple[float, float]] = SIX,
    *entries: Watering,
    minutes: float | None = 24.0,
    days: PastDays | None = None,
    zone: Zone | None = None,
) -> tuple[SeenCheck | None, tuple[Finding, ...]]:
    whole, log = zone or yard(), Log(entries)
    check = Log(pots_of_check(volumes, minutes=minutes)).leaching_checks()[0]
    use: ZoneUse = use_of(whole)
    nights = nights_of(whole, log)
    return seen_check(
        checked_pots(check, None), use, catch(), nights=nights, days=days or past_days()
    )


def counted(
    volumes: dict[str, tuple[float, float]] = SIX, *entries: Watering
) -> SeenCheck:
    found, _ = seen(volumes, *entries)
    assert found is not None
    return found


def test_what_stays_of_24_minutes_is_held_against_one_day_of_et() -> None:
    # 12 mm/h x 24 min = 4.8 mm; 62 % stays: 2.976; ETc 5 x 0.85 = 4.25: ratio 0.70
    found = counted()
    assert found.use_mm == pytest.approx(4.8 * (1 - 768 / 2020))
    assert found.modelled_mm == pytest.approx(4.25)
    assert found.seen.ratio == pytest.approx(0.70, abs=0.001)


def test_two_days_since_the_watering_before_are_two_days_of_et() -> None:
    skipped = Watering(where="", typed="", date=NIGHT - dt.timedelta(days=1), zone="Z4",
                       minutes=0.0, is_skipped=True)  # fmt: skip
    assert counted(SIX, skipped).modelled_mm == pytest.approx(8.5)


def test_the_look_stands_for_the_night_of_the_water() -> None:
    assert counted().seen.date == NIGHT


def test_the_driest_pot_has_a_ratio_of_its_own() -> None:
    assert counted().driest_ratio == pytest.approx(4.8 * (1 - 28 / 232) / 4.25)


def test_more_pots_make_the_error_smaller() -> None:
    twice = SIX | {
        f"{place[0]}3": both for place, both in SIX.items() if place[1] != "3"
    }
    assert counted(twice).seen.sd < counted().seen.sd


def test_eto_of_another_year_makes_the_error_larger() -> None:
    assert counted().seen.sd > counted().past.sd


def test_half_the_pots_without_leachate_are_a_lower_limit() -> None:
    dry = {"A1": (300.0, 0.0), "H3": (300.0, 0.0), "D2": (300.0, 30.0)}
    assert counted(dry).seen.is_at_least


def test_without_minutes_it_teaches_nothing_and_says_so() -> None:
    found, said = seen(minutes=None)
    assert found is None
    assert "was not noted" in said[0].what


def test_rain_before_it_makes_it_void() -> None:
    wet = past_days(rain=dry_gauge({NIGHT: 8.0}))
    found, said = seen(days=wet)
    assert found is None
    assert "rain fell" in said[0].what


def test_a_sprinkle_of_rain_does_not() -> None:
    assert seen(days=past_days(rain=dry_gauge({NIGHT: 1.0})))[0] is not None


def test_without_weather_it_teaches_nothing() -> None:
    found, said = seen(days=PastDays([], None, TODAY))
    assert found is None
    assert "ETo of the days before it is not known" in said[0].what


def test_pots_that_kept_nothing_teach_nothing() -> None:
    assert seen({"A1": (300.0, 300.0)}) == (None, ())


TREE = Plant(name="maples", kc=2.0, kc_area="pot top", kc_from="weighed")


def weighed(zone: Zone, lost: float = 500.0) -> tuple[SeenWeights, ...]:
    log = Log(
        tuple(
            one
            for place in ("A1", "B2")
            for one in (weight(place, 5, 9000.0), weight(place, 21, 9000.0 - lost))
        )
    )
    days, _ = weighed_days(log, nights_of(zone, log), PLACE)
    return seen_weights(days, zone, use_of(zone), past_days())


def test_a_kc_on_the_pot_top_is_compared_as_it_is() -> None:
    # 500 mL are 1.97 of ETo on the pot top, entered 2.0
    found = weighed(yard(plant=TREE))[0]
    assert found.kc_on_pot_top == pytest.approx(1.97, abs=0.01)
    assert found.seen.ratio == pytest.approx(1.97 / 2.0, abs=0.005)


def test_a_kc_on_the_bed_is_brought_to_the_pot_by_the_capture_factor() -> None:
    # 0.85 x 5 mm on the bed x 1.25 = 5.3 mm in the pot; 9.87 mm were lost
    found = weighed(yard())[0]
    assert found.seen.ratio == pytest.approx(9.87 / (0.85 * 5 * 1.25), abs=0.01)


def test_a_guessed_capture_factor_counts_as_an_error() -> None:
    guessed = yard(pots=Pots(top_diameter_mm=254.0, spacing_m=0.4))
    assert weighed(guessed)[0].seen.sd > weighed(yard())[0].seen.sd


def test_it_does_not_where_the_coefficient_is_on_the_pot_top() -> None:
    guessed = yard(plant=TREE, pots=Pots(top_diameter_mm=254.0, spacing_m=0.4))
    assert weighed(guessed)[0].seen.sd == pytest.approx(
        weighed(yard(plant=TREE))[0].seen.sd
    )


def test_weighings_without_eto_teach_nothing() -> None:
    zone = yard()
    log = Log((weight("A1", 5, 9e3), weight("A1", 21, 8.5e3)))
    days, _ = weighed_days(log, nights_of(zone, log), PLACE)
    assert seen_weights(days, zone, use_of(zone), PastDays([], None, TODAY)) == ()


def test_a_look_has_its_logarithm() -> None:
    one = counted().seen
    assert dataclasses.replace(one, log_ratio=math.log(0.5)).ratio == pytest.approx(0.5)


def test_a_zone_without_pots_was_not_weighed() -> None:
    assert seen_weights((), yard(pots=None), use_of(yard()), past_days()) == ()
