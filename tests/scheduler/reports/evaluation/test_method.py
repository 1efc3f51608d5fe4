"""Method, photos, next test: what was done, what was left out, what it rests on."""

from scheduler.reports.evaluation.method import (
    method_section,
    next_section,
    photos_section,
    sources,
)
from scheduler.reports.evaluation.told import Told
from scheduler.reports.paper import Facts, Photos, Words


def facts(told: Told) -> list[tuple[str, str]]:
    found = method_section(told).blocks
    return [one for block in found if isinstance(block, Facts) for one in block.facts]


def test_cans_places_minutes_and_start_of_every_run(both: list[Told]) -> None:
    for told in both:
        known = dict(facts(told))
        for run in told.runs:
            rows, columns = run.catch.run.reading.shape
            assert f"{run.catch.n_cans} cans on {rows} x {columns}" in known[run.run]


def test_what_was_left_out_stands_with_its_reason_and_both_uniformities(
    tern: dict[str, Told],
) -> None:
    run = tern["Z6"].runs[0]
    out = [text for name, text in facts(tern["Z6"]) if name == "Left out"]
    assert "the riser beside this can leaked" in out[0]
    assert run.as_kept is not None
    assert f"{run.uniformity.du_lq:.2f} without, {run.as_kept.du_lq:.2f} with" in out[1]


def test_every_finding_of_the_test_is_said(both: list[Told]) -> None:
    for told in both:
        texts = [text for _, text in facts(told)]
        for one in told.test.findings:
            assert any(one.what.split()[0] in text for text in texts)


def test_limits_of_the_range_are_said(tern: dict[str, Told]) -> None:
    limits = dict(facts(tern["Z4"]))["Limits"]
    assert "not another night" in limits
    assert "height of the cans" in limits


def test_there_are_four_frames_and_the_driest_cans_are_named(
    tern: dict[str, Told],
) -> None:
    (block,) = photos_section(tern["Z4"]).blocks
    assert isinstance(block, Photos)
    assert len(block.captions) == 4
    assert "E3, F2, H1, A1" in block.captions[0]


def test_the_day_of_the_next_test_and_the_confidence_are_said(
    tern: dict[str, Told],
) -> None:
    said = " ".join(
        b.text for b in next_section(tern["Z4"]).blocks if isinstance(b, Words)
    )
    assert "Test again by 12 May 2027" in said
    assert "Confidential" in said


def test_sources_are_publications_and_each_is_named_once(both: list[Told]) -> None:
    for told in both:
        found = sources(told)
        assert len(found) == len(set(found))
        assert not any("entered" in one or ".csv" in one for one in found)
    assert any("FAO-56" in one for one in sources(both[0]))
