"""A meter of one zone: what it says of the rate, and when it says nothing."""

import math
from dataclasses import replace
from typing import Any

import pytest

from scheduler.log import Entry, FrostNight, HandWater, Log
from scheduler.proof.learning import Observation, learned
from scheduler.proof.metered_rate import rates_seen
from scheduler.proof.zone_learning import lessons_of
from scheduler.record import BucketFlow, CanTest, History
from scheduler.site import Package, Site
from tests.scheduler.proof.made import at, day, dial, site, zone

# 10 heads on 900 m2, one every 90 m2, and buckets of 10 L/min: 100 L/min, and 7 nights
# of 10 min are 7 m3
SPACED = Package(id="rotor", nozzle_flow_l_per_min=9.0, spacing_m=math.sqrt(90.0))


def buckets(condition: str = "as found") -> CanTest:
    flows = (BucketFlow("t", "head 1", "head", 10.0, 60.0),)
    return CanTest("t1", "tests/t1", "Z1", day(1), condition, 91.5, flows=flows)


def seen(
    *entries: Entry, of: Site | None = None, tests: tuple[CanTest, ...] | None = None
) -> tuple[Observation, ...]:
    whole = of or site(packages=(SPACED,))
    made = History(log=Log(entries), tests=(buckets(),) if tests is None else tests)
    return rates_seen(whole, made).get("Z1", ())


def weeks(*rises: float, **given: Any) -> tuple[Entry, ...]:
    return tuple(
        dial(1 + 7 * i, 100.0 + sum(rises[:i]), **given) for i in range(len(rises) + 1)
    )


def test_a_meter_that_fits_says_the_rate_is_as_tested() -> None:
    (one,) = seen(*weeks(7.0))
    assert one.log_ratio == pytest.approx(0.0, abs=1e-9)
    assert one.kind == "meter"


def test_five_percent_more_water_is_five_percent_more_rate() -> None:
    (one,) = seen(*weeks(7.35))
    assert one.ratio == pytest.approx(1.05)


def test_its_error_is_that_of_the_buckets() -> None:
    # 90 to 110 %, 90 % sure
    (one,) = seen(*weeks(7.0))
    assert one.sd == pytest.approx(math.log(1.1 / 0.9) / 2 / 1.6449, rel=1e-4)


def test_many_weeks_are_one_look_for_they_share_the_buckets() -> None:
    (one,) = seen(*weeks(7.0, 7.0, 7.2))
    assert one.ratio == pytest.approx(7.2 / 7.0)


def test_it_stands_for_the_day_of_the_first_reading() -> None:
    assert seen(*weeks(7.0))[0].date == day(1)


def test_frost_and_hand_water_are_taken_off() -> None:
    frost = FrostNight(volume_m3=3.0, **at(3))
    hand = HandWater(zone="Z1", volume_m3=0.5, **at(4))
    (one,) = seen(*weeks(10.5), frost, hand)
    assert one.ratio == pytest.approx(1.0)


def test_more_water_means_a_higher_rate_and_never_more_minutes() -> None:
    few, many = (learned(seen(*weeks(rise)), day(9)) for rise in (7.0, 7.6))
    assert many.factor < few.factor


def test_past_ten_percent_a_cause_is_looked_for_first() -> None:
    assert seen(*weeks(8.0)) == ()


def test_a_meter_of_two_zones_says_nothing_of_either() -> None:
    both = site(zone(), zone("Z2"), packages=(SPACED,))
    assert seen(*weeks(14.0), of=both) == ()


def test_a_meter_that_names_its_one_zone_of_two_does() -> None:
    both = site(zone(), zone("Z2"), packages=(SPACED,))
    assert len(seen(*weeks(7.0, zones=("Z1",)), of=both)) == 1


def test_a_shared_meter_says_nothing() -> None:
    assert seen(*weeks(7.0, is_shared=True)) == ()


def test_a_zone_without_buckets_learns_nothing_from_its_meter() -> None:
    assert seen(*weeks(6.3), tests=()) == ()


def test_minutes_that_nobody_wrote_down_say_nothing() -> None:
    silent = site(zone(minutes=None), packages=(SPACED,))
    assert seen(*weeks(7.0), of=silent) == ()


def test_without_readings_nothing_is_seen() -> None:
    assert rates_seen(site(), replace(History())) == {}


def test_the_lessons_of_a_site_hold_what_its_meter_says() -> None:
    made = History(log=Log(weeks(7.35)), tests=(buckets(),))
    taught = lessons_of(site(packages=(SPACED,)), made, (), day(9))
    assert taught.rate_seen["Z1"][0].ratio == pytest.approx(1.05)


def test_readings_after_the_day_teach_nothing_yet() -> None:
    made = History(log=Log(weeks(7.35)), tests=(buckets(),))
    assert lessons_of(site(packages=(SPACED,)), made, (), day(7)).rate_seen == {}
