"""Readings scribbled in one line or a few in; one run out.

`41 52 60 - k | 55 63`: numbers in reading order, `|` or a new line starts a row.
"""

import re

import numpy as np

from scheduler.arrays import frozen
from scheduler.errors import Finding, QuantityError
from scheduler.files.catch_csv import code_of
from scheduler.files.csv_text import PLAIN, THOUSANDS, column_letter
from scheduler.record import CanRun, CanUnit, Code
from scheduler.units import number

_ROW = re.compile(r"[|\n]")
_FIELD = re.compile(r"[;\t]")
_GAP = re.compile(r"[\s;]+")
_FRACTION = re.compile(r"\d+/[1-9]\d*$|[¼½¾⅛⅜⅝⅞⅓⅔]$")
_DECIMAL_COMMA = re.compile(r"[+-]?\d*,\d+$")
_FIX = "write numbers, and - k l o for cans without one"


def parsed_readings(
    text: str, *, unit: CanUnit, name: str, where: str, minutes: float | None
) -> tuple[CanRun | None, tuple[Finding, ...]]:
    """Read a scribbled list of readings.

    Parameters
    ----------
    text : str
        Numbers and codes between spaces, `;` or commas; `|` or a new line starts a
        row. `-` alone, `k`, `l` and `o` are cans without a reading; `-12` is a number.
    unit : {'ml', 'fl_oz', 'mm', 'in'}
        Unit of the readings.
    name, where : str
        Name of the run, and its place in findings.
    minutes : float or None
        How long the water ran. [min]

    Returns
    -------
    run : CanRun or None
        None when anything is not understood. Rows may differ in length; places
        behind a shorter row have no can and no name.
    findings : tuple of Finding
        A stop for each thing not understood, a note on decimal commas.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> run, _ = parsed_readings(
    ...     "41 52 - k | 55; ½", unit="ml", name="run 1", where="readings", minutes=30
    ... )
    >>> run.reading[1, 1], run.code[0]
    (np.float64(0.5), ('', '', '-', 'k'))
    """
    text = text.replace("\r\n", "\n").replace("−", "-")
    plain, findings = _without_commas(text, where)
    if plain is None:
        return None, findings
    rows: list[list[float | Code]] = []
    wrong: list[Finding] = []
    for line in _ROW.split(plain):
        if line.strip(" ;\t"):
            cells, refused = _row(line, f"{where}: row {len(rows) + 1}")
            rows.append(cells)
            wrong += refused
    if not rows and not wrong:
        wrong.append(Finding("stop", where, "holds no readings", _FIX))
    if wrong:
        return None, (*findings, *wrong)
    return _run(rows, unit, name, where, minutes), findings


def _run(
    rows: list[list[float | Code]],
    unit: CanUnit,
    name: str,
    where: str,
    minutes: float | None,
) -> CanRun:
    width = max(map(len, rows))
    reading = np.full((len(rows), width), np.nan)
    code: list[list[Code]] = [["-"] * width for _ in rows]
    label = [[""] * width for _ in rows]
    for i, row in enumerate(rows):
        for j, found in enumerate(row):
            label[i][j] = f"{column_letter(j)}{i + 1}"
            if isinstance(found, float):
                reading[i, j], code[i][j] = found, ""
            else:
                code[i][j] = found
    return CanRun(
        name=name,
        where=where,
        reading=frozen(reading),
        code=tuple(map(tuple, code)),
        label=tuple(map(tuple, label)),
        unit=unit,
        minutes=minutes,
    )


def _without_commas(text: str, where: str) -> tuple[str | None, tuple[Finding, ...]]:
    """The text with decimal points, and `;` for commas between readings."""
    if "," not in text:
        return text, ()
    tokens = [one for one in re.split(r"[\s;|]+", text) if "," in one]
    many = [one for one in tokens if THOUSANDS.match(one)]
    if many:
        plain, point = many[0].replace(",", ""), many[0].replace(",", ".", 1)
        what = f"{many[0]!r} could be {plain}, {point} or several cans"
        fix = f"write {plain} or {point}, and spaces between the cans"
        return None, (Finding("stop", where, what, fix),)
    # only one comma inside each piece: decimal signs, unless there is a doubt
    inner = [one.strip(",") for one in tokens if "," in one.strip(",")]
    if inner and all(_DECIMAL_COMMA.match(one) for one in inner):
        if len(inner) < len(tokens) or inner != tokens:
            what = f"commas are used in two ways, in {inner[0]!r} and between cans"
            fix = "write decimals with a point, or spaces between the cans"
            return None, (Finding("stop", where, what, fix),)
        if not any(len(_GAP.split(row.strip())) > 1 for row in _ROW.split(text)):
            what = f"{inner[0]!r} could be one can or two"
            fix = "write decimals with a point, or spaces between the cans"
            return None, (Finding("stop", where, what, fix),)
        what = f"commas are read as decimal signs: {inner[0]} is "
        what += inner[0].replace(",", ".")
        fix = "put spaces between the cans if they are not"
        return text.replace(",", "."), (Finding("note", where, what, fix),)
    return text.replace(",", ";"), ()


def _row(line: str, place: str) -> tuple[list[float | Code], list[Finding]]:
    fields = [one.strip() for one in _FIELD.split(line.strip(" "))]
    while fields and not fields[-1]:  # a separator at the end separates nothing
        fields.pop()
    cells: list[float | Code] = []
    wrong: list[Finding] = []
    for one in fields:
        tokens = [one] if len(fields) > 1 and _is_mixed(one) else one.split() or [""]
        for i, token in enumerate(tokens):
            found = _reading(token)
            if found is None or (i and _could_be_mixed(tokens[i - 1], token)):
                column = f"can {column_letter(len(cells))}"
                before = tokens[i - 1] if i else ""
                wrong.append(_refusal(f"{place}, {column}", token, before))
            cells.append(found if found is not None else "-")
    return cells, wrong


def _is_mixed(field: str) -> bool:
    """Whether a field between two `;` is one number such as `4 1/2`."""
    parts = field.split()
    return len(parts) == 2 and _could_be_mixed(*parts)


def _could_be_mixed(before: str, token: str) -> bool:
    return before.isdigit() and _FRACTION.match(token) is not None


def _reading(token: str) -> float | Code | None:
    code = code_of(token)
    if code is not None:
        return code
    if PLAIN.match(token):
        return float(token)
    try:
        size, rest = number(token)
    except QuantityError:
        return None
    return None if rest else size


def _refusal(place: str, token: str, before: str) -> Finding:
    if _could_be_mixed(before, token):
        whole = number(f"{before} {token}")[0]
        what = f"'{before} {token}' could be one can or two"
        fix = f"write {whole:g} for one, or {before} and {number(token)[0]:g}"
        return Finding("stop", place, what, fix)
    return Finding("stop", place, f"{token!r} is neither a reading nor a code", _FIX)
