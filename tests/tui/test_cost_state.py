"""Cost for the dashboard: what-ifs of money, kept seasons, undo."""

from pathlib import Path
from types import SimpleNamespace

import pytest

from scheduler.errors import QuantityError, SchedulerError
from scheduler.money.assumed import NEW, Then
from scheduler.units import System, converted
from tui import cost_state as cost
from tui import session as state
from tui.session import Edit, Session

DEMO = Path("demo_sites/tern_hollow")


@pytest.fixture(scope="module")
def own() -> Session:
    return state.open_session(DEMO, None)


def dear(session: Session) -> Session:
    value = cost.assumed(session, "water price", "4.20")
    return state.apply_edit(session, Edit("water price", value, typed="4.20"))


def test_without_a_what_if_nothing_stands_beside(own: Session) -> None:
    assert cost.cost_now(own).before is None


def test_another_price_stands_beside_that_of_the_site(own: Session) -> None:
    found = cost.cost_now(dear(own))
    assert found.before is not None
    assert found.now.water_money_per_m3 == pytest.approx(
        converted(4.20, "money_per_kgal", to="money_per_m3")
    )
    assert found.now.water_money_per_m3 != found.before.water_money_per_m3


def test_no_price_runs_a_season_again(own: Session) -> None:
    found = cost.cost_now(dear(own))
    assert found.before is not None
    assert found.now.zones[0].season is found.before.zones[0].season


def test_a_price_does_not_plan_the_week_again(own: Session) -> None:
    assert dear(own).plan is own.plan


def test_undo_brings_the_price_back(own: Session) -> None:
    assert state.undo(dear(own)).site == own.site


def test_a_rule_that_is_tried_changes_the_water(own: Session) -> None:
    tried = state.apply_edit(own, Edit("rule", "average", "Z4"))
    found = cost.cost_now(tried)
    assert found.before is not None
    assert found.now.total.volume_m3 < found.before.total.volume_m3


def test_a_more_even_zone_wastes_less_water(own: Session) -> None:
    found = cost.cost_now(state.apply_edit(own, Edit("du", 0.9, "Z4")))
    assert found.before is not None
    assert found.now.total.above_need_m3 < found.before.total.above_need_m3


def test_a_tested_package_is_tried_in_an_option(own: Session) -> None:
    name = cost.tested_packages(own)[0]
    edit = cost.then_edit(own, "Z4", "R4", name.upper())
    tried = cost.cost_now(state.apply_edit(own, edit)).option("R4")
    assert tried is not None
    assert tried.option.package == name
    assert str(edit) == f"R4 then {name}"


def test_a_spacing_is_tried_with_its_own_heads_and_not_proven(own: Session) -> None:
    then = Then("yard-30", 0.9, 6.0, 6.0, "rectangular", "at 6.0 x 6.0 m")
    found = cost.cost_now(state.apply_edit(own, Edit("then", then, "Z4", "R4")))
    now, before = found.option("R4"), found.option_before("R4")
    assert now is not None
    assert before is not None
    assert now.known[0][2].du_lq == 0.9
    assert now.outlay_money != before.outlay_money
    assert now.own is not None
    assert now.own.verdict == "not proven"


def test_a_what_if_goes_to_the_re_spacing_of_the_zone_or_to_a_new_option(
    own: Session,
) -> None:
    assert cost.option_for(own, "z4") == "R4"
    assert cost.option_for(own, "Z1") == NEW


def test_a_package_that_is_not_there_is_refused(own: Session) -> None:
    with pytest.raises(QuantityError, match="there is no package 'brass'"):
        state.apply_edit(own, cost.then_edit(own, "Z4", "R4", "brass"))


def test_what_is_no_price_is_refused(own: Session) -> None:
    with pytest.raises(QuantityError, match="names no volume"):
        cost.assumed(own, "water price", "3 apples")


def test_a_folder_without_site_is_refused(tmp_path: Path) -> None:
    with pytest.raises(SchedulerError, match="no site"):
        cost.cost_now(state.open_session(tmp_path, None))


@pytest.mark.parametrize(
    ("units", "along", "rows"), [("us", "39.8", "45"), ("metric", "12.1", "13.7")]
)
def test_a_spacing_of_the_map_is_tried_as_it_is_seen(
    units: System, along: str, rows: str
) -> None:
    at = SimpleNamespace(
        du_lq=0.860438, spacing_m=12.1312, row_spacing_m=13.716, layout="rectangular"
    )
    found = SimpleNamespace(package=SimpleNamespace(id="yard-40"))
    then = cost.then_of_map(found, at, units)  # type: ignore[arg-type]
    foot = converted(1.0, "ft", to="m") if units == "us" else 1.0
    assert then.du_lq == 0.86
    assert f"{(then.spacing_m or 0) / foot:.9g}" == along
    assert f"{(then.row_spacing_m or 0) / foot:.9g}" == rows
