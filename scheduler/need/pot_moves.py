"""A zone whose pots are moved through the season in; the zone as it stands out."""

import datetime as dt

from scheduler.errors import Finding
from scheduler.need.capture import pot_volume_ml
from scheduler.need.pot_layout import (
    centres_m,
    interception_share,
)
from scheduler.site import PotMove, Pots, Zone
from scheduler.units import System, shown

MIN_PER_H = 60.0


def pots_on(pots: Pots, day: dt.date) -> Pots:
    """Pots as they stand on a day.

    Parameters
    ----------
    pots : Pots
        With the days on which they were moved.
    day : date
        The day.

    Returns
    -------
    Pots
        With the spacing of the newest move up to that day; the moves are kept.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import PotMove
    >>> apart = PotMove(on=dt.date(2026, 6, 2), gap_m=0.3)
    >>> pots = Pots(top_diameter_mm=200.0, gap_m=0.0, moved=(apart,))
    >>> pots_on(pots, dt.date(2026, 6, 8)).gap_m
    0.3
    """
    newest = _newest(pots, day)
    if newest is None:
        return pots
    names = ("spacing_m", "row_spacing_m", "gap_m", "pattern")
    return pots.model_copy(update={one: getattr(newest, one) for one in names})


def zone_on(zone: Zone, day: dt.date) -> Zone:
    """A zone with its pots as they stand on a day.

    Parameters
    ----------
    zone : Zone
        Any zone.
    day : date
        The day.

    Returns
    -------
    Zone
        The same zone where no pots were moved.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> yard = Zone(id="Z4", name="yard", area_m2=9.0, grown_in="pots", watered="off")
    >>> zone_on(yard, dt.date(2026, 6, 8)) is yard
    True
    """
    if zone.pots is None or not zone.pots.moved:
        return zone
    return zone.model_copy(update={"pots": pots_on(zone.pots, day)})


def move_findings(
    zone: Zone,
    first: dt.date,
    last: dt.date,
    *,
    net_rate_mm_per_h: float,
    units: System,
) -> tuple[Finding, ...]:
    """What must be said of pots that were moved not long ago, or will be.

    Parameters
    ----------
    zone : Zone
        As its file describes it, with all moves.
    first, last : date
        The days that are planned.
    net_rate_mm_per_h : float
        What the sprinklers bring to the bed. [mm/h]
    units : str
        How numbers are said.

    Returns
    -------
    tuple of Finding
        The newest move of the four weeks before, with what each pot now gets; a move
        inside the days that are planned.

    References
    ----------
    Source: balance of water; geometry.

    Examples
    --------
    >>> apart = PotMove(on=dt.date(2026, 6, 2), gap_m=0.3)
    >>> pots = Pots(top_diameter_mm=200.0, gap_m=0.0, moved=(apart,))
    >>> yard = Zone(id="Z4", name="yard", area_m2=9.0, grown_in="pots", watered="off",
    ...             pots=pots)
    >>> week = (dt.date(2026, 6, 8), dt.date(2026, 6, 14))
    >>> said = move_findings(yard, *week, net_rate_mm_per_h=12.0, units="metric")
    >>> print(said[0].what.split("; ")[1])
    a pot gets 6.3 mL/min, as before
    """
    pots = zone.pots
    if pots is None or not pots.moved:
        return ()
    found = []
    newest = _newest(pots, first)
    if newest is not None and (first - newest.on).days <= SAID_DAYS:
        found.append(_moved(zone, newest, net_rate_mm_per_h, units))
    for one in pots.moved:
        if first < one.on <= last:
            found.append(_will_move(zone, one))
    return tuple(found)


# a month after a move everybody knows (common practice, no source)
SAID_DAYS = 28


def _newest(pots: Pots, day: dt.date) -> PotMove | None:
    before = [one for one in pots.moved if one.on <= day]
    return max(before, key=lambda one: one.on, default=None)


def _moved(
    zone: Zone, move: PotMove, net_rate_mm_per_h: float, units: System
) -> Finding:
    assert zone.pots is not None, "asked before"
    now = pots_on(zone.pots, move.on)
    before = pots_on(zone.pots, move.on - dt.timedelta(days=1))
    parts = [f"moved on {move.on}"]
    apart = [centres_m(one) for one in (before, now)]
    if apart[0] and apart[1]:
        digits = 1 if units == "us" else 0
        far = [
            shown(1000.0 * one[0], "mm", units, digits=digits) for one in apart if one
        ]
        parts[0] += f": centres {far[0]} apart, now {far[1]}"
    rates = [pot_volume_ml(net_rate_mm_per_h / MIN_PER_H, one) for one in (before, now)]
    same = abs(rates[1] / rates[0] - 1.0) < 0.01
    told = "as before" if same else f"was {rates[0]:.1f}"
    parts.append(f"a pot gets {rates[1]:.1f} mL/min, {told}")
    under = [interception_share(one) for one in (before, now)]
    if under[0] is not None and under[1] is not None:
        parts.append(f"pot tops are {under[1]:.0%} of the bed, were {under[0]:.0%}")
    on_bed = zone.plant is not None and zone.plant.kc_area == "bed"
    fix = "weigh a few pots: wider pots get more light and use more"
    if on_bed:
        fix = (
            "enter kc anew: on the bed it goes with the spacing; weigh a few pots, or "
            "check their leaching"
        )
    what = "; ".join(parts).replace("%", " %")
    return Finding("warning" if on_bed else "note", f"zone {zone.id}: pots", what, fix)


def _will_move(zone: Zone, move: PotMove) -> Finding:
    what = f"pots are to be moved on {move.on}, within these days: not planned for"
    fix = "plan again from that day"
    return Finding("note", f"zone {zone.id}: pots", what, fix)
