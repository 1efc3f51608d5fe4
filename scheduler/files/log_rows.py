"""The bytes of log.csv in; its lines as cells by column, and the torn ones, out.

Every line is taken by itself, so that a stray quote, a wrong byte or a line that was
cut short costs that line and no other.
"""

import csv
import re
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.files.log_kinds import COLUMNS, FORMAT, NAME

_FORMAT = re.compile(r"#\s*format\s*=\s*([^\s,;]+)[,;\s]*$")
_STAMP = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$")


@dataclass(frozen=True, slots=True)
class LogRow:
    """One line that holds a fact.

    Attributes
    ----------
    line : int
        File line, from 1.
    typed : str
        The line as it stands.
    cells : dict
        Stripped cells by column.
    """

    line: int
    typed: str
    cells: dict[str, str]

    @property
    def where(self) -> str:
        """Place of the line as the user knows it."""
        return f"{NAME}:{self.line}"


@dataclass(frozen=True, slots=True)
class LogRows:
    """What the file holds, line by line.

    Attributes
    ----------
    rows : tuple of LogRow
        None for a format that is not known here.
    findings : tuple of Finding
        What could not be read.
    is_begun : bool
        Whether a heading names the columns.
    is_standard : bool
        Whether a line at the end is read in the usual columns, parted by commas.
    is_refused : bool
        The file is of another format.
    """

    rows: tuple[LogRow, ...]
    findings: tuple[Finding, ...]
    is_begun: bool = False
    is_standard: bool = True
    is_refused: bool = False


@dataclass(frozen=True, slots=True)
class _Form:
    """How the cells of a line are found: what the last heading says."""

    columns: tuple[str, ...] = COLUMNS
    delimiter: str = ","
    is_standard: bool = True


def is_stamp(cell: str) -> bool:
    """Whether a cell of the column `entered` was written by the program.

    Examples
    --------
    >>> is_stamp("2026-06-08T14:03:22Z"), is_stamp("AB")
    (True, False)
    """
    return _STAMP.match(cell) is not None


def log_rows(data: bytes) -> LogRows:
    r"""Cells of every line of a log.

    Parameters
    ----------
    data : bytes
        The file.

    Returns
    -------
    LogRows
        Lines with cells, and findings about those without.

    Examples
    --------
    >>> text = "# format = 1\n2026-06-03,,watering,Z4,,ran 24 min,,\n"
    >>> log_rows(text.encode()).rows[0].cells["details"]
    'ran 24 min'
    """
    rows: list[LogRow] = []
    said: list[Finding] = []
    lines = text_lines(data, said)
    refused = _format_finding(lines)
    if refused is not None:
        said.append(refused)
        if refused.level == "stop":
            return LogRows((), tuple(said), is_refused=True)
    form, is_begun = _Form(), False
    for number, line in enumerate(lines, 1):
        bare = line.strip(' \t,;"')  # as spreadsheets pad and quote a remark
        if not bare or bare.startswith("#"):
            continue
        if _is_heading(bare):
            form, is_begun = _heading(line, number, said), True
        elif found := _row(line, number, form, said):
            rows.append(found)
    return LogRows(tuple(rows), tuple(said), is_begun, form.is_standard)


def text_lines(data: bytes, said: list[Finding] | None = None) -> list[str]:
    r"""Lines of the file, each by itself as UTF-8 or else as Windows-1252.

    Examples
    --------
    >>> text_lines(b"18 \xb0C\r\nok")
    ['18 °C', 'ok']
    """
    data = data.removeprefix(b"\xef\xbb\xbf")
    plain = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    lines = []
    # a disk leaves zeros of a line that never reached it
    for number, line in enumerate(plain.replace(b"\0", b"?").split(b"\n"), 1):
        try:
            lines.append(line.decode("utf-8"))
        except UnicodeDecodeError:
            lines.append(line.decode("cp1252", errors="replace"))
            what = "is not UTF-8; the line was read as Windows-1252 text"
            fix = "save the file as UTF-8 if letters such as ° or é look wrong"
            if said is not None:
                said.append(Finding("note", f"{NAME}:{number}", what, fix))
    return lines


def _format_finding(lines: list[str]) -> Finding | None:
    for number, line in enumerate(lines, 1):
        found = _FORMAT.match(line.strip(' \t,;"'))
        if found is None:
            continue
        if found[1] == str(FORMAT):
            return None
        what = f"is {found[1]}; this program reads format = {FORMAT}"
        fix = "use the program that wrote the file, or a newer version of this one"
        return Finding("stop", f"{NAME}:{number}: format", what, fix)
    what = f"does not say its format; read as format = {FORMAT}"
    return Finding("warning", NAME, what, f"write # format = {FORMAT} on a first line")


# --- one line ----------------------------------------------------------------


def _is_heading(line: str) -> bool:
    """Whether a line names columns; one that was cut short still begins with date."""
    names = [one.strip(' "').casefold() for one in re.split("[,;\t]", line)]
    return names[0] == "date" or {"date", "what"} <= set(names)


def _heading(line: str, number: int, said: list[Finding]) -> _Form:
    """Columns of the lines below a heading, and the mark between their cells."""
    delimiter = max(",;\t", key=line.count)
    cells = [one.casefold() for one in _cells(line, delimiter) or []]
    while cells and not cells[-1]:  # as spreadsheets pad a line
        cells.pop()
    missing = [one for one in COLUMNS if one not in cells]
    if missing:
        what = f"has no column {', '.join(missing)}"
        fix = f"write {','.join(COLUMNS)}; the lines below are read in that order"
        said.append(Finding("stop", f"{NAME}:{number}", what, fix))
        return _Form(COLUMNS, delimiter, is_standard=False)
    unknown = [one for one in cells if one and one not in COLUMNS]
    if unknown:
        what = f"column {', '.join(unknown)} is not read"
        fix = "put what it says into the note"
        said.append(Finding("note", f"{NAME}:{number}", what, fix))
    columns = tuple(cells)
    return _Form(columns, delimiter, columns == COLUMNS and delimiter == ",")


def _row(line: str, number: int, form: _Form, said: list[Finding]) -> LogRow | None:
    columns, delimiter = form.columns, form.delimiter
    place = f"{NAME}:{number}"
    cells = _cells(line, delimiter)
    if cells is None:
        fix = 'end the quoted text with ", or double a " inside of it'
        said.append(Finding("stop", place, f"a quote is left open ({line!r})", fix))
        return None
    n, lacking = len(columns), len(columns) - len(cells)
    if lacking > 1 or (lacking == 1 and columns[-1] != "entered"):
        what = f"is cut short: it has {len(cells)} of {n} cells ({line!r})"
        fix = "complete it, with a comma for each empty cell, or delete it"
        said.append(Finding("stop", place, what, fix))
        return None
    if lacking == 1:
        what = f"ends before its last cell, so it may be cut short ({line!r})"
        fix = "add a comma at its end if it is whole"
        said.append(Finding("warning", place, what, fix))
    if any(cells[n:]):
        what = f"has {len(cells)} cells, not {n} ({line!r})"
        fix = 'put text that holds a comma between "quotes"'
        said.append(Finding("stop", place, what, fix))
        return None
    return LogRow(number, line, dict(zip(columns, cells, strict=False)))


def _cells(line: str, delimiter: str) -> list[str] | None:
    try:
        row = next(csv.reader([line], delimiter=delimiter, strict=True))
    except (csv.Error, StopIteration):
        return None
    return [one.strip() for one in row]
