"""A learned correction in; its trace and findings out."""

import dataclasses
import datetime as dt
import math

from scheduler.proof.learned_words import (
    evidence_text,
    learned_findings,
    learned_trace,
)
from scheduler.proof.learning import Learned, Observation, learned
from scheduler.proof.observed import SeenWeights
from scheduler.proof.resets import Reset, Resets
from tests.scheduler.proof.test_observed import weighed
from tests.scheduler.proof.yard import TODAY, yard

NONE = Resets(None, None)
CHECK = Observation(TODAY, math.log(0.9), 0.1, "leaching check", "log.csv:10")
WILD = Observation(TODAY, math.log(0.4), 0.1, "leaching check", "log.csv:20")


def said(
    now: Learned, factor: float, why: str = "", weights: tuple[SeenWeights, ...] = ()
) -> list[str]:
    return [one.what for one in learned_findings("Z4", now, factor, why, weights)]


def test_evidence_is_counted_by_kind() -> None:
    meter = dataclasses.replace(CHECK, kind="meter")
    assert (
        evidence_text([CHECK, CHECK, meter]) == "2 leaching checks, 1 week of the meter"
    )


def test_a_used_correction_says_how_sure_it_is_and_how_it_is_taken_back() -> None:
    now = learned([CHECK], TODAY)
    found = learned_findings("Z4", now, now.factor, "", ())[0]
    assert found.what == (
        "0.92 (0.79 to 1.06, 90 % sure) from 1 leaching check: the plan's use is "
        "multiplied with 0.92"
    )
    assert "learn = false" in found.fix


def test_a_cut_that_the_driest_pot_holds_is_said() -> None:
    now = learned([CHECK], TODAY)
    assert "the driest pot allows no deeper cut" in said(now, 0.97)[0]


def test_a_correction_that_is_not_used_says_why() -> None:
    now = learned([CHECK], TODAY)
    assert said(now, 1.0, "it rained")[0].endswith("; it is not used: it rained")


def test_a_check_held_back_is_a_warning() -> None:
    found = learned_findings("Z4", learned([WILD], TODAY), 1.0, "", ())
    assert (found[0].level, "not learned yet" in found[0].what) == ("warning", True)


def test_an_old_one_is_no_news() -> None:
    old = dataclasses.replace(WILD, date=TODAY - dt.timedelta(days=40))
    assert said(learned([old], TODAY), 1.0) == []


def test_one_pot_on_the_scales_is_told_and_teaches_nothing() -> None:
    one = weighed(yard())[0]
    alone = dataclasses.replace(
        one, day=dataclasses.replace(one.day, daily_loss_ml=(500.0,))
    )
    assert (
        "one pot weighed: it used 500 mL"
        in said(learned([], TODAY), 1.0, "", (alone,))[0]
    )


def test_the_trace_holds_every_look_and_the_floor() -> None:
    now = learned([CHECK], TODAY)
    trace = learned_trace(now, 0.95, 0.95, why_not="", resets=NONE)
    assert (trace.name, trace.value) == ("kc_correction", 0.95)
    assert [one.name for one in trace.inputs] == [
        "use_ratio[2026-06-08 leaching check, log.csv:10]",
        "driest_pot_floor",
    ]


def test_the_trace_says_what_was_held_back_and_what_was_reset() -> None:
    reset = Resets(Reset(TODAY, "new nozzles", "log.csv:9"), None)
    now = learned([CHECK, WILD], TODAY)
    note = learned_trace(now, 1.0, None, why_not="why", resets=reset).note
    assert "is not used: why" in note
    assert "held back: 0.40 of log.csv:20" in note
    assert "nothing before 2026-06-08 counts: new nozzles (log.csv:9)" in note


def test_a_lower_limit_is_marked_in_the_trace() -> None:
    limit = dataclasses.replace(CHECK, log_ratio=math.log(1.2), is_at_least=True)
    now = learned([limit], TODAY)
    trace = learned_trace(now, now.factor, None, why_not="", resets=NONE)
    assert trace.inputs[0].note.startswith("at least")
