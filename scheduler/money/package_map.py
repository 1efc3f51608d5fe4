"""A package and its sprinkler's profile in; the map it makes at its spacing out."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np

from scheduler.arrays import FloatArray, frozen
from scheduler.field.guess import ZoneCatch
from scheduler.field.overlap import pattern
from scheduler.field.profile import Profile
from scheduler.field.uniformity import low_half_uniformity, low_quarter_uniformity
from scheduler.season import ZoneSeason
from scheduler.site import Package, Site
from scheduler.trace import Trace, entered

# positions that a map is told in: a multiple of 4, so that no quarter is cut
POSITIONS = 48


@dataclass(frozen=True, slots=True, eq=False)
class PackageMap:
    """What one package makes of its ground, from one head's legs of cans.

    Attributes
    ----------
    package : str
        Id of the package.
    share : array of shape (48,)
        Depth over the mean depth, driest first; each stands for as much ground. [-]
    du_lq, du_lh : float
        Of the whole map. [-]
    trace : Trace
        Of its uniformity.
    """

    package: str
    share: FloatArray
    du_lq: float
    du_lh: float
    trace: Trace


def package_map(
    site: Site, package_id: str | None, profiles: Mapping[str, Profile]
) -> PackageMap | None:
    """The map of a package at its own spacing.

    Parameters
    ----------
    site : Site
        For its packages.
    package_id : str or None
        The package.
    profiles : mapping of str to Profile
        One head's profile, by package.

    Returns
    -------
    PackageMap or None
        None without a profile or a spacing. A package with the same legs of cans at
        another spacing takes them from there.

    Notes
    -----
    Still air and heads alike, far from any edge.

    References
    ----------
    Source: definition, as `pattern`.

    Examples
    --------
    >>> from scheduler.field.profile import radial_profile
    >>> from scheduler.site import Place
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> wide = Package(id="w", spacing_m=10.0, row_spacing_m=14.0, layout="rectangular")
    >>> site = Site(name="a", units="us", place=here, packages=(wide,))
    >>> cone, _ = radial_profile([0.0, 10.0], [10.0, 0.0], minutes=60)
    >>> found = package_map(site, "w", {"w": cone})
    >>> round(found.du_lq, 2), found.share.size
    (0.75, 48)
    """
    package = site.package(package_id)
    if package is None or package.spacing_m is None:
        return None
    profile = _profile(site, package, profiles)
    if profile is None:
        return None
    layout = package.layout or "square"
    made = pattern(
        profile,
        spacing_m=package.spacing_m,
        row_spacing_m=package.row_spacing_m,
        layout=layout,
    )
    share = _told(np.sort(made.rate_mm_per_h.ravel()))
    du = float(low_quarter_uniformity(share))
    trace = Trace(
        "du_lq", du,
        "one head's legs of cans laid over each other at the spacing, in still air",
        "von Bernuth and Mecham (n.d.), overlap of a profile",
        (
            entered("spacing_m", package.spacing_m, f"package {package.id}"),
            entered("row_spacing_m", made.row_spacing_m, f"package {package.id}"),
        ),
    )  # fmt: skip
    lower = float(low_half_uniformity(share))
    return PackageMap(package.id, share, du, lower, trace)


def _profile(
    site: Site, package: Package, profiles: Mapping[str, Profile]
) -> Profile | None:
    """The package's own, else that of a namesake with the same legs of cans."""
    if package.id in profiles:
        return profiles[package.id]
    if package.profile is None:
        return None
    alike = [
        one.id
        for one in site.packages
        if one.profile == package.profile and one.id in profiles
    ]
    return profiles[alike[0]] if alike else None


def _told(ordered: FloatArray) -> FloatArray:
    """Means of equal parts of ordered values, over the mean of all."""
    edges = np.linspace(0.0, ordered.size, POSITIONS + 1)
    total = np.concatenate([[0.0], np.cumsum(ordered)])
    upto = np.interp(edges, np.arange(ordered.size + 1), total)
    parts = np.diff(upto)
    return frozen(parts / parts.mean())


def catch_of_map(found: PackageMap, now: ZoneCatch) -> ZoneCatch:
    """A zone's catch with the map of a package in its place.

    Parameters
    ----------
    found : PackageMap
        The map.
    now : ZoneCatch
        What the zone catches now: its rate and names stay, none of its cans.

    Returns
    -------
    ZoneCatch
        Nothing of both maps is mixed.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.field.guess import assumed
    >>> from scheduler.site import Zone
    >>> yard = Zone(id="a", name="a", area_m2=9.0, grown_in="pots", watered="off",
    ...             assumed_net_rate_mm_per_h=12.0, assumed_du_lq=0.6)
    >>> share = np.linspace(0.5, 1.5, 48)
    >>> own = PackageMap("p", share, 0.62, 0.74, entered("du_lq", 0.62))
    >>> then = catch_of_map(own, assumed(yard, None)[0])
    >>> then.share is share, then.basis, then.net_rate_mm_per_h
    (True, 'measured', 12.0)
    """
    return replace(
        now,
        basis="measured",
        share=found.share,
        row=None,
        column=None,
        tested=None,
        du_lq=found.du_lq,
        du_lh=found.du_lh,
        n_cans=0,
        n_runs=1,
        test="",
        du_trace=found.trace,
    )


def season_of_map(season: ZoneSeason | None, catch: ZoneCatch) -> ZoneSeason | None:
    """A zone's season with the map of a package in place of its own.

    Parameters
    ----------
    season : ZoneSeason or None
        As it was run.
    catch : ZoneCatch
        The map.

    Returns
    -------
    ZoneSeason or None
        Same days, storage and rate; None where none could be run.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> season_of_map(None, None) is None
    True
    """
    if season is None or season.input is None:
        return season
    share = frozen(np.asarray(catch.share)[None, :, None])
    return replace(season, input=replace(season.input, share=share), catch=catch)
