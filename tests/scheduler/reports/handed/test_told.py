"""Words that the papers share: days, starts, reasons, what is new."""

import dataclasses
import datetime as dt

from scheduler.record import IssuedRun, IssuedWeek, IssuedZone
from scheduler.reports.handed.told import (
    Known,
    blocked_why,
    changes,
    day_text,
    days_text,
    few_words,
    starts_text,
    week_name,
    why_text,
    zone_runs,
)
from scheduler.watering.night_plan import PlannedRun
from tests.scheduler.reports.handed.made import MONDAY, week, zone


def run(day: int, hour: int, minute: int, night: int) -> PlannedRun:
    start = dt.datetime.combine(dt.date(2026, 6, day), dt.time(hour, minute))
    end = start + dt.timedelta(minutes=20)
    return PlannedRun("Z1", dt.date(2026, 6, night), start, end, 100.0)


def issued_like(
    minutes: float, *, days: tuple[dt.date, ...], at: dt.time
) -> IssuedWeek:
    """Zone Z1 as an issued week of the week before told it."""
    before = dt.timedelta(days=7)
    told = IssuedZone("Z1", minutes, 1, tuple(day - before for day in days))
    runs = tuple(
        IssuedRun("Z1", start := dt.datetime.combine(day, at), start)
        for day in told.days
    )
    return IssuedWeek("2026-06-01", MONDAY - before, (told,), runs)


def test_two_days_in_a_row_are_named_each() -> None:
    days = [dt.date(2026, 6, 8), dt.date(2026, 6, 9), dt.date(2026, 6, 12)]
    assert days_text(days) == "Mon 8, Tue 9, Fri 12"


def test_days_are_told_in_order_and_over_a_month() -> None:
    days = [dt.date(2026, 7, 1), dt.date(2026, 6, 29), dt.date(2026, 6, 30)]
    assert days_text(days) == "Mon 29–Wed 1"


def test_no_day_is_no_text() -> None:
    assert days_text([]) == ""


def test_starts_with_the_same_dates_share_a_line() -> None:
    runs = [
        run(8, 22, 0, 8),
        run(8, 23, 30, 8),
        run(10, 22, 0, 10),
        run(10, 23, 30, 10),
    ]
    assert starts_text(runs) == ("22:00 23:30 on Mon 8, Wed 10",)


def test_a_start_after_midnight_has_the_date_of_the_clock() -> None:
    assert starts_text([run(8, 22, 0, 8), run(9, 2, 35, 8)]) == (
        "22:00 on Mon 8",
        "02:35† on Tue 9",
    )


def test_evening_comes_before_the_early_hours() -> None:
    lines = starts_text([run(9, 0, 10, 8), run(8, 23, 0, 8)])
    assert [line[:5] for line in lines] == ["23:00", "00:10"]


def test_reasons_have_at_most_eight_words() -> None:
    for one in week().zones:
        told = why_text(one, "us", Known())
        assert 0 < len(told.split()) <= 8, told


def test_a_reason_that_was_given_is_taken() -> None:
    known = Known(reasons={"Z1": "hotter week"})
    assert why_text(zone(week(), "Z1"), "us", known) == "hotter week"


def test_a_long_reason_is_cut_and_says_so() -> None:
    assert few_words("a b c d e f g h i j") == "a b c d e f g h…"


def test_without_a_reason_need_and_du_are_told() -> None:
    one = zone(week(), "Z4")
    assert one.need_mm is not None
    assert one.evidence is not None
    told = f"need {one.need_mm / 25.4:.2f} in this week, DU {one.evidence.du_lq:.2f}"
    assert why_text(one, "us", Known()) == told


def test_a_zone_that_is_not_due_says_so() -> None:
    assert why_text(zone(week("alder_flat"), "A4"), "metric", Known()) == (
        "not due this week"
    )


def test_what_blocks_a_zone_is_its_own_stop_finding() -> None:
    assert "cans caught 196 %" in blocked_why(zone(week(), "Z9"), week())


def test_against_the_clock_as_found_minutes_cycles_and_nights_count() -> None:
    plan = week()
    assert changes(zone(plan, "Z1"), plan, Known()) == ("minutes",)
    assert changes(zone(plan, "Z7"), plan, Known()) == ("minutes", "cycles", "nights")
    assert changes(zone(plan, "Z8"), plan, Known()) == ()


def test_a_zone_that_nobody_wrote_down_is_new() -> None:
    plan = week()
    one = dataclasses.replace(zone(plan, "Z1"), was_minutes=None)
    assert changes(one, plan, Known()) == ("new",)


def test_the_same_as_an_issued_week_changes_nothing() -> None:
    plan = week()
    one = dataclasses.replace(zone(plan, "Z1"), was_minutes=26.0)
    at = zone_runs(plan, "Z1")[0].start.time()
    same = issued_like(26.0, days=one.days, at=at)
    assert changes(one, plan, Known(issued=(same,))) == ()


def test_another_start_than_the_issued_one_is_a_change() -> None:
    plan = week()
    one = dataclasses.replace(zone(plan, "Z1"), was_minutes=26.0)
    moved = issued_like(26.0, days=one.days, at=dt.time(22, 15))
    assert changes(one, plan, Known(issued=(moved,))) == ("starts",)


def test_other_nights_than_the_issued_ones_are_a_change() -> None:
    plan = week()
    one = dataclasses.replace(zone(plan, "Z1"), was_minutes=26.0)
    at = zone_runs(plan, "Z1")[0].start.time()
    fewer = issued_like(26.0, days=one.days[:3], at=at)
    assert changes(one, plan, Known(issued=(fewer,))) == ("nights",)


def test_the_week_names_its_nights() -> None:
    assert week_name(week()) == "nights of Mon 8 Jun to Sun 14 Jun 2026"
    assert day_text(MONDAY) == "Mon 8 Jun"
