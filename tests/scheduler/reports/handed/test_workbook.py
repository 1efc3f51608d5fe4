"""CSV and workbooks read back by other readers; no cell is a formula."""

import csv
import datetime as dt
import io
import re
import zipfile
from typing import Any

import pytest
from python_calamine import CalamineWorkbook

from scheduler.reports.handed.table import Rows, week_tables
from scheduler.reports.handed.workbook import tables_csv, tables_text, tables_xlsx
from tests.scheduler.reports.handed.made import MONDAY, hostile_week, week

DANGEROUS = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", '=HYPERLINK("http://a")')
ROWS = Rows("zones", ("name", "depth (mm)"), tuple((one, -1.5) for one in DANGEROUS))


def sheets(data: bytes) -> dict[str, Any]:
    book = CalamineWorkbook.from_filelike(io.BytesIO(data))
    return {name: book.get_sheet_by_name(name).to_python() for name in book.sheet_names}


# --- CSV -----------------------------------------------------------------------


def test_csv_reads_back_as_the_table() -> None:
    zones, _ = week_tables(week(), "us")
    read = list(csv.reader(io.StringIO(tables_csv(zones).removeprefix("\ufeff"))))
    assert tuple(read[0]) == zones.heads
    for row, told in zip(read[1:], zones.rows, strict=True):
        assert row == ["" if cell is None else str(cell) for cell in told]


def test_csv_says_that_it_is_utf_8() -> None:
    assert tables_csv(ROWS).encode().startswith(b"\xef\xbb\xbf")


@pytest.mark.parametrize("text", DANGEROUS)
def test_a_text_like_a_formula_is_kept_as_text(text: str) -> None:
    read = list(csv.reader(io.StringIO(tables_csv(ROWS))))
    assert [f"'{text}", "-1.5"] in read


def test_a_hostile_valve_is_no_formula_in_a_csv() -> None:
    for one in week_tables(hostile_week(), "us"):
        for row in csv.reader(io.StringIO(tables_csv(one))):
            assert not any(cell.startswith(("=", "+", "@", "\t")) for cell in row)


# --- workbooks -------------------------------------------------------------------


def test_a_workbook_holds_both_tables() -> None:
    both = week_tables(week(), "us")
    read = sheets(tables_xlsx(both, MONDAY))
    assert list(read) == ["zones", "events"]
    for one in both:
        assert read[one.name][0] == list(one.heads)
        for row, told in zip(read[one.name][1:], one.rows, strict=True):
            assert row == ["" if cell is None else cell for cell in told]


def test_no_cell_of_a_workbook_is_a_formula_or_a_link() -> None:
    data = tables_xlsx((*week_tables(hostile_week(), "us"),), MONDAY)
    with zipfile.ZipFile(io.BytesIO(data)) as book:
        for name in book.namelist():
            if name.startswith("xl/worksheets/"):
                text = book.read(name).decode()
                assert not re.search(r"<f[ >]|<hyperlink", text)


def test_dangerous_texts_come_back_as_they_were() -> None:
    read = sheets(tables_xlsx((ROWS,), MONDAY))["zones"]
    assert [row[0] for row in read[1:]] == list(DANGEROUS)


def test_the_same_week_is_the_same_workbook() -> None:
    both, day = week_tables(week(), "us"), dt.date(2026, 6, 8)
    assert tables_xlsx(both, day) == tables_xlsx(both, day)


# --- characters ------------------------------------------------------------------


def test_the_text_holds_every_cell_in_eighty_columns() -> None:
    both = week_tables(week(), "us")
    text = tables_text(both)
    assert max(map(len, text.splitlines())) <= 80
    flat = re.sub(r"\s+", " ", text)
    for one in both:
        for row in one.rows:
            assert all(str(cell) in flat for cell in row if cell is not None)
