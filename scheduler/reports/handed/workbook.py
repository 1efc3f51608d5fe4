"""Tables in; CSV, a workbook, or plain characters out. No cell is ever a formula."""

from __future__ import annotations

import csv
import datetime as dt
import io
from collections.abc import Iterable
from textwrap import fill

from scheduler.reports.handed.table import Cell, Rows, is_like_a_formula
from scheduler.reports.text import WIDTH, table

# Spreadsheets take a CSV file for UTF-8 only where it says so.
BYTE_ORDER_MARK = "\ufeff"
KEPT_AS_TEXT = "'"
MOST_WIDE = 40


def tables_csv(one: Rows) -> str:
    """One table as CSV (RFC 4180): numbers with a point, empty where nothing is known.

    A text that begins like a formula gets an apostrophe before it.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([_safe(head) for head in one.heads])
    for row in one.rows:
        writer.writerow([_safe(cell) for cell in row])
    return BYTE_ORDER_MARK + out.getvalue()


def _safe(cell: Cell) -> Cell:
    if isinstance(cell, str) and is_like_a_formula(cell):
        return KEPT_AS_TEXT + cell
    return cell


def tables_xlsx(tables: Iterable[Rows], made: dt.date) -> bytes:
    """A workbook, a sheet a table; every text is written as text."""
    # the library is wanted only when a workbook is made
    import xlsxwriter

    out = io.BytesIO()
    options = {
        "in_memory": True,
        "strings_to_formulas": False,
        "strings_to_urls": False,
        "strings_to_numbers": False,
    }
    with xlsxwriter.Workbook(out, options) as book:
        book.set_properties({"created": dt.datetime.combine(made, dt.time())})
        bold = book.add_format({"bold": True, "text_wrap": True, "valign": "top"})
        for one in tables:
            sheet = book.add_worksheet(one.name)
            sheet.freeze_panes(1, 1)
            for column, head in enumerate(one.heads):
                sheet.write_string(0, column, head, bold)
                sheet.set_column(column, column, _wide(one, column))
            for line, row in enumerate(one.rows, 1):
                for column, cell in enumerate(row):
                    if isinstance(cell, str):
                        sheet.write_string(line, column, cell)
                    elif cell is not None:
                        sheet.write_number(line, column, cell)
    return out.getvalue()


def _wide(one: Rows, column: int) -> int:
    cells = [str(row[column]) for row in one.rows if row[column] is not None]
    longest = max((len(cell) for cell in cells), default=0)
    head = max(len(word) for word in one.heads[column].split())
    return min(max(longest, head) + 2, MOST_WIDE)


def tables_text(tables: Iterable[Rows]) -> str:
    """The tables in characters; rows too wide for a terminal as lists of cells."""
    return "\n".join(f"{one.name}\n\n{_in_characters(one)}\n" for one in tables)


def _in_characters(one: Rows) -> str:
    rows = [["" if cell is None else f"{cell}" for cell in row] for row in one.rows]
    flat = table(one.heads, rows, left=len(one.heads))
    if max(len(line) for line in flat.splitlines()) <= WIDTH:
        return flat
    wide = max(len(head) for head in one.heads)
    blocks = (
        "\n".join(
            fill(f"{head:<{wide}}  {cell}", WIDTH, subsequent_indent=" " * (wide + 2))
            for head, cell in zip(one.heads, row, strict=True)
            if cell
        )
        for row in rows
    )
    return "\n\n".join(blocks)
