"""The details of a line of the log as typed in; numbers in SI-style units out."""

import re
from typing import Any

from scheduler.errors import Finding, QuantityError
from scheduler.files.csv_text import THOUSANDS
from scheduler.files.log_kinds import Kind, Part
from scheduler.files.spacing_text import parsed_spacing_m
from scheduler.units import (
    UNITS,
    alternatives,
    converted,
    number,
    parsed_quantity,
    spelled_unit,
)

_FIRST = re.compile(r"[+-]?[\d.,]+")
_G_PER_ML = 1.0  # water; what a pour-through adds to its weight is below a percent


def parsed_details(
    text: str, kind: Kind, where: str
) -> tuple[dict[str, Any], tuple[Finding, ...]]:
    """Read `in 420 mL; out 160 mL` by the parts that a kind of line may hold.

    Parameters
    ----------
    text : str
        Parts between semicolons, each a label with what belongs to it.
    kind : Kind
        What the line may hold.
    where : str
        The line, for findings.

    Returns
    -------
    values : dict
        By field of the fact, in SI-style units; what could not be read is left out.
    findings : tuple of Finding
        A stop for each part that is not understood.

    Examples
    --------
    >>> from scheduler.files.log_kinds import KINDS
    >>> parsed_details("in 420 mL; out 0.16 L", KINDS["leaching"], "log.csv:3")[0]
    {'in_ml': 420.0, 'out_ml': 160.0}
    """
    values: dict[str, Any] = {}
    findings: list[Finding] = []
    seen: set[str] = set()
    for piece in filter(None, (one.strip() for one in text.split(";"))):
        part, rest = _labelled(piece, kind)
        if part is None:
            findings.append(_unknown(piece, kind, where))
            continue
        place = f"{where}: {part.label}"
        if part.label in seen:
            what = f"stands twice ({piece!r})"
            findings.append(Finding("stop", place, what, "keep the right one"))
            continue
        seen.add(part.label)
        try:
            values |= read_part(part, rest)
        except QuantityError as wrong:
            findings.append(wrong.finding(place))
    return values, tuple(findings)


def _labelled(piece: str, kind: Kind) -> tuple[Part | None, str]:
    plain = piece.casefold()
    # the longest first: none begins with another today, but one may
    for part in sorted(kind.parts, key=lambda one: -len(one.label)):
        label = part.label.casefold()
        if plain == label or plain.startswith((label + " ", label + ":", label + "=")):
            return part, piece[len(label) :].lstrip(" :=")
    return None, ""


def _unknown(piece: str, kind: Kind, where: str) -> Finding:
    examples = "; ".join(f"{one.label} {one.example}".strip() for one in kind.parts)
    fix = f"write parts such as: {examples}" if examples else "put words in the note"
    what = f"{piece!r} is not understood"
    return Finding("stop", f"{where}: details", what, fix)


def read_part(part: Part, text: str) -> dict[str, Any]:
    """Read what stands behind the label of one part.

    Parameters
    ----------
    part : Part
        How it is read.
    text : str
        Such as `420 mL`.

    Returns
    -------
    dict
        Value by field of the fact, in SI-style units.

    Raises
    ------
    QuantityError
        If it is not understood, or outside of what the number can be.

    Examples
    --------
    >>> from scheduler.files.log_kinds import KINDS
    >>> read_part(KINDS["pour-through"].part("EC"), "1800 uS/cm")
    {'ec_ds_per_m': 1.8}
    """
    if part.reads == "word":
        if text:
            raise QuantityError(f"has {text!r} behind it", "let it stand alone")
        return {part.field: True}
    if not text:
        raise QuantityError("has no number behind it", f"write it like {part.example}")
    if part.reads == "spacing":
        along, between = parsed_spacing_m(text, option="")
        return {part.field: along, "row_spacing_m": between}
    _refuse_thousands(text)
    if part.reads == "dial":
        return _dial(part, text)
    size = _size(part, text)
    is_in = part.low <= size <= part.high and (part.takes_low or size > part.low)
    if not is_in:
        raise QuantityError(f"is {text}; it must be {_allowed(part)}", _look(part))
    return {part.field: int(size) if part.reads == "whole" else size}


def _look(part: Part) -> str:
    return f"check {part.look_at}"


def _refuse_thousands(text: str) -> None:
    found = _FIRST.match(text)
    if found and THOUSANDS.match(found[0]):
        plain, point = found[0].replace(",", ""), found[0].replace(",", ".", 1)
        raise QuantityError(
            f"is {text}, which could be {plain} or {point}", f"write {plain} or {point}"
        )


def _dial(part: Part, text: str) -> dict[str, Any]:
    """The dial as read, and its unit: the number itself is not converted."""
    parsed_quantity(text, to="m3")  # refuses what is no volume
    size, rest = number(text)
    if size < 0:
        raise QuantityError(f"is {text}; it must be 0 or more", _look(part))
    return {part.field: size, "unit": spelled_unit(rest) or ""}


def _size(part: Part, text: str) -> float:
    if part.reads == "quantity":
        return _quantity(text, part.unit)
    size, rest = number(text)
    if part.reads == "percent":
        if rest != "%":
            raise QuantityError(
                f"is {text}, without %", f"write it like {part.example}"
            )
        return size / 100.0
    if rest:
        raise QuantityError(f"has {rest!r} behind the number", "leave it out")
    if part.reads == "whole" and size != int(size):
        raise QuantityError(f"is {text}, not a whole number", _look(part))
    return size


def _quantity(text: str, to: str) -> float:
    """A quantity; water that was weighed stands for its volume."""
    if to == "ml":
        size, rest = number(text)
        unit = spelled_unit(rest) if rest else None
        if unit in alternatives("g"):
            return converted(size, unit or "", to="g") / _G_PER_ML
    return parsed_quantity(text, to=to)


def _allowed(part: Part) -> str:
    scale, unit = 1.0, UNITS[part.unit].label if part.unit else ""
    if part.reads == "percent":
        scale, unit = 100.0, "%"
    low, high = part.low * scale, part.high * scale
    if part.takes_low:
        return f"{low:g} to {high:g} {unit}".strip()
    return f"above {low:g} and at most {high:g} {unit}".strip()
