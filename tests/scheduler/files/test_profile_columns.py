"""Columns of a table of legs are known by name and unit, or refused."""

import pytest

from scheduler.files.profile_columns import leg_columns


@pytest.mark.parametrize(
    ("header", "suffix"),
    [
        ("volume (mL)", "ml"),
        ("leg 2 [fl oz]", "fl_oz"),
        ("depth_in", "in"),
        ("catch mm", "mm"),
        ("rate (in/h)", "in_per_h"),
        ("Rate north (mm/hr)", "mm_per_h"),
    ],
)
def test_a_leg_carries_the_unit_of_its_header(header: str, suffix: str) -> None:
    found, said = leg_columns(["distance (ft)", header], "p.csv:1")
    assert found is not None
    assert [one.suffix for one in found.legs] == [suffix]
    assert said == ()


def test_every_further_reading_column_is_a_leg() -> None:
    found, _ = leg_columns(["radius (m)", "leg 1 (mL)", "leg 2 (mL)"], "p.csv:1")
    assert found is not None
    assert len(found.legs) == 2


def test_a_column_of_something_else_is_named_and_left_out() -> None:
    found, said = leg_columns(["distance (m)", "depth (mm)", "who"], "p.csv:1")
    assert found is not None
    assert [(one.level, one.what) for one in said] == [
        ("note", "columns not used: who")
    ]


@pytest.mark.parametrize(
    ("headers", "message"),
    [
        (["distance", "depth (in)"], "p.csv:1: distance: has no unit"),
        (["distance (ft)", "depth"], "p.csv:1: depth: has no unit"),
        (["distance (ft)", "depth (ft)"], "is in 'ft', which is not one of mL"),
        (["distance (mi)", "depth (in)"], "is in 'mi', which is not one of ft"),
        (["distance (ft)", "rate (gpm)"], "is in 'gpm', which is not one of mL"),
        (["distance (ft)", "who"], "no column holds the reading"),
        (["who", "depth (in)"], "no column holds the distance"),
        (["distance (ft)", "distance (m)", "depth (in)"], "two columns of distances"),
        (["0", "0.4"], "the first line holds numbers"),
    ],
)
def test_units_and_columns_are_never_guessed(headers: list[str], message: str) -> None:
    found, said = leg_columns(headers, "p.csv:1")
    assert found is None
    assert any(message in str(one) for one in said)
