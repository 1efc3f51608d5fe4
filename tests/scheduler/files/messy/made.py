"""Workbooks for the tests, written as people's programs write them."""

import datetime as dt
import io
import zipfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from xml.sax.saxutils import escape, quoteattr

import xlsxwriter
import xlwt

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


# ODF 1.3 part 3: a package is a zip whose first member, uncompressed, is its type
ODS = "application/vnd.oasis.opendocument.spreadsheet"
_NAMES = "urn:oasis:names:tc:opendocument:xmlns:"
_HEAD = (
    f'<office:document-content xmlns:office="{_NAMES}office:1.0" '
    f'xmlns:style="{_NAMES}style:1.0" xmlns:table="{_NAMES}table:1.0" '
    f'xmlns:text="{_NAMES}text:1.0" office:version="1.3"><office:automatic-styles>'
    '<style:style style:name="hidden" style:family="table">'
    '<style:table-properties table:display="false"/></style:style>'
    "</office:automatic-styles><office:body><office:spreadsheet>"
)
_TAIL = "</office:spreadsheet></office:body></office:document-content>"
_MANIFEST = (
    f'<manifest:manifest xmlns:manifest="{_NAMES}manifest:1.0" '
    f'manifest:version="1.3"><manifest:file-entry manifest:full-path="/" '
    f'manifest:media-type="{ODS}"/><manifest:file-entry '
    'manifest:full-path="content.xml" manifest:media-type="text/xml"/>'
    "</manifest:manifest>"
)


def _ods(sheets: Mapping[str, Rows], hidden: Sequence[str]) -> bytes:
    tables = []
    for name, rows in sheets.items():
        style = ' table:style-name="hidden"' if name in hidden else ""
        lines = "".join(
            f"<table:table-row>{''.join(map(_ods_cell, row))}</table:table-row>"
            for row in rows
        )
        head = f"<table:table table:name={quoteattr(name)}{style}>"
        tables.append(f"{head}{lines}</table:table>")
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w") as package:
        package.writestr("mimetype", ODS)
        package.writestr("content.xml", _HEAD + "".join(tables) + _TAIL)
        package.writestr("META-INF/manifest.xml", _MANIFEST)
    return file.getvalue()


def _ods_cell(value: Any) -> str:
    if value is None or value == "":
        return "<table:table-cell/>"
    if isinstance(value, Merged):
        wide = f' table:number-columns-spanned="{value.width}"'
        covered = "<table:covered-table-cell/>" * (value.width - 1)
        return _ods_text(value.text, wide) + covered
    if isinstance(value, Formula):
        formula = f" table:formula={quoteattr('of:' + value.text)}"
        return _ods_value("float", "value", repr(value.value), formula)
    if isinstance(value, str):
        return _ods_text(value)
    if isinstance(value, bool):
        return _ods_value("boolean", "boolean-value", str(value).lower())
    if isinstance(value, float | int):
        return _ods_value("float", "value", repr(value))
    return _ods_value("date", "date-value", value.isoformat()[:10])


def _ods_text(text: str, more: str = "") -> str:
    return (
        f'<table:table-cell office:value-type="string"{more}>'
        f"<text:p>{escape(text)}</text:p></table:table-cell>"
    )


def _ods_value(kind: str, name: str, value: str, more: str = "") -> str:
    return (
        f'<table:table-cell office:value-type="{kind}" office:{name}="{value}"{more}/>'
    )
