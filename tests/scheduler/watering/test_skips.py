"""The rain that makes a planned watering needless."""

import datetime as dt
import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scheduler.root_zone.balance import run_balance
from scheduler.site import Zone
from scheduler.units import MM_PER_INCH
from scheduler.watering.skips import (
    RainSkip,
    rain_skips,
    skip_findings,
    skips_trace,
)
from scheduler.watering.zone_week import ZoneWeek, ZoneWeekInput, clocked
from tests.scheduler.watering.made import FIRST_SHARE, inputs, nights, store, week, zone

EVERY = zone(watered="every allowed day")


def skips(
    one: Zone | None = None, **given: Any
) -> tuple[ZoneWeekInput, ZoneWeek, tuple[RainSkip, ...]]:
    made, planned = inputs(one, **given), week(one, **given)
    return made, planned, rain_skips(made, planned)


def amounts(one: Zone | None = None, **given: Any) -> list[float]:
    return [skip.rain_mm for skip in skips(one, **given)[2]]


# --- by hand -------------------------------------------------------------------------


def test_without_a_balance_a_night_is_skipped_for_its_part_of_the_need() -> None:
    # 28 mm over seven nights, rain counted half: 4 mm at the roots, 8 in the gauge
    assert amounts(zone(rain_counted=0.5)) == [8.0] * 7


def test_without_a_share_the_event_rule_is_taken_backwards() -> None:
    # 4 mm at the roots and the first 0.1 in lost
    assert amounts(zone(rain_counted=None)) == pytest.approx([4.0 + 2.54] * 7)


def test_no_event_counts_above_its_rule() -> None:
    # one night of 49 mm: no event brings more than 1.567 in = 39.8 mm
    one = zone(rain_counted=None)
    assert amounts(one, allowed_day=nights(0), etc_mm_per_day=np.full(7, 7.0)) == []


def test_under_cover_no_rain_saves_a_watering() -> None:
    assert amounts(zone(rain_counted=0.0)) == []


def test_a_nightly_watering_is_skipped_for_what_the_day_took() -> None:
    assert amounts(EVERY, storage=store()) == pytest.approx([4.0] * 7)


def test_when_due_the_rain_must_last_until_the_clock_waters_again() -> None:
    # due on night 3 with 16 mm lacking of 16 allowed; the clock waters next on the
    # first night of next week, four days of 4 mm on: it must then be full
    assert amounts(storage=store()) == pytest.approx([16.0])


def test_what_may_still_be_lacking_is_not_asked_of_the_rain() -> None:
    # due on night 3 with 16 of 19 mm; four days of 4 mm leave room for 3 mm
    found = amounts(storage=store(40.0, 19.0), start_depletion_mm=0.0)
    assert found == pytest.approx([13.0])


def test_a_night_that_finds_nothing_lacking_has_no_amount() -> None:
    # no use on the first two days: nothing is lacking on those evenings
    use = np.array([0.0, 0.0, 4.0, 4.0, 4.0, 4.0, 4.0])
    found = skips(EVERY, storage=store(), etc_mm_per_day=use)[2]
    assert [one.night for one in found] == [2, 3, 4, 5, 6]


def test_fixed_minutes_have_no_amounts() -> None:
    one = zone(watered="fixed minutes", fixed_minutes=6.0, plant=None, rule=None)
    assert amounts(one) == []


def test_a_skip_names_its_evening() -> None:
    dates = tuple(dt.date(2026, 6, 8) + dt.timedelta(d) for d in range(7))
    found = skips(storage=store(), dates=dates)[2]
    assert found[0].date == dt.date(2026, 6, 11)
    assert found[0].trace.name == "skip_rain_mm[2026-06-11]"


def test_the_trace_reaches_the_need() -> None:
    found = skips(EVERY, storage=store())[2]
    top = skips_trace(found)
    assert (top.value, top.find("need_mm") is not None) == (found[0].rain_mm, True)


def test_no_skip_is_said_in_the_trace() -> None:
    assert "no rain" in skips_trace(()).note


def test_pots_whose_part_of_rain_nobody_gave_are_noted() -> None:
    made, _, found = skips(zone(rain_counted=None), storage=store())
    assert [one.level for one in skip_findings(made, found)] == ["note"]


@pytest.mark.parametrize(
    ("one", "storage"),
    [
        (zone(rain_counted=0.5), store()),
        (zone(rain_counted=None), None),
        (zone(rain_counted=None, grown_in="soil"), store()),
    ],
)
def test_a_known_part_an_event_rule_and_soil_need_no_note(
    one: Zone, storage: Any
) -> None:
    made, _, found = skips(one, storage=storage)
    assert found
    assert skip_findings(made, found) == ()


@pytest.mark.parametrize(
    ("rain_mm", "metric_mm", "us_in"),
    [(4.0, 4.0, 0.20), (4.01, 5.0, 0.20), (0.2, 1.0, 0.05), (5.1, 6.0, 0.25)],
)
def test_a_gauge_is_read_up_to_its_next_mark(
    rain_mm: float, metric_mm: float, us_in: float
) -> None:
    one = RainSkip(0, None, rain_mm, skips_trace(()))
    assert one.at_gauge_mm("metric") == pytest.approx(metric_mm)
    assert one.at_gauge_mm("us") / MM_PER_INCH == pytest.approx(us_in)


# --- laws ----------------------------------------------------------------------------

SITES = st.fixed_dictionaries(
    {
        "etc_mm_per_day": st.floats(0.5, 9.0).map(lambda use: np.full(7, use)),
        "storage": st.sampled_from([store(), store(12.0, 6.0), store(80.0, 40.0)]),
        "start_depletion_mm": st.floats(0.0, 6.0),
        "share": st.sampled_from([np.ones(24), FIRST_SHARE]),
        "allowed_day": st.sampled_from([nights(*range(7)), nights(0, 2, 4, 5)]),
    }
)
RULES = st.sampled_from(["average", "low half", "low quarter"])
COUNTED = st.sampled_from([None, 1.0, 0.4])


def after_rain(
    made: ZoneWeekInput, planned: ZoneWeek, skip: RainSkip, rain_mm: float
) -> float:
    """Largest depletion at the served position until the clock waters again."""
    at_roots = rain_mm * (made.zone.rain_counted or 1.0)
    lacking = dict(zip(planned.day_index, planned.night_need_mm, strict=True))
    left = max(lacking[skip.night] - at_roots, 0.0)
    later = [night for night in planned.day_index if night > skip.night]
    until = later[0] if later else 7 + made.allowed_nights[0]
    n_days = until - skip.night
    use = np.resize(made.etc_mm_per_day, 14)[skip.night + 1 : until + 1]
    assert made.storage is not None
    run = run_balance(
        [left],
        etc_mm_per_day=use,
        rain_mm=np.zeros(n_days),
        watering_mm=np.zeros((n_days, 1)),
        storage=made.storage,
    )
    return float(run.depletion_mm.max())


@settings(max_examples=80, deadline=None)
@given(SITES, RULES, COUNTED)
def test_the_rain_of_a_skip_is_enough_until_the_clock_waters_again(
    site: dict[str, Any], rule: Any, counted: float | None
) -> None:
    made, planned, found = skips(zone(rule=rule, rain_counted=counted), **site)
    for skip in found:
        watered = after_rain(made, planned, skip, math.inf)
        allowed = max(site["storage"].allowed_mm, watered)
        assert after_rain(made, planned, skip, skip.rain_mm) <= allowed + 1e-6


@settings(max_examples=80, deadline=None)
@given(SITES, RULES, COUNTED)
def test_half_the_rain_of_a_skip_is_not_enough(
    site: dict[str, Any], rule: Any, counted: float | None
) -> None:
    made, planned, found = skips(zone(rule=rule, rain_counted=counted), **site)
    for skip in found:
        if skip.rain_mm > 0.1:
            dry = after_rain(made, planned, skip, skip.rain_mm / 2)
            assert dry > site["storage"].allowed_mm - 1e-6


@settings(max_examples=60, deadline=None)
@given(SITES, RULES)
def test_planned_with_the_rain_of_a_skip_that_night_is_not_due(
    site: dict[str, Any], rule: Any
) -> None:
    _, planned, found = skips(zone(rule=rule), **site)
    for skip in found:
        # rain that has to fill the root zone does what the watering would have done
        fills = skip.rain_mm > planned.night_need_mm[0] - 1e-6
        if skip.night == 0 and not fills:
            rain = np.zeros(7)
            rain[1] = skip.rain_mm + 1e-6
            wet = inputs(zone(rule=rule), **site, rain_mm=rain)
            assert 0 not in clocked(wet).demand.nights
