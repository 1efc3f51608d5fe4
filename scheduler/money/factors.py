"""A zone and another uniformity in; the shares and the factor of every rule out."""

from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.field.bell import low_half_from_low_quarter, normal_shares
from scheduler.field.drawn import drawn_together
from scheduler.field.guess import ZoneCatch
from scheduler.field.uniformity import low_half_uniformity, low_quarter_uniformity
from scheduler.need.zone_leaching import zone_leaching
from scheduler.site import RULES, Rule, Site, Zone
from scheduler.watering.leached import adequacy, served_rule
from scheduler.watering.run_time import rule_factor
from scheduler.watering.season_run import SeasonInput

# the share of a served position that caught nothing: no factor would be enough
LEAST_SERVED = 1e-3
# nearer to perfectly even than this, there is nothing to draw together
EVEN = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Evenness:
    """How even a zone is, measured or thought.

    Attributes
    ----------
    share : array of shape (n_positions,)
        Catch over the mean catch. [-]
    du_lq, du_lh : float
        Its uniformity; the low half by formula where no cans are known. [-]
    pull : float or None
        What the distance of the cans' shares from the mean was multiplied with; None
        where no cans are known. [-]
    """

    share: FloatArray
    du_lq: float
    du_lh: float
    pull: float | None


def evenness(catch: ZoneCatch, du_lq: float | None = None) -> Evenness:
    """How even a zone is, or would be at another uniformity.

    Parameters
    ----------
    catch : ZoneCatch
        What it catches now.
    du_lq : float, optional
        The other DU low quarter; that of now, if not given. [-]

    Returns
    -------
    Evenness
        Its own map of catches, drawn together or apart; a bell-shaped catch where no
        cans are known.

    References
    ----------
    Source: definition; low half without cans: Mecham, 2010, ASABE IRR10-10040.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> zone = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.58)
    >>> round(evenness(assumed(zone, None)[0], 0.78).du_lh, 3)
    0.868
    """
    if catch.basis == "measured":
        pull = 1.0
        if du_lq is not None:
            pull = (1.0 - du_lq) / max(1.0 - catch.du_lq, EVEN)
        share = drawn_together(np.asarray(catch.share), pull)
        return Evenness(
            share,
            float(low_quarter_uniformity(share)),
            float(low_half_uniformity(share)),
            pull,
        )
    du = catch.du_lq if du_lq is None else du_lq
    return Evenness(normal_shares(du), du, low_half_from_low_quarter(du), None)


def roots_du(du_lq: float, *, of_cans: float, of_roots: float) -> float:
    """Uniformity that roots feel, where they share water among neighbours.

    Parameters
    ----------
    du_lq : float
        DU low quarter at can height. [-]
    of_cans, of_roots : float
        The same of the map of now, at can height and at the roots. [-]

    Returns
    -------
    float
        1 - (1 - DU) x what roots draw the map of now together by. [-]

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(roots_du(0.8, of_cans=0.6, of_roots=0.7), 2)
    0.85
    """
    return 1.0 - (1.0 - du_lq) * (1.0 - of_roots) / max(1.0 - of_cans, EVEN)


def zone_factor(zone: Zone, site: Site, rule: Rule, even: Evenness) -> float:
    """Factor of a rule in a zone that is so even.

    Parameters
    ----------
    zone : Zone
        For the share that must be served, and its leaching where `rule` is its own.
    site : Site
        For the salt of the water.
    rule : str
        The rule.
    even : Evenness
        How even.

    Returns
    -------
    float
        Mean depth over need. [-]

    Notes
    -----
    Under the zone's own rule a leaching target may rule instead: the larger, never
    both.

    References
    ----------
    Source: definition; rules as in `rule_factor`.

    Examples
    --------
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> zone = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off")
    >>> even = Evenness(np.ones(4), 0.8, 0.9, 1.0)
    >>> zone_factor(zone, Site(name="a", units="us", place=here), "low quarter", even)
    1.25
    """
    factor = rule_factor(
        served_rule(rule),
        even.share,
        share_served=zone.share_served,
        du_lq=even.du_lq,
        du_lh=even.du_lh,
    )
    if rule != zone.chosen_rule:
        return factor
    leaching, _ = zone_leaching(zone, site.supply)
    return adequacy(rule, factor, leaching).factor


def rules_of(zone: Zone) -> tuple[Rule, ...]:
    """The rules that stand side by side: the four, and the zone's own if it is none.

    Parameters
    ----------
    zone : Zone
        The zone.

    Returns
    -------
    tuple of str
        Names of rules.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> zone = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off")
    >>> rules_of(zone)
    ('average', 'low half', 'low quarter', 'share served')
    """
    own = zone.chosen_rule
    return RULES if own in RULES else (*RULES, own)


def at_evenness(season: SeasonInput, even: Evenness, factor: float) -> SeasonInput:
    """The same season with other shares and another factor.

    Parameters
    ----------
    season : SeasonInput
        One zone, as it is.
    even : Evenness
        The other shares.
    factor : float
        Mean depth over need. [-]

    Returns
    -------
    SeasonInput
        One zone.

    Notes
    -----
    Where nights were tested apart, each night's map is drawn together or apart alike.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> one = np.ones((1, 1))
    >>> made = SeasonInput(np.ones((1, 4, 1)), one[0], 4 * one, 0 * one, one > 0,
    ...     one[0] > 0, one[0] * np.nan, 40 * one[0], 16 * one[0], 0 * one[0], one[0],
    ...     one[0])
    >>> even = Evenness(np.ones(4), 1.0, 1.0, 1.0)
    >>> at_evenness(made, even, 2.0).served_share.tolist()
    [0.5]
    """
    if even.pull is None:
        share = frozen(even.share[None, :, None])
    else:
        share = drawn_together(season.share, even.pull)
    served = np.array([max(1.0 / factor, LEAST_SERVED)])
    return replace(season, share=share, served_share=served)
