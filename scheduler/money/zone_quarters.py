"""One zone of an option in; what each quarter of it gets, now and then, out."""

from dataclasses import dataclass, replace

from scheduler.money.factors import evenness, zone_factor
from scheduler.money.judged import ZoneTerms
from scheduler.money.response import Response
from scheduler.trace import Trace, entered

QUARTERS = ("driest", "second", "third", "wettest")


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
    traces : tuple of Trace
        Mean depth that is saved, from every quarter of now and then.
    """

    zone: str
    now_mm: tuple[float, ...]
    then_mm: tuple[float, ...]
    map_from: str
    traces: tuple[Trace, ...] = ()


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
    made = ZoneQuarters(
        one.response.zone.id,
        tuple(one.response.quarters_mm(rule, one.now.du_lq).tolist()),
        tuple(one.after.quarters_mm(rule, one.then.du_lq).tolist()),
        own if one.of_map is None else "legs of cans of the package at its spacing",
    )
    now = _depth("now", made.now_mm, one, one.response)
    then = _depth("then", made.then_mm, one, one.after)
    saved = Trace(
        "depth_saved_mm",
        (sum(made.now_mm) - sum(made.then_mm)) / len(QUARTERS),
        "depth_now_mm - depth_then_mm, in a year",
        "definition",
        (now, then),
    )
    return replace(made, traces=(saved,))


def _depth(
    when: str, depths_mm: tuple[float, ...], one: ZoneTerms, response: Response
) -> Trace:
    """Mean depth of a zone from its quarters, each from its map and rule."""
    known = one.now if when == "now" else one.then
    rule = one.rule("own rule")
    cans = Trace(f"du_lq_{when}", known.du_lq, "at can height", known.source)
    roots = Trace(
        f"du_lq_of_roots_{when}",
        response.at_roots(known.du_lq),
        f"du_lq_{when}, drawn together as the roots draw the map of now together",
        "definition",
        (cans,),
    )
    even = evenness(response.catch, response.at_roots(known.du_lq))
    factor = Trace(
        f"factor_{when}",
        zone_factor(response.zone, response.site, rule, even),
        f"of the rule {rule} at du_lq_of_roots_{when}, and of salt",
        "definition",
        (roots,),
    )
    formula = f"factor_{when} x share of the quarter"
    inputs: tuple[Trace, ...] = (factor,)
    if response.need_mm is None:
        source = "definition; the season by the balance of FAO-56 chapter 8"
        formula = f"what the season brings there, the rule serving 1 / factor_{when}"
    else:
        source = "definition"
        formula += " x need_mm"
        inputs = (factor, entered("need_mm", response.need_mm, "options.toml"))
    quarters = tuple(
        Trace(f"{name}_quarter_{when}_mm", depth_mm, formula, source, inputs)
        for name, depth_mm in zip(QUARTERS, depths_mm, strict=True)
    )
    return Trace(
        f"depth_{when}_mm",
        sum(depths_mm) / len(depths_mm),
        "mean of the four quarters",
        "definition",
        quarters,
    )
