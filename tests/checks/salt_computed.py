"""How our code computes the salinity rows of `et_checks.csv`."""

from collections.abc import Callable
from typing import Any

from scheduler.need import salinity
from scheduler.units import MM_PER_INCH

Inputs = dict[str, Any]
Computed = Callable[[Inputs], Any]


def _salt_ks(i: Inputs) -> float:
    return salinity.salt_stress_ks(
        i["ece"],
        threshold_ds_per_m=i["ece_threshold"],
        loss_per_ec=i["b"] / 100.0,
        ky=i["ky"],
    )


def _water_and_salt_ks(i: Inputs) -> Any:
    return salinity.water_and_salt_ks(
        i["dr"], total_mm=i["taw"], allowed_mm=i["raw"], salt_ks=_salt_ks(i)
    )


def _requirement(i: Inputs) -> float:
    return salinity.leaching_requirement(i["ecw"], i["ece"])


def _requirement_of_table(crop: str) -> Computed:
    """From the packaged table's threshold, not from the row's."""
    return lambda i: salinity.leaching_requirement(
        i["ecw"], salinity.salt_tolerance(crop).threshold_low
    )


def _applied_in(i: Inputs) -> float:
    et_mm = i["et_in"] * MM_PER_INCH
    return salinity.depth_with_leaching_mm(et_mm, leaching=i["lr"]) / MM_PER_INCH


SALT: dict[str, Computed] = {
    "*_ex39_ECe": lambda i: salinity.soil_ec_ds_per_m(i["ec_iw"], leaching=i["lf"]),
    "*_ex39_Ks0": _salt_ks,
    "*_ex39_*_salt": _water_and_salt_ks,
    "lr_avocado": _requirement,
    "lr_avocado_water": _applied_in,
    "lr_fao29_ex2": _requirement,
    "lr_fao29_ex2_aw": lambda i: salinity.depth_with_leaching_mm(
        i["et_mm"], leaching=i["lr"]
    ),
    **{
        f"lr_{crop}": _requirement_of_table(crop)
        for crop in ("strawberry", "bean", "lettuce", "bermudagrass")
    },
}
