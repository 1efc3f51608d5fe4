"""Pots weighed over a day in; the plant's coefficient on the pot top out."""

from scheduler.need.pot_layout import ML_PER_MM_CM2, pot_top_area_cm2
from scheduler.site import Plant, Pots, WeighedUse, Zone


def weighed_kc(use: WeighedUse, pots: Pots) -> float:
    """Coefficient on the pot top from the water that pots lost in a day.

    Parameters
    ----------
    use : WeighedUse
        Loss of one pot in 24 hours, and reference ET of that day.
    pots : Pots
        For the area of the top.

    Returns
    -------
    float
        Loss as depth on the pot top, over reference ET. [-]

    References
    ----------
    Source: definition (daily water use by weighing; 1 mL of water weighs 1 g).

    Examples
    --------
    >>> used = WeighedUse(daily_loss_ml=500.0, eto_mm=5.0)
    >>> round(weighed_kc(used, Pots(top_diameter_mm=254.0)), 2)
    1.97
    """
    depth_mm = use.daily_loss_ml / (pot_top_area_cm2(pots) * ML_PER_MM_CM2)
    return depth_mm / use.eto_mm


def weighed_plant(zone: Zone) -> Plant | None:
    """The zone's plant, with the coefficient that weighing gave where there is one.

    Parameters
    ----------
    zone : Zone
        With its plant and pots.

    Returns
    -------
    Plant or None
        As entered, unless its use was weighed.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> holly = Plant(name="holly", weighed=WeighedUse(daily_loss_ml=500.0, eto_mm=5.0),
    ...               kc_area="pot top")
    >>> zone = Zone(id="Z4", name="holly", area_m2=9.0, grown_in="pots", plant=holly,
    ...             pots=Pots(top_diameter_mm=254.0))
    >>> weighed_plant(zone).kc_from
    'weighing: 500 mL a pot and day at 5.0 mm ETo'
    """
    plant = zone.plant
    if plant is None or plant.weighed is None or zone.pots is None:
        return plant
    use = plant.weighed
    told = f"{use.daily_loss_ml:.0f} mL a pot and day at {use.eto_mm:.1f} mm ETo"
    if use.pots_weighed is not None:
        told += f", mean of {use.pots_weighed}"
    when = "" if use.on is None else f" on {use.on}"
    said = f"weighing{when}: {told}"
    made = {"kc": weighed_kc(use, zone.pots), "weighed": None}
    return plant.model_copy(update={**made, "kc_from": plant.kc_from or said})
