"""The four rules side by side, and the row for leaching."""

import numpy as np
import pytest

from scheduler.need.zone_leaching import ZoneLeaching
from scheduler.site import RULES, Zone
from scheduler.trace import entered
from scheduler.units import MM_PER_INCH
from scheduler.watering.zone_week import ZoneWeek
from tests.scheduler.watering.made import FIRST_SHARE, store, week, zone

TARGET = ZoneLeaching(0.15, True, entered("leaching_target", 0.15))
SALTY = ZoneLeaching(0.2, False, entered("leaching_requirement", 0.2))
COVERED = ZoneLeaching(0.08, False, entered("leaching_requirement", 0.08))


def names(made: ZoneWeek) -> list[str]:
    return [one.rule for one in made.rules]


def bay(rule: str = "low half") -> Zone:
    return zone(grown_in="soil", rule=rule)


def test_without_salt_the_four_rules_stand_alone() -> None:
    assert names(week()) == list(RULES)


def test_salty_soil_shows_the_leached_rule_beside_the_four() -> None:
    made = week(bay(), share=FIRST_SHARE, leaching=SALTY)
    assert names(made) == [*RULES, "low quarter, leached"]
    assert made.rules[-1].factor == pytest.approx(made.rules[2].factor / 0.8)
    assert made.rule == "low half"


def test_a_requirement_that_losses_cover_shows_no_row() -> None:
    assert names(week(bay(), leaching=COVERED)) == list(RULES)


def test_the_leached_rule_leaches_its_driest_quarter_as_required() -> None:
    made = week(bay("low quarter, leached"), share=FIRST_SHARE, leaching=SALTY)
    assert made.leaching is not None
    assert made.rule == "low quarter, leached"
    # whole minutes move the fraction by about one part in sixty
    assert made.leaching.quarters[0] == pytest.approx(0.2, abs=0.01)
    assert made.leaching.requirement == 0.2


def test_leaching_adds_depth_and_neither_need_nor_nights() -> None:
    held = {"share": FIRST_SHARE, "storage": store()}
    plain = week(bay("low quarter"), **held)
    salty = week(bay("low quarter, leached"), leaching=SALTY, **held)
    assert (salty.need_mm, salty.day_index) == (plain.need_mm, plain.day_index)
    assert salty.gross_depth_mm == pytest.approx(plain.gross_depth_mm / 0.8)


def test_even_pots_are_ruled_by_their_target_and_the_chain_says_so() -> None:
    made = week(zone(rule="low quarter"), leaching=TARGET)
    assert made.rule == "leaching target"
    assert made.factor == pytest.approx(1 / 0.85)
    factor = made.traces["factor"]
    assert "leaching target rules" in factor.note
    assert [one.name for one in factor.inputs] == ["rule_factor", "leaching_factor"]


def test_uneven_pots_are_ruled_by_their_rule_and_the_chain_says_so() -> None:
    made = week(zone(rule="low quarter"), share=FIRST_SHARE, leaching=TARGET)
    alone = week(zone(rule="low quarter"), share=FIRST_SHARE)
    assert (made.rule, made.minutes_per_day) == ("low quarter", alone.minutes_per_day)
    assert "the rule 'low quarter' rules" in made.traces["factor"].note


def test_what_each_quarter_leaches_follows_the_whole_minutes() -> None:
    made = week(zone(rule="low quarter"), share=FIRST_SHARE, leaching=TARGET)
    assert made.leaching is not None
    expected = [max(0.0, 1 - 1 / one) for one in made.quarters]
    assert made.leaching.quarters == pytest.approx(expected)
    assert made.leaching.trace.find("leaching_target") is not None


def test_the_driest_quarter_that_leaches_nothing_is_warned_of() -> None:
    made = week(zone(rule="low quarter"), share=FIRST_SHARE, leaching=TARGET)
    assert "next to nothing" in next(
        one.what for one in made.findings if "leaching" in one.where
    )


def test_a_week_without_need_leaches_in_no_quarter() -> None:
    made = week(zone(), rain_mm=np.full(7, 4 * MM_PER_INCH), leaching=TARGET)
    assert made.leaching is not None
    assert made.leaching.quarters == ()
