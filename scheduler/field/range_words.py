"""Levels of ranges in, plain words that stand beside them out.

Two ranges answer two questions and are never mixed; here they get their names.
"""

from scheduler.field.nights import NightRanges
from scheduler.tables import read_table

THIS_CELL = "this cell in this run"
THESE_RUNS = "this cell in these runs"
ANOTHER_NIGHT = "this zone on another night, on average"
ONE_DAY = "on one day: other days may differ more than these runs do"
ONE_RUN = "one run: another night is not known"
UPPER_BOUND = (
    "what unevenness costs in water over a season is an upper bound, because"
    " several waterings together are more even than one"
)


def range_caveat() -> str:
    """What the range of one run is, and what neighbours that are alike do to it.

    Returns
    -------
    str
        One sentence for beside the range.

    References
    ----------
    Source: `python -m tests.bench coverage`.

    Examples
    --------
    >>> range_caveat().startswith("this cell in this run")
    True
    """
    rows = read_table("alike_level.csv")
    cell = min(float(row["cell"]) for row in rows)
    zone = [float(row["zone"]) for row in rows]
    alike = [float(row["neighbour"]) for row in rows]
    return (
        f"{THIS_CELL}, not another night; cans are taken as independent. Where"
        f" neighbouring cans are alike (correlation {min(alike):g} to {max(alike):g})"
        f" it held this cell in {cell:.0%} of simulated"
        f" tests or more, but the zone's other cells in {min(zone):.0%} to"
        f" {max(zone):.0%}"
    )


def another_night_words(nights: NightRanges | None, n_days: int) -> str:
    """What is known of another night, in words.

    Parameters
    ----------
    nights : NightRanges or None
        Ranges of a test's runs.
    n_days : int
        On how many days the runs were.

    Returns
    -------
    str
        The range with its level and what it rests on; for one run, that it is not
        known. Empty where nobody asked for ranges.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> import numpy as np
    >>> from scheduler.field.nights import night_ranges
    >>> another_night_words(night_ranges(np.full((1, 12), 5.0)), 1)
    'one run: another night is not known'
    """
    if nights is None:
        return ""
    one = nights.one_night
    if one is None:
        return ONE_RUN
    days = f"on {n_days} days" if n_days > 1 else ONE_DAY
    return (
        f"{one.low:.2f}–{one.high:.2f} for {ANOTHER_NIGHT}, right {one.level:.0%} of"
        f" the time, from {nights.n_runs} runs {days}"
    )
