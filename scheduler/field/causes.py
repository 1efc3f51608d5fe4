"""A map of catches and how the cans stood in; likely causes, ranked, out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.field.basis import Basis, RunBearing, edge_places, head_places, shapes_of
from scheduler.field.fitting import LEVEL, Fit, fits
from scheduler.field.persistence import relative_map
from scheduler.record import CanLayout

# Fewer cans show no shape (common practice, no source).
LEAST_CANS = 8
SEED = 20260520
DRAWS = 1999
# Each cause is looked for among shapes and among single cans; the second search is
# charged for the first.
SEARCHES = 2
CAVEAT = (
    "shapes are held against the same catches in any order; neighbouring cans are "
    "alike anyway, so a p just under 0.05 proves little"
)
# Cheapest first: look, then gauge, then tape, then parts. Common practice, no source.
CHECKS: dict[str, tuple[str, ...]] = {
    "strip": (
        "see that the valves and end caps of that lateral are as they should be",
        "gauge the first and last head of that lateral and of the next one",
        "flush the lateral; look for a clogged screen, a pinch, a leak, other nozzles",
    ),
    "gradient": (
        "see that the zone's valve is fully open and no other zone runs",
        "gauge the first, middle and last head while it runs",
        "look for a leak or a pipe too small at the low end",
    ),
    "ring": (
        "gauge the pressure at a nozzle against the package: low makes a doughnut, "
        "high a mist",
        "measure the nozzle bore for wear",
        "tape the spacing between heads against the plan",
    ),
    "corner": (
        "look at the head of that corner while it runs: does it turn its arc?",
        "is a head missing there, or the wrong nozzle in a part-circle one?",
        "straighten the riser; clean or change the nozzle",
    ),
    "one head": (
        "look at that head while it runs: does it turn, stand upright, throw evenly?",
        "clean the nozzle and screen; compare it with its neighbours",
        "change the nozzle or the head",
    ),
    "downwind": (
        "repeat the run in calm air, at the hour you water",
        "move the watering to the calmest hours",
        "only then: lower trajectory, larger drops or closer spacing",
    ),
    "edge": (
        "judge edge and interior apart; water or plant them apart where you can",
        "look for a missing row of heads beyond the edge, or part circles that overlap",
    ),
    "single cans": (
        "was the can knocked, tilted or under a leaf? Mark it, with the reason",
        "look at the nozzle beside it: clogged, worn, dripping",
        "repeat the run",
    ),
    "no shape": (
        "look for clogged or worn nozzles, heads that tilt or do not turn",
        "repeat the run, so that what lasts can be told from chance",
    ),
}


@dataclass(frozen=True, slots=True)
class Cause:
    """One likely cause of uneven catches.

    Attributes
    ----------
    kind : str
        `strip`, `gradient`, `ring`, `corner`, `one head`, `downwind`, `edge`,
        `single cans`, or `no shape`.
    where : str
        Which one, in words.
    share_explained : float
        Part of the variance between places, less what chance explains; 0 to 1.
    p : float
        How often chance finds as good a shape of any kind.
    is_beyond_chance : bool
        Whether it is more than chance, beside the causes before it.
    evidence : str
        Numbers from the map.
    checks : tuple of str
        What to check, cheapest first.
    """

    kind: str
    where: str
    share_explained: float
    p: float
    is_beyond_chance: bool
    evidence: str
    checks: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class _Map:
    relative: FloatArray
    layout: CanLayout
    winds: tuple[RunBearing, ...]
    labels: tuple[tuple[str, ...], ...]

    def can(self, row: int, column: int) -> str:
        name = self.labels[row][column] if self.labels else ""
        return name or f"{_letters(column)}{row + 1}"


def likely_causes(
    depth: FloatArray,
    layout: CanLayout | None = None,
    *,
    winds: Sequence[RunBearing] = (),
    labels: tuple[tuple[str, ...], ...] = (),
) -> tuple[Cause, ...]:
    """What most likely made a map uneven.

    Parameters
    ----------
    depth : array of shape (n_rows, n_columns)
        Catches of one run, or the mean over runs, NaN where there is none. [any unit]
    layout : CanLayout, optional
        How the cans stood; causes that need more than is known are not offered.
    winds : sequence of RunBearing, optional
        Wind of every run, where its direction is known.
    labels : tuple of tuple of str, optional
        Name of the can at each place.

    Returns
    -------
    tuple of Cause
        Causes beyond chance, best first, then those that are not; where none is, the
        first is `no shape`. Empty with fewer than 8 cans or equal catches.

    Notes
    -----
    A shape is no proof: it says what to check first.

    References
    ----------
    Source: definition; `fitting.fits` names its own. Which cause makes which shape, and
    what to check, is common practice, no source.

    Examples
    --------
    >>> depth = np.array([[50.0, 52, 51, 49, 50, 53], [51.0, 49, 50, 52, 53, 50],
    ...                   [30.0, 31, 29, 32, 30, 31], [52.0, 50, 49, 51, 50, 52]])
    >>> first = likely_causes(depth)[0]
    >>> first.kind, first.where
    ('strip', 'row 3')
    """
    used = np.isfinite(depth)
    if used.sum() < LEAST_CANS or depth[used].mean() <= 0:
        return ()
    layout = layout or CanLayout()
    seen = _Map(relative_map(depth), layout, tuple(winds), labels)
    catch = seen.relative[used]
    if np.ptp(catch) < 1e-9:
        return ()
    found = fits(catch, shapes_of(used, layout, winds))
    sure = list(_sure_causes(found, seen))
    not_sure = [_cause(one, seen) for one in found if not one.is_beyond_chance]
    single = _single_cans(seen, [one for one in found if one.is_beyond_chance])
    (sure if single.is_beyond_chance else not_sure).append(single)
    if not sure:
        sure = [_no_shape(not_sure)]
    sure.sort(key=lambda one: -one.share_explained)
    return (*sure, *not_sure)


def _sure_causes(found: Sequence[Fit], seen: _Map) -> Iterator[Cause]:
    """Causes beyond chance; each is shown on the map without those before it."""
    used = np.isfinite(seen.relative)
    for one in found:
        if one.is_beyond_chance:
            yield _cause(one, seen)
            rest = seen.relative.copy()
            rest[used] -= one.basis.columns @ one.coefficient
            seen = replace(seen, relative=rest)


def _no_shape(looked: Sequence[Cause]) -> Cause:
    best = min(looked, key=lambda one: one.p)
    evidence = (
        "no shape is more than chance (nearest: "
        f"{best.kind}{', ' + best.where if best.where else ''}, p {best.p:.2f}); what "
        "differs, differs can by can"
    )
    return Cause("no shape", "", 0.0, best.p, False, evidence, CHECKS["no shape"])


def _cause(fit: Fit, seen: _Map) -> Cause:
    where, numbers = _SAID[fit.basis.kind](fit, seen)
    if fit.alike:
        others = ", ".join(_name(one, seen) for one in fit.alike)
        numbers += f"; this map cannot tell it from {others}"
    if fit.covered:
        numbers += "; not more than chance beside the causes before it"
    kind = fit.basis.kind
    share = max(0.0, fit.share)
    return Cause(kind, where, share, fit.p, fit.is_beyond_chance, numbers, CHECKS[kind])


def _name(basis: Basis, seen: _Map) -> str:
    fit = Fit(basis, 0.0, 1.0, False, np.zeros(basis.columns.shape[1]))
    where, _ = _SAID[basis.kind](fit, seen)
    return f"{basis.kind} ({where})" if where else basis.kind


# --- evidence of each kind ---------------------------------------------------


def _letters(number: int) -> str:
    name = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        name = chr(ord("A") + rest) + name
    return name


def _line(axis: int, number: int) -> str:
    return f"row {number + 1}" if axis == 0 else f"column {_letters(number)}"


def _against(inside: FloatArray, seen: _Map) -> str:
    """Mean of some places over that of the others."""
    used = np.isfinite(seen.relative)
    here = seen.relative[used & inside.astype(bool)]
    rest = seen.relative[used & ~inside.astype(bool)]
    ratio = float(here.mean() / rest.mean()) if rest.size and rest.mean() > 0 else 1.0
    return f"{here.size} cans caught {ratio:.2f} of what the others caught"


def _said_strip(fit: Fit, seen: _Map) -> tuple[str, str]:
    axis, first, last = (int(one) for one in fit.basis.where)
    inside = np.zeros(seen.relative.shape)
    inside[(slice(first, last + 1), slice(None))[:: 1 if axis == 0 else -1]] = 1
    name = _line(axis, first)
    if last > first:
        name = (
            f"{name.split()[0]}s {name.split()[1]} and {_line(axis, last).split()[1]}"
        )
    return name, f"its {_against(inside, seen)}"


def _ends(fit: Fit, seen: _Map) -> tuple[float, float]:
    """Fitted relative catch at the low and the high end of a slope."""
    line = fit.basis.columns[:, 0] * fit.coefficient[0]
    catch = seen.relative[np.isfinite(seen.relative)]
    order = np.argsort(fit.basis.columns[:, 0], kind="stable")
    return float(catch.mean() + line[order[0]]), float(catch.mean() + line[order[-1]])


def _said_gradient(fit: Fit, seen: _Map) -> tuple[str, str]:
    axis = int(fit.basis.where[0])
    start, end = _ends(fit, seen)
    last = _line(axis, seen.relative.shape[axis] - 1)
    where = "along the rows" if axis == 1 else "down the columns"
    how = "falls" if end < start else "rises"
    numbers = (
        f"the catch {how} from {start:.2f} of the mean at {_line(axis, 0)} to "
        f"{end:.2f} at {last}"
    )
    return where, numbers


def _said_ring(_: Fit, seen: _Map) -> tuple[str, str]:
    row, column = np.nonzero(np.isfinite(seen.relative))
    along = seen.layout.can_spacing_m or seen.layout.row_spacing_m or 1.0
    scale = (seen.layout.row_spacing_m or along, along)
    shape = (seen.relative.shape[0], seen.relative.shape[1])
    heads = np.array(head_places(seen.layout, shape)) * scale
    cans = np.column_stack([row, column]) * scale
    away = np.hypot(*(cans[:, None] - heads[None]).transpose(2, 0, 1)).min(axis=1)
    catch, order = seen.relative[row, column], np.argsort(away, kind="stable")
    near, half, far = (catch[part].mean() for part in np.array_split(order, 3))
    if half < min(near, far):
        where = "dry half way between heads, a doughnut"
    elif far < near:
        where = "dry far from the heads"
    else:
        where = "dry beside the heads"
    numbers = (
        f"the third of the cans nearest a head caught {near:.2f} of the mean, the next "
        f"{half:.2f}, the farthest {far:.2f}"
    )
    return where, numbers


def _said_corner(fit: Fit, seen: _Map) -> tuple[str, str]:
    row, column = (int(one) for one in fit.basis.where)
    height, width = seen.relative.shape
    inside = np.zeros(seen.relative.shape)
    rows = (
        slice(0, (height + 2) // 3) if row == 0 else slice(-((height + 2) // 3), None)
    )
    cols = (
        slice(0, (width + 2) // 3) if column == 0 else slice(-((width + 2) // 3), None)
    )
    inside[rows, cols] = 1
    return f"the corner of can {seen.can(row, column)}", f"its {_against(inside, seen)}"


def _said_head(fit: Fit, seen: _Map) -> tuple[str, str]:
    row, column = fit.basis.where
    bump = fit.basis.columns[:, 0]
    inside = np.zeros(seen.relative.shape)
    inside[np.isfinite(seen.relative)] = bump >= 0.5 * bump.max()
    where = f"the head at row {row + 1:g}, column {column + 1:g}"
    return where, f"its {_against(inside, seen)}"


def _said_downwind(fit: Fit, seen: _Map) -> tuple[str, str]:
    up, down = _ends(fit, seen)
    winds = ", ".join(f"{one.direction_deg:.0f}°" for one in seen.winds)
    numbers = f"{up:.2f} of the mean at the upwind end, {down:.2f} at the downwind end"
    return f"wind from {winds}", numbers


def _said_edge(_: Fit, seen: _Map) -> tuple[str, str]:
    shape = (seen.relative.shape[0], seen.relative.shape[1])
    inside = edge_places(seen.layout, shape).astype(np.float64)
    return "the tagged edge", f"its {_against(inside, seen)}"


_SAID = {
    "strip": _said_strip,
    "gradient": _said_gradient,
    "ring": _said_ring,
    "corner": _said_corner,
    "one head": _said_head,
    "downwind": _said_downwind,
    "edge": _said_edge,
}


# --- single cans -------------------------------------------------------------


def _single_cans(seen: _Map, shapes: Sequence[Fit]) -> Cause:
    """Cans that stand out once the shapes are taken out, against bell-shaped cans."""
    row, column = np.nonzero(np.isfinite(seen.relative))
    catch = seen.relative[row, column]
    rest = catch - catch.mean()
    for one in shapes:
        rest = rest - one.basis.columns @ (one.basis.columns.T @ rest)
    total = float(((catch - catch.mean()) ** 2).sum())
    spread = float(np.sqrt((rest**2).mean())) or 1.0
    most = _most_by_chance(rest.size)
    away = np.abs(rest) / spread
    p = min(1.0, SEARCHES * (1 + int((most >= away.max()).sum())) / (DRAWS + 1))
    limit = min(float(np.quantile(most, 1 - LEVEL / SEARCHES)), float(away.max()))
    out = np.flatnonzero(away >= limit - 1e-12)
    names = [f"{seen.can(row[i], column[i])} caught {catch[i]:.2f}" for i in out[:4]]
    share = float((rest[out] ** 2).sum()) / total if p <= LEVEL else 0.0
    cans = " ".join(seen.can(row[i], column[i]) for i in out[:4])
    evidence = f"{', '.join(names)} of the mean"
    return Cause(
        "single cans", cans, share, p, p <= LEVEL, evidence, CHECKS["single cans"]
    )


@cache
def _most_by_chance(n_cans: int) -> FloatArray:
    """Farthest can of each of many draws of bell-shaped cans, in spreads."""
    drawn = np.random.default_rng(SEED).normal(size=(DRAWS, n_cans))
    drawn -= drawn.mean(axis=1, keepdims=True)
    drawn /= np.sqrt((drawn**2).mean(axis=1, keepdims=True))
    return frozen(np.abs(drawn).max(axis=1))
