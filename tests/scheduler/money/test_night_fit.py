"""Whether a night fits, held against counting out every start."""

import datetime as dt
from dataclasses import replace
from itertools import product

import numpy as np
import pytest

from scheduler.money.night_fit import NightFit, night_fit
from scheduler.record import History
from scheduler.site import Site, Window
from scheduler.watering.night_plan import night_plan
from scheduler.week_plan import ZonePlan
from tests.scheduler.money.made_week import PUMP, plan, week_site

WINDOW_MIN = 40
# of each zone its minutes and its flow
CASES = (
    ((30, 200.0), (20, 200.0), (10, 250.0)),
    ((25, 300.0), (25, 300.0)),
    ((30, 300.0), (20, 300.0), (5, 100.0)),
    ((40, 100.0), (40, 100.0), (40, 300.0)),
    ((20, 450.0), (20, 450.0), (1, 1.0)),
    ((15, 300.0), (15, 200.0), (20, 250.0)),
)
Case = tuple[tuple[int, float], ...]


def zones(case: Case) -> tuple[ZonePlan, ...]:
    """Zones of a night whose flow is rate x area: 12 mm/h on 5 m2 are 1 L/min."""
    base = plan().zones[1]
    assert base.evidence is not None
    made = []
    for i, (minutes, flow) in enumerate(case):
        update = {"id": f"Z{i}", "area_m2": 5.0 * flow, "package": None}
        made.append(
            replace(
                base,
                zone=base.zone.model_copy(update=update),
                days=base.dates[:1],
                minutes_per_day=minutes,
                cycles=1,
                cycle_minutes=minutes,
                soak_minutes=0,
            )
        )
    return tuple(made)


def short_site() -> Site:
    end = dt.time(22, WINDOW_MIN)
    return week_site(windows=(Window(start=dt.time(22), end=end),))


def fit(case: Case) -> NightFit:
    site = short_site()
    made = zones(case)
    site = site.model_copy(update={"zones": tuple(one.zone for one in made)})
    found = night_fit(night_plan(site, History(), made), site)
    assert found is not None
    return found


def shortest(case: Case) -> int:
    """Fewest minutes of the night, every order of starts counted out.

    Some best night begins each zone at 0 or where another ends.
    """
    pump = PUMP.flow_l_per_min or 0.0
    ends = {0}
    for _ in case:
        ends |= {start + minutes for start in ends for minutes, _ in case}
    best = 10**6
    for starts in product(sorted(ends), repeat=len(case)):
        last = max(s + m for s, (m, _) in zip(starts, case, strict=True))
        if last >= best:
            continue
        flow = np.zeros(last)
        for start, (minutes, one) in zip(starts, case, strict=True):
            flow[start : start + minutes] += one
        if flow.max() <= pump + 1e-9:
            best = last
    return best


@pytest.mark.parametrize("case", CASES)
def test_a_night_fits_and_is_short_as_counting_out_finds(case: Case) -> None:
    found, best = fit(case), shortest(case)
    assert found.fits == (best <= WINDOW_MIN)
    assert found.minutes_short == max(best - WINDOW_MIN, 0)


def test_a_night_that_does_not_fit_has_ranked_ways_out() -> None:
    found = fit(CASES[1])
    assert found.minutes_short == 10
    fixes = found.stops[0].fix.split("; or ")
    assert "open the window by 10 min" in fixes
    assert any(one.startswith("bring the pump to") for one in fixes)
    assert fixes[-1].startswith("trim all minutes by")


def test_what_has_no_place_draws_no_number_and_says_why() -> None:
    power = fit(CASES[1]).power
    assert (power.power_kw, power.energy_kwh) == (None, None)
    assert "have no place" in power.why


def test_the_worst_overlap_stays_within_the_pump_where_it_fits() -> None:
    found = fit(CASES[2])
    assert found.pump_l_per_min == 450.0
    assert found.peak_flow_l_per_min == pytest.approx(400.0)


def test_a_zone_above_the_pump_is_the_worst_overlap_and_no_minutes_are_short() -> None:
    found = fit(((10, 500.0), (10, 100.0)))
    assert not found.fits
    assert found.minutes_short == 0
    assert found.peak_flow_l_per_min == pytest.approx(500.0)
    assert [one.where for one in found.stops] == ["zone Z0: flow"]


@pytest.mark.parametrize("case", [CASES[0], CASES[1], ((10, 500.0), (10, 100.0))])
def test_every_number_of_the_nights_has_its_trace(case: Case) -> None:
    found = fit(case)
    longest, short, peak = found.traces
    assert (longest.name, longest.value) == ("longest_min", found.longest_min)
    assert (short.name, short.value) == ("minutes_short", found.minutes_short)
    assert peak.value == pytest.approx(found.peak_flow_l_per_min)
    window = longest.find("window_min")
    assert window is not None
    assert (window.value, "22:00 to 22:40" in window.formula) == (WINDOW_MIN, True)


def test_an_overlap_of_a_zone_without_a_place_says_so() -> None:
    assert "found no place" in fit(((10, 500.0), (10, 100.0))).traces[-1].formula


def test_without_a_window_there_is_no_night_to_judge() -> None:
    site = week_site(windows=())
    assert night_fit(night_plan(site, History(), zones(CASES[0])), site) is None
