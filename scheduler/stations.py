"""A site in; its clocks with the station of each zone, as one walks them, out."""

from collections.abc import Sequence
from dataclasses import dataclass

from scheduler.errors import Finding
from scheduler.site import Site, Zone
from scheduler.supply import Controller


@dataclass(frozen=True, slots=True)
class Wired:
    """One clock and what hangs on it.

    Attributes
    ----------
    controller : Controller
        The clock.
    zones : tuple of Zone
        By station.
    stations : tuple of int
        Station of each zone.
    guessed : tuple of str
        Ids of zones whose station nobody entered and no valve tells.
    """

    controller: Controller
    zones: tuple[Zone, ...]
    stations: tuple[int, ...]
    guessed: tuple[str, ...] = ()

    @property
    def numbers(self) -> dict[str, int]:
        """Station by id of the zone."""
        ids = (one.id for one in self.zones)
        return dict(zip(ids, self.stations, strict=True))


def wired(site: Site) -> tuple[Wired, ...]:
    """Every clock of a site with its zones.

    Parameters
    ----------
    site : Site
        For clocks and zones.

    Returns
    -------
    tuple of Wired
        In the order of the clocks, those without zones too.

    Notes
    -----
    A station that was entered stands. Where none was on a clock and the valves of its
    zones have numbers of their own, these are the stations; else the free numbers are
    given in the order of the file.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> zones = tuple(Zone(id=name, name=name, valve=valve, area_m2=1.0,
    ...                    grown_in="soil", watered="off")
    ...               for name, valve in (("Z1", "V7"), ("Z2", "V3")))
    >>> wired(Site(name="a", units="us", place=place, zones=zones))[0].numbers
    {'Z2': 3, 'Z1': 7}
    """
    held: list[list[Zone]] = [[] for _ in site.controllers]
    for zone in site.zones:
        held[site.controllers.index(site.controller_of(zone))].append(zone)
    return tuple(
        _wired(controller, zones)
        for controller, zones in zip(site.controllers, held, strict=True)
    )


def walk_order(site: Site) -> dict[str, tuple[int, int]]:
    """Where a walk from clock to clock, station by station, meets each zone.

    Parameters
    ----------
    site : Site
        For clocks and zones.

    Returns
    -------
    dict of str to (int, int)
        Place of the clock and station, by id of the zone.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> walk_order(Site(name="a", units="us", place=place))
    {}
    """
    return {
        zone: (place, number)
        for place, one in enumerate(wired(site))
        for zone, number in one.numbers.items()
    }


def clock_names(site: Site) -> tuple[str, ...]:
    """Name of each clock, its id in front where there are several.

    Parameters
    ----------
    site : Site
        For its clocks.

    Returns
    -------
    tuple of str
        In their order.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> both = Controller(id="N", name="north"), Controller(id="S")
    >>> clock_names(Site(name="a", units="us", place=place, controller=both[0],
    ...                  more_controllers=both[1:]))
    ('N north', 'S')
    """
    if not site.more_controllers:
        return (site.controller.name,)
    return tuple(
        one.id if one.name in ("clock", one.id, "") else f"{one.id} {one.name}"
        for one in site.controllers
    )


def change_over_min(site: Site) -> int:
    """Minutes between two stations, of all clocks: the longest of them.

    Parameters
    ----------
    site : Site
        For its clocks.

    Returns
    -------
    int
        What every clock is keyed with, for one pump fills all lines. [min]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> change_over_min(Site(name="a", units="us", place=place))
    0
    """
    return max(one.change_over_minutes for one in site.controllers)


def station_findings(site: Site) -> tuple[Finding, ...]:
    """What is taken for granted about clocks and stations.

    Parameters
    ----------
    site : Site
        For clocks and zones.

    Returns
    -------
    tuple of Finding
        Notes: stations given in order; a change-over that is longer than entered;
        another worth of a move than that which counts.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> place = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...               time_zone="America/New_York")
    >>> station_findings(Site(name="a", units="us", place=place))
    ()
    """
    found = []
    names = clock_names(site)
    for one, name in zip(wired(site), names, strict=True):
        if one.guessed:
            given = ", ".join(f"{zone} {one.numbers[zone]}" for zone in one.guessed)
            what = f"no station is entered for {', '.join(one.guessed)}: taken {given}"
            fix = "look at the terminals and enter station with each zone"
            found.append(Finding("note", f"zones.toml: stations of {name}", what, fix))
    longest = change_over_min(site)
    shorter = [
        name
        for one, name in zip(site.controllers, names, strict=True)
        if one.change_over_minutes < longest
    ]
    if shorter:
        what = (
            f"{longest} min is the longest of the clocks and is taken for "
            f"{', '.join(shorter)} as well: one pump fills the lines"
        )
        fix = "key it in as the delay between stations on every clock"
        where = "site.toml: change_over_minutes"
        found.append(Finding("note", where, what, fix))
    return (*found, *_other_worth(site, names))


def _other_worth(site: Site, names: Sequence[str]) -> tuple[Finding, ...]:
    """Clocks whose worth of a move is not that of the first, which counts for all."""
    worth = site.controller.move_worth
    others = [
        f"{name} {one.move_worth:g}"
        for one, name in zip(site.controllers, names, strict=True)
        if one.move_worth != worth
    ]
    if not others:
        return ()
    what = (
        f"{worth:g} of {names[0]} counts for all clocks, as one night is laid out for "
        f"all; not used: {', '.join(others)}"
    )
    fix = "enter move_worth with the first [[controller]] alone, or the same with each"
    return (Finding("note", "site.toml: move_worth", what, fix),)


def _wired(controller: Controller, zones: Sequence[Zone]) -> Wired:
    numbers, guessed = _numbers(zones)
    pairs = sorted(zip(numbers, range(len(zones)), strict=True))
    return Wired(
        controller,
        tuple(zones[i] for _, i in pairs),
        tuple(number for number, _ in pairs),
        tuple(zones[i].id for i in guessed),
    )


def _numbers(zones: Sequence[Zone]) -> tuple[list[int], list[int]]:
    """Station of each zone, and the places of those that were given in order."""
    typed = [one.station for one in zones]
    digits = ["".join(filter(str.isdecimal, one.valve)) for one in zones]
    if not any(typed) and all(digits) and len(set(digits)) == len(digits):
        return [int(one) for one in digits], []
    taken = set(typed)
    free = iter(n for n in range(1, 2 * len(zones) + 1) if n not in taken)
    numbers = [next(free) if one is None else one for one in typed]
    return numbers, [i for i, one in enumerate(typed) if one is None]
