"""One zone of an option in; what each quarter of it gets, now and then, out."""

from dataclasses import dataclass

from scheduler.money.judged import ZoneTerms


@dataclass(frozen=True, slots=True)
class ZoneQuarters:
    """What each quarter of a zone gets in a year under the zone's own rule.

    Attributes
    ----------
    zone : str
        Id of the zone.
    now_mm, then_mm : tuple of float
        Mean depth of each quarter, driest first. [mm]
    map_from : str
        Whose map the quarters of then are of.
    """

    zone: str
    now_mm: tuple[float, ...]
    then_mm: tuple[float, ...]
    map_from: str


def zone_quarters(one: ZoneTerms) -> ZoneQuarters:
    """What each quarter of a zone gets, now and then.

    Parameters
    ----------
    one : ZoneTerms
        The zone.

    Returns
    -------
    ZoneQuarters
        Now by the zone's own map; then by that of the package, where its legs of cans
        are known, else by the zone's own drawn to the uniformity then.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> ZoneQuarters("Z", (1.0,) * 4, (2.0,) * 4, "its own").then_mm[0]
    2.0
    """
    rule = one.rule("own rule")
    own = "its own map, drawn to the DU then"
    return ZoneQuarters(
        one.response.zone.id,
        tuple(one.response.quarters_mm(rule, one.now.du_lq).tolist()),
        tuple(one.after.quarters_mm(rule, one.then.du_lq).tolist()),
        own if one.of_map is None else "legs of cans of the package at its spacing",
    )
