"""A table's name in, its rows out: reference tables packaged with their sources."""

import csv
from functools import cache
from importlib.resources import files

from scheduler.errors import SchedulerError


def read_table(name: str) -> tuple[dict[str, str], ...]:
    """Rows of a packaged table, as texts.

    Parameters
    ----------
    name : str
        File name inside this package, such as `soils.csv`.

    Returns
    -------
    tuple of dict
        One dict a row, keyed by column; lines that start with `#` are left out.

    Raises
    ------
    SchedulerError
        If there is no such table.

    References
    ----------
    Source: definition; each table names its publications in its own columns.

    Examples
    --------
    >>> read_table("soils.csv")[0]["texture"]
    'sand'
    """
    return tuple(dict(row) for row in _rows(name))


@cache
def _rows(name: str) -> tuple[dict[str, str], ...]:
    place = files("scheduler.tables").joinpath(name)
    if not place.is_file():
        raise SchedulerError(f"there is no packaged table {name!r}", "reinstall")
    lines = place.read_text(encoding="utf-8").splitlines()
    kept = [line for line in lines if line.strip() and not line.startswith("#")]
    return tuple(csv.DictReader(kept))


def soil_row(texture: str) -> dict[str, str]:
    """Row of one texture in the soils table.

    Parameters
    ----------
    texture : str
        Texture class, such as `sandy loam`.

    Returns
    -------
    dict
        The row; `from_memory` names the columns that nobody has checked.

    Raises
    ------
    SchedulerError
        If the table has no such texture.

    References
    ----------
    Source: the row's own `source` and `status`.

    Examples
    --------
    >>> soil_row("loam")["fc"]
    '0.27'
    """
    for row in _rows("soils.csv"):
        if row["texture"] == texture:
            return dict(row)
    known = ", ".join(row["texture"] for row in _rows("soils.csv"))
    raise SchedulerError(f"no soil texture {texture!r} in the table", f"use {known}")


def green_ampt_row(texture: str) -> dict[str, str]:
    """Row of one texture in the table of Green-Ampt constants.

    Parameters
    ----------
    texture : str
        Texture class, such as `sandy loam`.

    Returns
    -------
    dict
        The row.

    Raises
    ------
    SchedulerError
        If the table has no such texture.

    References
    ----------
    .. [1] Rawls, Brakensiek and Miller, 1983, Table 2.

    Examples
    --------
    >>> green_ampt_row("loam")["conductivity_mm_per_h"]
    '3.4'
    """
    for row in _rows("green_ampt.csv"):
        if row["texture"] == texture:
            return dict(row)
    known = ", ".join(row["texture"] for row in _rows("green_ampt.csv"))
    raise SchedulerError(f"no soil texture {texture!r} in the table", f"use {known}")


def is_from_memory(row: dict[str, str], column: str) -> bool:
    """Whether a value of a row was never checked against its publication.

    Parameters
    ----------
    row : dict
        A row of a table that has a `from_memory` column.
    column : str
        Name of the column in question.

    Returns
    -------
    bool
        True where the value needs a remark whenever it is used.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> is_from_memory(soil_row("clay"), "fc")
    True
    """
    return column in row["from_memory"].split()
