"""A scribbled list becomes a run; what can be read in two ways is asked about."""

import numpy as np
import pytest

from scheduler.files.readings import parsed_readings
from scheduler.record import CanRun


def read(text: str) -> tuple[CanRun | None, list[str]]:
    run, said = parsed_readings(
        text, unit="ml", name="run 1", where="readings", minutes=30
    )
    return run, [str(one) for one in said]


def values(text: str) -> list[list[float]]:
    run, said = read(text)
    assert said == []
    assert run is not None
    return run.reading.tolist()  # type: ignore[no-any-return]


@pytest.mark.parametrize(
    "text",
    [
        "41 52 | 55 63",
        "41 52\n55 63\n",
        "41;52|55;63",
        "41, 52 | 55, 63",
        "  41   52  |\n\n 55\t63 ",
        "41; 52;\n55; 63;",
        "41 , 52 | 55 , 63",
    ],
)
def test_readings_may_be_parted_in_any_usual_way(text: str) -> None:
    assert values(text) == [[41, 52], [55, 63]]


def test_codes_stand_for_cans_without_a_number() -> None:
    run, _ = read("41 - K l O –")
    assert run is not None
    assert run.code == (("", "-", "k", "l", "o", "-"),)
    assert np.isnan(run.reading[0, 1:]).all()


@pytest.mark.parametrize("text", ["-12 41 52 60", "−12 41 52 60"])
def test_a_dash_before_a_number_makes_it_negative(text: str) -> None:
    assert values(text)[0][0] == -12.0


@pytest.mark.parametrize(
    ("text", "first"),
    [("½ 41 52", 0.5), ("4½ 41 52", 4.5), ("1/2 0.4", 0.5), ("4 1/2; 41; 52", 4.5),
     (".5 41", 0.5), ("0 41", 0.0)],
)  # fmt: skip
def test_fractions_are_read(text: str, first: float) -> None:
    assert values(text)[0][0] == first


def test_a_cell_left_empty_is_a_place_without_a_reading() -> None:
    run, _ = read("41;;52")
    assert run is not None
    assert run.code == (("", "-", ""),)


def test_rows_may_differ_in_length() -> None:
    run, _ = read("41 52 60 - k | 55 63")
    assert run is not None
    assert run.reading.shape == (2, 5)
    assert run.label[1] == ("A2", "B2", "", "", "")


def test_a_decimal_comma_is_read_with_a_note() -> None:
    run, said = read("41,5 52,0 60 | 9,75 63")
    assert run is not None
    assert run.reading[1, 0] == 9.75
    assert "commas are read as decimal signs: 41,5 is 41.5" in said[0]


def test_a_comma_after_zero_can_only_be_decimal() -> None:
    run, _ = read("0,250 0,375")
    assert run is not None
    assert run.reading.tolist() == [[0.25, 0.375]]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("41 1,250 52", "'1,250' could be 1250, 1.250 or several cans"),
        ("41,5, 52,0", "commas are used in two ways"),
        ("41,52,\n55,63,\n", "commas are used in two ways"),
        ("41,52\n55,63\n", "'41,52' could be one can or two"),
        ("41 52 4 1/2", "'4 1/2' could be one can or two; write 4.5 for one"),
        ("41 52 4 ½", "could be one can or two"),
        ("41 52ml", "row 1, can B: '52ml' is neither a reading nor a code"),
        ("41 52 | 5x 60", "readings: row 2, can A: '5x'"),
        ("41 inf", "'inf' is neither"),
        ("41 1e3", "'1e3' is neither"),
        ("", "holds no readings"),
        (" |\n", "holds no readings"),
    ],
)
def test_what_is_not_clear_is_asked(text: str, message: str) -> None:
    run, said = read(text)
    assert run is None
    assert message in said[0]


def test_unit_name_and_minutes_are_those_given() -> None:
    run, _ = parsed_readings("1 2", unit="fl_oz", name="n", where="w", minutes=None)
    assert run is not None
    assert (run.unit, run.name, run.where, run.minutes) == ("fl_oz", "n", "w", None)
