"""A site's weather files in, reference ET of every station out."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from scheduler.errors import Finding
from scheduler.need.alfalfa import as_grass
from scheduler.need.reference_et import ReferenceET, reference_et
from scheduler.need.weather import checked, filled
from scheduler.record import DailySeries
from scheduler.site import Place
from scheduler.units import shown

# Further away, wind, cloud and rain are those of another place (common practice, no
# source).
FAR_KM = 50.0


def stations_et(
    weather: Iterable[DailySeries], place: Place
) -> tuple[list[ReferenceET], list[Finding]]:
    """Reference ET of every station, in the order of the site file.

    Parameters
    ----------
    weather : iterable of DailySeries
        As read.
    place : Place
        Where the site is.

    Returns
    -------
    series : list of ReferenceET
        One a station.
    findings : list of Finding
        What was refused, filled in, converted from alfalfa reference, or missing; a
        station that is far, or whose distance nobody gave.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, chapters 3 and 4.

    Examples
    --------
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> stations_et((), here)
    ([], [])
    """
    series, findings = [], []
    for one in weather:
        sound, said = checked(one)
        whole, filled_in = filled(sound, place)
        grass, converted = as_grass(whole, one.origin)
        result, computed = reference_et(grass)
        series.append(replace(result, origin=one.origin))
        findings += [*said, *filled_in, *converted, *computed, *_how_far(one)]
    return series, findings


def _how_far(one: DailySeries) -> Iterator[Finding]:
    where, km = f"{one.where}: distance", one.origin.distance_km
    if km is None and one.origin.issued is None:
        yield Finding(
            "note",
            where,
            f"nobody said how far station {one.name!r} is from the site",
            "give its distance_km or distance_mi in site.toml, 0 if it stands there",
        )
    elif km is not None and km > FAR_KM:
        far = f"{shown(km, 'km', 'metric')} ({shown(km, 'km', 'us')})"
        yield Finding(
            "warning",
            where,
            f"station {one.name!r} is {far} away: wind, cloud and rain are those of "
            "another place",
            "use a nearer station, or measure temperature and rain at the site",
        )
