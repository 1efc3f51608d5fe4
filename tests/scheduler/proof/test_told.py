"""Minutes of a night: issued, as found, overridden, logged."""

import numpy as np

from scheduler.issued import IssuedWeek, IssuedZone
from scheduler.log import Override, Watering
from scheduler.proof.told import told_nights
from scheduler.record import History
from scheduler.site import AsFound, Controller, Plant, Zone
from tests.scheduler.proof.made import at, day, history, site, zone

PLANT = Plant(name="holly", kc=0.8, kc_area="bed")
NIGHTS = [day(i) for i in range(1, 8)]


def issued(name: str, start: int, minutes: float, *on: int) -> IssuedWeek:
    days = tuple(day(i) for i in on)
    return IssuedWeek(name, day(start), (IssuedZone("z1", minutes, 1, days),))


def told(past: History, one: Zone | None = None) -> list[float]:
    own = one or zone()
    return [float(x) for x in told_nights(own, site(), past, NIGHTS).told_min]


def ran(past: History) -> list[float]:
    return [float(x) for x in told_nights(zone(), site(), past, NIGHTS).ran_min]


def test_before_the_first_issued_week_the_clock_runs_as_found() -> None:
    assert told(history()) == [10.0] * 7


def test_as_found_runs_on_its_own_days() -> None:
    one = zone(as_found=AsFound(minutes=5.0, cycles=2, days=("mon", "thu")))
    assert told(history(), one) == [10.0, 0, 0, 10.0, 0, 0, 0]


def test_percent_adjust_scales_the_clock_as_found() -> None:
    scaled = site(controller=Controller(percent_adjust=130))
    found = told_nights(zone(), scaled, history(), NIGHTS)
    assert found.told_min[0] == 13.0


def test_an_issued_week_rules_from_its_first_night() -> None:
    past = History(issued=(issued("a", 4, 20.0, 4, 6),))
    assert told(past) == [10.0, 10.0, 10.0, 20.0, 0, 20.0, 0]


def test_the_clock_goes_on_with_the_week_that_it_was_told_last() -> None:
    past = History(issued=(issued("a", -6, 20.0, -6, -4),))
    assert told(past) == [20.0, 0, 20.0, 0, 0, 0, 0]


def test_of_two_revisions_the_last_one_rules() -> None:
    past = History(issued=(issued("a2", 1, 30.0, 1), issued("a1", 1, 20.0, 1)))
    assert told(past)[0] == 30.0


def test_a_logged_watering_stands_for_its_night() -> None:
    line = Watering(zone="Z1", minutes=25.0, **at(2))
    assert ran(history(line)) == [10.0, 25.0, *[10.0] * 5]


def test_a_skipped_night_has_no_minutes() -> None:
    line = Watering(zone="Z1", minutes=0.0, is_skipped=True, **at(2))
    assert ran(history(line))[1] == 0.0


def test_the_log_does_not_change_what_was_told() -> None:
    line = Watering(zone="Z1", minutes=0.0, is_skipped=True, **at(2))
    assert told(history(line)) == [10.0] * 7


def test_an_override_holds_until_the_next_issued_week() -> None:
    line = Override(zone="Z1", minutes=40.0, reason="dry", **at(2))
    past = history(line, issued=(issued("a", 4, 20.0, 4, 5, 6, 7),))
    assert ran(past) == [10.0, 40.0, 40.0, 20.0, 20.0, 20.0, 20.0]


def test_without_clock_or_week_the_minutes_are_not_known() -> None:
    found = told_nights(zone(minutes=None, watered="when due", plant=PLANT), site(),
                        history(), NIGHTS)  # fmt: skip
    assert np.isnan(found.told_min).all()
    assert found.sources == ("not recorded",)


def test_without_clock_or_week_logged_waterings_are_what_ran() -> None:
    line = Watering(zone="Z1", minutes=25.0, **at(2))
    one = zone(minutes=None, watered="when due", plant=PLANT)
    found = told_nights(one, site(), history(line), NIGHTS)
    assert found.ran_min[1] == 25.0


def test_fixed_minutes_run_where_nothing_was_told() -> None:
    one = zone(minutes=None, watered="fixed minutes", fixed_minutes=6.0)
    assert told(history(), one) == [6.0] * 7
