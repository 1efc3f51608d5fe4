"""A zone and its windows in, the nights that wet its ground out."""

import numpy as np

from scheduler.need.dual_use import Wetting
from scheduler.root_zone.storage import zone_storage
from scheduler.site import Site, Zone, open_nights


def zone_wetting(site: Site, zone: Zone) -> Wetting | None:
    """When the ground of a zone is wetted, as far as its evaporation needs it.

    Parameters
    ----------
    site : Site
        For the windows.
    zone : Zone
        For its days, and for the depletion that calls for water.

    Returns
    -------
    Wetting or None
        None where the ground is not counted apart from the plants.

    Notes
    -----
    Watered when due, the nights follow from a running balance of the mean position. A
    first plan is made with them; its own nights then wet the ground.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> from scheduler.site import Place, Plant, Soil
    >>> here = Place(latitude_deg=36.1, longitude_deg=-79.9, elevation_m=273.0,
    ...              time_zone="America/New_York")
    >>> lawn = Zone(id="L1", name="lawn", area_m2=90.0, grown_in="soil",
    ...             plant=Plant(name="lawn", crop="turf cool season", dual=True),
    ...             soil=Soil(texture="loam"), watered="every allowed day",
    ...             days=("mon", "thu"))
    >>> site = Site(name="Tern Hollow", units="us", place=here)
    >>> zone_wetting(site, lawn).open_weekdays
    (True, False, False, True, False, False, False)
    """
    if zone.plant is None or not zone.plant.dual:
        return None
    # 5 January 1970 was a Monday
    week = np.datetime64("1970-01-05") + np.arange(7)
    opens = tuple(bool(one) for one in open_nights(site, zone, week))
    if zone.watered != "when due":
        return Wetting(opens, None)
    storage, _ = zone_storage(zone)
    return Wetting(opens, None if storage is None else storage.allowed_mm)
