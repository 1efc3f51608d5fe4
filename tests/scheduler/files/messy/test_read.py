"""Untidy tables read as the cans stood, or are asked about; never something else."""

import csv
import datetime as dt
import io
import math
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scheduler.files.given_table import Given, given_run
from scheduler.files.messy.choices import Choices
from scheduler.record import CanUnit
from tests.scheduler.files.messy.made import KINDS, Formula, Merged, workbook

Rows = list[Any]


def read(
    data: bytes | str, unit: CanUnit | None = None, **said: Any
) -> tuple[list[Any] | None, list[str]]:
    """Readings row by row, codes in their places, and what was said."""
    raw = data.encode() if isinstance(data, str) else data
    run, findings = given_run(raw, "field", Given(unit, 30.0, Choices(**said)))
    texts = [str(one) for one in findings]
    if run is None:
        return None, texts
    pairs = zip(run.reading.ravel(), [m for row in run.code for m in row], strict=True)
    return [m if math.isnan(v) else float(v) for v, m in pairs], texts


def sheet(rows: Rows, **said: Any) -> tuple[list[Any] | None, list[str]]:
    return read(workbook("xlsx", {"S": rows}), **said)


CANS = [41.0, 52.0, 60.0, 48.0, 55.0, 63.0]


# --- layouts ---------------------------------------------------------------------


@pytest.mark.parametrize(
    "rows",
    [
        [["Catch (mL)"], *([x] for x in CANS)],
        [["Can", "Catch (ml)"], *([f"A{i}", x] for i, x in enumerate(CANS, 1))],
        [["Zone 4"], [], ["Can", "Catch"], ["", "[mL]"],
         *([i, x] for i, x in enumerate(CANS, 1)), [], ["Mean", 53.1667]],
        [["Can", 1, 2, 3, 4, 5, 6], ["Catch, mL ", *CANS]],
        [["Can", "A1", "A2", "A3", "A4", "A5", "A6", "Total"],
         ["Catch (mL)", *CANS, 319]],
        [["", "A", "B", "C"], [1, *CANS[:3]], [2, *CANS[3:]]],
        [["", 1, 2, 3], ["A", *CANS[:3]], ["B", *CANS[3:]]],
        [["Row\\Col", 1, 2, 3], [1, *CANS[:3]], [2, *CANS[3:]]],
        [[Merged("Catch (mL)", 3)], CANS[:3], CANS[3:]],
        [["Row", "Col", "Reading"],
         *([1 + i // 3, 1 + i % 3, x] for i, x in enumerate(CANS))],
        [["Block", "Can", "mL", "Notes"],
         *(["north", i, x, "windy" if i == 2 else ""] for i, x in enumerate(CANS, 1))],
        [["Date", "Can", "Catch mL"],
         *([dt.datetime(2026, 5, 12), i, x] for i, x in  # noqa: DTZ001
           enumerate(CANS, 1))],
        [["Can", "Catch (mL)", "Average"],
         *([i, x, 53.2 if i == 1 else ""] for i, x in enumerate(CANS, 1))],
        [["Minutes", 30], ["Mouth (in)", 4.25], ["Can", "mL"],
         *([i, x] for i, x in enumerate(CANS, 1)), ["read by two people"]],
    ],
)  # fmt: skip
def test_a_table_of_any_usual_shape_gives_its_readings(rows: Rows) -> None:
    found, said = sheet(rows)
    assert found == CANS, said


@pytest.mark.parametrize(
    "text",
    [
        "Can;Catch (mL)\nA1;41\nB1;52\nC1;60\nA2;48\nB2;55\nC2;63\n",
        "Can\tCatch (mL)\nA1\t41\nB1\t52\nC1\t60\nA2\t48\nB2\t55\nC2\t63\n",
        "Can,Catch (mL)\nA1,41\nB1,52\nC1,60\nA2,48\nB2,55\nC2,63\n",
        "Can  Catch (mL)\nA1   41\nB1   52\nC1   60\nA2   48\nB2   55\nC2   63\n",
        "Can Catch (mL)\nA1 41\nB1 52\nC1 60\nA2 48\nB2 55\nC2 63\n",
        "| Can | Catch (mL) |\n|---|---|\n| A1 | 41 |\n| B1 | 52 |\n| C1 | 60 |\n"
        "| A2 | 48 |\n| B2 | 55 |\n| C2 | 63 |\n",
        "\ufeff# zone 4\nCan;Catch (mL)\n\nA1;41 mL\nB1;52 mL\nC1;60 mL\n\n"
        "A2;48 mL\nB2;55 mL\nC2;63 mL\nTotal;319\n",
        '"Can","Catch, mm"\n"A1","41,0"\n"B1","52,0"\n"C1","60,0"\n"A2","48,0"\n'
        '"B2","55,0"\n"C2","63,0"\n',
    ],
)
def test_text_may_be_parted_in_any_usual_way(text: str) -> None:
    found, said = read(text)
    assert found == CANS, said


def test_cans_of_a_list_stand_where_their_names_say() -> None:
    data = workbook("xlsx", {"S": [["Row", "Col", "mL"], [1, 1, 41], [1, 2, 52],
                                   [2, 2, 63], [2, 1, 55]]})  # fmt: skip
    run, _ = given_run(data, "field", Given())
    assert run is not None
    assert run.reading.tolist() == [[41, 52], [55, 63]]
    assert run.label == (("A1", "B1"), ("A2", "B2"))


def test_codes_stand_beside_a_blank_or_in_its_place() -> None:
    rows: Rows = [["Can", "mL", "Code"], ["A1", 41, ""], ["A2", "", "k"],
            ["A3", "o", ""], ["A4", "½", ""], ["A5", "–", ""],
            ["A6", "4 1/2", ""], ["A7", 0, ""], ["A8", "overflow", ""]]  # fmt: skip
    assert sheet(rows)[0] == [41.0, "k", "o", 0.5, "-", 4.5, 0.0, "o"]


@pytest.mark.parametrize("kind", KINDS)
def test_formulas_give_the_value_that_was_kept(kind: str) -> None:
    rows: Rows = [["mL"], [41], [Formula("=A2+11", 52.0)], [60], [48]]
    assert read(workbook(kind, {"S": rows}))[0] == [41, 52, 60, 48]


# --- choices ------------------------------------------------------------------------


RUNS = [["Can", "Run 1", "Run 2"], ["A1", 41, 44], ["A2", 52, 50], ["A3", 60, 66],
        ["A4", 48, 47]]  # fmt: skip
COUNTED = [[1, 41, 52], [2, 60, 48], [3, 55, 63], [4, 50, 58]]
THOUSANDS = [["mL"], ["1,250"], ["1,125"], ["1,300"], ["1,200"]]
TWO_SHEETS: dict[str, Rows] = {"May": [["mL"], [41], [52], [60], [48]],
              "June": [["mL"], [44], [50], [66], [47]]}  # fmt: skip


@pytest.mark.parametrize(
    ("rows", "message", "said", "found"),
    [
        (RUNS, "--column 'Run 1' for one", {"column": "run 2"}, [44, 50, 66, 47]),
        (RUNS, "--column all", {"column": "all"}, [41, 44, 52, 50, 60, 66, 48, 47]),
        (COUNTED, "--labels yes", {"labels": "yes"}, [41, 52, 60, 48, 55, 63, 50, 58]),
        (COUNTED, "cell A1: 1, 2, 3", {"labels": "no"},
         [1, 41, 52, 2, 60, 48, 3, 55, 63, 4, 50, 58]),
        (THOUSANDS, "cell A2: '1,250' could be 1.250 or 1250; say --decimal comma for "
         "1.250, --decimal point for 1250", {"decimal": "point"},
         [1250, 1125, 1300, 1200]),
        (THOUSANDS, "--decimal comma", {"decimal": "comma"}, [1.25, 1.125, 1.3, 1.2]),
        ([["mL"], [10], [11], [12], [13], [46]], "cell A6: the row of 46 is the sum",
         {"total": "row"}, [10, 11, 12, 13]),
        ([["mL"], [10], [11], [12], [13], [46]], "--total none", {"total": "none"},
         [10, 11, 12, 13, 46]),
        ([[10, 11, 12, 33], [20, 21, 22, 63], [9, 8, 7, 24]], "--total column",
         {"total": "column"}, [10, 11, 12, 20, 21, 22, 9, 8, 7]),
    ],
)  # fmt: skip
def test_what_can_be_seen_in_two_ways_is_asked_and_the_answer_is_taken(
    rows: Rows, message: str, said: dict[str, Any], found: list[float]
) -> None:
    refused, (told,) = sheet(rows)
    assert refused is None
    assert message in told
    assert sheet(rows, **said)[0] == found


@pytest.mark.parametrize(
    "rows",
    [[[12.5] * 4] * 4, [["mL"], *[[40]] * 5], [[11, 12, 14]] * 4, [[10.1] * 3] * 6],
)
def test_cans_that_caught_alike_are_no_totals(rows: Rows) -> None:
    found, _ = sheet(rows)
    assert found == [one for row in rows if row != ["mL"] for one in row]


def test_the_mean_below_cans_that_differ_is_asked_about() -> None:
    refused, (told,) = sheet([[10, 20, 30], [12, 20, 34], [14, 20, 32], [12, 20, 32]])
    assert refused is None
    assert "the row of 12 is the sum or mean" in told


def test_two_sheets_with_readings_are_asked_about() -> None:
    data = workbook("xlsx", TWO_SHEETS)
    refused, (told,) = read(data)
    assert refused is None
    assert "sheets 'May', 'June' all hold numbers; say which: --sheet May" in told
    assert read(data, sheet="june")[0] == [44, 50, 66, 47]


def test_commas_between_whole_numbers_are_asked_about() -> None:
    text = "Catch, mm\n10,5\n12,0\n9,8\n14,2\n"
    refused, (told,) = read(text)
    assert refused is None
    assert "'10,5' could be cells, or numbers with a decimal comma" in told
    assert read(text, decimal="comma")[0] == [10.5, 12.0, 9.8, 14.2]


# --- refusals ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        ([["mL"], ["10,5"], ["12.5"], [9], [8]], "cell A2: is 10,5, and A3 is 12.5"),
        ([["mL"], [41], ["wet"], [60], [48]], "cell A3: 'wet' is neither a reading"),
        ([["mL"], [41], [dt.datetime(2026, 2, 1)], [60], [48]],  # noqa: DTZ001
         "cell A3: '2026-02-01' is no reading"),
        ([["mL"], [41], [True], [60], [48]], "cell A3: 'True' is no reading"),
        ([["mL"], [41], ["1 250"], [60], [48]], "cell A3: '1 250' is no reading"),
        ([["Can", "mL"], ["A1", 41], ["A2", 52], ["a1", 60], ["A3", 48]],
         "cell A4: 'a1' stands twice, in A2 and A4"),
        ([["Can", "mL"], ["A1", 41], ["A2", 52], ["A3", 60], ["Minutes", 30]],
         "cell A5: 'Minutes' is no name of a can like the others"),
        ([["Can", "mL"], ["A1", 41], ["A2", 52], ["A3", 60], ["", 30]],
         "cell B5: 30 stands in a row without the name of a can"),
        ([["Row", "Col", "mL"], [1, 1, 41], [1, 2, 52], [1, 1, 60], [2, 1, 48]],
         "stands twice, in A2 and A4"),
        ([["Can", "mL"], ["A1", 41], ["A2", 52], ["Can", "mL"], ["A3", 60], ["A4", 1]],
         "a second table begins at A4; the first has B2"),
        ([["cups"], ["Catch (L)"], [41], [52], [60], [48]], "cans are not read in L"),
        ([["Catch (imp fl oz)"], [1.9], [1.7], [2.1], [1.6]],
         "readings are in imperial fluid ounces"),
        ([["Can", "mL", "Code"], ["A1", 41, "k"], ["A2", 52, ""], ["A3", 60, ""],
          ["A4", 48, ""]], "cell B2: is 41, and the note beside it is k"),
        ([["mL"], ["41 mL"], ["52 mL"], ["1.9 oz"], ["60 mL"]], "names fl oz"),
        ([["Volume (mL)", "Depth (mm)"], [41, 4], [52, 5], [60, 6], [48, 5]],
         "all hold numbers: one run each"),
        ([["nothing"]], "holds no readings"),
        ([["Readings (mm) of zone 4"], [], ["Can", "caught"], ["A1", 41], ["A2", 52],
          ["A3", 60], ["A4", 48]], "names mm, but does not stand over the readings"),
    ],
)  # fmt: skip
def test_what_is_not_understood_is_refused_with_cell_value_and_remedy(
    rows: Rows, message: str
) -> None:
    found, said = sheet(rows)
    assert found is None
    assert any(message in one for one in said), said


def test_a_header_and_an_option_that_differ_are_refused() -> None:
    found, (said,) = sheet([["mm"], [41], [52], [60], [48]], unit="ml")
    assert found is None
    assert "cell A1: names mm, and mL was said; say --unit mm" in said


def test_a_total_that_does_not_add_up_is_a_warning() -> None:
    found, said = sheet([["Can", "mL"], *([i, x] for i, x in enumerate(CANS, 1)),
                         ["Total", 339]])  # fmt: skip
    assert found == CANS
    assert "cell B8: says 339 as sum, the readings give 319" in said[1]


def test_a_row_of_text_that_ends_early_is_refused() -> None:
    found, said = read("Can;A;B\n1;41;52\n2;60\n3;48;55\n")
    assert found is None
    assert "cell C3: the row ends before this" in said[0]


# --- any layout ------------------------------------------------------------------

CODES = {"", "k", "l", "o", "-", 0}
TITLES = ["Auffang / Catch", "Catch test, zone 4", "Messung 12.5.2026", "wind 3 mph"]
HEADS = ["Catch (ml)", "mL", "Volume [mL]", "Catch, mL ", "Catch, mm ", "Höhe (mm)",
         "mm", "Depth (mm)", "Catch", "Reading", "Wert"]  # fmt: skip
NAMES = ["Can", "Nr.", "can id", "Becher", ""]
TOTALS = [("Summe", sum), ("Total:", sum), ("Mean", lambda v: sum(v) / len(v)),
          ("Average", lambda v: sum(v) / len(v)), ("", sum)]  # fmt: skip


@st.composite
def readings(draw: st.DrawFn) -> list[list[Any]]:
    n_rows, n_columns = draw(st.integers(1, 6)), draw(st.integers(1, 5))
    if n_rows * n_columns < 4:
        n_rows += 4
    decimals = draw(st.sampled_from([0, 1, 2]))
    one = st.integers(0, 1500 if draw(st.booleans()) else 99).map(
        lambda v: round(v / 10**decimals, decimals)
    )
    codes = st.sampled_from(["", "k", "l", "o", "-"])
    cell = st.one_of(one, one, one, one, one, codes)
    row = st.lists(cell, min_size=n_columns, max_size=n_columns)
    return draw(st.lists(row, min_size=n_rows, max_size=n_rows))


@st.composite
def tables(draw: st.DrawFn) -> tuple[Rows, list[Any]]:
    """A random grid in a random arrangement, and what must be read."""
    # where all cans are alike, their mean cannot be told from one more can
    grid = draw(
        readings().filter(lambda rows: len({x for r in rows for x in r} - CODES) > 1)
    )
    wanted = [x if isinstance(x, float | int) else (x or "-") for r in grid for x in r]
    sign = draw(st.sampled_from([None, ".", ","]))
    head = draw(st.sampled_from(HEADS))
    cells = [[_typed(x, sign) for x in row] for row in grid]
    shape = draw(
        st.sampled_from(["plain", "named", "headed", "places", "list", "along"])
    )
    if shape == "named":
        letters = [chr(65 + j) for j in range(len(grid[0]))]
        rows = [[draw(st.sampled_from(["", "Row"])), *letters],
                *([i, *row] for i, row in enumerate(cells, 1))]  # fmt: skip
    elif shape == "places":
        rows = [["Row", "Col", head], *([i, j, x] for i, row in enumerate(cells, 1)
                for j, x in enumerate(row, 1))]  # fmt: skip
    elif shape in ("list", "along"):
        rows = draw(lists([x for row in cells for x in row], wanted, head, sign))
    else:
        rows = [[head], *cells] if shape == "headed" else cells
    turned = list(map(list, zip(*rows, strict=True))) if shape == "along" else rows
    return turned, wanted


def _typed(value: Any, sign: str | None) -> Any:
    if isinstance(value, str) or sign is None:
        return value
    return f"{value:g}".replace(".", sign)


@st.composite
def lists(
    draw: st.DrawFn, cells: list[Any], wanted: list[Any], head: str, sign: str | None
) -> Rows:
    prefix = draw(st.sampled_from(["", "A", "can "]))
    names = [f"{prefix}{i}" if prefix else i for i in range(1, len(cells) + 1)]
    rows = [[draw(st.sampled_from(NAMES)), head],
            *map(list, zip(names, cells, strict=True))]  # fmt: skip
    figures = [x for x in wanted if not isinstance(x, str)]
    has_total: bool = draw(st.booleans())
    if figures and has_total:
        word, make = draw(st.sampled_from(TOTALS))
        rows.append([word, _typed(round(make(figures), 4), sign)])
    is_bare: bool = draw(st.booleans())
    return [row[1:] for row in rows] if is_bare else rows


@st.composite
def layouts(draw: st.DrawFn) -> tuple[bytes, list[Any], Any]:
    """A random table with blanks and titles around, as the bytes of a file."""
    rows, wanted = draw(tables())
    for _ in range(draw(st.integers(0, 2))):
        rows.insert(draw(st.integers(0, len(rows))), [])
    for _ in range(draw(st.integers(0, 2))):
        rows.insert(0, [draw(st.sampled_from(TITLES))])
    if draw(st.booleans()):
        rows = [["", *row] for row in rows]
    kind = draw(st.sampled_from(["xlsx", ";", "\t", ",", "  ", " "]))
    if kind == "xlsx":
        return (
            workbook("xlsx", {"S": rows, "old": [[1, 2], [3, 4]]}, ["old"]),
            wanted,
            rows,
        )
    text = _written(rows, kind)
    return text.encode(), wanted, text


def _written(rows: Rows, kind: str) -> str:
    if kind.isspace() and kind != "\t":
        return "\n".join(kind.join(str(x) for x in row) for row in rows)
    file = io.StringIO()  # quotes what holds the mark, as every program does
    csv.writer(file, delimiter=kind, lineterminator="\n").writerows(rows)
    return file.getvalue()


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(layouts())
def test_any_layout_gives_exactly_its_readings_or_a_question(
    made: tuple[bytes, list[Any], Any],
) -> None:
    data, wanted, shown = made
    found, said = read(data)
    if found is None:
        assert said
        return
    # a row or column in which nothing stands may be left out, and its dashes with it
    assert _bare(found) == _bare(wanted), (shown, said)


def _bare(cells: list[Any]) -> list[str]:
    return sorted(str(float(x)) if not isinstance(x, str) else x for x in cells
                  if x != "-")  # fmt: skip


PIECES = st.sampled_from(
    ["41", "52", "1,5", "2.5", "", "k", "A", "B", "A1", "1", "2", "3", "Can", "mL",
     "Catch (mm)", "Total", "Run 1", "Row", "Col", "?", "-", "½", "wet", "12 mL", '"',
     "north", "0"]
)  # fmt: skip


@settings(max_examples=300, deadline=None)
@given(
    st.lists(st.lists(PIECES, max_size=5), max_size=8),
    st.sampled_from([",", ";", "\t", " ", "  ", "|"]),
)
def test_whatever_stands_in_a_table_it_is_read_or_refused_with_a_remedy(
    rows: list[list[str]], mark: str
) -> None:
    text = "x" + "\n".join(mark.join(row) for row in rows)
    found, said = read(text)
    assert found is not None or (said and all(";" in one for one in said))
