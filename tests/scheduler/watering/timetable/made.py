"""Nights and jobs that several tests of the timetable share."""

from typing import Any

import numpy as np
from hypothesis import strategies as st

from scheduler.arrays import FloatArray
from scheduler.unit_table import L_PER_US_GALLON
from scheduler.watering.timetable import Grid, Job
from scheduler.watering.timetable.task import all_valves

# eight zones of a worked night: minutes and flows in gpm
MINUTES = (95, 60, 105, 70, 80, 55, 90, 65)
FLOWS_GPM = (95, 120, 80, 110, 70, 105, 60, 90)
WINDOW_MIN = 390


def eight_zones() -> list[Job]:
    """The worked night's zones, 1 to 8, all of them to run in night 0."""
    return [
        Job(f"{i}", 1, minutes, 0, gpm * L_PER_US_GALLON, must=(0,))
        for i, (minutes, gpm) in enumerate(zip(MINUTES, FLOWS_GPM, strict=True), 1)
    ]


def night(minutes: int = WINDOW_MIN, *, pump_gpm: float = 200.0, **given: Any) -> Grid:
    """One night, all minutes open and of one price."""
    flat = np.ones((1, 1, minutes))
    return Grid(flat > 0, flat, pump_gpm * L_PER_US_GALLON, **given)


def priced(cost: FloatArray, **given: Any) -> Grid:
    """Open minutes at these costs, of shape (n_nights, n_minutes)."""
    return Grid(np.ones((1, *cost.shape), dtype=bool), cost[None], **given)


@st.composite
def weeks(draw: st.DrawFn) -> tuple[list[Job], Grid]:
    """A few zones, nights of an hour or two, some minutes closed."""
    n_nights, n_minutes = draw(st.integers(1, 3)), draw(st.integers(20, 80))
    n_jobs = draw(st.integers(1, 6))
    jobs = []
    for i in range(n_jobs):
        nights = draw(st.sets(st.integers(0, n_nights - 1), min_size=1))
        pinned = draw(st.booleans())
        jobs.append(
            Job(
                zone=f"Z{i}",
                cycles=draw(st.integers(1, 3)),
                cycle_min=draw(st.integers(1, 15)),
                soak_min=draw(st.integers(0, 10)),
                most_soak_min=draw(st.one_of(st.none(), st.integers(10, 20))),
                flow_l_per_min=draw(st.one_of(st.none(), st.floats(1.0, 90.0))),
                must=tuple(sorted(nights)) if pinned else (),
                may=() if pinned else tuple(sorted(nights)),
                more=0 if pinned else draw(st.integers(1, len(nights))),
                rest_nights=draw(st.integers(0, 1)) if not pinned else 0,
                not_with=(f"Z{draw(st.integers(0, n_jobs - 1))}",),
                clock=draw(st.integers(0, 1)),
            )
        )
    seed = draw(st.integers(0, 2**31))
    rng = np.random.default_rng(seed)
    clocks = draw(st.sampled_from([(), (1, 2), (None, 1)]))
    one_clock = draw(st.one_of(st.none(), st.integers(1, 3)))
    is_open = rng.random((1, n_nights, n_minutes)) > draw(st.sampled_from([0.0, 0.02]))
    return jobs, Grid(
        is_open=is_open,
        cost=rng.uniform(0.5, 2.0, is_open.shape),
        pump_l_per_min=draw(st.one_of(st.none(), st.floats(60.0, 200.0))),
        max_valves=all_valves(clocks) if clocks else one_clock,
        change_over_min=draw(st.integers(0, 2)),
        clock_valves=clocks,
    )
