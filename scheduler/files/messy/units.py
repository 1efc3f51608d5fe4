"""Headers and cells of a table in; the unit of its readings, or a question, out."""

from typing import get_args

from scheduler.errors import Finding
from scheduler.files.messy.choices import Choices
from scheduler.files.messy.frame import Frame
from scheduler.files.messy.layout import Layout
from scheduler.files.messy.words import role_of, unit_in
from scheduler.record import CanUnit
from scheduler.units import UNITS, spelled_unit

_KNOWN: dict[str, CanUnit] = {one: one for one in get_args(CanUnit)}


def found_unit(
    layout: Layout, frame: Frame, said: CanUnit | None, at: tuple[str, Choices]
) -> tuple[CanUnit | None, tuple[Finding, ...]]:
    """Unit of the readings, from header and cells, and as the user said.

    Parameters
    ----------
    layout : Layout
        Columns of readings.
    frame : Frame
        Header, and what stands outside.
    said : str or None
        Unit that the user said.
    at : tuple of str and Choices
        File and sheet for findings; how choices are made.

    Returns
    -------
    unit : str or None
        None when neither table nor user say it.
    findings : tuple of Finding
        A stop where two units are named, or one that cans are not read in.
    """
    where, choices = at
    named = _named(layout)
    if not named and said is None:
        named = _in_titles(frame)
        if named:
            return None, (_title_finding(named, where, choices),)
    wrong = [one for one in named if one not in _KNOWN]
    if wrong:
        return None, (_unread(wrong[0], f"{where}: cell {named[wrong[0]]}"),)
    if len(named) > 1 or (said and named and said not in named):
        return None, (_two_units(named, said, where, choices),)
    unit = next(iter(named), None)
    return _KNOWN[unit] if unit else said, ()


def _named(layout: Layout) -> dict[str, str]:
    """Units over and in the readings, each with the cell that names it first."""
    named: dict[str, str] = {}
    for column in layout.readings:
        if column.unit:
            named.setdefault(column.unit, column.head[-1].name)
        for one in column.cells:
            if one.unit:
                named.setdefault(spelled_unit(one.unit) or one.unit, one.name)
    return named


def _in_titles(frame: Frame) -> dict[str, str]:
    """Units in titles that speak of readings, over the table or over its names."""
    cells = [one for line in (*frame.above, *frame.head) for one in line]
    return {
        unit: one.name
        for one in cells
        if one.kind == "word"
        and (unit := unit_in(one.text)) in _KNOWN
        and role_of(one.text) in ("", "reading")
    }


def _title_finding(named: dict[str, str], where: str, choices: Choices) -> Finding:
    unit, name = next(iter(named.items()))
    what = f"names {UNITS[unit].label}, but does not stand over the readings"
    fix = f"say {_say(choices, unit)} if the readings are in that"
    return Finding("stop", f"{where}: cell {name}", what, fix)


def _unread(unit: str, place: str) -> Finding:
    if unit == "imp_fl_oz":
        fix = "write mL: 1 imperial fluid ounce is 28.41 mL (a US one is 29.57)"
        return Finding("stop", place, "readings are in imperial fluid ounces", fix)
    label = UNITS[unit].label if unit in UNITS else unit
    fix = "write mL, fl oz, mm or in"
    return Finding("stop", place, f"cans are not read in {label}", fix)


def _two_units(
    named: dict[str, str], said: CanUnit | None, where: str, choices: Choices
) -> Finding:
    units = list(named)
    first = f"{where}: cell {named[units[0]]}"
    if len(units) > 1:
        what = f"names {UNITS[units[0]].label}, and {named[units[1]]} names "
        what += UNITS[units[1]].label
        return Finding("stop", first, what, "write all readings in one unit")
    what = f"names {UNITS[units[0]].label}, and {UNITS[str(said)].label} was said"
    fix = f"say {_say(choices, units[0])}, or correct the header"
    return Finding("stop", first, what, fix)


def _say(choices: Choices, unit: str) -> str:
    label = UNITS[unit].label
    if choices.as_keys:
        return f'unit = "{label}" under [can]'
    return f"--unit {f'{label!r}' if ' ' in label else label}"
