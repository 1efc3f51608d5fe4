"""What is typed into a form about a zone in; lines of its log, checked, out.

The dashboard writes to log.csv by the functions of `lowquarter record`: the same
cells, the same reader before anything is written, the same lock, the same way back.
"""

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Literal, TypeVar

from scheduler.errors import QuantityError, SaveError
from scheduler.units import number
from tui.session import Session, moment, todays_date

if TYPE_CHECKING:
    from scheduler.files.log_kinds import Part
    from scheduler.files.log_writing import LastEntry, TypedLine
    from scheduler.log import MeterReading

Read = TypeVar("Read")
What = Literal["leaching", "override", "skipped", "meter"]


@dataclass(frozen=True, slots=True)
class Field:
    """One line of a form: its name, its words, how it may look.

    Attributes
    ----------
    cell : str
        The cell or part of the log line that it fills, as findings name it.
    is_asked : bool
        Enter stops at it; the others are filled in already, or may stay empty.
    """

    cell: str
    words: str
    example: str
    is_asked: bool = False


NOTHING = "or nothing"
DATE = Field("date", "day", "2026-06-08")
TIME = Field("time", "time", "06:40, or nothing")
NOTE = Field("note", "remark", "or nothing")
TITLES: dict[What, str] = {
    "leaching": "a leaching check",
    "override": "minutes that a person chose",
    "skipped": "a watering that was left out",
    "meter": "a reading of a meter",
}
FORMS: dict[What, tuple[Field, ...]] = {
    "leaching": (
        Field("pots", "pots", "place, mL in, mL out: A1 420 160, A2 400 90", True),
        Field("ran", "ran", "minutes, such as 24; or nothing", True),
        DATE,
        TIME,
        NOTE,
    ),
    "override": (
        Field("set", "set to", "minutes, such as 26", True),
        Field("note", "reason", "in a few words", True),
        DATE,
    ),
    "skipped": (
        Field("note", "reason", "in a few words", True),
        Field("date", "evening of", "2026-06-07"),
    ),
    "meter": (
        Field("reading", "dial", "as read, such as 48213 gal", True),
        Field("item", "meter", "such as pump house"),
        DATE,
        TIME,
        NOTE,
    ),
}
# numbers behind each pot, and their units
POT_LABELS, POT_UNITS = ("in", "out"), ("mL", "mL")


@dataclass(frozen=True, slots=True)
class Wrong:
    """What is wrong with a form: which field, and what to do."""

    cell: str
    text: str


@dataclass(frozen=True, slots=True)
class LogForm:
    """One entry while it is typed.

    Attributes
    ----------
    what : str
        The kind of line.
    zone : str
        Id of the zone it is about.
    today : date
        Nothing later can have happened.
    known : tuple of str
        Names of meters so far.
    last : MeterReading or None
        The last reading, whose meter and unit are taken where none is typed.
    """

    what: What
    zone: str
    today: dt.date
    known: tuple[str, ...] = ()
    last: "MeterReading | None" = None

    @property
    def fields(self) -> tuple[Field, ...]:
        """What it asks for, in order."""
        if self.what == "meter" and self.last is None:
            dial, meter, *rest = FORMS["meter"]
            named = Field(meter.cell, meter.words, meter.example, is_asked=True)
            return (named, dial, *rest)
        return FORMS[self.what]

    @property
    def filled(self) -> dict[str, str]:
        """Texts that stand in it from the start."""
        # what is said of a night in the morning is said of the evening before
        back = 1 if self.what == "skipped" else 0
        texts = {"date": str(self.today - dt.timedelta(days=back))}
        if self.what == "meter" and self.last is not None:
            texts["item"] = self.last.meter
        return texts

    def lines(
        self, texts: Mapping[str, str]
    ) -> "tuple[tuple[TypedLine, ...], Wrong | None]":
        """The lines as they would be written, and the first thing wrong with them."""
        from scheduler.files.log_writing import checked_lines

        plain = {cell: text.strip() for cell, text in texts.items()}
        try:
            made = self._made(plain)
        except _WrongFieldError as wrong:
            return (), wrong.wrong
        for one in checked_lines(made)[1]:
            _, _, cell = one.where.partition(": ")
            if cell not in texts:
                return made, self._of_parts(plain, f"{one.what}; {one.fix}")
            return made, Wrong(cell, f"{one.what}; {one.fix}")
        return made, None

    def _of_parts(self, texts: Mapping[str, str], said: str) -> Wrong:
        """What is wrong with what several fields make: first of all an empty one."""
        for one in self.fields:
            if one.is_asked and not texts.get(one.cell) and NOTHING not in one.example:
                return Wrong(one.cell, f"it is empty; type it {one.example}")
        return Wrong(self.fields[0].cell, said)

    def warning(self, texts: Mapping[str, str]) -> str:
        """What is allowed and may still be a slip; empty without any."""
        name = texts.get("item", "").strip()
        if self.what != "meter" or not self.known:
            return ""
        if name not in self.known:
            return f"first reading of {name!r}; so far: {', '.join(self.known)}"
        last = self.last
        if last is None or last.meter != name:
            return ""
        try:
            size, _ = number(texts.get("reading", "").partition(" ")[0])
        except QuantityError:
            return ""
        if size >= last.reading:
            return ""
        fallen = f"below {last.reading:.10g} of {last.date}"
        if last.digits is None:
            return f"{fallen}: a slip, or enter the digits of the dial in log.csv"
        return f"{fallen}: a slip, unless the dial rolled over"

    def _made(self, texts: Mapping[str, str]) -> "tuple[TypedLine, ...]":
        from scheduler.files.log_writing import TypedLine

        date = _tried("date", lambda: _day(texts.get("date", ""), self.today))
        time = _tried("time", lambda: _time(texts.get("time", "")))
        pots = (("", ""),) if self.what != "leaching" else self._pots(texts)
        parts = self._parts(texts)
        zone = "" if self.what == "meter" else self.zone
        return tuple(
            TypedLine(
                date=date,
                time=time,
                what=self.what,
                zone=zone,
                item=item or texts.get("item", ""),
                details="; ".join(one for one in (details, *parts) if one),
                note=texts.get("note", ""),
            )
            for item, details in pots
        )

    def _pots(self, texts: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
        from scheduler.files.log_pots import parsed_pots

        text = texts.get("pots", "")
        return _tried(
            "pots", lambda: parsed_pots(text, POT_LABELS, POT_UNITS, option="pots")
        )

    def _parts(self, texts: Mapping[str, str]) -> list[str]:
        from scheduler.files.log_details import read_part
        from scheduler.files.log_kinds import KINDS

        found = []
        for part in KINDS[self.what].parts:
            if text := texts.get(part.label, ""):
                whole = self._with_unit(part, text, texts.get("item", ""))
                _tried(part.label, partial(read_part, part, whole))
                found.append(f"{part.label} {whole}")
        return found

    def _with_unit(self, part: "Part", text: str, item: str) -> str:
        """The text, with the unit that a bare number stands for."""
        from scheduler.files.csv_text import PLAIN

        unit = part.bare_unit
        if part.reads == "dial" and self.last is not None and item == self.last.meter:
            unit = self.last.unit
        return f"{text} {unit}".strip() if PLAIN.match(text) else text


class _WrongFieldError(Exception):
    """A field that cannot be read."""

    def __init__(self, wrong: Wrong) -> None:
        super().__init__(wrong.text)
        self.wrong = wrong


def _tried(cell: str, read: Callable[[], Read]) -> Read:
    try:
        return read()
    except QuantityError as error:
        raise _WrongFieldError(Wrong(cell, f"{error.what}; {error.fix}")) from None


def _day(text: str, today: dt.date) -> dt.date:
    try:
        day = dt.date.fromisoformat(text)
    except ValueError:
        raise QuantityError(f"{text!r} is no day", f"write it like {today}") from None
    if day > today:
        what = f"{day} is after today, {today}"
        raise QuantityError(what, "record what has happened, on its own day")
    return day


def _time(text: str) -> dt.time | None:
    if not text:
        return None
    try:
        return dt.datetime.strptime(text, "%H:%M").time()  # noqa: DTZ007
    except ValueError:
        fix = "write it like 06:40, by the 24-hour clock"
        raise QuantityError(f"{text!r} is no time of day", fix) from None


def log_form(session: Session, what: What, zone: str) -> LogForm:
    """An empty form about a zone of a session."""
    from scheduler.log import MeterReading

    log = session.history.log if session.history is not None else None
    read = log.of(MeterReading) if log is not None else ()
    own = [one for one in read if not one.zones or zone in one.zones]
    known = tuple(sorted({one.meter for one in read}))
    today = session.today or todays_date(session.site)
    return LogForm(what, zone, today, known, own[-1] if own else None)


# --- writing, and back ---------------------------------------------------------


def write(folder: Path, lines: "tuple[TypedLine, ...]") -> None:
    """Append lines to the log of a site, under its lock.

    Raises
    ------
    SaveError
        If the log cannot be written.
    """
    from scheduler.files.log_writing import add_to_log

    add_to_log(folder, lines, entered=moment())


def last_own(folder: Path) -> "LastEntry":
    """The last entry of the log, if the program wrote it.

    Raises
    ------
    SaveError
        If there is none, or it was written by hand.
    """
    from scheduler.files.log_writing import last_entry

    entry = last_entry(folder)
    where = str(folder / "log.csv")
    if entry is None:
        raise SaveError("holds no entry", "there is nothing to take back", where)
    if not entry.is_ours:
        raise SaveError(
            "the last line was written by hand", "correct it by hand", where
        )
    return entry


def take_back(folder: Path, entry: "LastEntry") -> None:
    """Take that entry out of the log, unless others stand at the end by now.

    Raises
    ------
    SaveError
        If the log changed, or cannot be written.
    """
    from scheduler.files import log_writing

    log_writing.take_back(folder, entry)
