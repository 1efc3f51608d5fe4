"""Run times and cost: the plan's and the cost room's numbers, formatted."""

from dataclasses import replace

from scheduler.reports.cost_words import money, volume
from scheduler.reports.evaluation.run_times import (
    cost_section,
    rules_table,
    run_times_section,
)
from scheduler.reports.evaluation.told import Told
from scheduler.reports.paper import Picture, Section, Words
from scheduler.units import shown
from tests.scheduler.reports.charts.read import cells


def text(section: Section) -> str:
    return " ".join(b.text for b in section.blocks if isinstance(b, Words))


def test_every_rule_is_a_row_of_the_plans_numbers(both: list[Told]) -> None:
    for told in both:
        for one, row in zip(told.plan.rules, rules_table(told).rows, strict=True):
            assert row[1:] == (
                f"{one.factor:.2f}",
                f"{one.minutes_per_day:.1f}",
                f"{one.quarters[0]:.0%}",
                f"{one.quarters[-1]:.0%}",
                f"{one.above_need:.0%}",
                f"{one.short_share:.0%}",
            )


def test_the_chosen_rule_is_marked(tern: dict[str, Told]) -> None:
    marked = [row[0] for row in rules_table(tern["Z4"]).rows if "(chosen)" in row[0]]
    assert marked == ["low quarter (chosen)"]


def test_need_et_and_rain_are_the_weeks(tern: dict[str, Told]) -> None:
    plan = tern["Z4"].plan
    said = text(run_times_section(tern["Z4"]))
    for value in (plan.need_mm, plan.eto_mm, plan.effective_rain_mm):
        assert shown(value, "mm", "us") in said


def test_runs_that_the_week_rests_on_are_named(alder: dict[str, Told]) -> None:
    found = alder["A1"].plan.evidence
    assert found is not None
    said = text(run_times_section(alder["A1"]))
    assert f"Run times rest on {found.n_runs} runs ({found.test})" in said
    assert f"DU low quarter {found.du_lq:.2f}" in said


def test_cycles_and_soak_are_told(tern: dict[str, Told]) -> None:
    assert "4 x 8 min with 19 min to soak between" in text(
        run_times_section(tern["Z7"])
    )


def test_a_week_without_need_says_that_nothing_is_due(alder: dict[str, Told]) -> None:
    assert "no water this week" in text(run_times_section(alder["A4"]))


def test_a_blocked_zone_keeps_its_clock(tern: dict[str, Told]) -> None:
    assert "leave the clock as it is" in text(run_times_section(tern["Z9"]))


def test_the_cost_is_the_cost_rooms(tern: dict[str, Told]) -> None:
    cost = tern["Z4"].cost
    assert cost is not None
    section = cost_section(tern["Z4"])
    (picture,) = [b for b in section.blocks if isinstance(b, Picture)]
    for rule in cost.rules:
        shown_one = f"{volume(rule.above_need_m3, 'us')} kgal, {rule.stress_days:.0f}"
        assert any(one.startswith(shown_one) for one in cells(picture))
    assert f"worth {money(cost.above_need_money)} USD" in text(section)
    assert "lowquarter cost SITE --zone Z4" in text(section)


def test_without_a_price_none_is_invented(alder: dict[str, Told]) -> None:
    told = alder["A1"]
    assert told.cost is not None
    assert told.cost.above_need_money is None
    assert "none was entered" in text(cost_section(told))


def test_without_a_season_the_command_still_stands(tern: dict[str, Told]) -> None:
    said = text(cost_section(replace(tern["Z4"], cost=None)))
    assert "No season could be run" in said
    assert "lowquarter cost SITE --zone Z4" in said


def test_one_run_makes_the_cost_an_upper_bound(tern: dict[str, Told]) -> None:
    assert "upper bound" in text(cost_section(tern["Z4"]))
    assert "upper bound" not in text(cost_section(tern["Z1"]))
