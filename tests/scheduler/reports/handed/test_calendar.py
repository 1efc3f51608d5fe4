"""The calendar: read back by another reader, stable names, nights of a clock change."""

import dataclasses
import datetime as dt
from typing import Any
from zoneinfo import ZoneInfo

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scheduler.record import IssuedWeek, IssuedZone
from scheduler.reports.handed.calendar import (
    Event,
    calendar_ics,
    calendar_json,
    calendar_text,
    clock_change_findings,
    escaped,
    event_uid,
    folded,
    week_events,
)
from scheduler.reports.handed.told import Known, zone_runs
from scheduler.watering.night_plan import PlannedRun
from scheduler.week_plan import WeekPlan
from tests.scheduler.reports.handed.made import MONDAY, hostile_week, week, zone

MADE = dt.datetime(2026, 6, 8, 12, tzinfo=dt.UTC)
YORK = ZoneInfo("America/New_York")


def read_back(plan: WeekPlan, events: tuple[Event, ...]) -> list[Any]:
    """What another reader finds in the file."""
    file = icalendar.Calendar.from_ical(calendar_ics(plan, events, MADE))
    return list(file.walk("VEVENT"))


def on_night(night: dt.date, *starts: tuple[int, int], minutes: int = 60) -> WeekPlan:
    """The demo week with zone Z1 on one night only, at these times."""
    plan = week()
    assert plan.night is not None
    runs, window = [], plan.night.summary.windows[0]
    for hour, minute in starts:
        day = night if hour >= 12 else night + dt.timedelta(days=1)
        start = dt.datetime.combine(day, dt.time(hour, minute))
        end = start + dt.timedelta(minutes=minutes)
        runs.append(PlannedRun("Z1", night, start, end, 100.0))
    begin = dt.datetime.combine(night, dt.time(22))
    window = dataclasses.replace(
        window, night=night, start=begin, end=begin + dt.timedelta(minutes=390)
    )
    summary = dataclasses.replace(plan.night.summary, windows=(window,))
    planned = dataclasses.replace(plan.night, runs=tuple(runs), summary=summary)
    return dataclasses.replace(plan, night=planned, start=night)


# --- events ----------------------------------------------------------------------


@pytest.mark.parametrize("name", ["tern_hollow", "alder_flat"])
def test_there_is_one_event_for_each_zone_and_night_that_waters(name: str) -> None:
    plan = week(name)
    events = week_events(plan, plan.site.units)
    waterings = {(one.zone.id, day) for one in plan.zones for day in one.days}
    assert {(one.zone, one.night) for one in events} == waterings
    assert len({one.uid for one in events}) == len(events)


def test_an_event_reaches_from_the_first_start_to_the_last_end() -> None:
    z7 = next(one for one in week_events(week(), "us") if one.zone == "Z7")
    runs = [one for one in zone_runs(week(), "Z7") if one.night == z7.night]
    assert z7.start.astimezone(YORK).replace(tzinfo=None) == runs[0].start
    assert z7.end.astimezone(YORK).replace(tzinfo=None) == runs[-1].end
    for run in runs:
        assert f"{run.start:%H:%M}-{run.end:%H:%M}" in z7.description


def test_a_flow_that_is_not_known_is_said_in_words() -> None:
    z8 = next(one for one in week_events(week(), "us") if one.zone == "Z8")
    assert z8.description.endswith("Flow not known.")


def test_the_minutes_are_the_plans() -> None:
    for one in week_events(week(), "us"):
        planned = zone(week(), one.zone)
        assert one.summary.endswith(f": {planned.minutes_per_day} min")


def test_a_name_of_an_event_holds_whatever_is_planned() -> None:
    plan = week()
    moved = dataclasses.replace(plan, today=MONDAY + dt.timedelta(days=1), night=None)
    assert event_uid(plan, "Z1", MONDAY) == event_uid(moved, "z1", MONDAY)


def test_another_site_zone_or_night_has_another_name() -> None:
    names = {
        event_uid(week(), "Z1", MONDAY),
        event_uid(week(), "Z2", MONDAY),
        event_uid(week(), "Z1", MONDAY + dt.timedelta(days=1)),
        event_uid(week("alder_flat"), "Z1", MONDAY),
    }
    assert len(names) == 4


def test_a_watering_that_was_issued_and_is_no_longer_planned_is_called_off() -> None:
    plan = week("alder_flat")  # A4 is not due
    day = plan.start + dt.timedelta(days=2)
    told = IssuedZone("a4", 180.0, 1, (day, day + dt.timedelta(days=30)))
    known = Known(issued=(IssuedWeek("r1", plan.start, (told,)),))
    (off,) = [one for one in week_events(plan, "metric", known) if one.is_cancelled]
    assert (off.zone, off.night) == ("A4", day)
    assert off.uid == event_uid(plan, "A4", day)
    (event,) = read_back(plan, (off,))
    assert event["STATUS"] == "CANCELLED"


def test_a_watering_that_stays_is_not_called_off() -> None:
    plan = week()
    told = IssuedZone("Z1", 26.0, 1, zone(plan, "Z1").days)
    known = Known(issued=(IssuedWeek("r1", plan.start, (told,)),))
    assert not any(one.is_cancelled for one in week_events(plan, "us", known))


# --- the file, read back -----------------------------------------------------------


def test_another_reader_finds_every_event_as_it_was() -> None:
    events = week_events(week(), "us")
    for read, one in zip(read_back(week(), events), events, strict=True):
        assert str(read["UID"]) == one.uid
        assert read.decoded("DTSTART") == one.start
        assert read.decoded("DTEND") == one.end
        assert read.decoded("DTSTART").utcoffset() == dt.timedelta(0)
        assert str(read["SUMMARY"]) == one.summary
        assert str(read["DESCRIPTION"]) == one.description


def test_hostile_names_are_text_in_one_event() -> None:
    plan = hostile_week()
    events = week_events(plan, "us")
    read = read_back(plan, events)
    assert len(read) == len(events)
    for event, one in zip(read, events, strict=True):
        assert str(event["SUMMARY"]) == one.summary
        assert "\\" in str(event["SUMMARY"])
        assert "alert" in str(event["LOCATION"])


def test_a_later_file_has_a_higher_sequence() -> None:
    later = MADE + dt.timedelta(minutes=1)
    events = week_events(week(), "us")
    numbers = []
    for made in (MADE, later):
        file = icalendar.Calendar.from_ical(calendar_ics(week(), events, made))
        numbers.append({int(str(one["SEQUENCE"])) for one in file.walk("VEVENT")})
    (first,), (second,) = numbers
    assert 0 < first < second < 2**31


def test_the_moment_it_was_made_is_written_in_utc() -> None:
    local = MADE.astimezone(YORK)
    assert calendar_ics(week(), (), local) == calendar_ics(week(), (), MADE)
    (event, *_) = read_back(week(), week_events(week(), "us"))
    assert event.decoded("DTSTAMP") == MADE


def test_a_calendar_without_events_is_a_calendar() -> None:
    file = icalendar.Calendar.from_ical(calendar_ics(week(), (), MADE))
    assert (str(file["VERSION"]), str(file["METHOD"])) == ("2.0", "PUBLISH")


def test_lines_end_with_both_marks_and_hold_75_octets() -> None:
    plan = hostile_week()
    text = calendar_ics(plan, week_events(plan, "us"), MADE)
    lines = text.split("\r\n")
    assert "\n" not in "".join(lines)
    assert max(len(line.encode()) for line in lines) <= 75


@given(st.text(st.characters(codec="utf-8", exclude_characters="\r\n"), max_size=300))
def test_folding_loses_nothing(text: str) -> None:
    parts = folded(text)
    assert all(len(part.encode()) <= 75 for part in parts)
    assert parts[0] + "".join(part[1:] for part in parts[1:]) == text


@given(st.text(st.sampled_from("a\\;,\nné"), max_size=40))
def test_another_reader_takes_the_marks_of_escaping_off(text: str) -> None:
    line = "\r\n".join(folded(f"SUMMARY:{escaped(text)}"))
    file = f"BEGIN:VEVENT\r\n{line}\r\nEND:VEVENT\r\n"
    read = icalendar.Event.from_ical(file)
    assert str(read.get("SUMMARY", "")) == text


# --- nights on which the clock is moved --------------------------------------------


def test_on_the_long_night_an_hour_that_comes_twice_is_the_first() -> None:
    plan = on_night(dt.date(2026, 10, 31), (1, 30))
    (event,) = week_events(plan, "us")
    assert event.start == dt.datetime(2026, 11, 1, 5, 30, tzinfo=dt.UTC)
    assert event.end - event.start == dt.timedelta(hours=1)


def test_on_the_short_night_a_run_keeps_its_minutes() -> None:
    plan = on_night(dt.date(2026, 3, 7), (1, 30), minutes=90)
    (event,) = week_events(plan, "us")
    assert event.start == dt.datetime(2026, 3, 8, 6, 30, tzinfo=dt.UTC)
    assert event.end == dt.datetime(2026, 3, 8, 8, 0, tzinfo=dt.UTC)


def test_before_and_after_the_change_the_offset_is_that_of_the_hour() -> None:
    before = week_events(on_night(dt.date(2026, 10, 31), (23, 0)), "us")
    after = week_events(on_night(dt.date(2026, 10, 31), (3, 0)), "us")
    assert before[0].start.hour == 3  # four hours behind
    assert after[0].start.hour == 8  # five hours behind


@pytest.mark.parametrize(
    ("night", "how"),
    [(dt.date(2026, 3, 7), "left out"), (dt.date(2026, 10, 31), "comes twice")],
)
def test_a_night_on_which_the_clock_is_moved_is_a_warning(
    night: dt.date, how: str
) -> None:
    (found,) = clock_change_findings(on_night(night, (1, 30)))
    assert found.level == "warning"
    assert how in found.what


def test_other_nights_are_no_finding() -> None:
    assert clock_change_findings(week()) == ()


# --- in words ------------------------------------------------------------------------


def test_the_words_go_by_the_clock_of_the_site() -> None:
    (one, *_) = week_events(week(), "us")
    line = calendar_text(week(), (one,)).splitlines()[1]
    start, end = (at.astimezone(YORK) for at in (one.start, one.end))
    assert line.startswith(f"Mon 8 Jun {start:%H:%M}–{end:%H:%M}")
    assert line.endswith(f"{one.summary}  ({one.start:%H:%M} UTC)")


def test_what_is_called_off_and_an_empty_week_are_said() -> None:
    off = dataclasses.replace(week_events(week(), "us")[0], is_cancelled=True)
    assert "called off" in calendar_text(week(), (off,))
    assert "no watering" in calendar_text(week(), ())


def test_the_json_names_every_event() -> None:
    events = week_events(week(), "us")
    said = calendar_json(week(), events)["events"]
    assert [one["uid"] for one in said] == [one.uid for one in events]
    assert said[0]["start"].endswith("+00:00")
