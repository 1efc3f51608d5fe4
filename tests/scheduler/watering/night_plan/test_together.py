"""What is open together: stretches by hand, laws, and hours of note."""

import datetime as dt
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder
from scheduler.plan import build_week
from scheduler.site import BlockedHours, Tariff
from scheduler.supply import EnergyPeriod
from scheduler.watering.night_plan.result import NightWindow, PlannedRun
from scheduler.watering.night_plan.together import noted_hours, stretches
from tests.scheduler.watering.night_plan.made import MONDAY, site

TEN = dt.datetime.combine(MONDAY, dt.time(22))


def run(zone: str, start: int, end: int, flow: float | None = 100.0) -> PlannedRun:
    at = [TEN + dt.timedelta(minutes=minute) for minute in (start, end)]
    return PlannedRun(zone, MONDAY, at[0], at[1], flow)


def night(start: dt.datetime = TEN, minutes: int = 390) -> NightWindow:
    end = start + dt.timedelta(minutes=minutes)
    return NightWindow(MONDAY, start, end, minutes, 0, None, None, (), 0.0)


# --- stretches, by hand --------------------------------------------------------


def test_two_that_overlap_make_three_stretches() -> None:
    found = stretches([run("Z1", 0, 30), run("Z2", 20, 50, 60.0)])
    assert [one.zones for one in found] == [("Z1",), ("Z1", "Z2"), ("Z2",)]
    assert [one.flow_l_per_min for one in found] == [100.0, 160.0, 60.0]


def test_a_gap_is_no_stretch() -> None:
    found = stretches([run("Z1", 0, 10), run("Z2", 20, 30)])
    assert [one.start.minute for one in found] == [0, 20]


def test_an_unknown_flow_is_named_and_not_counted() -> None:
    (found,) = stretches([run("Z1", 0, 10), run("Z8", 0, 10, None)])
    assert (found.flow_l_per_min, found.unknown) == (100.0, ("Z8",))


def test_no_run_is_no_stretch() -> None:
    assert stretches([]) == ()


def test_the_highest_stretch_of_a_night_is_the_plans_peak() -> None:
    found = read_site_folder(demo_source() / "tern_hollow")
    assert found.site is not None
    plan = build_week(found.site, found.history, MONDAY)
    assert plan.night is not None
    for window in plan.night.summary.windows:
        runs = [one for one in plan.night.runs if one.night == window.night]
        most = max(one.flow_l_per_min for one in stretches(runs))
        assert most == pytest.approx(window.peak_flow_l_per_min)


# --- laws ----------------------------------------------------------------------

RUNS = st.lists(
    st.tuples(st.integers(0, 300), st.integers(1, 90), st.floats(1.0, 500.0)),
    max_size=8,
)


@given(RUNS)
def test_no_water_is_lost_or_counted_twice(drawn: list[tuple[int, int, float]]) -> None:
    runs = [run(f"Z{i}", a, a + n, q) for i, (a, n, q) in enumerate(drawn)]
    litres = sum(n * q for _, n, q in drawn)
    told = sum(
        one.flow_l_per_min * (one.end - one.start).total_seconds() / 60
        for one in stretches(runs)
    )
    assert told == pytest.approx(litres)


@given(RUNS)
def test_stretches_follow_each_other(drawn: list[tuple[int, int, float]]) -> None:
    runs = [run(f"Z{i}", a, a + n, q) for i, (a, n, q) in enumerate(drawn)]
    found = stretches(runs)
    assert all(a.end <= b.start for a, b in pairwise(found))


# --- hours of note -------------------------------------------------------------


def blocked(
    start: int, end: int, *days: str, zones: tuple[str, ...] = ()
) -> BlockedHours:
    return BlockedHours.model_validate(
        {"start": dt.time(start), "end": dt.time(end), "days": days,
         "reason": "spraying", "zones": zones}
    )  # fmt: skip


def test_blocked_hours_of_the_next_calendar_day_reach_into_the_night() -> None:
    place = site(blocked_hours=(blocked(2, 3, "tue"), blocked(2, 3, "wed")))
    (found,) = noted_hours(place, night())
    assert (found.start, found.end) == (
        TEN + dt.timedelta(hours=4),
        TEN + dt.timedelta(hours=5),
    )


def test_hours_that_hold_the_night_back_are_named_too() -> None:
    place = site(blocked_hours=(blocked(22, 23, "mon"),))
    (found,) = noted_hours(place, night(TEN + dt.timedelta(hours=1), 330))
    assert (found.reason, found.end.hour) == ("spraying", 23)


def test_hours_of_another_day_are_left_out() -> None:
    place = site(blocked_hours=(blocked(12, 14, "mon"), blocked(22, 23, "sat")))
    assert noted_hours(place, night()) == ()


def test_energy_periods_are_named_with_their_price() -> None:
    dear = EnergyPeriod(start=dt.time(17), end=dt.time(23), price_money_per_kwh=0.3)
    early = EnergyPeriod(start=dt.time(17), end=dt.time(22), price_money_per_kwh=0.9)
    place = site(tariff=Tariff(currency="USD", period=(dear, early)))
    (found,) = noted_hours(place, night())
    assert (found.reason, found.price_money_per_kwh) == ("energy price", 0.3)
