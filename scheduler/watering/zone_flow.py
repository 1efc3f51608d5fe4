"""Heads, nozzles and rates in; what one zone draws from the pump out."""

from scheduler.site import Package, Zone
from scheduler.trace import Trace, entered

MIN_PER_H = 60.0


def zone_flow(
    zone: Zone, package: Package | None, net_rate_mm_per_h: float | None
) -> Trace | None:
    """Flow of a zone, from its heads, else from the rate on its area.

    Parameters
    ----------
    zone : Zone
        For its area, and its heads where they were counted.
    package : Package or None
        For the flow of one nozzle and the ground of one head.
    net_rate_mm_per_h : float or None
        What the cans caught, where nothing better is known. [mm/h]

    Returns
    -------
    Trace or None
        Of `flow_l_per_min`; None where neither heads nor rate are known.

    Notes
    -----
    A net rate leaves out what drifts away and evaporates, so that the flow is larger in
    truth; the note of the trace says so.

    References
    ----------
    Source: definition; 1 mm on 1 m2 is 1 L.

    Examples
    --------
    >>> yard = Zone(id="Z4", name="yard", area_m2=900.0, grown_in="pots",
    ...             watered="off", heads=10)
    >>> zone_flow(yard, Package(id="rotor", nozzle_flow_l_per_min=17.0), 12.0).value
    170.0
    >>> zone_flow(yard, None, 12.0).value
    180.0
    """
    nozzle = package.nozzle_flow_l_per_min if package is not None else None
    if nozzle is not None and package is not None:
        each = entered("nozzle_flow_l_per_min", nozzle, f"package {package.id}")
        if zone.heads is not None:
            return Trace(
                "flow_l_per_min",
                zone.heads * nozzle,
                "heads x nozzle_flow_l_per_min",
                "definition",
                (entered("heads", zone.heads, "zones.toml"), each),
            )
        ground = package.area_per_head_m2
        if ground is not None:
            return Trace(
                "flow_l_per_min",
                zone.area_m2 / ground * nozzle,
                "area_m2 / ground of one head x nozzle_flow_l_per_min",
                "definition",
                (
                    entered("area_m2", zone.area_m2, "zones.toml"),
                    entered("area_per_head_m2", ground, f"package {package.id}"),
                    each,
                ),
                "heads were not counted: the edges may have more",
            )
    if net_rate_mm_per_h is None or not net_rate_mm_per_h > 0:
        return None
    return Trace(
        "flow_l_per_min",
        zone.area_m2 * net_rate_mm_per_h / MIN_PER_H,
        "area_m2 x net_rate_mm_per_h / 60",
        "definition",
        (
            entered("area_m2", zone.area_m2, "zones.toml"),
            entered("net_rate_mm_per_h", net_rate_mm_per_h, "what the cans caught"),
        ),
        "at least: what drifted away before the cans is not in it",
    )
