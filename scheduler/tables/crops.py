"""A crop's name in; its coefficients, stages, roots and height, with sources, out."""

import difflib
from dataclasses import dataclass

from scheduler.errors import SchedulerError
from scheduler.tables import read_table

# FAO-56 Table 18, from memory, unverified: what a basal coefficient lies below that of
# the whole field, where the ground is wetted often
BARE_GROUND_KCB = 0.15
BELOW_INITIAL = 0.2
BELOW_MID_COVERED, BELOW_MID_OPEN = 0.05, 0.1
BELOW_END = 0.1
# crops that cover the ground tall and dense in mid-season take the smaller step
COVERED_KC = 1.1


@dataclass(frozen=True, slots=True)
class CropRow:
    """One crop of the packaged table.

    Attributes
    ----------
    kc : tuple of three floats
        Coefficients of the initial stage, mid-season and the end. [-]
    kcb : tuple of three floats or None
        Basal ones, where they were seen in print.
    stage_days : tuple of four ints or None
        Lengths of the stages in one printed region; None where none are printed.
    depletion : float
        Part of the available water used without stress at 5 mm/day. [-]
    root_low_m, root_high_m : float
        Both ends of the largest root depth. [m]
    height_m : float
        Height of the grown crop. [m]
    """

    crop: str
    is_annual: bool
    kc: tuple[float, float, float]
    kcb: tuple[float, float, float] | None
    stage_days: tuple[int, int, int, int] | None
    depletion: float
    root_low_m: float
    root_high_m: float
    height_m: float
    source: str
    kcb_source: str

    @property
    def basal(self) -> tuple[float, float, float]:
        """Basal coefficients as printed, else by the guidelines of FAO-56 Table 18."""
        if self.kcb is not None:
            return self.kcb
        first, mid, end = self.kc
        low = BARE_GROUND_KCB
        if not self.is_annual:
            low = max(first - BELOW_INITIAL, low)
        step = BELOW_MID_COVERED if mid >= COVERED_KC else BELOW_MID_OPEN
        return low, mid - step, max(end - BELOW_END, BARE_GROUND_KCB)


def crop_row(crop: str) -> CropRow:
    """Row of one crop.

    Parameters
    ----------
    crop : str
        Name of the crop, such as `bean dry`; case and underscores do not matter.

    Returns
    -------
    CropRow
        The row.

    Raises
    ------
    SchedulerError
        If the table has no such crop; the message lists those it has.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, Tables 11, 12, 17 and 22.

    Examples
    --------
    >>> crop_row("Bean dry").kc
    (0.4, 1.15, 0.35)
    >>> crop_row("turf cool season").stage_days is None
    True
    """
    rows = {row["crop"]: row for row in read_table("crops.csv")}
    name = " ".join(crop.replace("_", " ").replace("%", " % ").split()).casefold()
    if name in rows:
        return _made(rows[name])
    close = difflib.get_close_matches(name, rows, n=1)
    guess = f"did you mean {close[0]}? " if close else ""
    raise SchedulerError(
        f"{crop!r} is no crop of the table",
        f"{guess}use one of {'; '.join(rows)}; or enter kc",
    )


def _made(row: dict[str, str]) -> CropRow:
    stages = ("initial", "mid", "end")
    lengths = ("initial_days", "development_days", "mid_days", "late_days")
    first, mid, end = (float(row[f"kc_{stage}"]) for stage in stages)
    kcb = tuple(float(row[f"kcb_{stage}"] or "nan") for stage in stages)
    days = tuple(int(row[one] or 0) for one in lengths)
    return CropRow(
        crop=row["crop"],
        is_annual=row["habit"] == "annual",
        kc=(first, mid, end),
        kcb=(kcb[0], kcb[1], kcb[2]) if row["kcb_mid"] else None,
        stage_days=(days[0], days[1], days[2], days[3]) if row["mid_days"] else None,
        depletion=float(row["depletion"]),
        root_low_m=float(row["root_low_m"]),
        root_high_m=float(row["root_high_m"]),
        height_m=float(row["height_m"]),
        source=row["source"],
        kcb_source=row["kcb_source"] or "FAO-56 (1998) Table 18, from memory",
    )
