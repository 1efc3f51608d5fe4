"""How our code computes the rows of intake, ponding and cycles."""

from collections.abc import Callable
from typing import Any

from scheduler.trace import entered
from scheduler.units import MM_PER_INCH

Inputs = dict[str, Any]


def _longest_min(i: Inputs) -> float:
    from scheduler.root_zone.intake import IntakeModel, longest_cycle_min

    model = IntakeModel(
        "constant intake",
        None,
        i["IR_in_h"] * MM_PER_INCH,
        i["ASA_in"] * MM_PER_INCH,
        entered("intake_mm_per_h", None),
    )
    return longest_cycle_min(model, i["PR_in_h"] * MM_PER_INCH)


def _split(total_min: float, longest_min: float) -> Any:
    from scheduler.root_zone.intake import IntakeModel
    from scheduler.watering.cycles import split

    seen = entered("first_runoff_min", longest_min)
    return split(
        total_min,
        model=IntakeModel("first runoff", longest_min, None, None, seen),
        wet_rate_mm_per_h=10.0,
        min_soak_min=60.0,
        rounding="nearest",
        max_cycles=None,
    )


def _cycle_minutes(i: Inputs) -> float:
    minutes: int = _split(i["total_min"], i["total_min"] / i["cycles"]).cycle_minutes
    return minutes


def _cycles(i: Inputs) -> float:
    cycles: int = _split(i["total_min"], i["max_cycle_min"]).cycles
    return cycles


# Texture of ours for each soil group of the USDA table.
TEXTURE: dict[str, Any] = {
    "coarse sand": "sand",
    "uniform light sandy loam": "sandy loam",
    "uniform silt loam": "silt loam",
    "heavy clay or clay loam": "clay loam",
}


def _max_rate_in_per_h(i: Inputs) -> float:
    from scheduler.root_zone.intake import usda_max_rate_mm_per_h
    from scheduler.site import Soil

    slopes, cover = i["slope_cover"].split()
    low, high = (float(one) for one in slopes.split("-"))
    soil = Soil(texture=TEXTURE[i["soil"]], slope=(low + high) / 200, cover=cover)
    rate = usda_max_rate_mm_per_h(soil)
    assert rate is not None
    # our table holds hundredths of a mm/h, the publication hundredths of an in/h
    return round(rate / MM_PER_INCH, 2)


def _horton_min(i: Inputs) -> float:
    from scheduler.root_zone.infiltration import Horton, ponding_min

    inch = MM_PER_INCH if i["rate_unit"] == "in/h" else 1.0
    soil = Horton(i["f0"] * inch, i["fc"] * inch, i["b_per_h"])
    return float(ponding_min(soil, i["P"] * inch))


def _green_ampt(i: Inputs) -> Any:
    from scheduler.root_zone.infiltration import GreenAmpt

    front_cm = i["psi_cm"] * (1.0 - i["Se"]) * i["theta_e"]
    return GreenAmpt(10.0 * i["K_cm_h"], 10.0 * front_cm)


def _green_ampt_min(i: Inputs) -> float:
    from scheduler.root_zone.infiltration import ponding_min

    return float(ponding_min(_green_ampt(i), 10.0 * i["rate_cm_h"]))


def _family_mm(i: Inputs) -> float:
    from scheduler.root_zone.infiltration import intake_family

    return float(intake_family(i["family"]).infiltrated_mm(i["T_min"] / 60.0))


INTAKE: dict[str, Callable[[Inputs], float]] = {
    "HUNG-*": _horton_min,
    "GA-*[0-9].[0-9]*": _green_ampt_min,
    "GA-CHOW-2": lambda i: _green_ampt_min(i) / 60.0,
    "GA-CHOW-3": lambda i: float(_green_ampt(i).infiltrated_mm(1.0)) / 10.0,
    "NRCS-*": _family_mm,
    "CYC-T-*": _longest_min,
    "CYC-N-1": _cycles,
    "CYC-N-2": _cycle_minutes,
    "PUB-CYC-[34]": _cycle_minutes,
    "USDA-*": _max_rate_in_per_h,
}
