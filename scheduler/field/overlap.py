"""One radial profile in, pattern, rate and uniformity at any spacing out."""

import math
from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.errors import Finding, SchedulerError
from scheduler.field.driest_window import driest_window
from scheduler.field.fold import (
    Layout,
    cell_rate_mm_per_h,
    fine_steps,
    layout_row_spacing_m,
    quarter_cells,
)
from scheduler.field.profile import Profile
from scheduler.field.uniformity import (
    christiansen_uniformity,
    low_half_uniformity,
    low_quarter_uniformity,
)
from scheduler.said import signed

PART_CIRCLE = (
    "full-circle heads far from any edge: part-circle heads, arcs and the borders of "
    "a block are outside this method; put cans there instead"
)
STILL_AIR = (
    "still air and heads alike: wind, worn nozzles and uneven pressure are not in it; "
    "only cans on the ground show those"
)
# Said beside every pattern: what it holds for, and what to do instead.
CAUTIONS = tuple(
    Finding("note", "spacing", *one.split("; ")) for one in (STILL_AIR, PART_CIRCLE)
)
SWEEP_STEPS = 48
WORST_MASS_ERROR = 1e-3


@dataclass(frozen=True, slots=True, eq=False)
class Pattern:
    """What identical heads at one spacing make of one profile.

    `rate_mm_per_h` covers one repeating cell, across by along the rows, from head to
    head; a triangular cell holds two rows. `mean_rate_mm_per_h` is the exact flow over
    the area of a head; `mass_balance_error` says by which fraction the mean of the
    grid is off it. `scheduling_coefficient` is infinite if a whole window is dry.
    """

    spacing_m: float
    row_spacing_m: float
    layout: Layout
    rate_mm_per_h: FloatArray
    mean_rate_mm_per_h: float
    lowest_rate_mm_per_h: float
    du_lq: float
    du_lh: float
    cu: float
    scheduling_coefficient: float
    window_share: float
    heads_per_m2: float
    mass_balance_error: float
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Sweep:
    """Measures of many spacings; arrays of shape (n_spacings, n_row_spacings)."""

    spacings_m: FloatArray
    row_spacings_m: FloatArray
    layout: Layout
    du_lq: FloatArray
    cu: FloatArray
    mean_rate_mm_per_h: FloatArray


def scheduling_coefficient(
    rate_mm_per_h: FloatArray, *, window_rows: int, window_columns: int
) -> float:
    """Mean rate over the rate of the driest contiguous window of a repeating cell.

    Parameters
    ----------
    rate_mm_per_h : array of shape (n_across, n_along)
        One repeating cell; windows run over its borders into the next. [mm/h]
    window_rows, window_columns : int
        Size of the window in cells.

    Returns
    -------
    float
        At least 1, which is best; infinite if a whole window is dry.

    Raises
    ------
    SchedulerError
        If the window does not fit into the cell.

    References
    ----------
    .. [1] Landscape irrigation design notes, section 4, Scheduling coefficient (web
       page, publisher not identified).

    Examples
    --------
    >>> strips = np.array([[7.0, 17.0], [7.0, 17.0]])
    >>> round(scheduling_coefficient(strips, window_rows=2, window_columns=1), 2)
    1.71
    """
    found = driest_window(
        rate_mm_per_h,
        window_rows=window_rows,
        window_columns=window_columns,
        wraps=True,
    )
    return found.scheduling_coefficient if found else math.inf


def _window_cells(
    rate: FloatArray, *, size_m: tuple[float, float], window_m2: float
) -> tuple[int, int]:
    """Rows and columns of a square on the ground, longer where a cell is narrow.

    `size_m` is the ground across and along the cell.
    """
    across, along = size_m
    wide = min(math.sqrt(window_m2), along)
    deep = min(window_m2 / wide, across)
    wide = min(window_m2 / deep, along)
    n_rows, n_columns = rate.shape
    rows, columns = round(deep / across * n_rows), round(wide / along * n_columns)
    return max(rows, 1), max(columns, 1)


def _pattern_findings(rate: FloatArray, mass_error: float) -> tuple[Finding, ...]:
    found = []
    dry = float((rate <= 0).mean())
    if dry > 0:
        what = f"{dry:.0%} of the ground gets no water at all"
        found.append(Finding("warning", "spacing", what, "move the heads closer"))
    if abs(mass_error) > WORST_MASS_ERROR:
        what = (
            f"the grid misses the water of the profile by {signed(mass_error, '.2%')}"
        )
        found.append(Finding("warning", "spacing", what, "use more steps per spacing"))
    return tuple(found)


def pattern(
    profile: Profile,
    *,
    spacing_m: float,
    row_spacing_m: float | None,
    layout: Layout,
    window_share: float = 0.05,
    steps: int | None = None,
) -> Pattern:
    """Pattern, rate and uniformity of identical heads at one spacing.

    Parameters
    ----------
    profile, spacing_m, row_spacing_m, layout, steps
        As in `scheduler.field.fold.cell_rate_mm_per_h`.
    window_share : float
        Window of the scheduling coefficient as share of the ground of one head, a
        square to the nearest whole cell; above 0, at most 1. Common sizes are 0.01 to
        0.10 (from memory, no source).

    Returns
    -------
    Pattern
        Grid and measures. The sampled grid is not rescaled: how far its mean is off
        the exact rate is stated. At the default steps that is below 0.001 for cans at
        usual distances; a warning says where it is not.

    Raises
    ------
    SchedulerError
        If a spacing or the window cannot be.

    References
    ----------
    .. [1] von Bernuth and Mecham, Defining the run time multiplier (n.d.), pp. 1-2,
       for the overlap of a triangular profile.

    Examples
    --------
    >>> from scheduler.field.profile import radial_profile
    >>> cone, _ = radial_profile([0.0, 10.0], [10.0, 0.0], minutes=60)
    >>> at = pattern(cone, spacing_m=10.0, row_spacing_m=14.0, layout="rectangular")
    >>> round(at.mean_rate_mm_per_h, 2), round(at.du_lq, 3)
    (7.48, 0.747)
    """
    if not 0.0 < window_share <= 1.0:
        raise SchedulerError(
            f"a window of {window_share:g} of the area", "give 0.05 or so", "window"
        )
    rows_m = layout_row_spacing_m(
        profile, spacing_m=spacing_m, row_spacing_m=row_spacing_m, layout=layout
    )
    rate = cell_rate_mm_per_h(
        profile, spacing_m=spacing_m, row_spacing_m=rows_m, layout=layout, steps=steps
    )
    area_m2 = spacing_m * rows_m
    mean = 60 * profile.flow_l_per_min / area_m2
    deep = rows_m * (2 if layout == "triangular" else 1)
    rows, columns = _window_cells(
        rate, size_m=(deep, spacing_m), window_m2=window_share * area_m2
    )
    mass_error = float(rate.mean()) / mean - 1
    return Pattern(
        spacing_m=spacing_m,
        row_spacing_m=rows_m,
        layout=layout,
        rate_mm_per_h=frozen(rate),
        mean_rate_mm_per_h=mean,
        lowest_rate_mm_per_h=float(rate.min()),
        du_lq=float(low_quarter_uniformity(rate.ravel())),
        du_lh=float(low_half_uniformity(rate.ravel())),
        cu=float(christiansen_uniformity(rate.ravel())),
        scheduling_coefficient=scheduling_coefficient(
            rate, window_rows=rows, window_columns=columns
        ),
        window_share=window_share,
        heads_per_m2=1 / area_m2,
        mass_balance_error=mass_error,
        findings=_pattern_findings(rate, mass_error),
    )


def sweep(
    profile: Profile,
    *,
    spacings_m: FloatArray,
    row_spacings_m: FloatArray,
    layout: Layout,
    steps: int | None = None,
) -> Sweep:
    """Uniformity and rate over many spacings along and between rows.

    Parameters
    ----------
    profile, layout
        As in `scheduler.field.fold.cell_rate_mm_per_h`.
    spacings_m, row_spacings_m : array of shape (n,) and (m,)
        Every pair of them is worked out. [m]
    steps : int, optional
        Cells per spacing for all of them; else 48, twice that for a sharp edge, and
        more if the widest spacing is past the throw.

    Returns
    -------
    Sweep
        Measures of shape (n, m).

    Raises
    ------
    SchedulerError
        If there is no spacing, or one does not suit the throw.

    Notes
    -----
    Coarser than `pattern`: DU moves by less than 0.002 for rounded profiles, by up to
    0.01 for one with a sharp edge.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.field.profile import radial_profile
    >>> cone, _ = radial_profile([0.0, 10.0], [12.0, 0.0], minutes=60)
    >>> m = np.array([8.0, 10.0, 12.0])
    >>> sweep(cone, spacings_m=m, row_spacings_m=m, layout="square").du_lq.shape
    (3, 3)
    """
    x_m, y_m = (
        np.array(one, dtype=float, ndmin=1) for one in (spacings_m, row_spacings_m)
    )
    if x_m.size == 0 or y_m.size == 0:
        raise SchedulerError("no spacing", "give one or more of each", "spacings_m")
    pairs = [(x, y_m[0]) for x in x_m] + [(x_m[0], y) for y in y_m]
    for x, y in pairs:
        layout_row_spacing_m(
            profile, spacing_m=float(x), row_spacing_m=float(y), layout=layout
        )
    widest = float(max(x_m.max(), y_m.max()))
    if steps is None:
        steps = fine_steps(profile, widest_m=widest, base=SWEEP_STEPS)
    quarters = quarter_cells(
        profile, spacings_m=x_m, row_spacings_m=y_m, layout=layout, steps=steps
    )
    du_lq, cu = np.empty((2, x_m.size, y_m.size))
    for i, one in enumerate(quarters):
        rate = one.reshape(y_m.size, -1)
        du_lq[i], cu[i] = low_quarter_uniformity(rate), christiansen_uniformity(rate)
    mean = 60 * profile.flow_l_per_min / np.multiply.outer(x_m, y_m)
    kept = frozen(du_lq), frozen(cu), frozen(mean)
    return Sweep(frozen(x_m), frozen(y_m), layout, *kept)
