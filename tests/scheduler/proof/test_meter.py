"""Plan against meter: what is left over, and why."""

import datetime as dt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.log import Entry, FrostNight, HandWater, Watering
from scheduler.proof.meter import PlanAgainstMeter, plan_against_meter
from scheduler.site import Site, Window
from tests.scheduler.proof.made import at, dial, history, site, zone

# 7 nights of 10 min at 100 L/min
WEEK_M3 = 7.0


def against(*entries: Entry, of: Site | None = None) -> PlanAgainstMeter:
    return plan_against_meter(of or site(), history(*entries))


def left(*entries: Entry, of: Site | None = None) -> float | None:
    return against(*entries, of=of).intervals[0].unexplained_m3


def weeks(*rises: float, **given: Any) -> tuple[Entry, ...]:
    return tuple(
        dial(1 + 7 * i, 100.0 + sum(rises[:i]), **given) for i in range(len(rises) + 1)
    )


def test_a_meter_that_fits_leaves_nothing() -> None:
    (one,) = against(*weeks(WEEK_M3)).intervals
    assert (one.plan_m3, one.unexplained_m3, one.causes) == (7.0, 0.0, ())


def test_frost_and_hand_water_are_taken_off_first() -> None:
    frost = FrostNight(minutes=60.0, **at(3))
    hand = HandWater(zone="Z1", volume_m3=0.5, **at(4))
    (one,) = against(*weeks(WEEK_M3 + 6.5), frost, hand).intervals
    assert (one.frost_m3, one.hand_m3, one.unexplained_m3) == (6.0, 0.5, 0.0)


def test_a_logged_skip_is_no_missing_water() -> None:
    skip = Watering(zone="Z1", minutes=0.0, is_skipped=True, **at(2))
    (one,) = against(*weeks(6.0), skip).intervals
    assert (one.plan_m3, one.logged_m3, one.unexplained_m3) == (7.0, -1.0, 0.0)


def test_past_ten_percent_the_first_cause_is_a_finding() -> None:
    found = against(*weeks(14.0))
    assert found.intervals[0].off == pytest.approx(1.0)
    assert any("+100%" in one.what for one in found.findings)
    assert any("the program runs twice" in one.fix for one in found.findings)


def test_a_difference_within_the_flows_is_a_note() -> None:
    found = against(*weeks(7.9))
    (said,) = (one for one in found.findings if "against plan" in one.what)
    assert found.intervals[0].is_within_flows
    assert said.level == "note"


def test_a_shut_valve_of_one_zone_is_found_by_its_share() -> None:
    both = site(zone("Z1"), zone("Z2", heads=30))
    (one,) = against(*weeks(7.0), of=both).intervals
    assert one.causes[0].name == "a valve that stays shut"
    assert "Z2" in one.causes[0].check


def test_water_where_none_was_planned_is_a_warning() -> None:
    found = against(*weeks(5.0), of=site(zone(minutes=0.0)))
    assert found.intervals[0].off is None
    assert any("where none was planned" in one.what for one in found.findings)


def test_what_no_single_cause_explains_is_still_said() -> None:
    # a single night that gave a third less: no valve, no percentage of ten, no night
    line = Watering(zone="Z1", minutes=10.0, **at(1))
    idle = site(zone(minutes=0.0))
    found = against(dial(1, 0.0), dial(2, 0.855), line, of=idle)
    assert found.intervals[0].causes == ()
    assert any("no single cause" in one.fix for one in found.findings)


def test_a_guess_at_frost_water_that_is_a_little_off_is_no_alarm() -> None:
    frost = FrostNight(minutes=600.0, **at(3))
    found = against(*weeks(57.0), frost, of=site(zone(minutes=0.0)))
    assert (found.intervals[0].unexplained_m3, found.intervals[0].is_off) == (
        -3.0,
        False,
    )


def test_each_meter_answers_for_its_zones() -> None:
    both = site(zone("Z1"), zone("Z2", heads=30))
    found = against(
        *weeks(7.0, zones=("Z1",)), *weeks(21.0, meter="well", zones=("Z2",)), of=both
    )
    assert [one.unexplained_m3 for one in found.intervals] == [0.0, 0.0]


def test_a_multiplier_of_ten_that_nobody_wrote_down_is_named() -> None:
    (one,) = against(*weeks(0.7)).intervals
    assert one.causes[0].name == "the meter's multiplier"


def test_a_shared_meter_is_said() -> None:
    said = against(*weeks(7.0, is_shared=True)).findings
    assert any("is shared" in one.what for one in said)


def test_two_meters_without_zones_are_asked_for_them() -> None:
    said = against(*weeks(7.0), *weeks(7.0, meter="well")).findings
    assert sum("does not say which zones" in one.what for one in said) == 2


def test_a_zone_without_flow_is_said() -> None:
    said = against(*weeks(7.0), of=site(zone(package=None))).findings
    assert any("has no flow" in one.what for one in said)


def test_a_zone_that_is_gone_is_said_once_a_meter() -> None:
    said = against(*weeks(7.0, 7.0, zones=("z1", "Z7"))).findings
    (one,) = (one for one in said if "not in zones.toml" in one.what)
    assert "serves Z7, not in" in one.what


def test_hand_water_without_a_volume_is_said() -> None:
    said = against(*weeks(7.0), HandWater(zone="Z1", minutes=40.0, **at(3))).findings
    assert any("has no volume" in one.what for one in said)


def test_a_reading_while_water_may_run_is_said() -> None:
    night = site(windows=(Window(start=dt.time(22), end=dt.time(4, 30)),))
    said = against(*weeks(7.0, time=dt.time(23)), of=night).findings
    assert sum("when water may run" in one.what for one in said) == 2


def test_the_trace_reaches_the_dial_and_the_flow() -> None:
    (one,) = against(*weeks(7.0)).intervals
    assert one.trace.find("meter_volume_m3") is not None
    assert one.trace.find("flow_l_per_min") is not None
    assert one.trace.value == one.unexplained_m3


def test_water_that_the_dial_cannot_tell_is_not_compared() -> None:
    assert left(dial(1, 100.0), dial(8, 50.0)) is None


RISES = st.lists(st.floats(0.0, 50.0), min_size=1, max_size=5)


@given(rises=RISES, data=st.data())
def test_any_order_of_lines_gives_the_same(
    rises: list[float], data: st.DataObject
) -> None:
    skip = Watering(zone="Z1", minutes=0.0, is_skipped=True, **at(2))
    frost = FrostNight(minutes=60.0, **at(3))
    lines = [*weeks(*rises), skip, frost]
    mixed = data.draw(st.permutations(lines))
    assert against(*mixed) == against(*lines)


@given(rises=RISES)
def test_what_is_left_adds_up_over_intervals(rises: list[float]) -> None:
    lines = weeks(*rises)
    parts = [one.unexplained_m3 or 0.0 for one in against(*lines).intervals]
    assert sum(parts) == pytest.approx(left(lines[0], lines[-1]), abs=1e-9)


@given(rises=RISES)
def test_totals_are_the_sums_of_the_intervals(rises: list[float]) -> None:
    found = against(*weeks(*rises))
    parts = [one.unexplained_m3 or 0.0 for one in found.intervals]
    assert found.totals[0].unexplained_m3 == pytest.approx(sum(parts), abs=1e-9)
