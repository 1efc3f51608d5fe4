"""The state behind the dashboard, without any terminal."""

import datetime as dt
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from scheduler.errors import Finding, QuantityError
from tests.tui import made
from tui import session as state
from tui.session import Edit, Session

if TYPE_CHECKING:
    from scheduler.plan import ZonePlan
    from scheduler.site import Zone

PINNED = dt.date(2026, 6, 8)


def plan_of(session: Session, zone: str) -> "ZonePlan":
    plan = state.zone_plan(session, zone)
    assert plan is not None
    return plan


# --- opening -----------------------------------------------------------------


def test_opening_plans_a_week_of_every_zone(opened: Session) -> None:
    assert opened.plan is not None
    assert opened.site is not None
    assert [one.zone.id for one in opened.plan.zones] == [
        zone.id for zone in opened.site.zones
    ]


def test_a_pinned_today_is_the_day_of_the_week(opened: Session) -> None:
    assert opened.today == PINNED


def test_a_today_that_is_handed_in_wins(demo: Path) -> None:
    day = dt.date(2026, 6, 15)
    assert state.open_session(demo, today=day).plan.today == day  # type: ignore[union-attr]


def test_units_are_those_of_the_site(opened: Session) -> None:
    assert opened.site is not None
    assert opened.units == opened.site.units


def test_units_asked_for_win_over_those_of_the_site(demo: Path) -> None:
    assert state.open_session(demo, "metric").units == "metric"


def test_opening_has_no_ranges_yet(opened: Session) -> None:
    runs = [run for test in opened.evaluations or () for run in test.runs]
    assert runs
    assert all(run.ranges is None for run in runs)


def test_evaluated_brings_the_ranges(opened: Session) -> None:
    done = state.evaluated(opened)
    runs = [run for test in done.evaluations or () for run in test.runs]
    assert all(run.ranges is not None for run in runs)


def test_a_missing_folder_is_a_session_with_a_stop(tmp_path: Path) -> None:
    session = state.open_session(tmp_path / "nowhere")
    assert session.site is None
    assert session.plan is None
    assert [one.level for one in session.findings] == ["stop"]


def test_a_broken_site_file_is_a_session_that_says_so(own_demo: Path) -> None:
    (own_demo / "site.toml").write_text("format = 1\nname = ", encoding="utf-8")
    session = state.open_session(own_demo)
    assert session.site is None
    assert any("site.toml" in one.where for one in session.findings)


def test_findings_come_worst_first_and_once(opened: Session) -> None:
    order = {"stop": 0, "warning": 1, "note": 2}
    levels = [order[one.level] for one in opened.findings]
    assert levels == sorted(levels)
    assert len(set(opened.findings)) == len(opened.findings)


# --- what-ifs ----------------------------------------------------------------


def test_another_rule_changes_the_rule_of_that_zone(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("rule", "average", "Z4"))
    assert plan_of(tried, "Z4").rule == "average"


def test_another_rule_leaves_the_other_zones_alone(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("rule", "average", "Z4"))
    before, after = plan_of(opened, "Z5"), plan_of(tried, "Z5")
    assert after.minutes_per_day == before.minutes_per_day


def test_a_higher_kc_needs_more_water(opened: Session) -> None:
    kc = plan_of(opened, "Z4").kc
    assert kc is not None
    tried = state.apply_edit(opened, Edit("kc", kc + 0.2, "Z4"))
    before, after = plan_of(opened, "Z4").etc_mm, plan_of(tried, "Z4").etc_mm
    assert before is not None
    assert after is not None
    assert after > before


def test_other_days_are_the_only_nights_that_water(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("days", ("mon", "thu"), "Z4"))
    assert {day.weekday() for day in plan_of(tried, "Z4").days} <= {0, 3}


def test_a_zone_is_found_in_any_case(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("rule", "average", "z4"))
    assert plan_of(tried, "Z4").rule == "average"


def test_units_change_no_number_of_the_plan(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("units", "metric"))
    assert tried.units == "metric"
    assert tried.plan is opened.plan


def test_an_edit_changes_nothing_in_the_session_it_came_from(opened: Session) -> None:
    before = plan_of(opened, "Z4")
    state.apply_edit(opened, Edit("rule", "average", "Z4"))
    assert plan_of(opened, "Z4") is before
    assert opened.edits == ()


def test_an_edit_writes_nothing_to_disk(own_demo: Path) -> None:
    def content() -> dict[str, bytes]:
        files = [one for one in sorted(own_demo.rglob("*")) if one.is_file()]
        return {str(one): one.read_bytes() for one in files}

    before = content()
    session = state.open_session(own_demo)
    state.apply_edit(session, Edit("rule", "average", "Z4"))
    assert content() == before


def test_undo_takes_back_the_last_edit_only(opened: Session) -> None:
    first = state.apply_edit(opened, Edit("rule", "average", "Z4"))
    second = state.apply_edit(first, Edit("rule", "low half", "Z4"))
    back = state.undo(second)
    assert plan_of(back, "Z4").rule == "average"
    assert len(back.edits) == 1


def test_undo_of_everything_gives_the_week_as_it_was(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("kc", 0.5, "Z4"))
    back = state.undo(tried)
    assert plan_of(back, "Z4").minutes_per_day == plan_of(opened, "Z4").minutes_per_day
    assert back.site == opened.site


def test_undo_brings_back_the_units_of_the_opening(demo: Path) -> None:
    metric = state.open_session(demo, "metric")
    us = state.apply_edit(metric, Edit("units", "us"))
    assert state.undo(us).units == "metric"


def test_undo_without_edits_is_the_same_session(opened: Session) -> None:
    assert state.undo(opened) is opened


def test_units_are_no_what_if(opened: Session) -> None:
    tried = state.apply_edit(opened, Edit("units", "metric"))
    assert tried.what_ifs == ()


def test_ranges_stay_when_the_rule_changes(opened: Session) -> None:
    rated = state.evaluated(opened)
    tried = state.apply_edit(rated, Edit("rule", "average", "Z4"))
    assert tried.evaluations is rated.evaluations


# --- refusals ----------------------------------------------------------------


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        (Edit("kc", -4.0, "Z4"), "zone Z4: Kc cannot be -4; give a number above 0"),
        (Edit("rule", "guess", "Z4"), "rule cannot be guess; choose average"),
        (Edit("days", ("someday",), "Z4"), "give one or more of mon tue wed"),
        (Edit("rule", "average", "Z99"), "no zone 'Z99'; use one of Z1, Z2"),
        (Edit("kc", 0.8, "Z8"), "Z8 has no plants"),
    ],
)
def test_an_edit_that_is_not_allowed_is_refused(
    opened: Session, edit: Edit, said: str
) -> None:
    if edit.zone == "Z8":
        bare = opened.site.zone("Z8").model_copy(update={"plant": None})  # type: ignore[union-attr]
        opened = _with_zone(opened, bare)
    with pytest.raises(QuantityError, match=said):
        state.apply_edit(opened, edit)


def _with_zone(session: Session, zone: "Zone") -> Session:
    assert session.site is not None
    assert session.site_folder is not None
    zones = tuple(zone if one.id == zone.id else one for one in session.site.zones)
    site = session.site.model_copy(update={"zones": zones})
    return replace(session, site_folder=replace(session.site_folder, site=site))


# --- looking things up -------------------------------------------------------


def test_a_change_needs_to_know_what_the_clock_holds(opened: Session) -> None:
    plan = plan_of(opened, "Z4")
    assert state.change_minutes(replace(plan, was_minutes=None)) is None


def test_a_change_is_minutes_now_less_minutes_before(opened: Session) -> None:
    plan = replace(plan_of(opened, "Z4"), minutes_per_day=30, was_minutes=24.0)
    assert state.change_minutes(plan) == 6


def test_the_test_of_a_zone_is_the_one_its_week_rests_on(opened: Session) -> None:
    plan, test = plan_of(opened, "Z4"), state.evaluation(opened, "Z4")
    assert plan.evidence is not None
    assert test is not None
    assert test.test == plan.evidence.test


def test_two_runs_are_not_one(opened: Session) -> None:
    plan = plan_of(opened, "Z1")
    assert plan.evidence is not None
    assert plan.evidence.n_runs > 1
    assert state.only_run(opened, "Z1") is None


def test_a_zone_nobody_knows_has_nothing(opened: Session) -> None:
    assert state.zone_plan(opened, "Z99") is None
    assert state.zone_findings(opened, "Z99") == ()
    assert state.evaluation(opened, "Z99") is None


def test_equal_findings_are_said_once() -> None:
    one = Finding("note", "here", "same", "nothing")
    assert state.worst_first([one, one]) == (one,)


def test_an_edit_says_itself_in_words() -> None:
    said = [str(Edit("rule", "low half", "Z4")), str(Edit("kc", 0.85, "Z4"))]
    assert [*said, str(Edit("days", ("mon", "thu"), "Z4"))] == [
        "Z4 rule low half",
        "Z4 Kc 0.85",
        "Z4 days mon thu",
    ]


def test_ranges_come_coarse_first_and_then_in_full(opened: Session) -> None:
    coarse, full = (
        [run.ranges.resamples for test in one.evaluations or () for run in test.runs
         if run.ranges]
        for one in state.evaluated_step_by_step(opened)
    )  # fmt: skip
    assert set(coarse) == {2_000}
    assert set(full) == {10_000}


def test_a_session_names_itself_without_its_week() -> None:
    # a worker writes what it was given into its description
    assert "plan" not in repr(made.session())
