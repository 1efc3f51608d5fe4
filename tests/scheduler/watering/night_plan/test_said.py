"""What must be said of the nights."""

import datetime as dt
from typing import Any

import pytest

from scheduler.errors import Finding
from scheduler.record import History
from scheduler.site import BlockedHours, Controller
from scheduler.watering.night_plan import night_plan
from scheduler.watering.night_plan.said import no_plan_findings
from tests.scheduler.watering.night_plan.made import Watered, eight_zones, site, zone


def _said(*watered: Watered, **given: Any) -> tuple[Finding, ...]:
    plan = night_plan(site(*(w.zone for w in watered), **given), History(), watered)
    assert plan is not None
    return plan.findings


def _one(found: tuple[Finding, ...], words: str) -> Finding:
    (one,) = (one for one in found if words in one.what)
    return one


def test_the_worked_night_that_does_not_fit_tells_minutes_and_limit() -> None:
    clock = Controller(change_over_minutes=2)
    one = _one(_said(*eight_zones(), pump_gpm=170.0, controller=clock), "does not fit")
    assert one.level == "stop"
    assert "takes 395 min with free starts, 415 in pairs" in one.what
    assert "the window has 390, so 5 min are missing" in one.what
    assert "the limit that binds is pump" in one.what


def test_the_ways_out_are_ranked_with_their_numbers() -> None:
    clock = Controller(change_over_minutes=2)
    fix = _one(_said(*eight_zones(), pump_gpm=170.0, controller=clock), "does not").fix
    window, pump, trim = fix.split("; or ")
    assert window == "open the window by 5 min"
    assert pump.startswith("bring the pump to 175.")
    assert trim == "trim all minutes by 1% (389 min)"


def test_a_night_that_only_fits_with_free_starts_says_so() -> None:
    one = _one(_said(*eight_zones(), pump_gpm=170.0), "with pairs")
    assert "takes 405 min, 15 more than the window; with free starts 385" in one.what


def test_a_night_that_fits_either_way_says_nothing() -> None:
    assert _said(*eight_zones()) == ()


def test_three_valves_together_ask_for_a_look_at_the_pressure() -> None:
    one = _one(_said(*eight_zones(), pump_gpm=600.0), "valves are open together")
    assert "pressure" in one.fix


@pytest.mark.parametrize(
    ("given", "where"),
    [
        ({"pump_gpm": None}, "site.toml: supply"),
        ({"windows": ()}, "site.toml: window"),
    ],
)
def test_without_pump_or_window_no_night_is_planned(
    given: dict[str, Any], where: str
) -> None:
    assert [one.where for one in no_plan_findings(site(**given))] == [where]


def test_valves_at_once_are_enough_to_plan_by() -> None:
    clock = Controller(max_valves_at_once=2)
    one = _one(
        _said(*eight_zones(), pump_gpm=None, controller=clock), "keep to the valves"
    )
    assert one.level == "warning"


def test_an_unknown_flow_is_a_finding() -> None:
    one = _one(_said(Watered(zone("1", package=None))), "by time only")
    assert (one.level, one.where) == ("warning", "zone 1: flow")


def test_a_zone_larger_than_the_pump_is_stopped() -> None:
    one = _one(_said(*eight_zones()[:1], pump_gpm=90.0), "the pump gives")
    assert (one.level, one.where) == ("stop", "zone 1: flow")
    assert "takes 95.0 gpm, the pump gives 90.0 gpm" in one.what


def test_a_strange_name_among_zones_kept_apart_is_said() -> None:
    one = _one(_said(Watered(zone("1", not_with=("Q",)))), 'names "Q"')
    assert one.where == "zone 1: not_with"


def test_a_strange_name_among_blocked_hours_is_said() -> None:
    spray = BlockedHours(
        start=dt.time(3), end=dt.time(4), reason="spraying", zones=("Q",)
    )
    assert _one(_said(Watered(zone("1")), blocked_hours=(spray,)), 'names zone "Q"')


def test_the_old_id_of_a_zone_is_answered_by_that_of_today() -> None:
    spray = BlockedHours(
        start=dt.time(3), end=dt.time(4), reason="spraying", zones=("q",)
    )
    apart = Watered(zone("1", not_with=("Q",)))
    found = _said(apart, Watered(zone("2", formerly=("Q",))), blocked_hours=(spray,))
    fixes = [one.fix for one in found if "no such zone" in one.what]
    assert fixes == ['write "2", as it is called now'] * 2


def test_a_blocked_zone_still_runs_beside_the_plan() -> None:
    blocked = Watered(zone("2"), "blocked", (), cycles=None, cycle_minutes=None)
    one = _one(_said(Watered(zone("1")), blocked), "keeps its old setting")
    assert one.what.startswith("2: blocked")


def test_more_cycles_than_starts_are_said() -> None:
    clock = Controller(max_starts_per_day=2)
    one = _one(_said(Watered(zone("1"), cycles=3), controller=clock), "starts a night")
    assert "needs 3 starts a night, the clock has 2" in one.what
