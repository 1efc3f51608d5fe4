"""What has to be keyed in, and why, against what the clock was told before."""

import datetime as dt
from dataclasses import replace
from typing import Any

import pytest

from scheduler.issued import IssuedWeek, IssuedZone, KeptOverride
from scheduler.log import Log, Override, Respacing
from scheduler.plan import WeekPlan, build_week
from scheduler.record import History
from scheduler.site import (
    Plant,
    Shortage,
    Supply,
    Window,
    Zone,
)
from scheduler.units import MM_PER_INCH
from scheduler.watering.reason import MOST_WORDS, ZoneChange
from scheduler.week_changes import key_numbers, overrides_since
from tests.scheduler.test_plan import (
    LAST_WEEK,
    TODAY,
    can_test,
    site,
    weather,
    zone,
)

NEXT = TODAY + dt.timedelta(days=7)
PUMP = Supply(source="well", flow_l_per_min=5e5)
WINDOWS = (Window(start=dt.time(22), end=dt.time(6)),)


def week(
    one: Zone, *, issued: tuple[IssuedWeek, ...] = (), log: Log | None = None, **of: Any
) -> WeekPlan:
    history = History(
        (of.get("test") or can_test(),),
        (of.get("days", LAST_WEEK),),
        issued=issued,
        log=log or Log(),
    )
    here = site(one, windows=WINDOWS, supply=PUMP, **of.get("site", {}))
    return build_week(here, history, of.get("today", TODAY))


def issued(plan: WeekPlan) -> tuple[IssuedWeek, ...]:
    """A plan as an issued week tells it."""
    zones = tuple(
        IssuedZone(
            one.zone.id, float(one.minutes_per_day), one.cycles or 1, one.days,
            one.cycle_minutes, one.soak_minutes,
            numbers=key_numbers(one, plan.short),
            overrides=one.changed.overrides if one.changed else (),
        )
        for one in plan.zones
        if one.minutes_per_day is not None
    )  # fmt: skip
    return (IssuedWeek("2026-W23", plan.start, zones),)


def changed(one: Zone, **of: Any) -> ZoneChange:
    found = week(one, **of).zones[0].changed
    assert found is not None
    return found


def override(day: int, minutes: float = 20.0, zone_id: str = "Z4") -> Log:
    chosen = Override(
        where="log.csv:9", typed="", date=dt.date(2026, 6, day), zone=zone_id,
        minutes=minutes, reason="leaves rolled",
    )  # fmt: skip
    return Log((chosen,))


BEFORE = issued(week(zone()))


def test_the_first_plan_is_held_against_the_clock_as_found() -> None:
    one = changed(zone())
    assert (one.was_minutes, one.now_minutes, one.reason) == (
        24.0,
        27,
        "first plan; was as found",
    )


def test_the_change_is_now_over_was_less_one() -> None:
    assert changed(zone()).change == pytest.approx(27 / 24 - 1)


def test_without_a_clock_as_found_there_is_no_percent() -> None:
    one = changed(zone(as_found=None))
    assert (one.was_minutes, one.change, one.reason) == (None, None, "first plan")


def test_a_week_that_begins_on_another_day_is_unchanged() -> None:
    (told,) = issued(week(zone()))
    (own,) = told.zones
    week_before = tuple(day - dt.timedelta(days=7) for day in own.days[3:])
    days = (*week_before, *own.days[:3])
    earlier = replace(told, zones=(replace(own, days=days),))
    one = changed(zone(), issued=(earlier,))
    assert (one.reason, one.is_changed) == ("unchanged", False)


def test_the_same_week_again_is_unchanged() -> None:
    one = changed(zone(), issued=BEFORE)
    assert (one.reason, one.is_changed, one.change) == ("unchanged", False, 0.0)


@pytest.mark.parametrize(
    ("after", "reason"),
    [
        ({"days": weather(1.5 * MM_PER_INCH / 7, 0.3 * MM_PER_INCH / 7)}, "weather up"),
        ({"days": weather(1.26 * MM_PER_INCH / 7, 0.1)}, "less rain counted"),
        ({"test": can_test(minutes=40.0)}, "rate down 25 %"),
    ],
)
def test_a_reason_names_what_did_most(after: dict[str, Any], reason: str) -> None:
    assert reason in changed(zone(), issued=BEFORE, **after).reason


@pytest.mark.parametrize(
    ("after", "reason"),
    [
        ({"plant": Plant(name="holly", kc=1.1, kc_area="bed")}, "Kc up 29 %"),
        ({"rule": "average"}, "rule now average"),
        ({"days": ("mon", "wed", "fri")}, "3 nights (were 6)"),
    ],
)
def test_a_zone_that_is_entered_otherwise_says_so(
    after: dict[str, Any], reason: str
) -> None:
    assert changed(zone(**after), issued=BEFORE).reason == reason


def test_every_part_of_the_change_is_told() -> None:
    hot = weather(1.5 * MM_PER_INCH / 7, 0.3 * MM_PER_INCH / 7)
    one = changed(zone(), issued=BEFORE, days=hot)
    assert one.now_minutes is not None
    assert one.was_minutes is not None
    total = sum(share.minutes for share in one.shares)
    assert total == pytest.approx(one.now_minutes - one.was_minutes)


def test_water_that_is_short_is_a_reason() -> None:
    short = Shortage(cut=0.3, start=TODAY, end=NEXT, reason="dry pond")
    one = changed(zone(heads=40), issued=BEFORE, site={"shortage": short})
    assert one.reason.startswith("water short: ")


def test_an_override_since_is_what_the_clock_holds_now() -> None:
    one = changed(zone(), issued=BEFORE, log=override(8))
    assert (one.was_minutes, one.was_from) == (
        20.0,
        "override of 8 Jun 2026: leaves rolled",
    )
    assert one.reason == "plan again, after override of 8 Jun"


def test_the_plan_says_was_as_the_person_left_it() -> None:
    plan = week(zone(), issued=BEFORE, log=override(8)).zones[0]
    assert plan.was_minutes == 20.0


def test_an_override_that_the_plan_agrees_with_is_kept() -> None:
    one = changed(zone(), issued=BEFORE, log=override(8, 27.0))
    assert one.reason == "kept, after override of 8 Jun"


def test_an_override_before_the_issued_week_is_settled() -> None:
    assert changed(zone(), issued=BEFORE, log=override(7)).overrides == ()


def test_an_override_after_today_is_not_known_yet() -> None:
    assert changed(zone(), issued=BEFORE, log=override(9)).overrides == ()


def test_an_override_of_another_zone_is_none_of_this_one() -> None:
    one = changed(zone(), issued=BEFORE, log=override(8, zone_id="Z5"))
    assert one.overrides == ()


def test_an_override_that_an_issued_week_kept_is_settled() -> None:
    kept = KeptOverride(dt.date(2026, 6, 8), 20.0, "leaves rolled")
    told = replace(BEFORE[0].zones[0], overrides=(kept,))
    newest = BEFORE[0], told
    assert overrides_since(override(8), "Z4", newest, TODAY) == ()


def test_a_coefficient_that_moves_after_a_block_was_set_anew_says_so() -> None:
    moved = Respacing(where="log.csv:9", typed="", date=TODAY, zone="Z4")
    plant = Plant(name="holly", kc=1.1, kc_area="bed")
    one = changed(zone(plant=plant), issued=BEFORE, log=Log((moved,)))
    assert one.reason == "respaced: Kc up 29 %"


def test_a_zone_that_is_off_is_left_alone() -> None:
    one = changed(zone(watered="off", plant=None))
    assert (one.now_minutes, one.is_changed, one.reason) == (None, False, "off")


def test_a_blocked_zone_leaves_the_clock_as_it_is() -> None:
    one = changed(zone(), test=can_test(minutes=1.0))
    assert (one.now_minutes, one.reason) == (None, "blocked: leave the clock as it is")


def test_fixed_minutes_that_were_changed_say_so() -> None:
    fixed = {"watered": "fixed minutes", "plant": None}
    before = issued(week(zone(fixed_minutes=6.0, **fixed)))
    after = changed(zone(fixed_minutes=8.0, **fixed), issued=before)
    assert after.reason == "fixed minutes were changed"


def test_more_cycles_of_the_same_minutes_have_to_be_keyed_in() -> None:
    told = replace(BEFORE[0].zones[0], cycles=3)
    one = changed(zone(), issued=(replace(BEFORE[0], zones=(told,)),))
    assert (one.reason, one.is_changed) == (
        "same minutes, cycles 1 (were 3)",
        True,
    )


def test_a_week_without_key_numbers_says_that() -> None:
    told = replace(BEFORE[0].zones[0], numbers=None, minutes_per_day=20.0)
    one = changed(zone(), issued=(replace(BEFORE[0], zones=(told,)),))
    assert one.reason == "numbers of the week before are unknown"


def test_a_zone_that_needs_nothing_is_not_due() -> None:
    wet = weather(1.0, 30.0)
    one = changed(zone(), issued=BEFORE, days=wet)
    assert (one.now_minutes, one.reason) == (0, "not due: enough water in store")


def test_a_zone_that_was_not_due_is_due_again() -> None:
    wet = issued(week(zone(), days=weather(1.0, 30.0)))
    assert changed(zone(), issued=wet).reason == "due again"


def test_every_reason_has_at_most_eight_words() -> None:
    hot = weather(2.5 * MM_PER_INCH / 7)
    plant = Plant(name="holly", kc=1.3, kc_area="bed")
    one = changed(
        zone(plant=plant, rule="average", days=("mon",)),
        issued=BEFORE,
        days=hot,
        test=can_test(minutes=40.0),
    )
    assert len(one.reason.split()) <= MOST_WORDS


def test_the_change_can_be_explained() -> None:
    plan = week(zone()).zones[0]
    assert "change" in {one.name for chain in plan.chains for one in chain.chain()}


def test_a_week_that_was_issued_ahead_is_not_what_this_one_changes() -> None:
    ahead = replace(BEFORE[0], name="2026-W25", start=NEXT)
    assert changed(zone(), issued=(ahead,)).reason == "first plan; was as found"


def test_what_was_learned_is_a_key_number() -> None:
    plan = week(zone()).zones[0]
    numbers = key_numbers(plan, None)
    assert numbers is not None
    assert numbers.learned == 1.0
    product = numbers.eto_mm * numbers.kc * numbers.learned * numbers.bed_factor
    assert product == pytest.approx(plan.etc_mm)
