"""One sprinkler and a layout in, rates on one repeating cell out.

A cell mirrors itself, so heads are summed on a quarter of the ground of one head, and
the step is half a spacing over a whole number: any spacing is met exactly, and cell
centres are sampled (nodes on the border would count the wettest lines twice).
A wind distortion fitted to a site's own tests would act on the distances in `_squares`
(and end the mirroring); none is built in, because no published one was verified.
"""

import math
from collections.abc import Iterator
from typing import Literal

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import SchedulerError
from scheduler.field.profile import N_RASTER, Profile
from scheduler.units import System, converted, face_suffix, typed, unit_label

Layout = Literal["square", "rectangular", "triangular"]

STEPS = 100  # cells per spacing; holds the water of a profile to 0.001
FEWEST_STEPS = 8
# Below and above, the layout is a slip of units, and the grid would be huge or empty.
LEAST_SPACING, MOST_SPACING = 0.05, 4.0  # of the radius of throw


def layout_row_spacing_m(
    profile: Profile,
    *,
    spacing_m: float,
    row_spacing_m: float | None,
    layout: Layout,
    units: System = "metric",
) -> float:
    """Row spacing that a layout has, if its spacings suit the throw.

    Parameters
    ----------
    profile : Profile
        One sprinkler.
    spacing_m : float
        From head to head along the row. [m]
    row_spacing_m : float or None
        From row to row; None means as far as along the row, and equilateral for
        triangular layouts. [m]
    layout : {'square', 'rectangular', 'triangular'}
        Triangular rows are shifted by half a spacing.
    units : {'us', 'metric'}
        Units that the error speaks in.

    Returns
    -------
    float
        Row spacing. [m]

    Raises
    ------
    SchedulerError
        If the row spacing is missing, or a spacing is below 0.05 or above 4 times the
        throw.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.field.profile import radial_profile
    >>> cone, _ = radial_profile([0.0, 10.0], [12.0, 0.0], minutes=60)
    >>> rows_m = layout_row_spacing_m(
    ...     cone, spacing_m=10.0, row_spacing_m=None, layout="triangular"
    ... )
    >>> round(rows_m, 2)
    8.66
    """
    if row_spacing_m is None:
        if layout == "rectangular":
            raise SchedulerError(
                "a rectangular layout has no row spacing",
                "give the distance between rows",
                "row_spacing_m",
            )
        row_spacing_m = spacing_m * (math.sqrt(3) / 2 if layout == "triangular" else 1)
    least, most = LEAST_SPACING * profile.throw_m, MOST_SPACING * profile.throw_m
    for name, one in (("spacing_m", spacing_m), ("row_spacing_m", row_spacing_m)):
        if not least <= one <= most:
            to = face_suffix("m", units)
            low, high = (f"{converted(end, 'm', to=to):.3g}" for end in (least, most))
            label = unit_label("m", units)
            throw = typed(profile.throw_m, "m", units)
            raise SchedulerError(
                f"{typed(one, 'm', units)} does not suit a throw of {throw}",
                f"give {low} to {high} {label}, and check the units of both",
                name,
            )
    return row_spacing_m


def fine_steps(profile: Profile, *, widest_m: float, base: int = STEPS) -> int:
    """Steps per spacing that hold the water of a profile.

    Parameters
    ----------
    profile : Profile
        One sprinkler; a sharp edge needs twice the steps.
    widest_m : float
        Widest spacing of the layout; past the throw it needs more steps. [m]
    base : int
        Steps for a profile that fades out, at spacings up to the throw.

    Returns
    -------
    int
        Steps per spacing.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.field.profile import radial_profile
    >>> cone, _ = radial_profile([0.0, 10.0], [12.0, 0.0], minutes=60)
    >>> fine_steps(cone, widest_m=8.0), fine_steps(cone, widest_m=15.0)
    (100, 150)
    """
    sharp = 2 if profile.is_sharp else 1
    return math.ceil(base * sharp * max(1.0, widest_m / profile.throw_m))


def _half(steps: int) -> int:
    if steps < FEWEST_STEPS:
        raise SchedulerError(
            f"{steps} steps per spacing", f"give {FEWEST_STEPS} or more", "steps"
        )
    return (steps + 1) // 2


def _squares(
    profile: Profile, spacing_m: float, n_half: int, *, shifts: int, period: int
) -> tuple[FloatArray, ...]:
    """Squared distances of places on half a spacing from the heads that reach them.

    One array (n_lines, n_half), in steps of the raster, per set of lines of heads:
    staggered rows have two sets, half a period (in spacings) apart.
    """
    throw = profile.throw_m / spacing_m
    half = (np.arange(n_half) + 0.5) / (2 * n_half)
    scale = math.sqrt(N_RASTER) / throw
    found = []
    for shift in (0.0, 0.5)[:shifts]:
        first = math.floor(-throw / period - shift) + 1
        last = math.ceil((throw + 0.5) / period - shift)
        lines = (np.arange(first, last) + shift) * period
        away = (half - lines[:, None]) * scale
        found.append(away * away)
    return tuple(found)


def _along(
    profile: Profile, spacing_m: float, layout: Layout, *, n_half: int
) -> tuple[FloatArray, ...]:
    shifts = 2 if layout == "triangular" else 1
    return _squares(profile, spacing_m, n_half, shifts=shifts, period=1)


def _across(
    profile: Profile, row_spacing_m: float, layout: Layout, *, n_half: int
) -> tuple[FloatArray, ...]:
    # every second row stands alike when rows are staggered
    n = 2 if layout == "triangular" else 1
    return _squares(profile, row_spacing_m, n_half, shifts=n, period=n)


def _quarter(
    profile: Profile, along: tuple[FloatArray, ...], across: tuple[FloatArray, ...]
) -> FloatArray:
    """Rates on half a spacing by half a row spacing, which the cell mirrors."""
    n_across, n_along = across[0].shape[1], along[0].shape[1]
    rate = np.zeros((n_across, n_along))
    for x, y in zip(along, across, strict=True):
        steps = np.add.outer(y.ravel(), x.ravel()).astype(np.intp)
        one = np.take(profile.raster_mm_per_h, steps, mode="clip")
        folded = one.reshape(len(y), n_across, x.size).sum(axis=0)
        rate += folded.reshape(n_across, len(x), n_along).sum(axis=1)
    return rate


def _cell(quarter: FloatArray, layout: Layout) -> FloatArray:
    """Whole repeating cell from its quarter: mirrored, or turned between two rows."""
    if layout == "triangular":
        quarter = np.concatenate([quarter, quarter[::-1, ::-1]])
    n, m = quarter.shape
    cell = np.empty((2 * n, 2 * m))
    cell[:n, :m] = quarter
    cell[:n, m:] = quarter[:, ::-1]
    cell[n:] = cell[n - 1 :: -1]
    return cell


def quarter_cells(
    profile: Profile,
    *,
    spacings_m: FloatArray,
    row_spacings_m: FloatArray,
    layout: Layout,
    steps: int,
) -> Iterator[FloatArray]:
    """Rates on the quarter cell of every pair of spacings, one spacing at a time.

    Parameters
    ----------
    profile, layout
        As in `layout_row_spacing_m`; the spacings are taken as they are.
    spacings_m, row_spacings_m : array of shape (n,) and (m,)
        Along the row, and between rows. [m]
    steps : int
        Cells per spacing, 8 or more; an odd number is raised by one.

    Yields
    ------
    array of shape (m, n_half, n_half)
        Rates from a head to half a row spacing and half a spacing away; the rest of
        the cell mirrors them, so they hold its whole distribution. [mm/h]

    Raises
    ------
    SchedulerError
        If there are too few steps.

    References
    ----------
    Source: definition (superposition of identical heads).

    Examples
    --------
    >>> from scheduler.field.profile import radial_profile
    >>> cone, _ = radial_profile([0.0, 10.0], [12.0, 0.0], minutes=60)
    >>> m = np.array([8.0, 10.0])
    >>> found = quarter_cells(
    ...     cone, spacings_m=m, row_spacings_m=m, layout="square", steps=20
    ... )
    >>> [one.shape for one in found]
    [(2, 10, 10), (2, 10, 10)]
    """
    n_half = _half(steps)
    across = [_across(profile, float(y), layout, n_half=n_half) for y in row_spacings_m]
    for x in spacings_m:
        along = _along(profile, float(x), layout, n_half=n_half)
        yield np.stack([_quarter(profile, along, one) for one in across])


def cell_rate_mm_per_h(
    profile: Profile,
    *,
    spacing_m: float,
    row_spacing_m: float | None,
    layout: Layout,
    steps: int | None = None,
) -> FloatArray:
    """Rates on one repeating cell, summed over all heads that reach it.

    Parameters
    ----------
    profile, spacing_m, row_spacing_m, layout
        As in `layout_row_spacing_m`.
    steps : int, optional
        Cells per spacing, 8 or more and made even; else as `fine_steps` says.

    Returns
    -------
    array of shape (n_across, n_along)
        Rates at cell centres from one head to the next; two rows deep if triangular.
        [mm/h]

    Raises
    ------
    SchedulerError
        If a spacing is missing or does not suit the throw, or steps are too few.

    References
    ----------
    Source: definition (superposition of identical heads).

    Examples
    --------
    >>> from scheduler.field.profile import radial_profile
    >>> cone, _ = radial_profile([0.0, 10.0], [12.0, 0.0], minutes=60)
    >>> cell_rate_mm_per_h(
    ...     cone, spacing_m=10.0, row_spacing_m=None, layout="square"
    ... ).shape
    (100, 100)
    """
    rows_m = layout_row_spacing_m(
        profile, spacing_m=spacing_m, row_spacing_m=row_spacing_m, layout=layout
    )
    if steps is None:
        steps = fine_steps(profile, widest_m=max(spacing_m, rows_m))
    n_half = _half(steps)
    along = _along(profile, spacing_m, layout, n_half=n_half)
    across = _across(profile, rows_m, layout, n_half=n_half)
    return _cell(_quarter(profile, along, across), layout)
