"""Numbers of a page: the main ones first, each once."""

from scheduler.trace import Trace, entered
from tests.scheduler.money.made_week import around, cost
from tui import explained
from tui.session import Session, evaluation, zone_plan

DEPTH = entered("mean_depth_mm", 5.0)
RATE = Trace("net_rate_mm_per_h", 10.0, "depth over the minutes x 60", "-", (DEPTH,))
NEED = entered("need_mm", 20.0)


def names(numbers: explained.Numbers) -> list[str]:
    return [one.name for one in numbers]


def test_named_numbers_come_first_then_ends_then_what_they_use() -> None:
    found = explained.main_first((RATE, NEED), ("need_mm", "unknown_mm"))
    assert names(found) == ["need_mm", "net_rate_mm_per_h", "mean_depth_mm"]


def test_a_zone_begins_with_the_minutes_and_leaves_out_no_number(
    opened: Session,
) -> None:
    plan = zone_plan(opened, "Z4")
    assert plan is not None
    found = names(explained.of_zone(opened, "Z4"))
    assert found[:2] == ["minutes_per_day", "need_mm"]
    assert set(found) == {one.name for end in plan.chains for one in end.chain()}
    assert len(found) == len(set(found))


def test_the_need_page_begins_with_the_need(opened: Session) -> None:
    assert names(explained.of_need(opened, "Z4"))[0] == "need_mm"


def test_the_nights_begin_with_the_pump(opened: Session) -> None:
    assert names(explained.of_nights(opened, "Z4"))[0] == "peak_flow_l_per_min"


def test_a_test_is_explained_by_the_run_that_is_asked_for(opened: Session) -> None:
    test = evaluation(opened, "Z4")
    assert test is not None
    found = explained.of_test(test, test.runs[0].run)
    assert found[0].value == test.runs[0].uniformity.du_lq


def test_a_zone_that_is_not_there_has_no_numbers(opened: Session) -> None:
    assert explained.of_zone(opened, "Z99") == ()


def test_an_option_is_explained_by_its_quarters_and_its_nights() -> None:
    option = cost().options[0]
    nights = around().nights_of(option.option.id)
    found = {one.name: one for one in explained.of_cost(cost(), option, nights)}
    (told,) = option.quarters
    assert found["driest_quarter_then_mm[Z4]"].value == told.then_mm[0]
    assert nights is not None
    assert nights.week_then is not None
    wanted = nights.week_then.longest_min
    assert found["longest_min[the week then]"].value == wanted
    assert "longest_min[the fullest night now]" in found


def test_without_an_option_only_zones_are_explained() -> None:
    found = names(explained.of_cost(cost(), None))
    assert not any(one.startswith(("longest_min", "driest")) for one in found)
