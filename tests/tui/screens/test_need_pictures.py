"""What the pictures of the need page are drawn from, on the demo sites."""

import datetime as dt
import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from scheduler.files.demo import demo_source
from scheduler.need.kc_year import KcYear
from scheduler.plan import WeekPlan, ZonePlan
from scheduler.trace import entered
from scheduler.watering.group_outcomes import GroupOutcome
from tui import session as state
from tui.screens import need_pictures as pictures
from tui.session import Session


@pytest.fixture(scope="module")
def field() -> Session:
    """A site whose station has years enough for a cool and a hot week."""
    return state.open_session(Path(demo_source() / "alder_flat"))


def week_of(session: Session) -> WeekPlan:
    assert session.plan is not None
    return session.plan


def plan_of(session: Session, zone: str) -> ZonePlan:
    plan = state.zone_plan(session, zone)
    assert plan is not None
    return plan


# --- weather -----------------------------------------------------------------


def test_fourteen_days_lie_behind_and_seven_ahead(field: Session) -> None:
    columns = pictures.day_columns(week_of(field), "metric")
    assert columns is not None
    assert (columns.today, len(columns.upper)) == (14, 21)
    assert columns.days[14] == "8"


def test_measured_days_and_averages_have_signs_of_their_own(field: Session) -> None:
    columns = pictures.day_columns(week_of(field), "metric")
    assert columns is not None
    assert columns.signs == ("m",) * 14 + ("o",) * 7
    assert "m measured, o own average" in columns.heads[0]


def test_values_are_those_of_the_plan_in_the_unit_of_the_face(field: Session) -> None:
    week = week_of(field)
    columns = pictures.day_columns(week, "us")
    assert columns is not None
    assert week.weather is not None
    eto = float(week.weather.eto_mm_per_day[0])
    assert columns.upper[14] == pytest.approx(eto / 25.4)


def test_rain_of_a_forecast_is_shown_and_said_not_to_count(field: Session) -> None:
    week = week_of(field)
    assert week.weather is not None
    told = np.array([math.nan, 9.0, *[0.0] * 5])
    wet = replace(week, weather=replace(week.weather, rain_ahead_mm=told))
    columns = pictures.day_columns(wet, "metric")
    assert columns is not None
    assert columns.lower[15] == pytest.approx(9.0)
    assert "not counted" in columns.heads[1]


def test_a_week_that_takes_last_weeks_demand_says_so(field: Session) -> None:
    week = week_of(field)
    assert week.weather is not None
    earlier = replace(week.weather, date=week.weather.date - 7)
    columns = pictures.day_columns(replace(week, weather=earlier), "metric")
    assert columns is not None
    assert "the week before day for day" in columns.words[1]
    assert math.isnan(columns.lower[14])
    assert (
        "day for day" in pictures.weather_note(replace(week, weather=earlier), "us")[1]
    )


def test_without_weather_nothing_is_drawn(field: Session) -> None:
    assert pictures.day_columns(replace(week_of(field), weather=None), "us") is None


def test_words_say_what_rain_rests_on(field: Session) -> None:
    words = pictures.weather_words(week_of(field), "metric")
    assert words[0].startswith("14 days behind: ETo 57.8 mm (measured); rain 5.1 mm")


# --- coefficient -------------------------------------------------------------


def _year(**given: object) -> KcYear:
    date = np.datetime64("2026-01-01") + np.arange(365)
    base: dict[str, object] = {
        "date": date,
        "kc": np.linspace(0.4, 0.8, 365),
        "basal": None,
        "today": 158,
        "kind": "by month, in steps",
        "area": "pot top",
        "source": "weighed pots",
        "note": "",
        "trace": entered("kc", 0.6),
    }
    return KcYear(**{**base, **given})  # type: ignore[arg-type]


def test_the_curve_says_its_area_and_its_source() -> None:
    said = " ".join(pictures.kc_words(_year()))
    assert "on the pot top area: by month, in steps." in said
    assert "Through the year 0.40 to 0.80. From: weighed pots." in said


def test_today_is_marked_on_the_curve() -> None:
    lines = pictures.kc_lines(_year())
    assert (lines.today, lines.limit) == (158, None)


def test_plants_alone_are_drawn_beside_wet_ground() -> None:
    lines = pictures.kc_lines(_year(basal=np.full(365, 0.3)))
    assert lines.other[0] == pytest.approx(0.3)
    assert "Kcb" in lines.legend
    assert lines.words[0].startswith("Kcb 0.30 and, with wet ground, Kc 0.57")


def test_a_note_is_said_once() -> None:
    said = pictures.kc_words(_year(note="by month, in steps; all times kc_factor"))
    assert said[-1] == "All times kc_factor."


# --- depletion ---------------------------------------------------------------


def test_every_quarter_and_the_served_position_have_a_line(field: Session) -> None:
    course = pictures.course_days(plan_of(field, "A1"), "metric")
    assert course is not None
    names = [one.name for one in (*course.others, course.main)]
    assert names == ["driest", "second", "third", "wettest", "served"]
    assert course.today == 14


def test_the_week_of_the_picture_is_that_of_the_plan(field: Session) -> None:
    plan = plan_of(field, "A1")
    course = pictures.course_days(plan, "metric")
    assert course is not None
    assert course.main.values[14:] == pytest.approx(plan.served_depletion_mm)


def test_days_past_the_allowed_line_are_named(field: Session) -> None:
    plan = plan_of(field, "A4")
    assert plan.course is not None
    low = replace(plan, course=replace(plan.course, allowed_mm=20.0))
    course = pictures.course_days(low, "metric")
    assert course is not None
    assert course.words[-1].startswith("▲ Past the allowed line where the rule serves")


def test_without_balance_no_depletion_is_drawn(field: Session) -> None:
    assert pictures.course_days(plan_of(field, "A5"), "metric") is None


# --- the week ----------------------------------------------------------------


def test_cool_planned_and_hot_stand_under_each_other(field: Session) -> None:
    rows = pictures.range_rows(plan_of(field, "A2"), "metric")
    assert rows is not None
    assert [one.name for one in rows.rows] == ["cool", "planned", "hot"]
    assert "3 years" in rows.facts[0]


def test_a_site_without_years_says_why_there_is_no_range(opened: Session) -> None:
    rows = pictures.range_rows(plan_of(opened, "Z1"), "us")
    assert rows is not None
    assert [one.name for one in rows.rows] == ["planned"]
    assert "three years" in rows.facts[0]


def test_rain_skips_are_in_the_units_of_the_face(opened: Session) -> None:
    rows = pictures.range_rows(plan_of(opened, "Z1"), "us")
    assert rows is not None
    assert rows.facts[1].startswith("Skip a night if more rain falls: Mon 0.15")
    assert rows.facts[1].endswith(" in.")


def test_what_falls_into_a_pot_is_said(opened: Session) -> None:
    rows = pictures.range_rows(plan_of(opened, "Z1"), "us")
    assert rows is not None
    assert "mL into a pot" in rows.facts[-1]


def test_groups_under_one_valve_are_named(opened: Session) -> None:
    none = entered("got_over_need", 1.2)
    groups = (
        GroupOutcome("fern", True, 30.0, 1.0, 3.0, none),
        GroupOutcome("box", False, 25.0, 1.2, 4.0, none),
    )
    plan = replace(plan_of(opened, "Z1"), groups=groups, skips=())
    rows = pictures.range_rows(plan, "metric")
    assert rows is not None
    assert "box uses 25.0 mm on the bed, gets 120 % of its need" in " ".join(rows.facts)
    assert "No rain makes a planned watering needless." in rows.facts


def test_a_zone_with_fixed_minutes_has_no_need(opened: Session) -> None:
    assert pictures.range_rows(plan_of(opened, "Z8"), "us") is None


def test_days_are_those_of_the_calendar(field: Session) -> None:
    assert week_of(field).start == dt.date(2015, 6, 8)
