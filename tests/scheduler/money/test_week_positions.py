"""A zone's planned week by position: counted by hand, laws, what is refused."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.errors import QuantityError
from scheduler.field.drawn import drawn_together
from scheduler.field.uniformity import low_half_uniformity, low_quarter_uniformity
from scheduler.money.week_positions import PositionWeek, position_week
from scheduler.need.zone_leaching import ZoneLeaching
from scheduler.root_zone.intake import intake_model
from scheduler.root_zone.storage import Storage
from scheduler.site import Plant, Rule, Zone
from scheduler.trace import entered
from scheduler.watering.zone_week import ZoneWeekInput, clocked

NONE = entered("any", None)
# the driest quarter catches half, the wettest one and a half
SHARE = np.repeat([0.5, 1.0, 1.0, 1.5], 4)


def inputs(
    share: np.ndarray = SHARE, rule: Rule = "average", **given: object
) -> ZoneWeekInput:
    bay = Zone(
        id="F1", name="bay", area_m2=900.0, grown_in="soil", rule=rule,
        watered="every allowed day", plant=Plant(name="box", kc=1.0, kc_area="bed"),
    )  # fmt: skip
    made = ZoneWeekInput(
        bay, share, 12.0, float(low_quarter_uniformity(share)),
        float(low_half_uniformity(share)), np.full(7, 4.0), np.zeros(7),
        Storage(40.0, 18.0, NONE), 0.0, np.ones(7, dtype=bool), intake_model(bay)[0],
        "nearest", None,
    )  # fmt: skip
    return replace(made, **given)  # type: ignore[arg-type]


def week(made: ZoneWeekInput) -> PositionWeek:
    """As its own plan waters it."""
    plan = clocked(made)
    return position_week(
        made, nights=plan.demand.nights, minutes_per_day=plan.cut.minutes
    )


def test_what_each_quarter_gets_above_need_is_its_catch_less_the_need() -> None:
    # 7 nights of 20 min at 12 mm/h are 28 mm; the wettest catches 42
    found = week(inputs())
    assert found.by_quarter(found.applied_mm).tolist() == [14.0, 28.0, 28.0, 42.0]
    assert found.by_quarter(found.above_need_mm).tolist() == [0.0, 0.0, 0.0, 14.0]


def test_the_low_quarter_rule_gives_every_quarter_but_the_driest_too_much() -> None:
    # twice the need: 56 mm, and 28, 56, 56, 84 by quarter
    found = week(inputs(rule="low quarter"))
    assert found.need_mm == 28.0
    assert found.by_quarter(found.above_need_mm).tolist() == [0.0, 28.0, 28.0, 56.0]


def test_what_passes_the_roots_is_what_they_had_no_room_for() -> None:
    # filled every night: no room is left for more than the day's use of 4 mm
    found = week(inputs(rule="low quarter"))
    assert found.passed_mm is not None
    assert found.by_quarter(found.passed_mm).tolist() == [0.0, 28.0, 28.0, 56.0]


def test_room_from_before_the_week_takes_water_above_the_week_s_use() -> None:
    # 10 mm down at the start: the wettest quarter fills them with its surplus
    made = inputs(start_depletion_mm=10.0)
    found = position_week(made, nights=tuple(range(7)), minutes_per_day=20)
    assert found.passed_mm is not None
    assert found.by_quarter(found.passed_mm)[-1] == pytest.approx(42.0 - 28.0 - 10.0)


def test_rain_finds_no_room_where_the_night_has_filled_it() -> None:
    rain = np.array([0.0, 0.0, 6.0, 0.0, 0.0, 0.0, 0.0])
    plain = inputs(np.ones(16))
    bay = plain.zone.model_copy(update={"rain_counted": 1.0})
    found = position_week(
        replace(plain, rain_mm=rain, zone=bay), nights=(0, 1), minutes_per_day=20
    )
    # full on the third morning: all of the rain passes, none of the water
    assert found.passed_mm is not None
    assert found.rain_passed_mm is not None
    assert found.rain_passed_mm.mean() == pytest.approx(6.0)
    assert found.passed_mm.mean() == 0.0


def test_the_last_night_drains_on_the_morning_after_the_week() -> None:
    found = position_week(inputs(np.ones(16)), nights=(6,), minutes_per_day=200)
    # seven days of 4 mm leave room for 28, the stress of dry days aside; 40 came
    assert found.passed_mm is not None
    assert found.passed_mm.mean() > 40.0 - 28.0 - 1e-9


def test_an_even_catch_has_nothing_above_need() -> None:
    rules: tuple[Rule, ...] = ("average", "low half", "low quarter", "share served")
    for rule in rules:
        assert week(inputs(np.ones(16), rule)).above_need_mm.max() == 0.0


def test_a_catch_that_leaching_asks_for_is_no_waste() -> None:
    wanted = ZoneLeaching(0.2, True, entered("leaching_target", 0.2))
    # 28 mm over 1 - 0.2 are 35 mm: 25 minutes a night
    found = week(inputs(np.ones(16), leaching=wanted))
    assert found.need_mm == pytest.approx(35.0)
    assert found.above_need_mm.max() == 0.0


def test_without_a_balance_nothing_is_said_to_pass() -> None:
    found = position_week(
        inputs(storage=None), nights=tuple(range(7)), minutes_per_day=20
    )
    assert found.passed_mm is None
    assert found.above_need_mm.mean() == pytest.approx(3.5)


def test_short_water_lowers_what_is_applied_and_not_the_need() -> None:
    short = inputs(most_minutes=10)
    assert week(short).applied_mm.mean() == pytest.approx(14.0)
    assert week(short).need_mm == 28.0


@settings(max_examples=40, deadline=None)
@given(
    shares=st.lists(st.floats(0.2, 3.0), min_size=8, max_size=24),
    pull=st.floats(0.0, 1.0),
    rule=st.sampled_from(["average", "low half", "low quarter", "share served"]),
)
def test_a_catch_drawn_to_its_mean_never_costs_more(
    shares: list[float], pull: float, rule: Rule
) -> None:
    apart = np.array(shares) / np.mean(shares)
    near = drawn_together(apart, pull)
    here, there = week(inputs(apart, rule)), week(inputs(near, rule))
    # whole minutes: half a minute a night either way
    slack = 7 * 0.2 * 0.5 * 2
    assert there.above_need_mm.mean() <= here.above_need_mm.mean() + slack


@settings(max_examples=30, deadline=None)
@given(
    shares=st.lists(st.floats(0.2, 3.0), min_size=8, max_size=24),
    minutes=st.integers(1, 60),
)
def test_water_that_came_is_stored_used_or_passed(
    shares: list[float], minutes: int
) -> None:
    share = np.array(shares) / np.mean(shares)
    found = position_week(
        inputs(share), nights=tuple(range(7)), minutes_per_day=minutes
    )
    assert found.passed_mm is not None
    assert (found.passed_mm <= found.applied_mm + 1e-9).all()
    # of each night no more than the day's use of 4 mm and what is left can be kept
    assert (found.applied_mm - found.passed_mm <= 7 * 4.0 + 1e-9).all()


def test_a_night_outside_the_week_is_refused() -> None:
    with pytest.raises(QuantityError, match="a week of 7 days"):
        position_week(inputs(), nights=(7,), minutes_per_day=20)
