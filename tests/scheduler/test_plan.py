"""The one door: a site and its history in, one week out."""

import copy
import datetime as dt
from typing import Any

import numpy as np
import pytest

from scheduler.errors import QuantityError
from scheduler.issued import IssuedWeek, IssuedZone
from scheduler.plan import ZonePlan, build_week
from scheduler.record import (
    CanRun,
    CanTest,
    DailySeries,
    History,
)
from scheduler.site import (
    AsFound,
    Intake,
    Package,
    Place,
    Plant,
    Pots,
    Site,
    Soil,
    Window,
    Zone,
)
from scheduler.units import MM_PER_INCH

TODAY = dt.date(2026, 6, 8)
PLACE = Place(
    latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0, time_zone="UTC"
)
# A worked first visit: 24 cans, mouth 4.25 in, 30 minutes, heads 30 x 30 ft at 4.6 gpm.
FIRST_VISIT_ML = [
    [41, 52, 60, 48, 66, 71, 58, 39],
    [55, 63, 74, 69, 47, 36, 59, 68],
    [50, 44, 62, 57, 33, 53, 65, 70],
]
MOUTH_CM2 = np.pi * (4.25 * 2.54) ** 2 / 4
PACKAGE = Package(id="p", nozzle_flow_l_per_min=4.6 * 3.785411784, spacing_m=9.144)
DAYS = ("mon", "tue", "wed", "thu", "fri", "sat")


def can_test(
    readings: Any = FIRST_VISIT_ML,
    *,
    mouth_area_cm2: float | None = MOUTH_CM2,
    unit: Any = "ml",
    minutes: float = 30.0,
) -> CanTest:
    grid = np.array(readings, dtype=float)
    code = tuple(tuple("" for _ in row) for row in grid)
    label = tuple(
        tuple(f"{chr(65 + j)}{i + 1}" for j in range(grid.shape[1]))
        for i in range(grid.shape[0])
    )
    where = "tests/2026-05-12-Z4/run1.csv"
    run = CanRun("run1", where, grid, code, label, unit, minutes)  # type: ignore[arg-type]
    return CanTest(
        "2026-05-12-Z4",
        "tests/2026-05-12-Z4/test.toml",
        "Z4",
        dt.date(2026, 5, 12),
        "as found",
        mouth_area_cm2,
        (run,),
    )


def weather(
    eto_mm_per_day: float, rain_mm: float = 0.0, n_days: int = 60
) -> DailySeries:
    """Days before today whose station reports its own reference ET."""
    unknown = np.full(n_days, np.nan)
    return DailySeries(
        name="station",
        where="weather/station.csv",
        is_typical_year=False,
        wind_height_m=2.0,
        latitude_deg=36.1,
        elevation_m=273.0,
        date=np.datetime64(TODAY) - n_days + np.arange(n_days),
        tmax_degc=unknown,
        tmin_degc=unknown,
        rh_max=unknown,
        rh_min=unknown,
        rh_mean=unknown,
        dew_point_degc=unknown,
        vapour_pressure_kpa=unknown,
        radiation_mj_per_m2_day=unknown,
        sunshine_h=unknown,
        wind_m_per_s=unknown,
        rain_mm=np.full(n_days, rain_mm),
        eto_mm_per_day=np.full(n_days, eto_mm_per_day),
        line=tuple(range(2, n_days + 2)),
    )


def zone(**given: Any) -> Zone:
    plant = Plant(name="holly in #3 pots", kc=0.85, kc_area="bed")
    base: dict[str, Any] = {
        "id": "Z4",
        "name": "can yard",
        "area_m2": 2000.0,
        "package": "p",
        "grown_in": "pots",
        "watered": "every allowed day",
        "days": DAYS,
        "plant": plant,
        "rain_counted": 0.5,
        "as_found": AsFound(minutes=24.0),
    }
    return Zone(**(base | given))


def site(*zones: Zone, **given: Any) -> Site:
    return Site(
        name="Tern Hollow",
        units="us",
        place=PLACE,
        zones=zones,
        packages=(PACKAGE,),
        demand_from="last week",
        **given,
    )


# 1.26 in of ETo and 0.30 in of rain in the week before
LAST_WEEK = weather(1.26 * MM_PER_INCH / 7, 0.30 * MM_PER_INCH / 7)


def planned(one: Zone, *tests: CanTest, days: DailySeries = LAST_WEEK) -> ZonePlan:
    history = History(tests=tests, weather=(days,))
    return build_week(site(one), history, TODAY).zones[0]


def test_the_worked_first_visit_needs_its_printed_depth() -> None:
    plan = planned(zone(), can_test())
    assert plan.need_mm is not None
    assert plan.need_mm / MM_PER_INCH == pytest.approx(0.92, abs=0.005)


@pytest.mark.parametrize(
    ("rule", "minutes"), [("average", 19.2), ("low half", 23.1), ("low quarter", 26.8)]
)
def test_the_worked_first_visit_gives_its_printed_minutes(
    rule: str, minutes: float
) -> None:
    plan = planned(zone(), can_test())
    outcome = next(one for one in plan.rules if one.rule == rule)
    assert outcome.minutes_per_day == pytest.approx(minutes, abs=0.06)


def test_the_clock_gets_whole_minutes_of_the_chosen_rule() -> None:
    assert planned(zone(), can_test()).minutes_per_day == 27


def test_the_first_was_is_the_clock_as_found() -> None:
    plan = planned(zone(), can_test())
    assert (plan.was_minutes, plan.was_from) == (24.0, "clock as found")


def test_percent_adjust_scales_what_the_clock_was_found_to_run() -> None:
    from scheduler.site import Controller

    whole = site(zone(), controller=Controller(percent_adjust=130))
    plan = build_week(whole, History((can_test(),), (LAST_WEEK,)), TODAY).zones[0]
    assert plan.was_minutes == pytest.approx(31.2)


def test_an_issued_week_is_the_next_was() -> None:
    issued = IssuedWeek("2026-W23", dt.date(2026, 6, 1), (IssuedZone("Z4", 25, 1, ()),))
    history = History((can_test(),), (LAST_WEEK,), issued=(issued,))
    plan = build_week(site(zone()), history, TODAY).zones[0]
    assert (plan.was_minutes, plan.was_from) == (25, "issued week 2026-W23")


def test_a_can_mouth_that_cannot_be_blocks_the_zone() -> None:
    # the base (3.0 in) was entered for the mouth: the cans caught 196 % of the flow
    plan = planned(zone(), can_test(mouth_area_cm2=np.pi * 7.62**2 / 4))
    assert plan.status == "blocked"
    assert plan.minutes_per_day is None
    assert any("196" in one.what for one in plan.findings if one.level == "stop")


def test_a_blocked_zone_does_not_hide_the_others() -> None:
    other = zone(id="Z5", name="other")
    bad = can_test(mouth_area_cm2=np.pi * 7.62**2 / 4)
    whole = build_week(site(zone(), other), History((bad,), (LAST_WEEK,)), TODAY)
    assert [one.status for one in whole.zones] == ["blocked", "planned"]


def test_an_untested_zone_says_what_it_assumes_and_is_due_a_test() -> None:
    whole = build_week(site(zone()), History(weather=(LAST_WEEK,)), TODAY)
    plan = whole.zones[0]
    assert plan.evidence is not None
    assert plan.evidence.basis == "assumed"
    assert any(one.level == "warning" for one in plan.findings)
    assert any("Z4" in one.where for one in whole.tests_due)


def test_fixed_minutes_stay_whatever_the_weather() -> None:
    mist = zone(watered="fixed minutes", fixed_minutes=5.0, fixed_reason="mist")
    calm = planned(mist, can_test())
    hot = planned(mist, can_test(), days=weather(12.0))
    assert calm.minutes_per_day == hot.minutes_per_day == 5
    assert calm.status == "fixed"


def test_a_zone_that_is_off_has_no_numbers() -> None:
    plan = planned(zone(watered="off"), can_test())
    assert plan.status == "off"
    assert plan.minutes_per_day is None


def test_field_soil_above_its_intake_is_split_with_soaks() -> None:
    # 0.62 in/h on even cans, intake 0.25 in/h, 0.10 in of surface storage
    even = [[0.31] * 8] * 3
    liner = zone(
        grown_in="soil",
        rule="average",
        rain_counted=None,
        soil=Soil(
            texture="clay loam", root_depth_m=0.5, allowed_depletion=0.5, slope=0.02
        ),
        intake=Intake(intake_mm_per_h=6.35, surface_storage_mm=2.54),
        watered="when due",
        start_depletion_mm=28.0,
        package=None,
    )
    test = can_test(even, unit="in", mouth_area_cm2=None)
    plan = planned(liner, test)
    assert plan.cycles is not None
    assert plan.cycles > 1
    assert plan.cycle_minutes is not None
    assert plan.cycle_minutes <= 16
    assert plan.soak_minutes is not None
    assert plan.soak_minutes >= 23


def test_a_zone_is_only_watered_in_nights_that_a_window_allows() -> None:
    window = Window(start=dt.time(22), end=dt.time(4), days=("mon", "thu"))
    whole = site(zone(), windows=(window,))
    plan = build_week(whole, History((can_test(),), (LAST_WEEK,)), TODAY).zones[0]
    assert {f"{day:%a}" for day in plan.days} == {"Mon", "Thu"}


def test_the_chain_of_the_minutes_reaches_the_cans() -> None:
    names = [one.name for one in planned(zone(), can_test()).trace.chain()]
    for wanted in ("net_rate_mm_per_h", "du_lq", "etc_mm", "need_mm", "factor"):
        assert wanted in names
    assert names[-1] == "minutes_per_day"


def test_without_any_weather_nothing_is_planned_and_it_says_so() -> None:
    whole = build_week(site(zone()), History((can_test(),)), TODAY)
    assert whole.zones[0].status == "blocked"
    assert any(one.level == "stop" for one in whole.findings)


def test_fixed_minutes_need_no_weather() -> None:
    mist = zone(
        id="Z8", watered="fixed minutes", fixed_minutes=5.0, fixed_reason="mist"
    )
    whole = build_week(site(mist, zone()), History((can_test(),)), TODAY)
    assert [one.status for one in whole.zones] == ["fixed", "blocked"]
    assert whole.zones[0].minutes_per_day == 5


def test_rain_of_last_week_is_not_taken_off_twice() -> None:
    # the start holds last week's rain: the need is the start and the use, no rain less
    given: dict[str, Any] = {
        "pots": Pots(top_diameter_mm=267.0, capture_factor=1.2, available_water_ml=2e4),
        "rain_counted": None,
        "as_found": AsFound(minutes=0.0),
        "days": ("sun",),
        "rule": "average",
    }
    plan = planned(zone(**given), can_test(), days=weather(4.0, 1.0))
    # 14 days of 3.4 - 1 mm before the week (the first rain finds no room), then 7 x 3.4
    assert plan.need_mm == pytest.approx(14 * 2.4 + 1.0 + 7 * 3.4)
    assert plan.effective_rain_mm == 0.0


@pytest.mark.parametrize("year", [1, 9999])
def test_a_day_at_the_end_of_the_calendar_is_refused(year: int) -> None:
    with pytest.raises(QuantityError, match="no week can be planned"):
        build_week(site(zone()), History(), TODAY, start=dt.date(year, 12, 31))


def test_the_same_inputs_give_the_same_week() -> None:
    history = History((can_test(),), (LAST_WEEK,))
    one, two = (build_week(site(zone()), history, TODAY) for _ in range(2))
    assert one.zones[0].trace == two.zones[0].trace


def test_planning_changes_no_input() -> None:
    history = History((can_test(),), (LAST_WEEK,))
    before = copy.deepcopy(history)
    build_week(site(zone()), history, TODAY)
    run, was = history.tests[0].runs[0], before.tests[0].runs[0]
    np.testing.assert_array_equal(run.reading, was.reading)
    np.testing.assert_array_equal(
        history.weather[0].eto_mm_per_day, before.weather[0].eto_mm_per_day
    )


def test_order_of_zones_does_not_change_a_zone() -> None:
    a, b = zone(), zone(id="Z5", name="other", days=("mon",))
    history = History((can_test(),), (LAST_WEEK,))
    one = build_week(site(a, b), history, TODAY).zones[0]
    two = build_week(site(b, a), history, TODAY).zones[1]
    assert one.minutes_week == two.minutes_week


def test_pots_with_known_water_keep_a_balance() -> None:
    pots = Pots(
        top_diameter_mm=267.0,
        spacing_m=0.45,
        capture_factor=1.2,
        available_water_ml=1500.0,
        allowed_depletion=0.4,
    )
    plan = planned(zone(pots=pots, rain_counted=None), can_test())
    assert plan.allowed_mm is not None
    assert len(plan.served_depletion_mm) == 7


def test_rain_that_nobody_wrote_down_before_the_week_is_said() -> None:
    unknown = weather(5.0, rain_mm=np.nan)
    plan = build_week(site(zone()), History((can_test(),), (unknown,)), TODAY)
    (said,) = (one for one in plan.findings if "rain of" in one.what)
    assert said.level == "warning"
    assert "none is counted" in said.what


def test_the_leached_rule_without_salt_blocks_the_zone() -> None:
    soil = Soil(texture="loam", root_depth_m=0.4, slope=0.01)
    bay = zone(grown_in="soil", soil=soil, rule="low quarter, leached")
    plan = planned(bay, can_test())
    assert plan.status == "blocked"
    assert any(one.level == "stop" and "rule" in one.where for one in plan.findings)


def test_pots_with_a_leaching_target_say_what_each_quarter_leaches() -> None:
    pots = Pots(top_diameter_mm=254.0, spacing_m=0.4, leaching_target=0.15)
    plan = planned(zone(pots=pots), can_test())
    assert plan.leaching is not None
    assert plan.leaching.target == 0.15
    # the worked catch, DU 0.72, under low quarter: 100, 132, 153, 175 % of the need
    expected = (0.0, 1 - 1 / 1.32, 1 - 1 / 1.53, 1 - 1 / 1.75)
    assert plan.leaching.quarters == pytest.approx(expected, abs=0.015)
    assert plan.rule == "low quarter"


# the rule low quarter fills what the driest quarter gets: minutes go as 1 / DU
def test_another_uniformity_may_be_tried() -> None:
    history = History(tests=(can_test(),), weather=(LAST_WEEK,))
    tried = build_week(site(zone()), history, TODAY, tried_du={"Z4": 0.9}).zones[0]
    own = planned(zone(), can_test())
    assert own.evidence is not None
    assert own.minutes_exact is not None
    assert tried.minutes_exact == pytest.approx(
        own.minutes_exact * own.evidence.du_lq / 0.9, rel=0.01
    )


def test_other_zones_do_not_follow_what_is_tried_in_one() -> None:
    history = History(tests=(can_test(),), weather=(LAST_WEEK,))
    tried = build_week(site(zone()), history, TODAY, tried_du={"Z1": 0.9}).zones[0]
    assert tried.minutes_exact == planned(zone(), can_test()).minutes_exact


def test_a_week_holds_the_weather_of_the_days_behind() -> None:
    history = History(tests=(can_test(),), weather=(LAST_WEEK,))
    behind = build_week(site(zone()), history, TODAY).behind
    assert behind is not None
    assert behind.date.tolist()[-1] == TODAY - dt.timedelta(1)
    assert behind.eto_basis == ("measured",) * 14


def test_a_kept_balance_has_a_course_that_ends_with_the_week() -> None:
    pots = Pots(top_diameter_mm=254.0, spacing_m=0.5, available_water_ml=2000.0,
                allowed_depletion=0.5, capture_factor=1.0)  # fmt: skip
    plan = planned(zone(pots=pots, watered="when due"), can_test())
    assert plan.course is not None
    assert plan.course.dates[-7:] == plan.dates
    assert tuple(plan.course.served_mm[-7:]) == plan.served_depletion_mm


def test_without_balance_there_is_no_course() -> None:
    assert planned(zone(), can_test()).course is None
