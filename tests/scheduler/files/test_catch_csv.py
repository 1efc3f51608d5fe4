"""A catch table reads as the cans stood, or is refused with line, column and value."""

import numpy as np
import pytest

from scheduler.files.catch_csv import Grid, read_catch
from scheduler.files.text_file import TextFile


def read(text: str) -> Grid:
    grid, said = read_catch(TextFile("run1.csv", text, ""))
    assert said == ()
    assert grid is not None
    return grid


def refused(text: str) -> list[str]:
    grid, said = read_catch(TextFile("run1.csv", text, ""))
    assert grid is None
    return [str(one) for one in said]


@pytest.mark.parametrize(
    "text",
    [
        "41,52\n55,63\n",
        "41;52\n55;63\n",
        "41\t52\n55\t63\n",
        "41 52\n55   63\n",
        " 41 , 52 \n\n# remark, with a comma\n55,63",
        "41,52,\n55,63,\n",
        ",A,B\n1,41,52\n2,55,63\n",
        "A,B\n1,41,52\n2,55,63\n",
        "A,B\n41,52\n55,63\n",
        '"41","52"\n"55","63"\n',
        "can,reading\nA1,41\nB1,52\nA2,55\nB2,63\n",
    ],
)
def test_cells_may_be_parted_and_framed_in_any_usual_way(text: str) -> None:
    grid = read(text)
    np.testing.assert_array_equal(grid.reading, [[41, 52], [55, 63]])
    assert grid.label == (("A1", "B1"), ("A2", "B2"))


def test_rows_may_be_named_by_letters() -> None:
    grid = read(",1,2\nA,41,52\nB,55,63\n")
    assert grid.label == (("A1", "A2"), ("B1", "B2"))


@pytest.mark.parametrize("text", ["41,5;52,0\n55,25;63\n", "41,5\t52,0\n55,25\t63\n"])
def test_a_comma_is_decimal_between_semicolons_or_tabs(text: str) -> None:
    np.testing.assert_array_equal(read(text).reading, [[41.5, 52], [55.25, 63]])


def test_codes_are_taken_in_any_case() -> None:
    grid = read("41,K,-,\nL,o,–,0\n")
    assert grid.code == (("", "k", "-", "-"), ("l", "o", "-", ""))


def test_a_place_without_a_number_is_not_zero() -> None:
    assert np.isnan(read("41,k\n-,52\n").reading[[0, 1], [1, 0]]).all()


def test_a_zero_is_kept() -> None:
    assert read("41,0\n52,60\n").reading[0, 1] == 0.0


def test_a_negative_reading_is_kept_for_the_screening() -> None:
    assert read("41,-12\n52,60\n").reading[0, 1] == -12.0


def test_a_row_of_codes_is_no_header() -> None:
    assert read("k,l\n41,52\n").reading.shape == (2, 2)


def test_a_list_of_free_names_stands_in_one_row() -> None:
    grid = read("can,reading\nby the road,41\nby the pond,52\n")
    assert grid.label == (("by the road", "by the pond"),)


def test_a_hole_in_a_list_is_a_place_without_a_can() -> None:
    grid = read("can,reading\nA1,41\nB1,52\nA2,55\n")
    assert np.isnan(grid.reading[1, 1])
    assert grid.label[1][1] == ""


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("41,52\n55\n", "run1.csv:2: has 1 cells, line 1 has 2"),
        ("41,52\n55,wet\n", "run1.csv:2: column B: 'wet' is neither a reading nor a"),
        ("41,52 mL\n55,60\n", "run1.csv:1: column B: '52 mL' is neither"),
        ('41,"1,250"\n55,60\n', "column B: '1,250' could be 1250 or 1.250"),
        ("41;1,250\n55;60\n", "column B: '1,250' could be 1250 or 1.250"),
        ("41;12.0,5\n55;60\n", "'12.0,5' is not a number here"),
        ('41,"52,5"\n55,60\n', "write decimals with a point"),
        ("10,5\n12,0\n9,8\n", "10,5 could be one number with a decimal comma, or two"),
        ("1,41,52\n2,55,63\n3,50,60\n", "row numbers, or readings?"),
        ("41,52\n55,63\n50,60\n146,175\n", "run1.csv:4: is the sum of the rows above"),
        ("A,A\n41,52\n", "column A stands twice"),
        (",A,B\n1,41,52\n1,55,63\n", "row 1 stands twice, on line 2 and line 3"),
        (
            "can,reading\nA1,41\nB1,52\na1,55\n",
            "can a1: stands twice, on line 2 and li",
        ),
        ("can,reading\nA1,41\nB1\n", "run1.csv:3"),
        ("can,reading\nA1,41,7\n", "is not a can and its reading"),
        ("can,reading\n", "holds no readings"),
        ("# nothing\n", "holds no readings"),
        (",,\n,,\n", "holds no readings"),
        ("nan,52\n55,60\n", "'nan' is neither a reading nor a code"),
        ("1e3,52\n55,60\n", "'1e3' is neither a reading nor a code"),
        ("Summe;236,7\n", "'Summe' is neither a reading nor a code"),
    ],
)
def test_what_is_not_understood_is_refused(text: str, message: str) -> None:
    assert message in refused(text)[0]


def test_all_cells_that_are_wrong_are_named() -> None:
    assert len(refused("41,a\nb,60\n")) == 2
