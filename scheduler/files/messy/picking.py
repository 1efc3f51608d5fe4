"""The sheets of a workbook in; the one with the readings, or the question, out."""

import difflib

from scheduler.errors import Finding
from scheduler.files.messy.choices import Choices
from scheduler.files.messy.sheets import Sheet

# a sheet with fewer numbers than this is not taken for one of readings beside another
_LEAST = 4


def picked_sheet(
    sheets: tuple[Sheet, ...], where: str, choices: Choices
) -> tuple[Sheet | None, tuple[str, ...], tuple[Finding, ...]]:
    """Choose the sheet to read.

    Parameters
    ----------
    sheets : tuple of Sheet
        All sheets.
    where : str
        The workbook in findings.
    choices : Choices
        The sheet, where the user named it.

    Returns
    -------
    sheet : Sheet or None
        None when none or several hold readings.
    said : tuple of str
        Which sheets are not read.
    findings : tuple of Finding
        A stop when there is no sheet.
    """
    if choices.sheet is not None:
        return _named(sheets, where, choices.sheet)
    shown = [one for one in sheets if not one.is_hidden]
    full = [one for one in shown if one.n_numbers >= _LEAST] or [
        one for one in shown if one.n_numbers
    ]
    if len(full) != 1:
        return None, (), (_refusal(sheets, full, where, choices),)
    said = []
    for one in sheets:
        if one.is_hidden:
            said.append(f"hidden sheet {one.name!r} not read")
        elif one is not full[0] and any(map(any, _filled(one))):
            said.append(f"sheet {one.name!r} holds no readings")
    return full[0], tuple(said), ()


def _filled(sheet: Sheet) -> list[list[bool]]:
    return [[one.kind != "blank" for one in row] for row in sheet.cells]


def _named(
    sheets: tuple[Sheet, ...], where: str, name: str
) -> tuple[Sheet | None, tuple[str, ...], tuple[Finding, ...]]:
    names = [one.name for one in sheets]
    found = [one for one in sheets if one.name == name] or [
        one for one in sheets if one.name.strip().casefold() == name.strip().casefold()
    ]
    if not any(names):
        fix = "leave the sheet out"
        return None, (), (Finding("stop", where, "is a text and has no sheets", fix),)
    if len(found) != 1:
        close = difflib.get_close_matches(name, names, n=1)
        fix = (
            f"did you mean {close[0]!r}?" if close else f"the sheets are {_list(names)}"
        )
        what = f"there is no sheet {name!r}"
        return None, (), (Finding("stop", where, what, fix),)
    said = (f"sheet {found[0].name!r} is hidden",) if found[0].is_hidden else ()
    others = [one.name for one in sheets if one is not found[0]]
    not_read = (f"not read: {_list(others)}",) if others else ()
    return found[0], (*said, *not_read), ()


def _refusal(
    sheets: tuple[Sheet, ...], full: list[Sheet], where: str, choices: Choices
) -> Finding:
    if full:
        what = f"sheets {_list([one.name for one in full])} all hold numbers"
        fix = f"say which: {choices.say('sheet', full[0].name)}"
        return Finding("stop", where, what, fix)
    hidden = [one for one in sheets if one.is_hidden and one.n_numbers >= _LEAST]
    if hidden:
        what = (
            f"holds no readings; hidden sheets are not read ({_list([hidden[0].name])})"
        )
        fix = f"enter the readings, or say {choices.say('sheet', hidden[0].name)}"
        return Finding("stop", where, what, fix)
    what, fix = "holds no readings", f"enter {_LEAST} readings or more"
    return Finding("stop", where, what, fix)


def _list(names: list[str]) -> str:
    return ", ".join(map(repr, names))
