"""Causes: evidence and checks as the rooms give them, gauges head by head."""

from dataclasses import replace

from scheduler.field.causes import CHECKS
from scheduler.reports.evaluation.causes import (
    cause_caveat,
    causes_section,
    heads_table,
)
from scheduler.reports.evaluation.told import Told
from scheduler.reports.hydraulics import hydraulics_rows
from scheduler.reports.paper import Facts, Table, Words
from scheduler.units import shown


def test_a_sure_cause_stands_with_evidence_share_and_checks(
    alder: dict[str, Told],
) -> None:
    shape = alder["A1"].test.shape
    assert shape is not None
    first = shape.causes[0]
    table = causes_section(alder["A1"]).blocks[0]
    assert isinstance(table, Table)
    name, evidence, checks = table.rows[0]
    assert name == f"{first.kind}, {first.where}"
    assert first.evidence in evidence
    assert f"p {first.p:.3f}" in evidence
    assert all(check in checks for check in CHECKS["ring"])


def test_without_a_cause_no_share_is_claimed(tern: dict[str, Told]) -> None:
    table = causes_section(tern["Z4"]).blocks[0]
    assert isinstance(table, Table)
    assert table.rows[0][0] == "no shape"
    assert "of the spread" not in table.rows[0][1]


def test_too_few_cans_say_so(tern: dict[str, Told]) -> None:
    bare = replace(tern["Z4"], test=replace(tern["Z4"].test, shape=None))
    first = causes_section(bare).blocks[0]
    assert isinstance(first, Words)
    assert cause_caveat(bare) == ""


def test_every_gauge_and_bucket_is_a_row(tern: dict[str, Told]) -> None:
    told = tern["Z4"]
    rows = {row[0]: row for row in heads_table(told).rows}
    for one in told.read.pressures:
        if not one.is_static:
            gauged = shown(one.pressure_kpa, "kpa", "us", with_unit=False)
            assert rows[one.name][1] == gauged
    water = told.test.hydraulics
    assert water is not None
    assert water.flow is not None
    for head in water.flow.heads:
        caught = shown(head.flow_l_per_min, "l_per_min", "us", with_unit=False)
        assert rows[head.name][2] == caught


def test_the_checks_of_pressure_and_flow_are_the_rooms(tern: dict[str, Told]) -> None:
    water = tern["Z4"].test.hydraulics
    assert water is not None
    (facts,) = [b for b in causes_section(tern["Z4"]).blocks if isinstance(b, Facts)]
    texts = [text for _, text in facts.facts]
    expected = [" ".join(text.split()) for _, text in hydraulics_rows(water, "us")]
    assert texts == expected


def test_what_could_not_be_looked_for_is_said(tern: dict[str, Told]) -> None:
    assert "Not looked for: ring and one head" in cause_caveat(tern["Z4"])
