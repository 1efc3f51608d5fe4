"""ET columns of a weather table and its station in; which reference they are for out.

Alfalfa reference (ETr) is 10 to 25 % above short grass (ETo; common practice, no
source): taken for the other, it waters every zone that much too long.
"""

from collections.abc import Mapping
from typing import Literal

from scheduler.arrays import FloatArray
from scheduler.errors import Finding
from scheduler.record import Origin
from scheduler.site import Station

# what the name of a column says of its reference, in the order of preference
REFERENCES: dict[str, Literal["grass", "alfalfa", "unsaid"]] = {
    "eto_mm_per_day": "grass",
    "et_mm_per_day": "unsaid",
    "etr_mm_per_day": "alfalfa",
}


def reported_et(
    values: Mapping[str, FloatArray], station: Station, where: str
) -> tuple[FloatArray | None, Origin, tuple[Finding, ...]]:
    """Reference ET that the table itself reports, and what it is.

    Parameters
    ----------
    values : mapping of str to array of shape (n_days,)
        Columns of the table by field.
    station : Station
        What the site says of the file.
    where : str
        The file.

    Returns
    -------
    et_mm_per_day : array of shape (n_days,) or None
        As reported; None without such a column, or where it must not be read. [mm/day]
    origin : Origin
        Its reference, the ratio to grass, the distance, the day of issue.
    findings : tuple of Finding
        A column that contradicts the site file.
    """
    there = [field for field in REFERENCES if field in values]
    if station.reference == "alfalfa":  # the tall column first, if both stand there
        there.reverse()
    field = there[0] if there else "eto_mm_per_day"
    by_name = REFERENCES[field]
    origin = Origin(
        reference=station.reference or by_name,
        alfalfa_over_grass=station.alfalfa_over_grass,
        distance_km=station.distance_km,
        issued=station.issued,
    )
    if field not in values:
        return None, origin, ()
    if by_name in (origin.reference, "unsaid"):
        return values[field], origin, ()
    if origin.reference == "grass":
        said = Finding(
            "stop",
            f"{where}: ETr",
            "the column is alfalfa reference, but site.toml says reference = 'grass', "
            "so it is not read",
            f"write reference = 'alfalfa' for station {station.name!r}, or rename the "
            "column ETo",
        )
        return None, origin, (said,)
    said = Finding(
        "note",
        f"{where}: ETo",
        "is read as alfalfa reference, as site.toml says; the name says grass",
        "rename the column ETr, or take reference = 'alfalfa' out of site.toml",
    )
    return values[field], origin, (said,)
