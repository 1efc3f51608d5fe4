"""The finding: the room's numbers in a paragraph, three actions, who and when."""

from dataclasses import replace

from scheduler.field.next_steps import Step
from scheduler.record import StatedResult
from scheduler.reports.evaluation.finding import (
    ACTIONS,
    actions,
    actions_table,
    finding,
)
from scheduler.reports.evaluation.told import Told
from scheduler.units import shown


def test_rate_uniformity_and_range_are_the_runs_formatted(
    tern: dict[str, Told],
) -> None:
    told = tern["Z4"]
    (run,) = told.runs
    assert run.ranges is not None
    said = finding(told)
    found = run.ranges.du_lq
    assert shown(run.catch.net_rate_mm_per_h, "mm_per_h", "us") in said
    assert f"DU low quarter {run.uniformity.du_lq:.2f}" in said
    assert f"{found.low:.2f}–{found.high:.2f} for this cell in this run" in said


def test_one_run_says_that_another_night_is_not_known(tern: dict[str, Told]) -> None:
    assert "one run: another night is not known" in finding(tern["Z4"])
    assert "another night is not known" not in finding(tern["Z1"])


def test_several_runs_give_their_rates_from_to(tern: dict[str, Told]) -> None:
    assert "Water fell at 0.42 to 0.43 in/h" in finding(tern["Z1"])


def test_what_the_quarters_get_is_the_chosen_rules(both: list[Told]) -> None:
    for told in both:
        if told.plan.status == "planned":
            assert told.chosen is not None
            for share in (told.chosen.quarters[0], told.chosen.quarters[-1]):
                assert f"{share:.0%}" in finding(told)


def test_a_sure_cause_is_named_and_scatter_is_said(
    tern: dict[str, Told], alder: dict[str, Told]
) -> None:
    assert "Most likely cause: ring" in finding(alder["A1"])
    assert "No shape on the map is more than chance" in finding(tern["Z4"])


def test_a_test_that_cannot_be_used_gives_no_rate_and_no_minutes(
    tern: dict[str, Told],
) -> None:
    said = finding(tern["Z9"])
    assert "cannot be used for run times: the cans caught 196 %" in said
    assert "Leave the clock as it is" in said
    assert "DU" not in said
    assert not any("set the clock" in what for what, _, _ in actions(tern["Z9"]))


def test_a_stated_result_names_who_stated_it(tern: dict[str, Told]) -> None:
    told = tern["Z4"]
    stated = StatedResult(0.71, 12.0, "report of 2024")
    test = replace(told.test, runs=(), shape=None, stated=stated, together=None)
    said = finding(replace(told, test=test))
    assert "As stated by report of 2024, DU low quarter 0.71" in said


def test_there_are_three_actions_and_boxes_for_who_and_when(both: list[Told]) -> None:
    for told in both:
        table = actions_table(told)
        assert len(table.rows) == ACTIONS
        assert [one.head for one in table.columns][-2:] == ["who", "by when"]
        assert all(row[-2:] == ("", "") for row in table.rows)


def test_the_clock_comes_first_where_the_week_changes_it(
    tern: dict[str, Told],
) -> None:
    what, why, _ = actions(tern["Z4"])[0]
    assert what == "set the clock to 33 min a night, Mon Tue Wed Thu Fri Sat"
    assert why.endswith("it was 24 min")


def test_a_clock_that_is_right_is_no_action(tern: dict[str, Told]) -> None:
    told = tern["Z4"]
    assert told.plan.minutes_per_day is not None
    plan = replace(told.plan, was_minutes=float(told.plan.minutes_per_day))
    same = replace(told, plan=plan)
    assert not any("set the clock" in what for what, _, _ in actions(same))


def test_what_is_missing_is_left_to_write(tern: dict[str, Told]) -> None:
    bare = replace(tern["Z9"], steps=(Step("look", "so", "a look", is_first=True),))
    assert [row[1] for row in actions_table(bare).rows] == ["look", "", ""]
