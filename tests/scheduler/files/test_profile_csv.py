"""A table of legs reads with its units, or is refused with line, column and value."""

import math

import numpy as np
import pytest

from scheduler.errors import QuantityError
from scheduler.files.profile_csv import Leg, radial_leg, read_legs, unused_findings
from scheduler.files.text_file import TextFile

PLAIN = "distance (ft),volume (mL)\n0,60\n10,40\n20,0\n"


def read(text: str) -> tuple[Leg, ...]:
    legs, said = read_legs(TextFile("p.csv", text, ""))
    assert not any(one.level == "stop" for one in said), said
    return legs


def refused(text: str) -> list[str]:
    legs, said = read_legs(TextFile("p.csv", text, ""))
    assert legs == ()
    return [str(one) for one in said if one.level == "stop"]


@pytest.mark.parametrize(
    "text",
    [
        PLAIN,
        PLAIN.replace(",", ";"),
        PLAIN.replace(",", "\t"),
        "# a remark, with a comma\n\n" + PLAIN,
        "distance (ft),volume (mL),\n0,60,\n10,40,\n20,0,\n",
        "volume (mL),distance (ft)\n60,0\n40,10\n0,20\n",
    ],
)
def test_cells_may_be_parted_in_any_usual_way(text: str) -> None:
    (leg,) = read(text)
    np.testing.assert_allclose(leg.distance_m, [0, 3.048, 6.096])
    np.testing.assert_array_equal(leg.reading, [60, 40, 0])


def test_every_column_is_a_leg_with_its_own_place() -> None:
    legs = read("distance (m),leg east (mm),leg west (in)\n0,25.4,1\n9,0,0\n")
    assert [one.where for one in legs] == [
        "p.csv:1: leg east (mm)",
        "p.csv:1: leg west (in)",
    ]
    np.testing.assert_allclose(legs[0].reading, legs[1].reading)


def test_a_code_is_no_reading_and_a_note_names_its_line() -> None:
    legs, said = read_legs(TextFile("p.csv", PLAIN.replace("40", "k"), ""))
    assert np.isnan(legs[0].reading[1])
    assert [(one.level, one.where) for one in said] == [
        ("note", "p.csv:3: volume (mL)")
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (PLAIN.replace("40", "wet"), "p.csv:3: volume (mL): 'wet' is not understood"),
        (PLAIN.replace("40", "-4"), "p.csv:3: volume (mL): is -4"),
        (PLAIN.replace("\n0,", "\n-1,"), "p.csv:2: distance (ft): is -1"),
        (PLAIN.replace("10,40", "-,40"), "p.csv:3: distance (ft): '-' is not under"),
        (
            PLAIN.replace("20,0", "5,0"),
            "p.csv:4: distance (ft): 5 follows 10 on line 3",
        ),
        (PLAIN.replace("20,0", "10,0"), "10 follows 10 on line 3"),
        (PLAIN.replace("10,40", "10"), "p.csv:3: has 1 cells, the first line has 2"),
        (PLAIN.replace("10,40", "10,40,5"), "p.csv:3: has 3 cells"),
        (PLAIN.replace(",", ";").replace("40", "1,250"), "could be 1250 or 1.250"),
        ("distance (ft),volume (mL)\n0,60\n", "holds fewer than two cans"),
        ("distance (ft),volume (mL)\n0,k\n9,-\n", "holds no reading at all"),
        ("0,60\n10,40\n20,0\n", "p.csv:1: the first line holds numbers"),
        ("# only a remark\n", "p.csv: holds no readings"),
        ("distance,volume (mL)\n0,60\n9,0\n", "p.csv:1: distance: has no unit"),
    ],
)
def test_what_is_not_understood_is_refused_with_its_place(
    text: str, message: str
) -> None:
    assert any(message in one for one in refused(text))


def test_every_wrong_cell_is_named() -> None:
    assert len(refused(PLAIN.replace("60", "wet").replace("40", "dry"))) == 2


# --- what was read becomes a rate; values by hand ------------------------------


def test_a_volume_becomes_a_rate_by_mouth_and_minutes() -> None:
    (leg,) = read(PLAIN)
    # 60 mL on 100 cm2 are 6 mm, in half an hour 12 mm/h
    rate = radial_leg(leg, mouth_area_cm2=100.0, minutes=30).rate_mm_per_h
    np.testing.assert_allclose(rate, [12, 8, 0])


def test_a_depth_becomes_a_rate_by_minutes() -> None:
    (leg,) = read("distance (ft),depth (in)\n0,1\n20,0\n")
    rate = radial_leg(leg, mouth_area_cm2=None, minutes=120).rate_mm_per_h
    np.testing.assert_allclose(rate, [12.7, 0])


def test_a_rate_needs_neither() -> None:
    (leg,) = read("distance (ft),rate (in/h)\n0,1\n20,0\n")
    rate = radial_leg(leg, mouth_area_cm2=None, minutes=None).rate_mm_per_h
    np.testing.assert_allclose(rate, [25.4, 0])


@pytest.mark.parametrize(
    ("mouth", "minutes", "message"),
    [
        (
            None,
            60.0,
            "p.csv:1: volume \\(mL\\): volumes make a rate only with the mouth",
        ),
        (100.0, None, "only with the minutes"),
        (100.0, 0.0, "a run of 0 minutes"),
        (100.0, math.nan, "a run of nan minutes"),
        (100.0, 2000.0, "up to 1440 minutes"),
    ],
)
def test_mouth_and_minutes_are_never_guessed(
    mouth: float | None, minutes: float | None, message: str
) -> None:
    (leg,) = read(PLAIN)
    with pytest.raises(QuantityError, match=message):
        radial_leg(leg, mouth_area_cm2=mouth, minutes=minutes)


def test_a_mouth_and_minutes_that_rates_do_not_need_are_noted() -> None:
    legs = read("distance (ft),rate (in/h)\n0,1\n20,0\n")
    said = unused_findings(legs, has_mouth=True, has_minutes=True)
    assert [one.where for one in said] == ["--mouth", "--minutes"]


def test_volumes_use_both() -> None:
    assert unused_findings(read(PLAIN), has_mouth=True, has_minutes=True) == ()
