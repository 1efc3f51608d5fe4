"""A field of a noun and a key in; a value that the field could hold, as typed, out."""

import datetime as dt

from scheduler.files.noun_fields import NounField, wants
from scheduler.files.toml_says import quoted
from scheduler.units import converted

# Usual sizes, each in the field's own unit (common practice, no source). A field that
# stands in neither table is a share where 1 is the most it takes, or a small number.
_BY_NAME: dict[str, float] = {
    "kc": 0.9, "kc_by_month": 0.9, "kc_factor": 1.1, "kc_initial": 0.4, "kc_mid": 1.05,
    "kc_end": 0.6, "species_factor": 0.5, "microclimate_factor": 1.1,
    "canopy_width_m": 0.6, "spacing_m": 0.9, "row_spacing_m": 0.9, "gap_m": 0.3,
    "height_m": 0.6, "wind_height_m": 2, "root_depth_m": 0.3, "root_spread_m": 0.6,
    "top_diameter_mm": 250, "mouth_mm": 110, "nozzle_mm": 4, "suction_mm": 110,
    "season_need_mm": 600, "readily_evaporable_mm": 9, "capture_factor": 1.2,
    "available_water_ml": 1500, "daily_loss_ml": 450, "substrate_volume_ml": 6000,
    "container_capacity": 0.6, "unavailable_water": 0.25, "allowed_depletion": 0.3,
    "leaching_target": 0.15, "field_capacity": 0.27, "wilting_point": 0.12,
    "moisture_deficit": 0.15, "slope": 0.04, "family": 0.5, "cut": 0.2,
    "structure_factor": 0.8, "alfalfa_over_grass": 1.2, "interest": 0.05,
    "price_within": 0.1, "water_price_within": 0.1, "energy_price_within": 0.1,
    "grant_share": 0.4, "latitude_deg": 40.25, "longitude_deg": -85.5,
    "row_bearing_deg": 90, "elevation_m": 250, "rise_m": 1.5, "block_length_m": 60,
    "block_width_m": 40, "throw_m": 12, "head_m": 35, "minutes": 30,
    "fixed_minutes": 20, "seconds": 30, "life_years": 12, "heads": 24,
    "price_money": 1200, "repairs_money_a_year": 150, "labour_saved_hours_a_year": 40,
    "fertilizer_saved_money_a_year": 200, "plant_losses_saved_money_a_year": 300,
    "start": 48213, "stop": 48690, "test_every_months": 12, "percent_adjust": 100,
    "percent_step": 10, "stations": 12, "digits": 6, "initial": 20, "development": 30,
    "mid": 60, "late": 30, "initial_days": 20, "development_days": 30, "mid_days": 60,
    "late_days": 30, "nitrogen_price_money_per_kg": 1.4,
    "energy_price_money_per_kwh": 0.15,
}  # fmt: skip
_BY_UNIT: dict[str, float] = {
    "mm": 5, "m": 1.2, "km": 4, "cm2": 95, "m2": 400, "ml": 250, "l": 10, "m3": 40,
    "mm_per_h": 12.5, "l_per_min": 40, "kpa": 300, "m_per_s": 2, "min": 10, "per_h": 2,
    "ds_per_m": 0.8, "money_per_m3": 0.9, "money_per_kwh": 0.15, "money_per_m": 2.5,
    "money_per_h": 25, "money_per_kw": 8, "mg_per_l": 20,
}  # fmt: skip
_SHARE, _SMALL = 0.75, 2.0


def number_example(field: NounField, suffix: str) -> str:
    """A number that a field could hold, in the unit that was typed.

    Parameters
    ----------
    field : NounField
        The field.
    suffix : str
        The unit of the key, one of the field's measure; empty for a bare number.

    Returns
    -------
    str
        As TOML writes it; a list where the field is one.

    Examples
    --------
    >>> from scheduler.files.noun_fields import fields_of
    >>> from scheduler.site import Plant, Zone
    >>> number_example(fields_of(Plant)["kc"], "")
    '0.9'
    >>> number_example(fields_of(Zone)["area_m2"], "ft2")
    '4300'
    """
    share_or_small = _SHARE if field.at_most == 1.0 else _SMALL
    size = _BY_NAME.get(field.name, _BY_UNIT.get(field.suffix, share_or_small))
    if suffix != field.suffix:  # two figures are enough in another unit
        size = float(f"{converted(size, field.suffix, to=suffix):.2g}")
    text = f"{size:.12f}".rstrip("0").rstrip(".")  # TOML as people write it: no 1e-05
    return (
        f"[{', '.join([text] * max(1, field.at_least_n))}]" if field.is_list else text
    )


def typed_example(field: NounField, suffix: str) -> str:
    """A value of any kind that a field could hold, as TOML writes it.

    Parameters
    ----------
    field : NounField
        The field.
    suffix : str
        The unit of the key where it is a number; else empty.

    Returns
    -------
    str
        Its first choice, a number of usual size, or a text of its kind.

    Examples
    --------
    >>> from scheduler.files.noun_fields import fields_of
    >>> from scheduler.site import Window
    >>> typed_example(fields_of(Window)["start"], "")
    '"05:30"'
    """
    if field.choices:
        word = quoted(field.choices[0])
        return f"[{word}]" if field.is_list else word
    if wants(field, float, int):
        return number_example(field, suffix)
    kind = next((kind for kind in _WORDS if wants(field, kind)), str)
    text = _WORDS.get(kind, '"..."')
    return f"[{text}]" if field.is_list else text


_WORDS: dict[type, str] = {
    bool: "true",
    dt.time: '"05:30"',
    dt.datetime: "2026-05-12T05:40:00",
    dt.date: "2026-05-12",
}
