"""Readings from any usual table: three worked tests, and the questions they raise."""

from typing import Any

import numpy as np
import pytest

from scheduler.errors import SiteFolderError
from scheduler.field.evaluation import RunEvaluation, evaluated_run
from scheduler.field.screening import screened
from scheduler.field.uniformity import low_quarter_uniformity
from scheduler.files.given_table import Given, given_run
from scheduler.files.messy.choices import Choices
from scheduler.record import CanRun, CanUnit
from tests.scheduler.field.made import can_test
from tests.scheduler.files.messy.made import KINDS, Formula, Merged, workbook

# A metric test of 20 cans, 45 minutes, in millimetres. Worked by hand from the field
# sheet: n 20, mean 11.84 mm, DU low quarter 0.799, low half 0.870, 15.8 mm/h.
METRIC = ["10,5", "12,0", "9,8", "14,2", "13,1", "11,4", "8,7", "12,6", "15,0", "13,8",
          "10,1", "9,2", "12,9", "14,6", "11,8", "10,9", "13,3", "12,2", "9,5",
          "11,1"]  # fmt: skip
# Two readers in one column: millilitres, then fluid ounces. As typed DU is 0.061.
TWO_READERS = [52, 47, 61, 55, 44, 58, 49, 63, 57, 50, 46, 60, 1.9, 1.7, 2.1, 1.6, 2.0,
               1.8, 1.5, 1.9, 2.2, 1.7, 1.8, 2.0]  # fmt: skip
# One place blank, one can knocked over, one zero that is kept until a reason is given.
MISSING = [38, 41, 36, 44, "", 0, 52, 47, 39, 35, 49, 55, 33, 42, 46, "k", 40, 37, 51,
           45, 43, 34, 48, 50]  # fmt: skip


def read(
    data: bytes | str, unit: CanUnit | None = None, minutes: float = 30.0, **said: Any
) -> tuple[CanRun | None, list[str]]:
    raw = data.encode() if isinstance(data, str) else data
    given = Given(unit, minutes, Choices(**said))
    run, findings = given_run(raw, "field", given)
    return run, [str(one) for one in findings]


def evaluated(run: CanRun | None) -> RunEvaluation:
    assert run is not None
    return evaluated_run(run, mouth_area_cm2=91.5, with_ranges=False)


def number(text: str) -> float:
    return float(text.replace(",", "."))


# --- the metric test -----------------------------------------------------------


def metric_sheet(as_text: bool, total: Any = 236.7) -> list[list[Any]]:
    cans = [[value if as_text else number(value)] for value in METRIC]
    return [["Auffang / Catch"], ["mm"], *cans, [total]]


def labelled_sheet(as_text: bool) -> list[list[Any]]:
    cans = [[i, value if as_text else number(value)] for i, value in
            enumerate(METRIC, 1)]  # fmt: skip
    total: Any = "236,7" if as_text else Formula("=SUM(B3:B22)", 236.7)
    head: list[list[Any]] = [[Merged("Auffang / Catch", 2)], ["Nr.", "mm"]]
    return [*head, *cans, ["Summe", total]]


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("as_text", [True, False])
def test_the_metric_test_reads_from_any_workbook(kind: str, as_text: bool) -> None:
    sheets = {"Feld": labelled_sheet(as_text), "old": [[i, 99] for i in range(9)]}
    run, said = read(workbook(kind, sheets, ["old"]), minutes=45.0)
    one = evaluated(run)
    assert one.catch.n_cans == 20
    assert one.catch.mean_depth_mm == pytest.approx(11.835, abs=1e-9)
    assert one.uniformity.du_lq == pytest.approx(0.799, abs=5e-4)
    assert one.uniformity.du_lh == pytest.approx(0.870, abs=5e-4)
    assert one.catch.net_rate_mm_per_h == pytest.approx(15.8, abs=0.05)
    assert len(said) == 1


def test_it_says_what_it_read_and_how() -> None:
    sheets = {"Feld": labelled_sheet(True), "old": [[i, 99] for i in range(9)]}
    _, (said,) = read(workbook("xlsx", sheets, ["old"]))
    for part in (
        "field: sheet 'Feld': read header from row 2",
        "20 readings from B3 to B22",
        "decimals with comma",
        "ignored total row 23 (Summe)",
        "hidden sheet 'old' not read",
        "in mm",
    ):
        assert part in said


@pytest.mark.parametrize("as_text", [True, False])
def test_a_total_without_a_word_is_asked_about(as_text: bool) -> None:
    book = workbook(
        "xlsx", {"Feld": metric_sheet(as_text, "236,7" if as_text else 236.7)}
    )
    run, (said,) = read(book)
    assert run is None
    assert "cell A23: the row of 236" in said
    assert "--total row to leave it out, --total none if a can stood there" in said


def test_a_total_is_left_out_when_told() -> None:
    book = workbook("xlsx", {"Feld": metric_sheet(True, "236,7")})
    run, said = read(book, minutes=45.0, total="row")
    assert evaluated(run).uniformity.du_lq == pytest.approx(0.799, abs=5e-4)
    assert "ignored total row 23, as told" in said[0]


# --- places without a reading ---------------------------------------------------


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("labelled", [True, False])
def test_blank_and_knocked_cans_are_no_zero(kind: str, labelled: bool) -> None:
    rows: list[list[Any]] = [["Can", "Catch (mL)"] if labelled else ["Catch (mL)"]]
    rows += [[i, x] if labelled else [x] for i, x in enumerate(MISSING, 1)]
    run, _ = read(workbook(kind, {"Sheet1": rows}))
    assert evaluated(run).catch.n_cans == 22
    assert evaluated(run).uniformity.du_lq == pytest.approx(0.692, abs=5e-4)
    assert run is not None
    codes = [mark for row in run.code for mark in row if mark]
    assert codes == ["-", "k"]


def test_without_the_zero_and_with_all_as_zeros_the_result_is_another() -> None:
    rows = [["Catch (mL)"], *([x] for x in MISSING)]
    run, _ = read(workbook("xlsx", {"Sheet1": rows}))
    assert run is not None
    caught = run.reading[np.isfinite(run.reading)]
    assert low_quarter_uniformity(caught[caught > 0]) == pytest.approx(0.815, abs=5e-4)
    zeros = np.nan_to_num(run.reading).ravel()
    assert zeros.size == 24
    assert low_quarter_uniformity(zeros) == pytest.approx(0.451, abs=5e-4)


# --- two units in one column ------------------------------------------------------


def mixed_book(kind: str = "xlsx") -> bytes:
    return workbook(kind, {"S": [["Catch, mL "], *([x] for x in TWO_READERS)]})


def test_two_units_are_refused_with_both_answers_and_without_the_naive_one() -> None:
    run, _ = read(mixed_book())
    assert run is not None
    (stop,) = screened(can_test(run), run)
    assert stop.level == "stop"
    assert "as US fl oz the mean is 54.1 mL, DU 0.855" in stop.what
    # imperial by hand: the small ones times 28.4131 instead of 29.5735
    assert "as imperial fl oz the mean is 53.0 mL" in stop.what
    assert "0.06" not in stop.what


@pytest.mark.parametrize("kind", KINDS)
def test_small_readings_said_to_be_us_ounces_are_turned_into_millilitres(
    kind: str,
) -> None:
    run, said = read(mixed_book(kind), mixed="us_fl_oz")
    one = evaluated(run)
    assert one.uniformity.du_lq == pytest.approx(0.855, abs=5e-4)
    assert one.catch.mean_ml == pytest.approx(54.1, abs=0.05)
    assert "12 small readings are US fl oz, turned into mL" in said[-1]


def test_an_imperial_ounce_is_four_percent_less() -> None:
    us, imperial = (
        read(mixed_book(), mixed=one)[0] for one in ("us_fl_oz", "imp_fl_oz")
    )
    assert us is not None
    assert imperial is not None
    ratio = imperial.reading[-1, 0] / us.reading[-1, 0]
    assert ratio == pytest.approx(28.4131 / 29.5735, abs=1e-4)


def test_one_unit_cannot_be_said_to_be_two() -> None:
    run, said = read("Catch (mL)\n41\n52\n60\n48\n", mixed="us_fl_oz")
    assert run is None
    assert "the readings are not mL mixed with US fl oz" in said[-1]


def test_clean_text_is_made_one_unit_as_well() -> None:
    run, _ = read(" ".join(map(str, TWO_READERS)), mixed="us_fl_oz")
    assert evaluated(run).uniformity.du_lq == pytest.approx(0.855, abs=5e-4)


def test_a_depth_in_a_column_of_millilitres_is_suspect() -> None:
    rows = [["Catch (mL)"], *([x] for x in (0.4, 0.6, 0.5, 0.45, 0.55, 0.5, 0.6, 0.4))]
    run, _ = read(workbook("xlsx", {"S": rows}))
    assert run is not None
    assert any("under 1 mL" in one.what for one in screened(can_test(run), run))


# --- bytes that are no table --------------------------------------------------------


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"PK\x03\x04rest", "cannot be read as a workbook"),
        (b"\xff\xfe4\x001\x00", "UTF-16"),
        (b"\x00\x01\x02", "is not a text file"),
        (b"  \n", "is empty"),
    ],
)
def test_what_is_neither_workbook_nor_text_is_refused(
    data: bytes, message: str
) -> None:
    with pytest.raises(SiteFolderError, match=message):
        given_run(data, "field", Given())


def test_windows_text_is_read_with_a_note() -> None:
    run, said = read(
        "Becher;Höhe (mm)\nA1;10,5\nA2;12\nA3;9,8\nA4;11\n".encode("cp1252")
    )
    assert run is not None
    assert "Windows-1252" in said[0]
    assert run.reading.ravel().tolist() == [10.5, 12.0, 9.8, 11.0]


def test_clean_text_is_read_without_a_word() -> None:
    run, said = read("41 52 60 48 | 55 63 k 69")
    assert run is not None
    assert said == []
