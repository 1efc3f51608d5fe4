"""Next steps: cheapest first, each once, and nothing before what stops a test."""

import datetime as dt
from dataclasses import replace

import pytest

from scheduler.errors import Finding
from scheduler.field.causes import CHECKS
from scheduler.field.evaluation import TestEvaluation, evaluated_site
from scheduler.field.next_steps import COSTS, next_steps
from scheduler.files.demo import demo_source
from scheduler.files.site_folder import read_site_folder

EMPTY = TestEvaluation("Z1", "t", dt.date(2026, 5, 12), "as found", (), None, ())


@pytest.fixture(scope="module")
def tests() -> dict[str, TestEvaluation]:
    found = read_site_folder(demo_source() / "tern_hollow")
    assert found.site is not None
    made = evaluated_site(found.site, found.history, with_ranges=False)
    return {one.test: one for one in made}


def test_a_test_without_runs_asks_for_nothing() -> None:
    assert next_steps(EMPTY) == ()


def test_cheap_steps_come_before_dear_ones(tests: dict[str, TestEvaluation]) -> None:
    for test in tests.values():
        ranks = [COSTS.index(s.cost) for s in next_steps(test) if not s.is_first]
        assert ranks == sorted(ranks)


def test_each_thing_is_said_once(tests: dict[str, TestEvaluation]) -> None:
    for test in tests.values():
        whats = [one.what for one in next_steps(test)]
        assert len(whats) == len(set(whats))


def test_what_stops_a_test_comes_first(tests: dict[str, TestEvaluation]) -> None:
    first, *rest = next_steps(tests["2026-05-27-Z9"])
    assert first.is_first
    assert "can mouth" in first.what
    assert not any(one.is_first for one in rest)


def test_a_sure_cause_gives_its_checks_and_names_itself(
    tests: dict[str, TestEvaluation],
) -> None:
    steps = next_steps(tests["2026-03-24-Z5"])
    whats = {one.what: one.why for one in steps}
    for check in CHECKS["strip"]:
        assert whats[check] == "strip, row 4"


def test_one_run_asks_for_another(tests: dict[str, TestEvaluation]) -> None:
    assert any("same grid" in s.what for s in next_steps(tests["2026-05-12-Z4"]))
    assert not any("same grid" in s.what for s in next_steps(tests["2026-03-24-Z5"]))


@pytest.mark.parametrize(
    ("fix", "cost"),
    [
        ("look for a blocked arc", COSTS[0]),
        ("gauge the first and last head", COSTS[1]),
        ("replace the set, then test again", COSTS[2]),
    ],
)
def test_a_warning_is_as_dear_as_its_remedy(fix: str, cost: str) -> None:
    said = (Finding("warning", "t", "something", fix), Finding("note", "t", "b", "c"))
    (step,) = next_steps(replace(EMPTY, findings=said))
    assert (step.what, step.why, step.cost) == (fix, "something", cost)
