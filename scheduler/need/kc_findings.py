"""A zone and its coefficient in; what does not fit the area or the days out."""

import numpy as np

from scheduler.arrays import DateArray, FloatArray
from scheduler.errors import Finding
from scheduler.need.crop import day_of_season
from scheduler.need.kc_curve import PlantKc, Season
from scheduler.plant import Plant
from scheduler.site import Zone

# Wet soil and a full canopy together evaporate at most about this much of ETo: FAO-56
# equation 72 gives Kc max 1.05 to 1.30, and p. 124 suggests 1.1 to 1.3 for small plants
# that are wetted every few days. Above it, the coefficient is on another area.
MOST_ON_BED = 1.3
# A pot's own leaves use several times ETo on the small top; below this, the coefficient
# was most likely meant for the bed (common practice, no source).
LEAST_ON_POT_TOP = 0.3
# Published use of woody plants goes up to about 5 on the pot top (Regan, 1996,
# HortScience 31: above 5.0); zones.toml takes no more than this, and weighing none.
MOST_ON_POT_TOP = 8.0
# FAO-56 p. 124: wetted every three days or less, and a table's Kc mid below 1
OFTEN_DAYS = 3
LOW_MID = 1.0


def kc_findings(zone: Zone, kc: PlantKc, dates: DateArray) -> tuple[Finding, ...]:
    """What is odd about a zone's crop coefficient on those dates.

    Parameters
    ----------
    zone : Zone
        The zone; without plant there is nothing to say.
    kc : PlantKc
        Its coefficient.
    dates : array of shape (n_days,)
        Days that are planned. [datetime64[D]]

    Returns
    -------
    tuple of Finding
        Warnings for a coefficient that does not fit its area basis, and for days
        outside the stage curve; notes where nobody wrote where it came from, and
        where a table's coefficient is low for ground that is wetted often.

    References
    ----------
    .. [1] Allen et al., 1998, FAO-56, p. 124 and equation 72 (upper end on the bed);
       the lower end on the pot top is common practice, no source.

    Examples
    --------
    >>> from scheduler.need.climate import Climate
    >>> from scheduler.need.plant_kc import plant_kc
    >>> box = Plant(name="boxwood", kc=3.1, kc_area="bed", kc_from="weighed pots")
    >>> zone = Zone(id="Z4", name="box", area_m2=100.0, grown_in="soil", plant=box)
    >>> day = np.array(["2026-06-01"], "datetime64[D]")
    >>> kc, _ = plant_kc(box, Climate(()), "zone Z4")
    >>> [finding.level for finding in kc_findings(zone, kc, day)]
    ['warning']
    """
    plant = zone.plant
    if plant is None or dates.size == 0:
        return ()
    on = kc.on(dates)
    found = [
        _basis_finding(zone, plant, on),
        _season_finding(zone, kc.season, on, dates),
        _wetted_often(zone, plant, kc),
    ]
    if not plant.kc_from and plant.source in ("kc", "kc_by_month", "stages"):
        found.append(
            Finding(
                "note",
                f"zone {zone.id}: kc",
                f"nobody wrote where the coefficient of {plant.name} comes from",
                "write kc_from, and correct it by weighing pots or a leaching check",
            )
        )
    return tuple(one for one in found if one is not None)


def _basis_finding(zone: Zone, plant: Plant, kc: FloatArray) -> Finding | None:
    where, high, low = f"zone {zone.id}: kc", float(kc.max()), float(kc.min())
    if plant.kc_area == "bed" and high > MOST_ON_BED:
        return Finding(
            "warning",
            where,
            f"{high:g} on the bed is more than wet ground can use ({MOST_ON_BED:g})",
            "if it was measured on pots, write kc_area = 'pot top' (or 'canopy')",
        )
    if plant.kc_area == "pot top" and low < LEAST_ON_POT_TOP:
        return Finding(
            "warning",
            where,
            f"{low:g} on the pot top is less than plants in pots use "
            f"({LEAST_ON_POT_TOP:g} and up)",
            "if it was meant for the bed with pots and gaps, write kc_area = 'bed'",
        )
    if plant.kc_area == "pot top" and high > MOST_ON_POT_TOP:
        return Finding(
            "stop",
            where,
            f"{high:.3g} on the pot top is more than any plant in a pot uses "
            f"({MOST_ON_POT_TOP:g}); it comes from {plant.kc_from or 'zones.toml'}",
            "check the weighed loss, reference ET, their units and the pot's diameter",
        )
    return None


def _season_finding(
    zone: Zone, season: Season | None, kc: FloatArray, dates: DateArray
) -> Finding | None:
    if season is None:
        return None
    day = day_of_season(season.start, dates, every_year=season.every_year)
    length = sum(season.stages)
    if int(day.max()) <= length and int(day.min()) >= 1:
        return None
    if season.every_year and dates.size > length:
        return None  # a whole year holds the rest between two seasons
    first = np.datetime64(season.start, "D")
    last = first + np.timedelta64(length - 1, "D")
    is_over = int(day.max()) > length
    # a week may end in the next season: the last day out of season is meant
    held = float(kc[day > length][-1] if is_over else kc[0])
    again = " each year" if season.every_year else ""
    return Finding(
        "warning",
        f"zone {zone.id}: stages",
        f"the season of the curve runs from {first} to {last}{again}; "
        f"{'after' if is_over else 'before'} it {held:.3g} is used",
        "set a new start, or give kc or kc_by_month for the rest of the year",
    )


def _wetted_often(zone: Zone, plant: Plant, kc: PlantKc) -> Finding | None:
    """A table's coefficient for ground that seldom gets wet."""
    often = zone.watered == "every allowed day" and len(zone.days) >= OFTEN_DAYS
    mid = kc.levels[1] if kc.season is not None else kc.levels[0]
    if plant.source != "crop" or plant.dual or not often or mid >= LOW_MID:
        return None
    return Finding(
        "note",
        f"zone {zone.id}: kc",
        f"{mid:.2f} of the table is for ground wetted now and then; wetted every three "
        "days or less, FAO-56 (p. 124) suggests 1.1 to 1.3",
        "set dual = true, or enter kc"
        if zone.grown_in == "soil"
        else "enter kc, from weighed pots",
    )
