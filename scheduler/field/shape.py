"""Runs of one test and its like in; what their map says out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from scheduler.arrays import FloatArray
from scheduler.errors import Finding, SchedulerError
from scheduler.field.basis import RunBearing, locked
from scheduler.field.causes import Cause, likely_causes
from scheduler.field.edges import EdgeSplit, edge_findings, edge_split
from scheduler.field.persistence import Persistence, persistence, relative_map
from scheduler.field.wind_during import WindDuring
from scheduler.record import CanTest

# Common practice, no source: less wind hardly bends the throw. [m/s]
BENDS_FROM_M_PER_S = 1.0


@dataclass(frozen=True, slots=True, eq=False)
class RunMap:
    """One run as a map.

    Attributes
    ----------
    run : str
        Its name.
    day : int
        Its day, as an ordinal.
    depth : array of shape (n_rows, n_columns)
        Catches, NaN where nothing counts. [any unit]
    wind : WindDuring or None
        Wind during the run.
    """

    run: str
    day: int
    depth: FloatArray
    wind: WindDuring | None = None


@dataclass(frozen=True, slots=True, eq=False)
class TestShape:
    """What the map of a test says.

    Attributes
    ----------
    runs : tuple of str
        Runs that it was taken from.
    persistence : Persistence or None
        What lasts from run to run; None with one run.
    causes : tuple of Cause
        Likely causes, ranked.
    edges : EdgeSplit or None
        Edge and interior apart; None where no edge is tagged.
    locked : tuple of str
        What to enter so that more causes can be looked for.
    findings : tuple of Finding
        What must be said about it.
    """

    runs: tuple[str, ...]
    persistence: Persistence | None
    causes: tuple[Cause, ...]
    edges: EdgeSplit | None
    locked: tuple[str, ...]
    findings: tuple[Finding, ...] = ()
    __test__ = False


def shape_of_test(test: CanTest, maps: Sequence[RunMap]) -> TestShape | None:
    """What the map of a test says: what lasts, likely causes, edge and interior.

    Parameters
    ----------
    test : CanTest
        The test, for how its cans stood.
    maps : sequence of RunMap
        Its runs, and those of other tests of the same hardware on the same places.

    Returns
    -------
    TestShape or None
        None without runs, or where the runs stood on different grids.

    Notes
    -----
    Causes and edges are read from the mean of the relative catches over the runs, at
    the places that every run caught.

    References
    ----------
    Source: definition; each part names its own.

    Examples
    --------
    >>> import datetime as dt
    >>> test = CanTest("t", "t", "Z1", dt.date(2026, 5, 12), "as found", 91.5)
    >>> shape_of_test(test, []) is None
    True
    """
    if not maps or len({one.depth.shape for one in maps}) > 1:
        return None
    lasting = _lasting(maps)
    relative = [relative_map(one.depth) for one in maps]
    mean = sum(relative[1:], start=relative[0]) / len(relative)
    winds = _winds(maps)
    label = test.runs[0].label if test.runs else ()
    causes = likely_causes(mean, test.layout, winds=winds, labels=label)
    edges = edge_split(mean, test.layout)
    findings = list(_cause_findings(causes, test.where))
    sure = {one.kind for one in causes if one.is_beyond_chance}
    if "edge" in sure or not sure:  # a dry strip inside must not pass for a wet edge
        findings += edge_findings(edges, test.where)
    return TestShape(
        tuple(one.run for one in maps),
        lasting,
        causes,
        edges,
        locked(test.layout, winds),
        tuple(findings),
    )


def _lasting(maps: Sequence[RunMap]) -> Persistence | None:
    if len(maps) < 2:
        return None
    try:
        return persistence(
            [one.depth for one in maps],
            runs=[one.run for one in maps],
            n_days=len({one.day for one in maps}),
        )
    except SchedulerError:
        return None  # the runs share too few places; pooling says so


def _winds(maps: Sequence[RunMap]) -> tuple[RunBearing, ...]:
    """Wind of every run; empty where one is not known or too weak to bend the throw."""
    found = []
    for one in maps:
        wind = one.wind
        if wind is None or wind.direction_deg is None or wind.mean_m_per_s is None:
            return ()
        if wind.mean_m_per_s >= BENDS_FROM_M_PER_S:
            found.append(RunBearing(wind.direction_deg, wind.mean_m_per_s))
    return tuple(found)


def _cause_findings(causes: Sequence[Cause], where: str) -> Iterator[Finding]:
    for one in causes:
        if one.is_beyond_chance and one.checks:
            named = f"{one.kind}, {one.where}" if one.where else one.kind
            what = (
                f"likely cause {named}: {one.evidence} ({one.share_explained:.0%} of "
                f"the spread, p {one.p:.3f})"
            )
            yield Finding("note", where, what, f"check first: {one.checks[0]}")
            return
