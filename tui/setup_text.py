"""The texts of the form of a test in; its setup, or what is wrong with a text, out."""

import datetime as dt
import re
from collections.abc import Mapping
from dataclasses import replace

from scheduler.errors import QuantityError
from scheduler.units import UNITS, number, spelled_unit
from tui.draft import MOST_COLUMNS, MOST_ROWS, Quantity, Setup, can_labels

FIELDS = (
    ("date", "date", "2026-05-12"),
    ("condition", "condition", "as found, after tune-up ..."),
    ("mouth", "can mouth", "4.25 in, inside the rim (or its area, 91 cm2)"),
    ("unit", "readings in", "mL, fl oz, mm or in"),
    ("minutes", "minutes run", "30"),
    ("start", "start", "06:10 (finds the wind in your logs)"),
    ("wind", "wind, if read", "3 mph"),
    ("capacity", "can holds", "400 mL (catches slips)"),
    ("grid", "grid", "3 x 8: rows x cans in a row"),
)
_CAN_UNITS = ("ml", "fl_oz", "mm", "in")
_GRID = re.compile(r"\s*(\d+)\s*(?:x|×|\*|by|,|\s)\s*(\d+)\s*$", re.IGNORECASE)


def setup_texts(setup: Setup) -> dict[str, str]:
    """The form as it is filled in for a setup."""
    rows, columns = setup.shape
    start = setup.start
    started = ""
    if start is not None:
        started = f"{start:%H:%M}"
        if start.date() != setup.date:
            started = f"{start:%Y-%m-%d} {started}"
    return {
        "date": str(setup.date),
        "condition": setup.condition,
        "mouth": quantity_text(setup.mouth),
        "unit": UNITS[setup.unit].label,
        "minutes": "" if setup.minutes is None else f"{setup.minutes:g}",
        "start": started,
        "wind": quantity_text(setup.wind),
        "capacity": quantity_text(setup.capacity),
        "grid": f"{rows} x {columns}",
    }


def quantity_text(size: Quantity | None) -> str:
    """A number with its unit as it was typed; empty for none."""
    return "" if size is None else f"{size[0]:.12g} {UNITS[size[1]].label}"


def read_setup(
    texts: Mapping[str, str], *, before: Setup | None = None
) -> tuple[Setup | None, dict[str, str]]:
    """Setup from the texts of the form.

    Parameters
    ----------
    texts : mapping of str
        By the names of `FIELDS`.
    before : Setup, optional
        What stood there: gives names of cans of a grid that keeps its size, and
        what the form does not ask.

    Returns
    -------
    setup : Setup or None
        None when a text is not understood.
    wrong : dict
        What is wrong with it and what to do, by field.
    """
    wrong: dict[str, str] = {}
    found: dict[str, object] = {}
    for name, read in _READERS.items():
        try:
            found[name] = read(texts.get(name, "").strip())
        except QuantityError as error:
            wrong[name] = f"{error.what}; {error.fix}"
    if not wrong:
        try:
            found["start"] = _start(texts.get("start", "").strip(), found["date"])
        except QuantityError as error:
            wrong["start"] = f"{error.what}; {error.fix}"
    if wrong:
        return None, wrong
    rows, columns = found.pop("grid")  # type: ignore[misc]
    labels = can_labels(rows, columns)  # type: ignore[has-type]
    if before is not None:
        if before.shape == (rows, columns):  # type: ignore[has-type]
            labels = before.labels
        return replace(before, labels=labels, **found), {}  # type: ignore[arg-type]
    return Setup(labels=labels, **found), {}  # type: ignore[arg-type]


def _date(text: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        what = f"{text!r} is not a date" if text else "the date is missing"
        raise QuantityError(what, "type year-month-day, such as 2026-05-12") from None


def _start(text: str, date: object) -> dt.datetime | None:
    assert isinstance(date, dt.date)
    if not text:
        return None
    day, _, clock = text.rpartition(" ")
    fix = "type the clock time, such as 06:10"
    try:
        time = dt.time.fromisoformat(clock.zfill(5) if ":" in clock else "?")
        return dt.datetime.combine(dt.date.fromisoformat(day) if day else date, time)
    except ValueError:
        raise QuantityError(f"{text!r} is not a time", fix) from None


def _condition(text: str) -> str:
    if not text:
        raise QuantityError(
            "the condition is missing", "type as found, or what was done"
        )
    return text


def _unit(text: str) -> str:
    unit = spelled_unit(text)
    if unit not in _CAN_UNITS:
        what = f"cans are not read in {text!r}" if text else "the unit is missing"
        raise QuantityError(what, "type mL, fl oz, mm or in")
    return unit


MOST_MINUTES = 1440


def _minutes(text: str) -> float | None:
    if not text:
        return None
    fix = "type the minutes that the water ran, such as 30"
    if ":" in text:
        raise QuantityError(f"{text!r} is a clock time", fix)
    size, rest = number(text.replace(",", "."))
    if rest not in ("", "min", "minutes"):
        raise QuantityError(f"{text!r} is not a number of minutes", fix)
    if not 0 < size <= MOST_MINUTES:
        what = f"{text!r} is not between 0 and the {MOST_MINUTES} minutes of a day"
        raise QuantityError(what, fix)
    return size


def _grid(text: str) -> tuple[int, int]:
    found = _GRID.match(text)
    fix = "type rows x cans in a row, such as 3 x 8"
    if found is None:
        what = f"{text!r} is not a grid" if text else "the grid is missing"
        raise QuantityError(what, fix)
    rows, columns = int(found[1]), int(found[2])
    if not (1 <= rows <= MOST_ROWS and 1 <= columns <= MOST_COLUMNS):
        what = f"a grid of {rows} x {columns} is too small or too large"
        raise QuantityError(what, f"at most {MOST_ROWS} rows of {MOST_COLUMNS} cans")
    return rows, columns


def _size(text: str, example: str, dimensions: tuple[str, ...]) -> Quantity | None:
    if not text:
        return None
    size, rest = number(re.sub(r"(?<=\d),(?=\d)", ".", text))
    unit = spelled_unit(rest) if rest else None
    fix = f"type it with its unit, such as {example}"
    if unit is None or UNITS[unit].dimension not in dimensions:
        what = f"unit {rest!r} does not fit" if rest else f"{text!r} has no unit"
        raise QuantityError(what, fix)
    if size < 0:
        raise QuantityError(f"{text!r} is below zero", fix)
    return size, unit


def _above_zero(size: Quantity | None) -> Quantity | None:
    if size is not None and size[0] == 0:
        raise QuantityError("it is 0", "type its size, or leave it empty")
    return size


_READERS = {
    "date": _date,
    "condition": _condition,
    "mouth": lambda text: _above_zero(_size(text, "4.25 in", ("length", "area"))),
    "unit": _unit,
    "minutes": _minutes,
    "wind": lambda text: _size(text, "3 mph", ("speed",)),
    "capacity": lambda text: _above_zero(_size(text, "400 mL", ("volume",))),
    "grid": _grid,
}
