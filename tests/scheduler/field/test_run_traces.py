"""Numbers of a run with formula and source: those of the run, each from its cans."""

from dataclasses import replace

import numpy as np
import pytest

from scheduler.field.evaluation import RunEvaluation, evaluated_run
from scheduler.field.run_traces import run_traces
from scheduler.record import CanRun
from scheduler.trace import Trace, entered


def worked(mouth_area_cm2: float | None = 100.0) -> RunEvaluation:
    can_run = CanRun(
        "run1", "run1.csv", np.array([[50.0, 60.0, 40.0, 50.0]]),
        (("", "", "", ""),), (("A1", "B1", "C1", "D1"),), "ml", 30.0,
    )  # fmt: skip
    return evaluated_run(can_run, mouth_area_cm2=mouth_area_cm2, with_ranges=False)


def by_name(run: RunEvaluation) -> dict[str, Trace]:
    return {one.name: one for one in run_traces(run, "2026-05-12-Z4")}


def test_four_cans_have_the_numbers_found_by_hand() -> None:
    # mean 50 mL over 100 cm2 is 5 mm, in 30 min 10 mm/h; driest 40, drier half 45
    found = {name: one.value for name, one in by_name(worked()).items()}
    assert found == pytest.approx(
        {"du_lq": 0.8, "du_lh": 0.9, "cu": 0.9, "mean_depth_mm": 5.0,
         "net_rate_mm_per_h": 10.0}
    )  # fmt: skip


def test_the_rate_rests_on_the_depth_and_the_depth_on_the_mouth() -> None:
    names = [one.name for one in by_name(worked())["net_rate_mm_per_h"].chain()]
    assert names.index("mouth_area_cm2") < names.index("mean_depth_mm")
    assert names[-1] == "net_rate_mm_per_h"


def test_every_number_names_a_formula_and_a_source() -> None:
    for trace in run_traces(worked()):
        assert all(one.formula and one.source for one in trace.chain())


def test_cans_of_an_unknown_mouth_have_no_depth() -> None:
    assert set(by_name(worked(None))) == {"du_lq", "du_lh", "cu"}


def test_a_known_nozzle_gives_the_share_that_arrived() -> None:
    run = worked()
    gross = entered("gross_rate_mm_per_h", 12.5, "packages.toml")
    caught = replace(run.catch, net_over_gross=0.8, gross_trace=gross)
    share = by_name(replace(run, catch=caught))["net_over_gross"]
    assert share.value == 0.8
    assert gross in share.inputs
