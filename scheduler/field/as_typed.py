"""One reading as typed in; its number or code, and what to ask about it, out."""

import math
import re

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding, QuantityError
from scheduler.record import CODES, CanRun, Code
from scheduler.units import UNITS, converted, number

# A dash in any of the forms that keyboards give it.
_DASHES = {"-", "–", "—", "−"}
_COMMA = re.compile(r"[+-]?\d*,\d+$")
# 1,250 is one thousand two hundred and fifty to some, one and a quarter to others
_THOUSANDS = re.compile(r"[+-]?[1-9]\d{0,2}(?:,\d{3})+$")
# Common practice, no source: a misplaced point makes a reading 10 times too large or
# too small; this far from the median of the others it is worth a question.
FAR_ABOVE, FAR_BELOW = 5.0, 0.15
MANY_OTHERS = 3


def typed_reading(text: str) -> float | Code:
    """Number or code that was typed for one can.

    Parameters
    ----------
    text : str
        `52`, `5.5`, `5,5`, `3½`; `-` `k` `l` `o` for a can without a reading; nothing
        for a place that was left blank.

    Returns
    -------
    float or str
        The number, or the code; a blank place has the code `-`, never zero.

    Raises
    ------
    QuantityError
        If it is neither, or could be two numbers.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> typed_reading("5,5"), typed_reading("3½"), typed_reading("K"), typed_reading("")
    (5.5, 3.5, 'k', '-')
    """
    plain = text.strip().replace("−", "-")
    if plain == "" or plain in _DASHES:
        return "-"
    code = next((one for one in CODES if one == plain.casefold()), None)
    if code is not None:
        return code  # type: ignore[return-value]
    if _THOUSANDS.match(plain):
        whole, point = plain.replace(",", ""), plain.replace(",", ".", 1)
        raise QuantityError(f"{plain} could be {whole} or {point}", f"type {point}")
    if _COMMA.match(plain):
        plain = plain.replace(",", ".")
    try:
        size, rest = number(plain)
    except QuantityError:
        rest = plain
    if rest:
        raise QuantityError(
            f"{text.strip()!r} is neither a reading nor a code",
            "type a number, or - k l o",
        )
    return size


def reading_remark(
    run: CanRun, row: int, column: int, *, capacity_ml: float | None = None
) -> Finding | None:
    """What to ask about one reading at once, while the can is still in the hand.

    Parameters
    ----------
    run : CanRun
        The readings so far.
    row, column : int
        Place of the can.
    capacity_ml : float, optional
        What the can holds. [mL]

    Returns
    -------
    Finding or None
        A stop for what cannot be, a warning for what is odd; None when there is
        nothing to ask.

    References
    ----------
    Source: common practice, no source, for what counts as odd.

    Examples
    --------
    >>> run = CanRun("1", "run1.csv", np.array([[5.1, 4.8, 5.5, 52.0]]),
    ...              (("", "", "", ""),), (("A1", "B1", "C1", "D1"),), "ml", 30.0)
    >>> reading_remark(run, 0, 3).fix
    'meant 5.2? It is kept as typed'
    """
    size = float(run.reading[row, column])
    if math.isnan(size):
        return None
    where, label = f"can {run.label[row][column]}", UNITS[run.unit].label
    if size < 0:
        what = f"{size:g} {label} is not possible"
        return Finding("stop", where, what, "read the can again")
    if capacity_ml is not None and run.unit in ("ml", "fl_oz"):
        holds = converted(capacity_ml, "ml", to=run.unit)
        if size > holds:
            what = f"{size:g} {label} is more than the can holds ({holds:g})"
            fix = "type o if it ran over, or read it again"
            return Finding("stop", where, what, fix)
    if size == 0:
        what = "0 is kept, as a can that caught nothing"
        fix = "type - if nobody read it; is an arc blocked?"
        return Finding("warning", where, what, fix)
    middle = _median_of_others(run.reading, row, column)
    return _far_off(size, middle, where, label) if middle is not None else None


def _far_off(size: float, middle: float, where: str, label: str) -> Finding | None:
    """A reading whose point seems to be in the wrong place."""
    if FAR_BELOW < size / middle < FAR_ABOVE:
        return None
    meant = size * 10.0 ** -round(math.log10(size / middle))
    what = f"{size:g} {label} among a median of {middle:.3g}"
    return Finding("warning", where, what, f"meant {meant:.4g}? It is kept as typed")


def _median_of_others(reading: FloatArray, row: int, column: int) -> float | None:
    others = reading.copy()
    others[row, column] = np.nan
    wet = others[np.isfinite(others) & (others > 0)]
    return float(np.median(wet)) if wet.size >= MANY_OTHERS else None
