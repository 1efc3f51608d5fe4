"""A site's weather files in, reference ET of every station out."""

from collections.abc import Iterable

from scheduler.errors import Finding
from scheduler.need.reference_et import ReferenceET, reference_et
from scheduler.need.weather import checked, filled
from scheduler.record import DailySeries
from scheduler.site import Place


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
        What was refused, filled in, or missing.

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
        result, computed = reference_et(whole)
        series.append(result)
        findings += [*said, *filled_in, *computed]
    return series, findings
