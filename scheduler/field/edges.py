"""A map with tagged edges in; edge and interior measured apart out."""

from dataclasses import dataclass

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.errors import Finding, SchedulerError
from scheduler.field.basis import edge_places
from scheduler.field.persistence import relative_map
from scheduler.field.uniformity import Uniformity, uniformity
from scheduler.record import CanLayout

SEED = 20260521
PERMUTATIONS = 999
LEVEL = 0.05
# Closer than this, edge and interior are watered alike (common practice, no source).
DIFFERS_BY = 0.10


@dataclass(frozen=True, slots=True)
class EdgeSplit:
    """Cans along the edge of the block, and the others.

    Attributes
    ----------
    n_edge, n_interior : int
        How many cans.
    edge, interior : Uniformity or None
        Measures of each; None with fewer than 4 cans.
    edge_relative, interior_relative : float
        Mean catch of each over the mean of all cans. [-]
    ratio : float
        Mean catch of the edge over that of the interior. [-]
    p : float
        How often chance makes them differ as much, either way.
    """

    n_edge: int
    n_interior: int
    edge: Uniformity | None
    interior: Uniformity | None
    edge_relative: float
    interior_relative: float
    ratio: float
    p: float

    @property
    def differs(self) -> bool:
        """Whether the two are watered differently, as far as the cans can tell."""
        return self.p <= LEVEL and abs(self.ratio - 1) >= DIFFERS_BY


def edge_split(depth: FloatArray, layout: CanLayout) -> EdgeSplit | None:
    """Measure edge and interior apart.

    Parameters
    ----------
    depth : array of shape (n_rows, n_columns)
        Catches of one run, or the mean over runs, NaN where there is none. [any unit]
    layout : CanLayout
        With its edge rows and columns.

    Returns
    -------
    EdgeSplit or None
        None where no edge is tagged, or nothing else is left.

    Notes
    -----
    The p is that of the difference of the two means when the tags are shuffled.

    References
    ----------
    .. [1] Overton, 2014, Tree Planters' Notes 57(2): the end rows of a forest nursery
       got about 1.5 times the interior's rate, CU 69 against 86.

    Examples
    --------
    >>> found = edge_split(np.array([[15.0] * 6, [10.0] * 6, [10.0] * 6]),
    ...                    CanLayout(edge_rows=(0,)))
    >>> round(found.ratio, 2)
    1.5
    """
    tagged = edge_places(layout, (depth.shape[0], depth.shape[1]))
    used = np.isfinite(depth)
    at_edge = tagged[used]
    if not at_edge.any() or at_edge.all() or depth[used].mean() <= 0:
        return None
    catch = relative_map(depth)[used]
    edge, interior = catch[at_edge], catch[~at_edge]
    seen = abs(edge.mean() - interior.mean())
    rng = np.random.default_rng(SEED)
    drawn = rng.permuted(np.tile(catch, (PERMUTATIONS, 1)), axis=1)
    apart = drawn[:, : edge.size].mean(axis=1) - drawn[:, edge.size :].mean(axis=1)
    p = (1 + int((np.abs(apart) >= seen - 1e-12).sum())) / (PERMUTATIONS + 1)
    below = float(interior.mean())
    return EdgeSplit(
        int(edge.size),
        int(interior.size),
        _measured(edge),
        _measured(interior),
        float(edge.mean()),
        below,
        float(edge.mean()) / below if below > 0 else float("inf"),
        p,
    )


def _measured(catch: FloatArray) -> Uniformity | None:
    try:
        return uniformity(catch)
    except SchedulerError:
        return None  # too few cans, or dry ones


def edge_findings(split: EdgeSplit | None, where: str) -> tuple[Finding, ...]:
    """Say when the edge gets another depth than the interior.

    Parameters
    ----------
    split : EdgeSplit or None
        Edge and interior.
    where : str
        Place for the finding.

    Returns
    -------
    tuple of Finding
        A warning, or nothing.

    References
    ----------
    .. [1] Overton, 2014, Tree Planters' Notes 57(2).

    Examples
    --------
    >>> edge_findings(None, "tests/2026-05-12-Z4")
    ()
    """
    if split is None or not split.differs:
        return ()
    measures = ""
    if split.edge and split.interior:
        measures = (
            f" (CU {split.edge.cu:.2f} against {split.interior.cu:.2f}, DU "
            f"{split.edge.du_lq:.2f} against {split.interior.du_lq:.2f})"
        )
    what = (
        f"the {split.n_edge} cans along the edge caught {split.ratio:.2f} times as "
        f"much as the {split.n_interior} inside{measures}, p {split.p:.3f}; one DU "
        "over both hides that"
    )
    fix = "judge the interior by itself; look for heads missing or doubled at the edge"
    return (Finding("warning", where, what, fix),)
