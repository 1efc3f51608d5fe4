"""One thing that happened, as typed in parts; its lines at the end of log.csv out."""

import csv
import datetime as dt
import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from scheduler.errors import Finding, SaveError
from scheduler.files.locked_append import append_lines, take_back_lines
from scheduler.files.log_kinds import COLUMNS, FORMAT, NAME
from scheduler.files.log_line import fact_of
from scheduler.files.log_rows import LogRow, is_stamp, log_rows, text_lines
from scheduler.log import Entry

HEADING = ",".join(COLUMNS)
FIRST_LINES = (
    f"# format = {FORMAT}",
    "# What was done here, one fact a line; new lines go to the end. Written by",
    "# `lowquarter record`, or by hand: then leave `entered` empty. Parts of `details`",
    "# stand between semicolons, each with its unit. Words belong in the note.",
    HEADING,
)


@dataclass(frozen=True, slots=True)
class TypedLine:
    """One line to be written, cell by cell, without the moment of entry."""

    date: dt.date
    what: str
    time: dt.time | None = None
    zone: str = ""
    item: str = ""
    details: str = ""
    note: str = ""

    def cells(self, entered: str) -> dict[str, str]:
        """The cells by column; what would break a line is a space."""
        time = "" if self.time is None else f"{self.time:%H:%M}"
        texts = (self.what, self.zone, self.item, self.details, self.note)
        plain = [" ".join(one.split()) for one in texts]
        values = (self.date.isoformat(), time, *plain, entered)
        return dict(zip(COLUMNS, values, strict=True))

    def text(self, entered: str) -> str:
        """The line as it will stand in the file."""
        out = io.StringIO()
        csv.writer(out, lineterminator="").writerow(self.cells(entered).values())
        return out.getvalue()


def checked_lines(
    lines: Sequence[TypedLine],
) -> tuple[tuple[Entry, ...], tuple[Finding, ...]]:
    """Facts that the lines will be read as, and everything wrong with them.

    Parameters
    ----------
    lines : sequence of TypedLine
        What shall be written.

    Returns
    -------
    facts : tuple of Entry
        Those that could be read.
    findings : tuple of Finding
        As the reader of the file will say them, at `line 1` and so on.

    Examples
    --------
    >>> line = TypedLine(dt.date(2026, 6, 3), "watering", zone="Z4",
    ...                  details="ran 24 min")
    >>> checked_lines([line])[0][0].minutes
    24.0
    """
    facts: list[Entry] = []
    findings: list[Finding] = []
    for i, line in enumerate(lines, 1):
        fact, said = fact_of(line.cells(""), f"line {i}", line.text(""))
        findings += said
        if fact is not None:
            facts.append(fact)
    return tuple(facts), tuple(findings)


def add_to_log(folder: Path, lines: Sequence[TypedLine], *, entered: str) -> None:
    """Append lines to the log of a site, which is begun if there is none.

    Parameters
    ----------
    folder : Path
        The site folder.
    lines : sequence of TypedLine
        What shall be written, all at once.
    entered : str
        The moment of entry, such as `2026-06-08T14:03:22Z`.

    Raises
    ------
    SaveError
        If the log cannot be written, or is of another format.
    """
    append_lines(
        folder / NAME,
        [line.text(entered) for line in lines],
        lambda before: _heading_for(before, folder / NAME),
    )


def _heading_for(before: bytes, path: Path) -> tuple[str, ...]:
    """Lines that must stand before the new ones; none in a log that has its columns."""
    found = log_rows(before)
    if found.is_refused:
        wrong = next(one for one in found.findings if one.level == "stop")
        raise SaveError(wrong.what, wrong.fix, str(path))
    if not (found.rows or found.is_begun):
        return FIRST_LINES
    # a heading that was cut short or rearranged holds for the lines under it only
    return () if found.is_standard else (HEADING,)


# --- taking back -------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class LastEntry:
    """The last lines of the log that were written in one go.

    Attributes
    ----------
    lines : tuple of str
        As they stand; one at least.
    is_ours : bool
        Whether the program wrote them, by the moment of entry at their end.
    """

    lines: tuple[str, ...]
    is_ours: bool


def last_entry(folder: Path) -> LastEntry | None:
    """The last entry of a log; None where there is nothing to take back.

    Parameters
    ----------
    folder : Path
        The site folder.

    Returns
    -------
    LastEntry or None
        Lines of one go are those at the end with one moment of entry, day, kind and
        zone. A remark or a line that cannot be read is an entry by hand.

    Raises
    ------
    SaveError
        If the log cannot be read.
    """
    path = folder / NAME
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return None
    except OSError as problem:
        why = problem.strerror or str(problem)
        raise SaveError(
            f"cannot be read ({why})", "check the disk", str(path)
        ) from None
    rows = {row.line: row for row in log_rows(data).rows}
    lines = text_lines(data)
    while lines and not lines[-1].strip():
        lines.pop()
    if not lines or lines[-1].strip() in FIRST_LINES:
        return None
    last = rows.get(len(lines))
    if last is None or not is_stamp(last.cells.get("entered", "")):
        return LastEntry((lines[-1],), False)
    first = len(lines)
    while (row := rows.get(first - 1)) is not None and _goes_with(row, last):
        first -= 1
    return LastEntry(tuple(lines[first - 1 :]), True)


def _goes_with(row: LogRow, last: LogRow) -> bool:
    keys = ("date", "what", "zone", "entered")
    return all(row.cells.get(one) == last.cells.get(one) for one in keys)


def take_back(folder: Path, entry: LastEntry) -> None:
    """Take the last entry out of the log.

    Parameters
    ----------
    folder : Path
        The site folder.
    entry : LastEntry
        As `last_entry` gave it.

    Raises
    ------
    SaveError
        If others stand at the end by now, or the log cannot be written.
    """
    take_back_lines(folder / NAME, entry.lines)
