"""Water of a zone between readings; frost and hand water apart."""

import pytest

from scheduler.log import FrostNight, HandWater, Repair, Watering
from scheduler.proof.dial import DialInterval, dial_intervals
from scheduler.proof.meter_water import frost_m3, hand_m3, zone_water, zones_of
from scheduler.record import BucketFlow, CanTest
from scheduler.supply import Supply
from tests.scheduler.proof.made import at, day, dial, history, site, zone


def week(**given: object) -> DialInterval:
    return dial_intervals((dial(1, 0.0, **given), dial(8, 7.0, **given)))[0][0]


def test_seven_nights_of_ten_minutes_at_100_l_per_min_are_7_m3() -> None:
    assert zone_water(site(), history(), zone(), week()).told_m3 == 7.0


def test_a_skipped_night_is_water_that_did_not_run() -> None:
    line = Watering(zone="Z1", minutes=0.0, is_skipped=True, **at(2))
    found = zone_water(site(), history(line), zone(), week())
    assert (found.told_m3, found.ran_m3) == (7.0, 6.0)


def test_without_flow_the_minutes_stay_and_the_water_is_not_known() -> None:
    found = zone_water(site(), history(), zone(package=None), week())
    assert (found.told_min, found.told_m3) == (70.0, None)


def test_buckets_on_older_hardware_do_not_count() -> None:
    bucket = BucketFlow("t", "head 1", "head", 12.0, 60.0)
    old = CanTest("t", "t", "Z1", day(-3), "as found", 91.5, flows=(bucket,))
    new = Repair(zone="Z1", what="new nozzles", is_change=True, **at(1))
    kept, gone = (
        zone_water(site(), history(*lines, tests=(old,)), zone(), week())
        for lines in ((), (new,))
    )
    assert kept.told_m3 == pytest.approx(8.4)
    assert gone.told_m3 == pytest.approx(7.0)


def test_frost_is_minutes_times_flow_where_no_volume_was_read() -> None:
    past = history(FrostNight(minutes=60.0, **at(3)))
    assert frost_m3(site(), past, week()) == (6.0, False)


def test_frost_draws_no_more_than_the_pump_gives() -> None:
    pump = site(supply=Supply(source="well", flow_l_per_min=50.0))
    past = history(FrostNight(minutes=60.0, **at(3)))
    assert frost_m3(pump, past, week())[0] == 3.0


def test_a_frost_volume_that_was_read_stands() -> None:
    past = history(FrostNight(minutes=60.0, volume_m3=9.0, **at(3)))
    assert frost_m3(site(), past, week()) == (9.0, True)


def test_frost_of_two_zones_is_shared_by_flow() -> None:
    both = site(zone("Z1"), zone("Z2", heads=30))
    past = history(FrostNight(volume_m3=8.0, **at(3)))
    assert frost_m3(both, past, week(zones=("Z2",)))[0] == pytest.approx(6.0)


def test_frost_of_another_week_does_not_count() -> None:
    assert frost_m3(site(), history(FrostNight(minutes=60.0, **at(9))), week())[0] == 0


def test_hand_water_of_a_zone_of_the_meter_counts() -> None:
    past = history(HandWater(zone="Z1", volume_m3=0.5, **at(3)))
    assert hand_m3(past, week(), {"Z1"}) == 0.5


def test_hand_water_of_another_zone_does_not() -> None:
    past = history(HandWater(zone="Z9", volume_m3=0.5, **at(3)))
    assert hand_m3(past, week(), {"Z1"}) == 0.0


def test_a_meter_without_zones_serves_all() -> None:
    both = site(zone("Z1"), zone("Z2"))
    assert [one.id for one in zones_of(both, dial(1, 0.0))] == ["Z1", "Z2"]


def test_a_meter_serves_the_zones_it_names() -> None:
    both = site(zone("Z1"), zone("Z2"))
    assert [one.id for one in zones_of(both, dial(1, 0.0, zones=("z2",)))] == ["Z2"]
