"""Errors say the place, what is wrong and what to do."""

from scheduler.errors import Finding, SchedulerError, TooFewCansError


def test_a_finding_reads_as_one_sentence_with_its_remedy() -> None:
    finding = Finding("stop", "zones.toml:17: area_ft2", "is -4", "enter the area")
    assert str(finding) == "zones.toml:17: area_ft2: is -4; enter the area"


def test_an_error_becomes_a_finding_at_the_place_it_was_met() -> None:
    error = SchedulerError("is -4", "enter the area")
    assert error.finding("zone Z4").where == "zone Z4"


def test_too_few_cans_keeps_the_counts_as_facts() -> None:
    error = TooFewCansError(3, 4)
    assert (error.n_cans, error.needed) == (3, 4)
