"""Several plants under one valve in; which of them sets the minutes out."""

from collections.abc import Iterable
from dataclasses import dataclass

from scheduler.arrays import DateArray, FloatArray
from scheduler.errors import Finding
from scheduler.need.zone_use import zone_use
from scheduler.record import DailySeries
from scheduler.site import Zone


@dataclass(frozen=True, slots=True)
class GroupUse:
    """One group of plants, and what it uses as depth on its bed.

    Attributes
    ----------
    zone : Zone
        The zone as if only this group grew in it.
    name : str
        Of the plant or the group.
    etc_mm : float
        Use of the asked days on the bed. [mm]
    findings : tuple of Finding
        What is odd about its coefficient or pots.
    """

    zone: Zone
    name: str
    etc_mm: float
    findings: tuple[Finding, ...] = ()


def ruling_zone(
    zone: Zone,
    dates: DateArray,
    eto_mm_per_day: FloatArray,
    *,
    weather: Iterable[DailySeries] = (),
) -> tuple[Zone, tuple[GroupUse, ...], tuple[Finding, ...]]:
    """The zone with the plants that set its minutes, and what every group uses.

    Parameters
    ----------
    zone : Zone
        With or without groups.
    dates : array of shape (n_days,)
        Days that are planned. [datetime64[D]]
    eto_mm_per_day : array of shape (n_days,)
        Reference ET of those days. [mm/day]
    weather : iterable of DailySeries
        The site's stations, for coefficients of a table.

    Returns
    -------
    zone : Zone
        With plant and pots of the group that rules; itself where there is one group.
    uses : tuple of GroupUse
        The groups whose use is known, thirstiest first; empty without groups.
    findings : tuple of Finding
        Groups that cannot rule, for their use on the bed is not known.

    Notes
    -----
    Thirstiest is whoever needs the largest depth on the bed: a pot that catches less of
    what falls may ask for more than a thirstier plant.

    References
    ----------
    Source: definition; the thirstiest plant rules is common practice, no source.

    Examples
    --------
    >>> import numpy as np
    >>> from scheduler.site import Plant, PlantGroup
    >>> box = Plant(name="box", kc=0.6, kc_area="bed", kc_from="guess")
    >>> fern = PlantGroup(
    ...     name="fern", plant=box.model_copy(update={"name": "fern", "kc": 0.9}))
    >>> bay = Zone(id="F1", name="bay", area_m2=9.0, grown_in="soil", plant=box,
    ...            group=(fern,))
    >>> day = np.array(["2026-06-08"], "datetime64[D]")
    >>> ruling, uses, _ = ruling_zone(bay, day, np.array([5.0]))
    >>> ruling.plant.name, [(one.name, one.etc_mm) for one in uses]
    ('fern', [('fern', 4.5), ('box', 3.0)])
    """
    if not zone.group or zone.plant is None:
        return zone, (), ()
    alone = {zone.plant.name: zone.model_copy(update={"group": ()})}
    for one in zone.group:
        parts = {"plant": one.plant, "pots": one.pots or zone.pots, "group": ()}
        alone[one.name] = zone.model_copy(update=parts)
    uses: list[GroupUse] = []
    findings: list[Finding] = []
    for name, as_if in alone.items():
        use, said = zone_use(as_if, dates, weather=weather)
        if use is None:
            findings += [_left_out(one, name) for one in said]
            continue
        etc = float(use.etc_mm_per_day(eto_mm_per_day, dates).sum())
        uses.append(GroupUse(as_if, name, etc, said))
    if not uses:
        return zone, (), tuple(findings)
    uses.sort(key=lambda one: -one.etc_mm)
    named = [one for one in uses if one.name == zone.group_rules]
    ruling = (named or uses)[0]
    # the ruling group's own findings come with its plan
    for other in uses:
        if other is not ruling:
            findings += [_of_group(one, other.name) for one in other.findings]
    return ruling.zone, tuple(uses), tuple(findings)


def _left_out(finding: Finding, name: str) -> Finding:
    """A group cannot be counted: no reason to leave the others without a plan."""
    said = _of_group(finding, name)
    if finding.level != "stop":
        return said
    what = f"{said.what}: the minutes are planned without this group"
    return Finding("warning", said.where, what, said.fix)


def _of_group(finding: Finding, name: str) -> Finding:
    where = f"{finding.where} ({name})"
    return Finding(finding.level, where, finding.what, finding.fix)
