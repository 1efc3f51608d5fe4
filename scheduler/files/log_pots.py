"""Several pots typed in one go in; the place and the details of each out."""

import re

from scheduler.errors import QuantityError
from scheduler.files.csv_text import PLAIN

_PARTS = re.compile(r"[,;\n]")


def parsed_pots(
    text: str, labels: tuple[str, ...], units: tuple[str, ...], *, option: str
) -> tuple[tuple[str, str], ...]:
    """Read `A1 420 160, A2 400 90`: a place and its numbers, between commas.

    Parameters
    ----------
    text : str
        Pots between commas; the last numbers of each are its readings, and what
        stands before them is its place, such as `row 2 col 3` or `N corner`. A number
        may be `-` where nothing was read.
    labels : tuple of str
        What the numbers are, in order.
    units : tuple of str
        Unit of each, as typed; empty for a bare number.
    option : str
        Name of the option it was given to.

    Returns
    -------
    tuple of (str, str)
        Place and details of each pot.

    Raises
    ------
    QuantityError
        If a pot has no place, or not as many numbers as there are labels.

    Examples
    --------
    >>> parsed_pots("A1 420 160, N corner 400 90", ("in", "out"), ("mL", "mL"),
    ...             option="--pots")
    (('A1', 'in 420 mL; out 160 mL'), ('N corner', 'in 400 mL; out 90 mL'))
    """
    pots = tuple(
        _pot(one.split(), labels, units, option)
        for one in _PARTS.split(text)
        if one.strip()
    )
    if not pots:
        raise QuantityError("holds no pot", f"write {_example(labels)}", option)
    return pots


def _pot(
    words: list[str], labels: tuple[str, ...], units: tuple[str, ...], option: str
) -> tuple[str, str]:
    place, readings = words[: -len(labels)], words[-len(labels) :]
    wrong = [one for one in readings if one != "-" and not PLAIN.match(one)]
    if not place or wrong or (len(place) > 1 and _is_too_many(place)):
        said = " ".join(words)
        what = f"{said!r} is not a place and {_count(labels)}"
        raise QuantityError(what, f"write {_example(labels)}", option)
    details = [
        f"{label} {size} {unit}".strip()
        for label, size, unit in zip(labels, readings, units, strict=True)
        if size != "-"
    ]
    return " ".join(place), "; ".join(details)


def _is_too_many(place: list[str]) -> bool:
    """Whether a number too many stands behind the place: `row 2 col 3` has none."""
    is_number = PLAIN.match(place[-1]) is not None
    return is_number and place[-2].casefold().rstrip(".") not in _ORDINALS


_ORDINALS = {"row", "r", "col", "column", "c", "pot", "bay", "bed", "head", "no", "#"}


def _count(labels: tuple[str, ...]) -> str:
    names = ", ".join(labels)
    return (
        f"a number ({names})"
        if len(labels) == 1
        else f"{len(labels)} numbers ({names})"
    )


def _example(labels: tuple[str, ...]) -> str:
    """How the pots are written, by what their numbers are."""
    sizes = {"in": "420", "out": "160", "before": "5210", "after": "5480",
             "leached": "38", "weight": "5210", "EC": "1.8", "pH": "6.1"}  # fmt: skip
    one = " ".join(sizes[label] for label in labels)
    return f'"A1 {one}, A2 {one}": place, {", ".join(labels)}'
