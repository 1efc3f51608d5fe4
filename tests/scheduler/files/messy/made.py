"""Workbooks for the tests, written as people's programs write them."""

import datetime as dt
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import xlsxwriter
import xlwt
from odf.opendocument import OpenDocumentSpreadsheet
from odf.style import Style, TableProperties
from odf.table import CoveredTableCell, Table, TableCell, TableRow
from odf.text import P

Rows = Sequence[Any]
KINDS = ("xlsx", "xls", "ods")


@dataclass(frozen=True)
class Formula:
    """A formula with the value that the program kept beside it."""

    text: str
    value: float


@dataclass(frozen=True)
class Merged:
    """A text over several cells of one row."""

    text: str
    width: int


def workbook(
    kind: str, sheets: Mapping[str, Rows], hidden: Sequence[str] = ()
) -> bytes:
    """Bytes of a workbook of that kind."""
    make = {"xlsx": _xlsx, "xls": _xls, "ods": _ods}[kind]
    return make(sheets, hidden)


def _xlsx(sheets: Mapping[str, Rows], hidden: Sequence[str]) -> bytes:
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True, "strings_to_numbers": False})
    day = book.add_format({"num_format": "yyyy-mm-dd"})
    for name, rows in sheets.items():
        sheet = book.add_worksheet(name)
        for i, row in enumerate(rows):
            for j, value in enumerate(row):
                _put_xlsx(sheet, (i, j), value, day)
        if name in hidden:
            sheet.hide()
    book.close()
    return file.getvalue()


def _put_xlsx(sheet: Any, at: tuple[int, int], value: Any, day: Any) -> None:
    i, j = at
    if isinstance(value, Formula):
        sheet.write_formula(i, j, value.text, None, value.value)
    elif isinstance(value, Merged):
        sheet.merge_range(i, j, i, j + value.width - 1, value.text)
    elif isinstance(value, str) and value:
        sheet.write_string(i, j, value)
    elif isinstance(value, dt.date):
        sheet.write_datetime(i, j, value, day)
    elif value not in (None, ""):
        sheet.write(i, j, value)


def _xls(sheets: Mapping[str, Rows], hidden: Sequence[str]) -> bytes:
    book = xlwt.Workbook()
    day = xlwt.easyxf(num_format_str="YYYY-MM-DD")
    for name, rows in sheets.items():
        sheet = book.add_sheet(name)
        sheet.visibility = int(name in hidden)
        for i, row in enumerate(rows):
            for j, value in enumerate(row):
                _put_xls(sheet, (i, j), value, day)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def _put_xls(sheet: Any, at: tuple[int, int], value: Any, day: Any) -> None:
    i, j = at
    if isinstance(value, Formula):
        sheet.write(i, j, value.value)  # xlwt keeps no value of a formula
    elif isinstance(value, Merged):
        sheet.write_merge(i, i, j, j + value.width - 1, value.text)
    elif isinstance(value, dt.date):
        sheet.write(i, j, value, day)
    elif value not in (None, ""):
        sheet.write(i, j, value)


def _ods(sheets: Mapping[str, Rows], hidden: Sequence[str]) -> bytes:
    book = OpenDocumentSpreadsheet()
    style = Style(name="hidden", family="table")
    style.addElement(TableProperties(display="false"))
    book.automaticstyles.addElement(style)
    for name, rows in sheets.items():
        more = {"stylename": "hidden"} if name in hidden else {}
        table = Table(name=name, **more)
        for row in rows:
            line = TableRow()
            for value in row:
                for cell in _ods_cells(value):
                    line.addElement(cell)
            table.addElement(line)
        book.spreadsheet.addElement(table)
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def _ods_cells(value: Any) -> list[Any]:
    if value is None or value == "":
        return [TableCell()]
    if isinstance(value, Merged):
        first = TableCell(valuetype="string", numbercolumnsspanned=value.width)
        first.addElement(P(text=value.text))
        return [first, *(CoveredTableCell() for _ in range(value.width - 1))]
    if isinstance(value, Formula):
        return [TableCell(valuetype="float", value=f"{value.value!r}",
                          formula=f"of:{value.text}")]  # fmt: skip
    if isinstance(value, str):
        cell = TableCell(valuetype="string")
        cell.addElement(P(text=value))
        return [cell]
    if isinstance(value, bool):
        return [TableCell(valuetype="boolean", booleanvalue=str(value).lower())]
    if isinstance(value, float | int):
        return [TableCell(valuetype="float", value=f"{value!r}")]
    return [TableCell(valuetype="date", datevalue=value.isoformat()[:10])]
