"""Where the numbers of the summary come from."""

from scheduler.record import History
from scheduler.watering.night_plan import night_plan
from tests.scheduler.watering.night_plan.made import eight_zones, site


def test_every_number_of_the_summary_has_its_trace() -> None:
    some = eight_zones()
    plan = night_plan(site(), History(), some)
    assert plan is not None
    values = {one.name: one.value for one in plan.traces}
    assert values == {
        "peak_flow_l_per_min": plan.summary.peak_flow_l_per_min,
        "minutes_short": plan.summary.minutes_short,
        "gap_to_bound": plan.summary.gap_to_bound,
    }


def test_the_trace_says_where_the_wind_comes_from() -> None:
    plan = night_plan(site(), History(), eight_zones())
    assert plan is not None
    assert plan.traces[-1].note.startswith(
        "wind by minute: no wind log; compared by water alone"
    )
