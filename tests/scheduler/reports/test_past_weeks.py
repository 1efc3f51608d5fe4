"""The history of issued weeks in words and JSON."""

import datetime as dt
from dataclasses import replace

from scheduler.issued import IssuedWeek, IssuedZone, KeptOverride
from scheduler.record import History
from scheduler.reports.past_weeks import (
    issued_json,
    past_weeks_json,
    past_weeks_text,
)
from tests.scheduler.test_plan import site, zone
from tests.scheduler.test_week_changes import override

MONDAY = dt.date(2026, 6, 8)
NIGHTS = tuple(MONDAY + dt.timedelta(days=day) for day in (0, 2))
KEPT = KeptOverride(dt.date(2026, 6, 8), 20.0, "leaves rolled")
TOLD = IssuedZone(
    "Z4", 22.0, 1, NIGHTS, 22, None, 24.0, "issued week 2026-W23", -1 / 12,
    "weather down 8 %", None, (KEPT,),
)  # fmt: skip
WEEK = IssuedWeek(
    "2026-W24", MONDAY, (TOLD, replace(TOLD, zone="Z5", overrides=())), (), 1,
    "2026-06-08T11:02:03Z", "Z9 stays", (("Z9", "blocked"),), (("site.toml", "ab"),),
)  # fmt: skip
AGAIN = replace(WEEK, name="2026-W24.r2", revision=2, forced="")
HERE = site(zone())


def text(*weeks: IssuedWeek, **given: object) -> str:
    return past_weeks_text(HERE, History(issued=weeks, **given))  # type: ignore[arg-type]


def test_a_site_without_issued_weeks_says_how_to_issue_one() -> None:
    assert "week SITE --issue" in text()


def test_minutes_percent_and_reason_stand_by_zone() -> None:
    lines = text(WEEK).splitlines()
    row = next(one for one in lines if one.startswith("Z4"))
    assert row.split(maxsplit=7) == [
        "Z4", "24", "22", "−8", "%", "Mon", "Wed", "weather down 8 %",
    ]  # fmt: skip


def test_a_revision_that_was_replaced_says_so() -> None:
    first, second = (
        one for one in text(WEEK, AGAIN).replace("\n  ", " ").splitlines()
        if one.startswith("2026-W24")
    )  # fmt: skip
    assert first.endswith("replaced by the next")
    assert "revision 2" in second
    assert "replaced" not in second


def test_why_a_stop_was_passed_is_shown() -> None:
    assert "issued in spite of a stop finding: Z9 stays" in text(WEEK)


def test_zones_that_were_left_are_named() -> None:
    assert "left as the clock was: Z9" in text(WEEK)


def test_overrides_are_kept_and_shown() -> None:
    assert "override kept: Z4 20 min, 8 Jun 2026: leaves rolled" in text(WEEK)


def test_overrides_that_no_week_kept_stand_at_the_end() -> None:
    since = text(WEEK, log=override(10)).splitlines()[-1]
    assert since == "  Z4 20 min, 10 Jun 2026: leaves rolled"


def test_an_override_that_a_week_kept_is_not_said_twice() -> None:
    assert "no issued week has kept" not in text(WEEK, log=override(8))


def test_one_zone_is_told_alone() -> None:
    told = past_weeks_text(HERE, History(issued=(WEEK,)), "z5")
    assert "Z4" not in told
    assert "left as the clock was" not in told


def test_the_json_holds_every_revision_with_its_inputs() -> None:
    found = past_weeks_json(HERE, History(issued=(WEEK, AGAIN)), ())
    assert [one["revision"] for one in found["weeks"]] == [1, 2]
    assert found["weeks"][0]["inputs"] == {"site.toml": "ab"}
    assert found["weeks"][0]["zones"][0]["reason"] == "weather down 8 %"


def test_the_json_holds_overrides_since() -> None:
    found = past_weeks_json(HERE, History(issued=(WEEK,), log=override(10)), ())
    assert [one["minutes"] for one in found["overrides_since"]] == [20.0]


def test_a_week_that_was_not_issued_is_null() -> None:
    assert issued_json(None) is None


def test_an_issued_week_names_its_file() -> None:
    found = issued_json(AGAIN)
    assert found is not None
    assert found["file"] == "weeks/2026-W24.r2.json"
