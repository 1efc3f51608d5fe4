"""What is tried, and what it does: before and after in one form."""

import datetime as dt
from dataclasses import replace
from typing import TYPE_CHECKING
from unittest.mock import Mock

import pytest

from scheduler.errors import Finding
from scheduler.money.assumed import Then
from scheduler.watering.night_plan import Pin
from tui import session as state
from tui.screens.explain import before_text
from tui.screens.package_pictures import levels
from tui.screens.pictures import cycle_line, day_bars, rule_columns
from tui.screens.zone_cells import zone_cells, zone_columns
from tui.session import Session
from tui.tried import (
    NOT_YET,
    NOTHING,
    Effect,
    arrow,
    du_effects,
    du_tried_effects,
    edit_text,
    findings_effects,
    named,
    new_among,
    night_effects,
    plan_before,
    site_effects,
    told,
    whole_effects,
    zone_effects,
)
from tui.what_if import Edit

if TYPE_CHECKING:
    from scheduler.plan import ZonePlan


@pytest.fixture(scope="module")
def tried(opened: Session) -> Session:
    """A more even Z4, by its average, and dearer water."""
    edits = (
        Edit("du", 0.85, "Z4"),
        Edit("rule", "average", "Z4"),
        Edit("water price", 1.0, typed="3.79"),
    )
    return state.with_edits(opened, edits)


def by_name(effects: tuple[Effect, ...]) -> dict[str, Effect]:
    return {one.name: one for one in effects}


# --- the form ----------------------------------------------------------------


def test_a_unit_of_both_numbers_is_written_once() -> None:
    assert arrow("1.12 in", "1.19 in") == "1.12 → 1.19 in"
    assert arrow("5", "6") == "5 → 6"
    assert arrow("low half", "low quarter") == "low half → low quarter"
    assert arrow("mon thu", "tue thu") == "mon thu → tue thu"


def test_only_what_changes_is_told_and_else_that_nothing_does() -> None:
    same, other = Effect("nights", "6", "6"), Effect("need", "1 in", "2 in")
    assert told((same, other)) == ("need 1 → 2 in",)
    assert told((same,)) == (NOTHING,)
    assert told(None) == (NOT_YET,)


def test_every_what_if_names_what_it_takes_the_place_of(tried: Session) -> None:
    assert named(tried) == (
        "water price 2.60 → 3.79 per kgal",
        "Z4 rule low quarter → average",
        "Z4 DU 0.72 → 0.85",
    )


def test_a_price_is_told_in_the_units_that_are_shown(tried: Session) -> None:
    metric = state.apply_edit(tried, Edit("units", "metric"))
    assert named(metric)[0] == "water price 0.69 → 1.00 per m³"


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        (Edit("kc factor", 1.1, "Z4"), "Z4 Kc factor 1.00 → 1.10"),
        (Edit("kc", 0.9, "Z4"), "Z4 Kc 0.85 → 0.90"),
        (Edit("allowed", 0.5, "Z4"), "Z4 allowed 40 → 50 %"),
        (Edit("days", ("mon",), "Z4"), "Z4 days every day → mon"),
        (Edit("pump", 681.374), "pump 200.0 → 180.0 gpm"),
        (Edit("interest", 0.09), "interest 6.0 → 9.0 %"),
        (Edit("move worth", 0.1), "move worth 0.5 → 10.0 %"),
        (Edit("life", 8.0), "life 5–12 → 8 y"),
        (Edit("then", Then("yard-30"), "Z4", "R4"), "R4 then yard-20x30 → yard-30"),
    ],
)
def test_each_kind_says_before_and_after(
    opened: Session, edit: Edit, said: str
) -> None:
    if edit.what == "days" and len(_zone_days(opened)) < 7:
        said = f"Z4 days {' '.join(_zone_days(opened))} → mon"
    assert edit_text(opened, edit) == said


def _zone_days(session: Session) -> tuple[str, ...]:
    zone = session.site.zone("Z4") if session.site is not None else None
    assert zone is not None
    return tuple(zone.days)


def test_a_moved_watering_says_where_it_stood(opened: Session) -> None:
    assert opened.plan is not None
    assert opened.plan.night is not None
    run = next(one for one in opened.plan.night.runs if one.zone == "Z1")
    start = run.start + dt.timedelta(minutes=7)
    pin = Pin("Z1", run.night, run.night, (start,))
    said = edit_text(opened, Edit("move", pin, "Z1"))
    assert said == f"Z1 move {run.night:%a} at {run.start:%H:%M} → {pin}"


# --- what it does ------------------------------------------------------------


def test_a_zone_is_told_by_need_minutes_nights_and_factor(tried: Session) -> None:
    found = by_name(zone_effects(tried, "Z4"))
    assert found["DU"].now == "0.85"
    assert found["×"].now == "1.00"
    assert found["min a night"].is_change
    assert not any(one.is_change for one in zone_effects(tried, "Z1"))


def test_the_site_is_told_by_water_and_minutes_of_the_week(tried: Session) -> None:
    found = by_name(site_effects(tried))
    assert found["water a week"].now.endswith(" gal")
    assert found["minutes a week"].is_change


def test_the_field_pages_are_told_by_evenness(tried: Session) -> None:
    found = by_name(du_effects(tried, "Z4"))
    assert (found["DU"].was, found["DU"].now) == ("0.72", "0.85")
    assert found["low half"].is_change


def test_a_weaker_pump_is_told_by_the_peak_not_by_itself(opened: Session) -> None:
    weaker = state.apply_edit(opened, Edit("pump", 681.374))
    found = by_name(night_effects(weaker))
    assert found["peak"].is_change
    assert "pump" not in found  # it stands there as what is tried


def test_a_week_that_no_longer_fits_is_told_of_the_whole_site(
    opened: Session,
) -> None:
    weak = state.apply_edit(opened, Edit("pump", 300.0))
    assert not any(one.is_change for one in site_effects(weak))
    found = by_name(whole_effects(weak))
    assert str(found["fits"]) == "fits yes → no"
    assert found["waterings"].is_change
    assert found["findings of the week"].is_change


def test_a_moved_watering_is_told_by_its_start(opened: Session) -> None:
    assert opened.plan is not None
    assert opened.plan.night is not None
    run = next(one for one in opened.plan.night.runs if one.zone == "Z1")
    start = run.start + dt.timedelta(minutes=1)
    pin = Pin("Z1", run.night, run.night, (start,))
    moved = state.apply_edit(opened, Edit("move", pin, "Z1"))
    assert moved.plan is not None
    assert moved.plan.night is not None
    now = next(one for one in moved.plan.night.runs if one.zone == "Z1")
    assert now.start == start
    said = [str(one) for one in night_effects(moved) if one.is_change]
    assert any(f"→ {start:%H:%M}" in one and "at " in one for one in said)


PAIRS = (("mon", "thu"), ("tue", "fri"))


def test_other_nights_of_the_same_number_are_told(opened: Session) -> None:
    days = [state.apply_edit(opened, Edit("days", d, "Z4")) for d in PAIRS]
    a, b = (state.zone_plan(one, "Z4") for one in days)
    assert a is not None
    assert b is not None
    assert len(a.days) == len(b.days) > 0
    both = replace(days[1], own_plan=days[0].plan)
    assert "on" in {o.name for o in zone_effects(both, "Z4") if o.is_change}


def test_other_findings_of_the_same_number_are_told(tried: Session) -> None:
    assert tried.plan is not None
    first, *rest = tried.plan.all_findings
    other = replace(first, what="something else")
    plan = Mock(all_findings=(other, *rest))
    number, new = findings_effects(replace(tried, own_plan=plan))
    assert not number.is_change
    assert new.now == "1"


def test_a_uniformity_drawn_on_the_picture_of_its_package_is_told(
    tried: Session,
) -> None:
    plan = state.own_zone_plan(tried, "Z4")
    assert plan is not None
    (found,) = du_tried_effects(tried, [str(plan.zone.package)])
    assert str(found) == "Z4 DU 0.72 → 0.85"
    assert du_tried_effects(tried, []) == ()


def test_findings_are_counted_before_and_after(tried: Session) -> None:
    assert tried.own_plan is not None
    found, _ = findings_effects(tried)
    assert found.was == f"{len(tried.own_plan.all_findings)}"


def test_a_zone_that_stays_has_no_former_week(tried: Session) -> None:
    assert plan_before(tried, "Z1") is None
    assert plan_before(tried, "Z4") is state.own_zone_plan(tried, "Z4")


def test_without_what_ifs_nothing_has_a_former_state(opened: Session) -> None:
    assert named(opened) == ()
    assert plan_before(opened, "Z4") is None


# --- pictures ----------------------------------------------------------------


def test_changed_cells_of_the_table_hold_both(tried: Session) -> None:
    columns = zone_columns(tried, 79, roomy=False)
    plans = tried.plan.zones if tried.plan is not None else ()
    rows = {one.zone.id: zone_cells(tried, one, roomy=False) for one in plans}
    cells = rows["Z4"]
    assert "33→23" in cells or any(one.startswith("33→") for one in cells)
    assert "0.72→0.85" in cells
    assert not any("→" in one for one in rows["Z1"])
    assert {len(one) for one in rows.values()} == {len(columns)}
    assert sum(one.width for one in columns) <= 79


@pytest.mark.parametrize(
    ("roomy", "wanted"), [(True, "  ▲ 1 warn→▲ 2 warns"), (False, "  ▲ 1→▲ 2")]
)
def test_flags_that_come_or_go_stand_before_and_after(
    opened: Session, roomy: bool, wanted: str
) -> None:
    session = state.apply_edit(opened, Edit("days", ("mon",), "Z4"))
    plan = state.zone_plan(session, "Z4")
    assert plan is not None
    cells = zone_cells(session, plan, roomy=roomy)
    assert cells[-1] == wanted
    column = zone_columns(session, 140, roomy=roomy)[-1]
    assert column.width > len(wanted)  # a table cuts what is as long as its column


@pytest.mark.parametrize(("roomy", "wanted"), [
    (True, "  ▲ 1 warn  · 5→other"), (False, "  ▲ 1→other"),
])  # fmt: skip
def test_as_many_flags_for_something_else_are_told(
    tried: Session, roomy: bool, wanted: str
) -> None:
    plan, own = state.zone_plan(tried, "Z4"), state.own_zone_plan(tried, "Z4")
    assert plan is not None
    assert own is not None
    (warning,) = (one for one in own.findings if one.level == "warning")
    rest = tuple(one for one in own.findings if one.level == "note")

    def flags(what: str) -> str:
        found = (replace(warning, what=what), *rest)
        return shown_flags(tried, replace(plan, findings=found), roomy=roomy)

    assert flags("the pots drain into the path") == wanted
    # the same, said with other numbers
    number = warning.what.replace("33", "25")
    assert number != warning.what
    assert "→" not in flags(number)
    assert "→" not in flags(warning.what)


def test_a_finding_that_says_another_number_is_no_new_one() -> None:
    was = Finding("warning", "zone Z4", "33 min, the check 22", "look")
    now = replace(was, what="25 min, the check 22")
    other = replace(was, what="the pots drain")
    assert new_among([was], [now]) == ()
    assert new_among([was], [was, now]) == (now,)  # beside the one that was there
    assert new_among([was], [replace(now, where="zone Z5")]) != ()
    assert new_among([was], [other, now]) == (other,)


def shown_flags(session: Session, now: "ZonePlan", *, roomy: bool) -> str:
    """Flags of a session in which one zone has another week."""
    assert session.plan is not None
    zones = (now if one.zone.id == now.zone.id else one for one in session.plan.zones)
    other = replace(session, plan=replace(session.plan, zones=tuple(zones)))
    return zone_cells(other, now, roomy=roomy)[-1]


def test_a_long_zone_id_stands_whole_in_the_table(opened: Session) -> None:
    assert opened.plan is not None
    first, *others = opened.plan.zones
    zone = first.zone.model_copy(update={"id": "greenhouse-2"})  # the longest there is
    plan = replace(opened.plan, zones=(replace(first, zone=zone), *others))
    long = replace(opened, plan=plan)
    assert zone_columns(long, 105, roomy=True)[0].width == len("greenhouse-2") + 1
    narrow = zone_columns(long, 79, roomy=False)  # here the rest needs the room
    assert sum(one.width for one in narrow) <= 79
    assert narrow[1].width >= 12


def test_flags_that_stay_are_told_once(tried: Session) -> None:
    plan = state.zone_plan(tried, "Z1")
    assert plan is not None
    assert "→" not in zone_cells(tried, plan, roomy=True)[-1]


def test_the_pictures_of_a_zone_draw_both_weeks(tried: Session) -> None:
    now, was = state.zone_plan(tried, "Z4"), plan_before(tried, "Z4")
    assert now is not None
    columns = rule_columns(now, "us", was)
    assert [one.was_chosen for one in columns].count(True) == 1
    assert all(one.before is not None for one in columns)
    line, bars = cycle_line(now, was), day_bars(now, "us", was)
    assert line is not None
    assert bars is not None
    assert line.before is not None
    assert len(bars.before) == 7


def test_a_tried_uniformity_lies_across_its_own_package_alone(
    tried: Session,
) -> None:
    assert [one.text for one in levels(tried, ("yard-30",))] == [
        "Z4 before 0.72", "Z4 tried 0.85",
    ]  # fmt: skip
    assert levels(tried, ("liner-25",)) == []


def test_a_chain_says_what_its_numbers_were(tried: Session) -> None:
    now, was = state.zone_plan(tried, "Z4"), plan_before(tried, "Z4")
    assert now is not None
    assert was is not None
    chain = {one.name: one for one in was.trace.chain()}
    told = [text for one in now.trace.chain()
            if (text := before_text(chain.get(one.name), one, "us"))]  # fmt: skip
    assert told
    assert all(one.endswith(" → ") for one in told)
    assert before_text(None, now.trace, "us") == ""
