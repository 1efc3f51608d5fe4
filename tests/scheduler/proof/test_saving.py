"""Two periods made comparable: a worked example, laws, and what is not claimed."""

import datetime as dt
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.proof.period import Period
from scheduler.proof.saving import Saving, saving
from scheduler.supply import Supply
from scheduler.unit_table import L_PER_US_GALLON, M2_PER_ACRE, MM_PER_INCH

MGAL = 1e6 * L_PER_US_GALLON / 1000.0
# A worked year on 3.0 acres: 2.10 Mgal at 24 in of ETo, of them nine hours of frost at
# 200 gpm; the year after 1.55 Mgal at 21 in, on 0.2 acres less.
BEFORE = Period(
    name="2025", start=dt.date(2025, 1, 1), stop=dt.date(2026, 1, 1), days=365,
    water_m3=2.10 * MGAL, frost_m3=9 * 60 * 200 * L_PER_US_GALLON / 1000.0,
    is_frost_metered=False, area_m2=3.0 * M2_PER_ACRE, eto_mm=24.0 * MM_PER_INCH,
)  # fmt: skip
AFTER = Period(
    name="2026", start=dt.date(2026, 1, 1), stop=dt.date(2027, 1, 1), days=365,
    water_m3=1.55 * MGAL, area_m2=2.8 * M2_PER_ACRE, eto_mm=21.0 * MM_PER_INCH,
)  # fmt: skip


def change(key: str, found: Saving | None = None) -> float:
    step = (found or saving(BEFORE, AFTER)).step(key)
    assert step is not None
    assert step.change is not None
    return step.change


def test_the_raw_change_of_the_worked_year_is_26_percent() -> None:
    assert f"{change('raw'):.0%}" == "-26%"


def test_at_the_same_weather_it_is_16_percent() -> None:
    assert f"{change('weather'):.0%}" == "-16%"


def test_without_frost_water_it_is_11_percent() -> None:
    # (1.55 x 24/21) / (2.10 - 0.108) = 0.8893
    assert change("frost") == pytest.approx(-0.1107, abs=1e-4)


def test_on_the_same_ground_it_is_5_percent() -> None:
    # 0.8893 x 3.0/2.8 = 0.9528
    assert change("area") == pytest.approx(-0.0472, abs=1e-4)


def test_what_is_claimed_is_never_the_raw_change() -> None:
    found = saving(BEFORE, AFTER)
    assert found.actual is not None
    assert found.actual.key == "area"


def test_hours_times_flow_are_said_to_be_an_estimate() -> None:
    step = saving(BEFORE, AFTER).step("frost")
    assert step is not None
    assert step.is_estimated
    assert "not metered" in step.note


def test_more_frost_water_than_water_is_a_slip_and_nothing_is_claimed() -> None:
    found = saving(BEFORE, replace(AFTER, frost_m3=9.0 * MGAL))
    assert found.actual is None
    assert "more frost water than water" in found.why_not


def test_ground_that_nobody_told_is_taken_as_the_same_and_said() -> None:
    found = saving(replace(BEFORE, area_m2=None), replace(AFTER, area_m2=None))
    assert change("area", found) == change("frost", found)
    assert any("ground before and after" in one.what for one in found.findings)


def test_of_both_kinds_of_weather_the_smaller_saving_goes_on() -> None:
    wet = replace(AFTER, rain_used_mm=10.0 * MM_PER_INCH)
    found = saving(replace(BEFORE, rain_used_mm=6.0 * MM_PER_INCH), wet)
    assert change("weather and rain", found) == pytest.approx(1.55 / 2.10 * 18 / 11 - 1)
    assert change("frost", found) > change("weather", found)


def test_rain_that_nobody_read_makes_no_line() -> None:
    assert saving(BEFORE, AFTER).step("weather and rain") is None


def test_an_estimate_from_the_clock_is_never_a_claim() -> None:
    found = saving(replace(BEFORE, is_metered=False), AFTER)
    assert found.actual is None
    assert "estimate, not metered" in found.why_not


def test_weather_of_other_years_is_never_a_claim() -> None:
    found = saving(BEFORE, replace(AFTER, weather_is_measured=False))
    assert found.actual is None
    assert "was not measured" in found.why_not


def test_without_water_after_nothing_is_actual() -> None:
    found = saving(BEFORE, replace(AFTER, water_m3=None))
    assert found.actual is None
    assert found.why_not == "the water of 2026 is not known"


def test_without_weather_only_the_raw_line_stands() -> None:
    found = saving(BEFORE, replace(AFTER, eto_mm=None))
    assert [one.key for one in found.steps if one.change is not None] == ["raw"]
    assert found.actual is None


def test_periods_of_other_length_have_a_line_by_the_day() -> None:
    found = saving(BEFORE, replace(AFTER, days=180))
    assert change("a day", found) == pytest.approx(1.55 / 2.10 * 365 / 180 - 1)


def test_other_months_are_a_warning() -> None:
    later = replace(AFTER, start=dt.date(2026, 5, 1))
    said = saving(BEFORE, later).findings
    assert any("not the same part of the year" in one.what for one in said)


def test_january_and_december_are_near() -> None:
    near = replace(AFTER, start=dt.date(2025, 12, 28))
    said = saving(replace(BEFORE, start=dt.date(2025, 1, 3)), near).findings
    assert not any("part of the year" in one.what for one in said)


def test_energy_lifts_the_water_by_the_head() -> None:
    # 1 m3 by 100 m at 50 %: 1000 x 9.80665 x 100 / 0.5 J = 0.5448 kWh
    pump = Supply(source="well", head_m=100.0, pumping_efficiency=0.5)
    found = saving(BEFORE, AFTER, supply=pump)
    assert found.kwh_per_m3 == pytest.approx(0.54481, abs=1e-5)


def test_without_head_there_is_no_energy() -> None:
    found = saving(BEFORE, AFTER, supply=Supply(source="well"))
    assert found.energy_kwh(found.steps[0]) == (None, None)


def test_without_tests_the_potential_is_not_known() -> None:
    assert saving(BEFORE, AFTER).potential is None


def test_the_trace_holds_the_claimed_change_and_its_inputs() -> None:
    found = saving(BEFORE, AFTER)
    assert found.trace.value == change("area")
    assert found.trace.find("before_eto_mm") is not None


WATER = st.floats(1.0, 1e6)
ETO = st.floats(10.0, 2000.0)


@given(water=WATER, eto=ETO)
def test_the_same_period_twice_saves_nothing(water: float, eto: float) -> None:
    one = replace(BEFORE, water_m3=water, eto_mm=eto, frost_m3=0.0)
    assert change("area", saving(one, one)) == pytest.approx(0.0, abs=1e-12)


@given(water=WATER, eto=ETO, times=st.floats(0.2, 5.0))
def test_water_that_follows_eto_saves_nothing(
    water: float, eto: float, times: float
) -> None:
    old = replace(BEFORE, water_m3=water, eto_mm=eto, frost_m3=0.0)
    new = replace(old, water_m3=water * times, eto_mm=eto * times)
    assert change("area", saving(old, new)) == pytest.approx(0.0, abs=1e-9)


@given(frost=st.floats(0.0, 1000.0))
def test_frost_water_of_the_year_before_makes_no_saving(frost: float) -> None:
    dry = replace(BEFORE, frost_m3=0.0)
    cold = replace(dry, water_m3=2.10 * MGAL + frost, frost_m3=frost)
    assert change("frost", saving(cold, AFTER)) == pytest.approx(
        change("frost", saving(dry, AFTER))
    )
