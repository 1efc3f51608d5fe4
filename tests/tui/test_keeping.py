"""Keeping what is tried: written to the folder, the same week, and back."""

import pytest

from scheduler.errors import SaveError
from tui import keeping
from tui import session as state
from tui.given_edit import given_edit, without_given
from tui.session import Session
from tui.tried import site_effects
from tui.what_if import Edit, in_force

RULE, FACTOR = Edit("rule", "average", "Z4"), Edit("kc factor", 1.1, "Z4")
PUMP = Edit("pump", 681.374)


def test_each_what_if_stands_with_what_it_alone_does(opened: Session) -> None:
    session = state.with_edits(opened, (RULE, Edit("du", 0.85, "Z4"), FACTOR))
    found = keeping.tried(session, with_money=False)
    factor, du, rule = found.lines
    assert [one.edit for one in found.lines] == list(reversed(session.what_ifs))
    assert factor.effects[0].is_change
    assert not du.effects[0].is_change  # by the average no unevenness counts
    assert rule.effects[1].name == "minutes a week"
    assert found.together[0].is_change
    assert "only kept by a test" in du.why_not
    assert not rule.why_not


@pytest.mark.slow
def test_money_is_of_the_year_or_of_the_option_that_is_tried(opened: Session) -> None:
    session = state.with_edits(
        opened, (Edit("interest", 0.12), Edit("water price", 1.5, typed="1.5"))
    )
    price, interest = keeping.tried(session, with_money=True).lines
    assert price.effects[-1].name == "water, energy"
    assert price.effects[-1].is_change
    assert interest.effects[-1].name.startswith("net ")
    assert interest.effects[-1].is_change


def test_a_uniformity_and_a_moved_watering_cannot_be_kept() -> None:
    assert keeping.can_keep((Edit("du", 0.8, "Z4"), RULE)) == (RULE,)
    assert "issue" in keeping.NOT_KEPT["move"]


def test_a_coefficient_is_written_before_its_factor() -> None:
    kc = Edit("kc", 0.9, "Z4")
    assert keeping.can_keep((FACTOR, kc)) == (kc, FACTOR)


def test_a_factor_is_not_kept_below_a_coefficient_that_is_only_tried() -> None:
    kc, other = Edit("kc", 0.9, "Z4"), Edit("kc", 0.9, "Z1")
    assert keeping.can_keep((FACTOR,), (kc, FACTOR)) == ()
    assert "keep Z4 Kc first" in keeping.why_not(FACTOR, (FACTOR,), (kc, FACTOR))
    assert keeping.can_keep((kc, FACTOR), (kc, FACTOR)) == (kc, FACTOR)
    assert keeping.can_keep((FACTOR,), (other, FACTOR)) == (FACTOR,)


def test_the_page_of_what_is_tried_says_so_beforehand(opened: Session) -> None:
    session = state.with_edits(opened, (Edit("kc", 0.9, "Z4"), FACTOR))
    factor, kc = keeping.tried(session, with_money=False).lines
    assert "keep Z4 Kc first" in factor.why_not
    assert not kc.why_not


def test_what_is_kept_gives_the_week_that_was_tried(opened: Session) -> None:
    session = state.with_edits(opened, (RULE, FACTOR, PUMP))
    able = keeping.can_keep(session.what_ifs)
    assert opened.given is not None
    step = given_edit(keeping.written(opened.given, able), "kept", able)
    again = state.with_edits(session, (*session.edits, step))
    assert again.what_ifs == ()
    assert session.plan is not None
    assert again.plan is not None
    was = [(o.zone.id, o.minutes_per_day, o.days) for o in session.plan.zones]
    assert [(o.zone.id, o.minutes_per_day, o.days) for o in again.plan.zones] == was
    assert again.own_plan is again.plan


def test_dropping_gives_exactly_the_state_before(opened: Session) -> None:
    session = state.with_edits(opened, (RULE, PUMP))
    drop = Edit("settled", "", settled=session.what_ifs)
    done = state.with_edits(session, (*session.edits, drop))
    assert done.site == opened.site
    assert done.what_ifs == ()
    assert done.given == opened.given
    assert opened.plan is not None
    assert done.plan is not None
    was = [(o.zone.id, o.minutes_per_day, o.days) for o in opened.plan.zones]
    assert [(o.zone.id, o.minutes_per_day, o.days) for o in done.plan.zones] == was


def test_undoing_a_kept_step_tries_it_again_on_the_files_of_before(
    opened: Session,
) -> None:
    assert opened.given is not None
    step = given_edit(keeping.written(opened.given, (RULE,)), "kept", (RULE,))
    kept = state.with_edits(opened, (RULE, step))
    assert kept.given is not None
    assert kept.given.changed == ("zones.toml",)
    back = state.undo(kept)
    assert back.what_ifs == (RULE,)
    assert back.given is not None
    assert back.given.changed == ()


def test_what_a_what_if_does_is_told_on_the_files_as_they_were_kept(
    opened: Session,
) -> None:
    assert opened.given is not None
    step = given_edit(keeping.written(opened.given, (RULE,)), "kept", (RULE,))
    kept = state.with_edits(opened, (RULE, step))
    factor = Edit("kc factor", 1.1, "Z2")
    tried = state.with_edits(kept, (*kept.edits, factor))
    (line,) = keeping.tried(tried, with_money=False).lines
    assert line.effects == site_effects(tried)
    assert line.effects != site_effects(tried, opened.plan)


def test_a_pump_is_told_by_the_nights_that_it_moves(opened: Session) -> None:
    (line,) = keeping.tried(state.with_edits(opened, (PUMP,)), with_money=False).lines
    assert not any(one.is_change for one in line.effects)
    assert "peak 193.6 → 170.4 gpm" in [str(one) for one in line.nights]


def test_a_worth_of_a_move_can_be_kept(opened: Session) -> None:
    assert opened.given is not None
    able = keeping.can_keep((Edit("move worth", 0.25),))
    assert keeping.written(opened.given, able).changed == ("site.toml",)


def test_what_was_kept_stays_kept_when_its_texts_are_let_go() -> None:
    step = Edit("given", (("zones.toml", ""),), typed="kept", settled=(RULE,))
    (alone,) = without_given((step,))
    assert in_force((RULE, alone)) == ()


def test_what_the_files_say_already_is_not_written(opened: Session) -> None:
    assert opened.given is not None
    with pytest.raises(SaveError, match="is what the files say"):
        keeping.written(opened.given, (Edit("pump", 757.0823568),))  # 200 gpm
