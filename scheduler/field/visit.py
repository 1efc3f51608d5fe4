"""Zones and their tests in, what is known before the next visit out."""

import datetime as dt
import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.field.evaluation import TestEvaluation, evaluated_test
from scheduler.field.wind_during import SiteWind
from scheduler.record import CanTest, History
from scheduler.site import Package, Site, Zone

# Common practice, no source: 24 cans on an even grid are the usual number; the count
# is a multiple of four so that a quarter is whole cans (UC Davis, measuring DU).
USUAL_GRID = (4, 6)
_NAME = re.compile(r"([A-Za-z]+)(\d+)$")


@dataclass(frozen=True, slots=True)
class CanMap:
    """Where the cans stand: rows and columns with their names.

    Attributes
    ----------
    label : tuple of tuple of str
        Name of the can at each place, such as `A3`; empty where none stands.
    row_ids, column_ids : tuple of str
        Names of rows and columns; empty when the cans' names hold none.
    source : str
        Where the map comes from.
    """

    label: tuple[tuple[str, ...], ...]
    row_ids: tuple[str, ...]
    column_ids: tuple[str, ...]
    source: str

    @property
    def n_cans(self) -> int:
        """Places at which a can stands."""
        return sum(bool(name) for row in self.label for name in row)


@dataclass(frozen=True, slots=True, eq=False)
class ZoneVisit:
    """What is known of one zone before it is tested again.

    Attributes
    ----------
    zone, package : Zone, Package or None
        The zone, and what stands there.
    can_map : CanMap
        Where the cans stood the last time, or where they are to stand.
    n_heads : int or None
        About how many heads water the zone; None when spacing is not known.
    last : TestEvaluation or None
        The newest test, worked up.
    mouth_mm : float or None
        Inside diameter of the mouth of its cans. [mm]
    minutes : float or None
        Minutes of its first run. [min]
    findings : tuple of Finding
        What had to be assumed.
    """

    zone: Zone
    package: Package | None
    can_map: CanMap
    n_heads: int | None
    last: TestEvaluation | None
    mouth_mm: float | None
    minutes: float | None
    findings: tuple[Finding, ...]

    @property
    def doubts(self) -> tuple[Finding, ...]:
        """Why the newest test cannot be used; empty when it can."""
        said = self.last.findings if self.last else ()
        return tuple(one for one in said if one.level == "stop")


def zone_visits(
    site: Site,
    history: History,
    today: dt.date,
    *,
    zone_ids: Iterable[str] = (),
    grid: tuple[int, int] | None = None,
) -> tuple[ZoneVisit, ...]:
    """What is known of each zone before it is tested again.

    Parameters
    ----------
    site : Site
        Its zones and packages.
    history : History
        Tests and wind logs.
    today : date
        Tests after this day do not count.
    zone_ids : iterable of str, optional
        Only these zones; all when empty.
    grid : tuple of int, optional
        Rows and columns of cans to set out, instead of those of the last test.

    Returns
    -------
    tuple of ZoneVisit
        In the order of the site.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> site = Site(name="a", units="us", place=place)
    >>> zone_visits(site, History(), dt.date(2026, 6, 8))
    ()
    """
    wanted = {one.casefold() for one in zone_ids}
    wind = SiteWind(history.wind, site.place.time_zone, site.units)
    return tuple(
        _visit(site, zone, _tests_of(zone, history.tests, today), wind, grid)
        for zone in site.zones
        if not wanted or zone.id.casefold() in wanted
    )


def heads_in(area_m2: float, package: Package | None) -> int | None:
    """About how many heads water a zone: its area over the ground of one head.

    Parameters
    ----------
    area_m2 : float
        Area of the zone. [m2]
    package : Package or None
        What stands there.

    Returns
    -------
    int or None
        At least 1; None when the spacing is not known. Heads on edges water ground
        outside too, so the count on the ground is often a little larger.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> heads_in(2000.0, Package(id="a", spacing_m=10.0))
    20
    """
    ground_m2 = package.area_per_head_m2 if package else None
    return max(1, round(area_m2 / ground_m2)) if ground_m2 else None


def mouth_diameter_mm(area_cm2: float) -> float:
    """Diameter of a round can mouth of that area.

    Parameters
    ----------
    area_cm2 : float
        Inside area of the mouth. [cm2]

    Returns
    -------
    float
        Inside diameter. [mm]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(mouth_diameter_mm(91.52), 1)
    107.9
    """
    return 10.0 * math.sqrt(4.0 * area_cm2 / math.pi)


def can_map(label: Sequence[Sequence[str]], source: str) -> CanMap:
    """Map of cans from their names, with names of rows and columns where they agree.

    Parameters
    ----------
    label : sequence of sequence of str
        Name of the can at each place, row by row; empty where none stands.
    source : str
        Where the names come from.

    Returns
    -------
    CanMap
        Rows and columns are named when every can is a letter and a number, one of
        which is the same along each row and the other along each column.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> can_map([["A1", "B1"], ["A2", ""]], "asked").column_ids
    ('A', 'B')
    >>> can_map([["left", "right"]], "asked").row_ids
    ()
    """
    rows = tuple(tuple(row) for row in label)
    for across, down in ((2, 1), (1, 2)):
        row_ids = _shared(rows, across)
        column_ids = _shared(tuple(zip(*rows, strict=True)), down)
        if row_ids and column_ids:
            return CanMap(rows, row_ids, column_ids, source)
    return CanMap(rows, (), (), source)


def grid_map(rows: int, columns: int, source: str) -> CanMap:
    """Map of a full grid: letters across, numbers down, as readings are named.

    Parameters
    ----------
    rows, columns : int
        Size of the grid.
    source : str
        Who chose it.

    Returns
    -------
    CanMap
        Columns `A`, `B` ... and rows `1`, `2` ...

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> grid_map(1, 2, "asked").label
    (('A1', 'B1'),)
    """
    letters = [_letter(j) for j in range(columns)]
    return can_map(
        [[f"{letter}{i + 1}" for letter in letters] for i in range(rows)], source
    )


def _letter(index: int) -> str:
    first, last = divmod(index, 26)
    return (chr(64 + first) if first else "") + chr(65 + last)


def _shared(lines: tuple[tuple[str, ...], ...], part: int) -> tuple[str, ...]:
    """What the names along each line share; empty when one line does not agree."""
    shared = []
    for line in lines:
        found = [_NAME.match(name) for name in line if name]
        parts = {one[part] if one else "" for one in found}
        if len(parts) != 1 or "" in parts:
            return ()
        shared.append(parts.pop())
    return tuple(shared) if len(set(shared)) == len(shared) else ()


def _tests_of(zone: Zone, tests: Iterable[CanTest], today: dt.date) -> list[CanTest]:
    """Tests of a zone up to today, oldest first."""
    own = (one for one in tests if one.zone.casefold() == zone.id.casefold())
    return sorted((one for one in own if one.date <= today), key=lambda one: one.date)


def _visit(
    site: Site,
    zone: Zone,
    tests: list[CanTest],
    wind: SiteWind,
    grid: tuple[int, int] | None,
) -> ZoneVisit:
    package = site.package_of(zone)
    newest = tests[-1] if tests else None
    last = None
    if newest is not None:
        stood = site.package(newest.package) if newest.package else package
        last = evaluated_test(newest, zone, stood, site_wind=wind)
    laid = _laid(tests, grid)
    n_heads = heads_in(zone.area_m2, package)
    runs = newest.runs if newest else ()
    area_cm2 = newest.mouth_area_cm2 if newest else None
    return ZoneVisit(
        zone=zone,
        package=package,
        can_map=laid,
        n_heads=n_heads,
        last=last,
        mouth_mm=None if area_cm2 is None else mouth_diameter_mm(area_cm2),
        minutes=runs[0].minutes if runs else None,
        findings=tuple(_assumed(zone, laid, n_heads)),
    )


def _laid(tests: list[CanTest], grid: tuple[int, int] | None) -> CanMap:
    if grid is not None:
        return grid_map(*grid, "as asked")
    for test in reversed(tests):
        if test.runs:
            return can_map(test.runs[0].label, f"as in the test of {test.date}")
    return grid_map(*USUAL_GRID, "assumed")


def _assumed(zone: Zone, laid: CanMap, n_heads: int | None) -> Iterable[Finding]:
    where = f"zone {zone.id}"
    if laid.source == "assumed":
        what = f"has no can map yet; {len(laid.label)} x {len(laid.label[0])} is drawn"
        yield Finding("note", where, what, "say how the cans will stand: --grid 4x6")
    if laid.n_cans % 4:
        what = f"{laid.n_cans} cans are no multiple of four"
        fix = "set out a few more or fewer, so that a quarter is whole cans"
        yield Finding("note", where, what, fix)
    if n_heads is None:
        what = "the number of heads is not known"
        fix = "give the zone a package with its spacing"
        yield Finding("note", where, what, fix)
