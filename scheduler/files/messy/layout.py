"""Columns of a table in; the cells of cans with their places and names out."""

from dataclasses import dataclass, replace

from scheduler.errors import Finding
from scheduler.files.csv_text import column_letter
from scheduler.files.messy.cells import Cell
from scheduler.files.messy.choices import Choices
from scheduler.files.messy.columns import Column, columns_of, names_a_grid
from scheduler.files.messy.frame import Frame, id_kind, runs_of_numbers
from scheduler.record import Code

_FIX_CELL = "write a number, or one of - k l o"


@dataclass(frozen=True, slots=True)
class Layout:
    """The cans of a table.

    Attributes
    ----------
    readings : tuple of Column
        Columns of readings; several are a grid as the cans stood.
    names : tuple of str
        Name of each row of the body; empty where rows have none.
    grid_names : tuple of str
        Name of each column of a grid; empty where columns have none.
    places : tuple of tuple of str
        Row and column of each can, where the table has columns for both.
    marks : tuple of Code
        Code beside each row in a column of notes; only where there is one.
    said : tuple of str
        What was left out, and what was taken for what.
    """

    readings: tuple[Column, ...]
    names: tuple[str, ...] = ()
    grid_names: tuple[str, ...] = ()
    places: tuple[tuple[str, str], ...] = ()
    marks: tuple[Code, ...] = ()
    said: tuple[str, ...] = ()


def laid(
    frame: Frame, choices: Choices, where: str
) -> tuple[Layout | None, tuple[Finding, ...]]:
    """Find the columns of readings, and the names of the cans.

    Parameters
    ----------
    frame : Frame
        Header and body.
    choices : Choices
        What the user said.
    where : str
        File and sheet for findings.

    Returns
    -------
    layout : Layout or None
        None when it can be seen in more than one way.
    findings : tuple of Finding
        Stops that name cells and the choice.
    """
    columns = columns_of(frame)
    named, refused = _named_rows(columns, where)
    if refused:
        return None, refused
    readings = [one for one in columns if one.use == "reading"]
    picked, refused = _picked(readings, frame, choices, where)
    if refused:
        return None, refused
    layout = replace(named, readings=tuple(picked), said=_said(columns, picked))
    layout, refused = _counted(layout, choices, where)
    if refused:
        return None, refused
    layout = _without_blank_rows(_marked(layout, columns), frame)
    refused = (*_cell_findings(layout, where), *_mark_findings(layout, where))
    if refused:
        return None, refused
    if len(layout.readings) > 1:
        titles = tuple(one.title for one in layout.readings)
        layout = replace(layout, grid_names=titles if all(titles) else ())
    return layout, ()


# --- names ----------------------------------------------------------------------


def _named_rows(
    columns: tuple[Column, ...], where: str
) -> tuple[Layout, tuple[Finding, ...]]:
    names = [one for one in columns if one.use == "name"]
    rows = [one for one in columns if one.use == "row"]
    across = [one for one in columns if one.use == "column"]
    if len(rows) == len(across) == 1 and len(names) < 2:
        return _placed(rows[0], across[0], where)
    if across or len(rows) > 1:
        return _refused((rows + across)[-1], where)
    names += rows
    if len(names) > 1:
        return _refused(names[1], where)
    if not names:
        return Layout(()), ()
    texts = tuple(one.text for one in names[0].cells)
    refused = (*_odd_names(names[0], where), *_twice(names[0].cells, texts, where))
    return Layout((), names=texts), refused


def _refused(column: Column, where: str) -> tuple[Layout, tuple[Finding, ...]]:
    what = f"column {column.letter} names the cans as well as another column"
    fix = "keep one column of names, or one headed row and one headed column"
    place = f"{where}: cell {column.cells[0].name}"
    return Layout(()), (Finding("stop", place, what, fix),)


def _placed(
    row: Column, across: Column, where: str
) -> tuple[Layout, tuple[Finding, ...]]:
    places = tuple(
        (a.text, b.text) for a, b in zip(row.cells, across.cells, strict=True)
    )
    lacks = [
        one
        for one, place in zip(row.cells, places, strict=True)
        if bool(place[0]) != bool(place[1])
    ]
    refused = tuple(
        Finding("stop", f"{where}: cell {one.name}", "has a row or a column, not both",
                "fill in both") for one in lacks
    )  # fmt: skip
    keys = tuple("".join(f"{part}/" for part in place if part) for place in places)
    return Layout((), places=places), (*refused, *_twice(row.cells, keys, where))


def _twice(
    cells: tuple[Cell, ...], names: tuple[str, ...], where: str
) -> tuple[Finding, ...]:
    seen: dict[str, Cell] = {}
    said = []
    for cell, name in zip(cells, names, strict=True):
        first = seen.setdefault(name.casefold(), cell)
        if name and first is not cell:
            what = f"{name.rstrip('/')!r} stands twice, in {first.name} and {cell.name}"
            fix = "give each can its own name, or delete one"
            said.append(Finding("stop", f"{where}: cell {cell.name}", what, fix))
    return tuple(said)


def _odd_names(names: Column, where: str) -> tuple[Finding, ...]:
    """A name unlike the others may head something that is no reading."""
    cells = names.filled
    kinds = [id_kind(one.text) for one in cells]
    known = {one for one in kinds if one}
    if not known:
        return ()
    usual = max(known, key=kinds.count)
    odd = [one for one, kind in zip(cells, kinds, strict=True) if kind != usual]
    fix = (
        f"name it as the others are ({cells[0].text}), or move the row out of the table"
    )
    return tuple(
        Finding("stop", f"{where}: cell {one.name}",
                f"{one.text!r} is no name of a can like the others", fix) for one in odd
    )  # fmt: skip


# --- which columns ----------------------------------------------------------------


def _picked(
    readings: list[Column], frame: Frame, choices: Choices, where: str
) -> tuple[list[Column], tuple[Finding, ...]]:
    if not readings:
        fix = "enter the readings"
        return [], (Finding("stop", where, "holds no column of readings", fix),)
    if choices.column is not None and choices.column.casefold() != "all":
        wanted = choices.column.strip().casefold()
        found = [one for one in readings if wanted in _names_of(one)]
        if len(found) == 1:
            return found, ()
        what = f"there is no one column {choices.column!r}"
        fix = f"the columns of readings are {_listed(readings)}"
        return [], (Finding("stop", where, what, fix),)
    if len(readings) == 1 or choices.column or names_a_grid(readings, frame):
        return readings, ()
    name = readings[0].title or readings[0].letter
    what = f"columns {_listed(readings)} all hold numbers: one run each, or one grid?"
    fix = f"say {choices.say('column', name)} for one of them, "
    fix += f"{choices.say('column', 'all')} for a grid as the cans stood"
    place = f"{where}: cell {readings[0].cells[0].name}"
    return [], (Finding("stop", place, what, fix),)


def _names_of(column: Column) -> set[str]:
    texts = {one.text.casefold() for one in column.head}
    return {*texts, column.letter.casefold()}


def _listed(columns: list[Column]) -> str:
    return ", ".join(repr(one.title or one.letter) for one in columns)


def _said(columns: tuple[Column, ...], picked: list[Column]) -> tuple[str, ...]:
    said = []
    for one in columns:
        if one.use == "total":
            said.append(f"ignored total column {one.letter} ({one.head[-1].text})")
        elif one.use == "note" or (one.use == "unused" and one.filled):
            name = f" ({one.title})" if one.title else ""
            said.append(f"column {one.letter}{name} not read")
        elif one.use == "reading" and one not in picked:
            said.append(f"column {one.letter} ({one.title}) not read")
        elif one.use == "name" and not one.head and one.cells:
            said.append(f"column {one.letter} taken as names of the cans")
    return tuple(said)


# --- running numbers at the edge ----------------------------------------------------


def _counted(
    layout: Layout, choices: Choices, where: str
) -> tuple[Layout, tuple[Finding, ...]]:
    """Ask about edges that count 1, 2, 3; take them as names when told to."""
    readings = layout.readings
    if len(readings) < 2 or choices.labels == "no":
        return layout, ()
    first = [one for one in readings[0].cells if one.kind != "blank"]
    down = not layout.names and _counts(first)
    top = [one.cells[0] for one in readings[1 if down else 0 :]]
    across = not any(one.title for one in readings) and _counts(top)
    if not down and not across:
        return layout, ()
    if choices.labels is None:
        what = "1, 2, 3: numbers of the cans, or readings?"
        fix = f"say {choices.say('labels', 'yes')} for numbers of the cans, "
        fix += f"{choices.say('labels', 'no')} for readings"
        place = f"{where}: cell {first[0].name if down else top[0].name}"
        return layout, (Finding("stop", place, what, fix),)
    names = layout.names
    if down:
        names = tuple(one.text for one in readings[0].cells)
        readings = readings[1:]
    if across:
        readings = tuple(
            Column((one.cells[0],), one.cells[1:], one.use) for one in readings
        )
        names = names[1:]
    return replace(layout, readings=readings, names=names), ()


def _counts(cells: list[Cell]) -> bool:
    return len(cells) > 2 and runs_of_numbers(cells)


# --- rows without anything, and cells that are no readings ----------------------------


def _without_blank_rows(layout: Layout, frame: Frame) -> Layout:
    """Leave out rows in which nothing stands; in a bare list they are cans."""
    has_names = bool(layout.names or layout.places)
    if len(layout.readings) == 1 and not has_names and len(frame.body[0]) == 1:
        return layout
    keys = layout.names or layout.places
    kept = [
        i
        for i, cells in enumerate(zip(*(one.cells for one in layout.readings),
                                      strict=True))
        if any(one.kind != "blank" for one in cells)
        or (i < len(keys) and any(keys[i]))
    ]  # fmt: skip
    blank = [
        layout.readings[0].cells[i]
        for i in range(len(layout.readings[0].cells))
        if i not in kept
    ]
    readings = tuple(
        Column(one.head, tuple(one.cells[i] for i in kept), one.use)
        for one in layout.readings
    )
    numbers = [
        column_letter(one.column) if frame.is_turned else f"{one.row + 1}"
        for one in blank
    ]
    said = (f"skipped blank {_plural(frame.is_turned, numbers)}",) if numbers else ()
    return replace(
        layout,
        readings=readings,
        names=tuple(layout.names[i] for i in kept) if layout.names else (),
        places=tuple(layout.places[i] for i in kept) if layout.places else (),
        marks=tuple(layout.marks[i] for i in kept) if layout.marks else (),
        said=(*layout.said, *said),
    )


def _plural(is_turned: bool, numbers: list[str]) -> str:
    noun = "column" if is_turned else "row"
    return f"{noun}{'s' if len(numbers) > 1 else ''} {', '.join(numbers)}"


def _cell_findings(layout: Layout, where: str) -> tuple[Finding, ...]:
    said = []
    for column in layout.readings:
        for one in column.cells:
            if one.kind == "word":
                what, fix = f"{one.text!r} is neither a reading nor a code", _FIX_CELL
            elif one.kind == "odd":
                what = f"{one.text!r} is no reading: a date, a time or two numbers?"
                fix = "format the cell as a number and type the reading again"
            else:
                continue
            said.append(Finding("stop", f"{where}: cell {one.name}", what, fix))
    keys = layout.names or tuple("".join(one) for one in layout.places)
    for i, key in enumerate(keys):
        beside = [one.cells[i] for one in layout.readings if one.cells[i].is_reading]
        if not key and beside:
            what = f"{beside[0].text} stands in a row without the name of a can"
            fix = "name the can, or move the row out of the table"
            said.append(Finding("stop", f"{where}: cell {beside[0].name}", what, fix))
    return tuple(said)


def _marked(layout: Layout, columns: tuple[Column, ...]) -> Layout:
    """Codes that stand in a column of notes beside a list."""
    notes = [one for one in columns if one.use == "note"]
    if len(layout.readings) != 1 or len(notes) != 1:
        return layout
    marks: list[Code] = [
        one.code if one.kind == "code" else "" for one in notes[0].cells
    ]
    return replace(layout, marks=tuple(marks)) if any(marks) else layout


def _mark_findings(layout: Layout, where: str) -> tuple[Finding, ...]:
    """A code in a column of notes, beside a number, makes that number doubtful."""
    fix = "put the code in place of the reading, or delete it"
    return tuple(
        Finding("stop", f"{where}: cell {one.name}",
                f"is {one.text}, and the note beside it is {mark}", fix)
        for one, mark in zip(layout.readings[0].cells, layout.marks, strict=False)
        if mark in ("k", "l", "o") and one.kind == "number"
    )  # fmt: skip
