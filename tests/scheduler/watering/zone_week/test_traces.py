"""The chain from use and cans to the clock's minutes."""

from typing import Any

import pytest

from scheduler.site import Intake, Rule
from tests.scheduler.watering.made import FIRST_SHARE, nights, store, week, zone


def chain(one: Any = None, **given: Any) -> list[str]:
    made = week(one or zone(rule="low half"), share=FIRST_SHARE, **given)
    return [trace.name for trace in made.traces["minutes_per_day"].chain()]


def test_the_chain_runs_from_the_rate_of_the_cans_to_the_minutes() -> None:
    names = chain()
    order = [
        "net_rate_mm_per_h", "etc_mm", "effective_rain_mm", "need_mm", "du_lq",
        "factor", "gross_depth_mm", "minutes_exact", "cycle_minutes", "minutes_per_day",
    ]  # fmt: skip
    assert [one for one in names if one in order] == order
    assert names[-1] == "minutes_per_day"


def test_no_number_of_the_chain_stands_in_it_twice() -> None:
    names = chain(storage=store())
    assert len(names) == len(set(names))


def test_a_balance_puts_start_and_storage_into_the_chain() -> None:
    names = chain(storage=store())
    assert {"start_depletion_mm", "allowed_depletion_mm"} < set(names)


@pytest.mark.parametrize(
    ("rule", "formula", "rests_on"),
    [
        ("average", "1: uniformity is left out", set()),
        ("low half", "1 / du_lh", {"du_lh", "du_lq"}),
        ("low quarter", "1 / du_lq", {"du_lq"}),
        ("share served", "1 / share of the mean", {"share_served", "du_lq"}),
    ],
)
def test_the_factor_says_the_formula_of_its_own_rule(
    rule: Rule, formula: str, rests_on: set[str]
) -> None:
    factor = week(zone(rule=rule), share=FIRST_SHARE).traces["factor"]
    assert factor.formula.startswith(formula)
    assert {one.name for one in factor.chain()} == {"rule", "factor"} | rests_on


def test_a_rule_that_nobody_chose_says_why_it_is_used() -> None:
    rule = week(zone(rule=None)).traces["rule"]
    assert (rule.value, rule.note) == (
        "low quarter",
        "low quarter in pots, else low half",
    )


@pytest.mark.parametrize("storage", [None, store()])
def test_every_number_of_the_result_has_its_trace(storage: Any) -> None:
    made = week(share=FIRST_SHARE, storage=storage)
    for name in (
        "effective_rain_mm", "need_mm", "factor", "gross_depth_mm", "minutes_exact",
        "minutes_per_day", "minutes_week", "realised_depth_mm",
    ):  # fmt: skip
        assert made.traces[name].value == getattr(made, name), name
    assert made.traces["cycle_minutes"].value == made.split.cycle_minutes
    assert made.traces["soak_minutes"].value == made.split.soak_minutes


def test_every_trace_names_a_source() -> None:
    made = week(share=FIRST_SHARE, storage=store())
    assert all(one.source and one.formula for one in made.traces.values())


def test_nights_say_by_what_they_were_chosen() -> None:
    due = week(storage=store()).traces["nights"]
    each = week(allowed_day=nights(1)).traces["nights"]
    assert "before the next allowed night" in due.formula
    assert each.formula.startswith("all allowed nights")


def test_fixed_minutes_have_a_short_chain_without_weather() -> None:
    mist = zone(watered="fixed minutes", fixed_minutes=5.0, fixed_reason="mist")
    names = [one.name for one in week(mist).traces["minutes_per_day"].chain()]
    assert names == ["fixed_min", "minutes_per_day"]


def test_a_wet_share_that_nobody_entered_is_not_said_to_be_entered() -> None:
    found = {
        one: next(
            trace.source
            for trace in week(one, share=FIRST_SHARE).traces["minutes_per_day"].chain()
            if trace.name == "wet_share"
        )
        for one in (zone(), zone(intake=Intake(wet_share=0.1)))
    }
    assert list(found.values()) == ["common practice, no source", "entered"]
