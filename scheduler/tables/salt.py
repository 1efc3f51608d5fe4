"""A crop's name in; its row of the packaged salt tolerance table out."""

import difflib

from scheduler.errors import SchedulerError
from scheduler.tables import read_table


def salt_row(crop: str) -> dict[str, str]:
    """Row of one crop in the table of salt tolerance.

    Parameters
    ----------
    crop : str
        Name of the crop, such as `bean`; case does not matter.

    Returns
    -------
    dict
        The row; where the publication prints a range, both of its ends.

    Raises
    ------
    SchedulerError
        If the table has no such crop.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, Table 23.

    Examples
    --------
    >>> salt_row("Bean")["threshold_low_ds_per_m"]
    '1.0'
    """
    rows = {row["crop"]: row for row in read_table("salt.csv")}
    name = " ".join(crop.split()).casefold()
    if name in rows:
        return rows[name]
    close = difflib.get_close_matches(name, rows, n=1)
    guess = f"did you mean {close[0]}? " if close else ""
    raise SchedulerError(
        f"{crop!r} is no crop of the salt table",
        f"{guess}use one of {', '.join(rows)}, or enter target_ec_ds_per_m",
    )
