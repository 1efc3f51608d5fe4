"""How our code computes the rows of crop coefficients, chapters 6 and 7."""

import csv
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.need.climate import Climate
from scheduler.need.crop import (
    Stages,
    depletion_part,
    kc_climate_adjusted,
    stage_curve_kc,
)
from scheduler.need.dual import (
    Skin,
    SkinDays,
    evaporation_coefficient,
    kc_max,
    skin_days,
    total_evaporable_mm,
)
from scheduler.need.landscape import landscape_coefficient
from scheduler.need.plant_kc import plant_kc
from scheduler.site import Plant

Inputs = dict[str, Any]

with (Path(__file__).parent / "et_checks.csv").open(encoding="utf-8", newline="") as f:
    _CASE = next(
        json.loads(row["inputs_json"])
        for row in csv.DictReader(f)
        if row["id"] == "fao56_ex35_d1_kr"
    )


def _adjusted_kc(i: Inputs) -> Any:
    return kc_climate_adjusted(
        i.get("kc_tab") or i["kcb_tab"],
        wind_2m_m_per_s=i["u2_ms"],
        rh_min=i["rhmin_pct"] / 100,
        height_m=i["h_m"],
    )


def _curve_kc(i: Inputs) -> Any:
    letter = "kcb" if "kcb_mid" in i else "kc"
    return stage_curve_kc(
        i["day"],
        Stages(*i["stages_d"]),
        kc_initial=i[f"{letter}_ini"],
        kc_mid=i[f"{letter}_mid"],
        kc_end=i[f"{letter}_end"],
    )


def _first_stage_etc(i: Inputs) -> Any:
    plant = Plant(name="crop", kc=i["kc_ini"], kc_area="bed")
    kc, _ = plant_kc(plant, Climate(()), "zone Z1")
    return kc.on(np.array(["2025-05-01"], "datetime64[D]")) * i["eto_mm_d"]


def _mixed(i: Inputs, *, is_drip: bool = False) -> Any:
    """Examples 33 and 34: Kcb + Ke where only part of the ground is wetted."""
    # under drip the wetted strip lies in the shade: FAO-56 p. 149
    wetted = i["fw"] * (1 - 2 / 3 * i["fc"]) if is_drip else i["fw"]
    ke = evaporation_coefficient(
        i["kr"],
        most=i["kcmax"],
        kcb=i["kcb"],
        wet_and_bare=min(1 - i["fc"], wetted),
    )
    return i["kcb"] + ke


def _dry_down(i: Inputs) -> tuple[SkinDays, FloatArray]:
    """Example 31: bare ground after heavy rain."""
    n, one = i["day"], np.ones(i["day"])
    days = skin_days(
        i["de_day1_start_mm"],
        water_mm=np.zeros(n),
        skin=Skin(i["tew_mm"], i["rew_mm"]),
        limits=(i["kcmax"] * one, i["kcb"] * one, i["few"] * one),
        eto_mm_per_day=i["eto_mm_d"] * one,
    )
    return days, (i["kcb"] + days.ke) * i["eto_mm_d"]


def _most(i: Inputs) -> FloatArray:
    return kc_max(
        i.get("kcb", 0.3),
        wind_2m_m_per_s=i["u2_ms"],
        rh_min=i["rhmin_pct"] / 100,
        height_m=i["h_m"],
    )


def _ten_days() -> tuple[SkinDays, FloatArray, FloatArray]:
    """Example 35: watered on day 1, rain on day 6; skin, Kc and ETc of ten days."""
    case = _CASE
    kcb, eto = np.array(case["kcb"]), np.array(case["eto_mm_d"])
    total = total_evaporable_mm(case["theta_fc"], case["theta_wp"])
    water = np.zeros(10)
    water[0] = case["irrigation_mm_day1"] / case["fw_irrig"]
    water[5] = case["rain_mm_day6"]
    # rain wets all of the ground, the watering before it 0.8 of it
    wetted = np.where(np.arange(10) < 5, case["fw_irrig"], 1.0)
    bare = np.minimum(np.array(case["one_minus_fc"]), wetted)
    days = skin_days(
        total,
        water_mm=water,
        skin=Skin(total, case["rew_mm"]),
        limits=(_most({**case, "kcb": kcb}), kcb, bare),
        eto_mm_per_day=eto,
    )
    return days, kcb + days.ke, (kcb + days.ke) * eto


def _of_ten(pick: Callable[[], FloatArray]) -> Callable[[Inputs], Any]:
    return lambda i: pick()[i.get("day", 1) - 1]


PLANT: dict[str, Callable[[Inputs], Any]] = {
    "*_ex27_*": _adjusted_kc,
    "*_box15_kcmid": _adjusted_kc,
    "*_ex29_kcbmid": _adjusted_kc,
    "*_ex28_*": _curve_kc,
    "*_ex30_*": _curve_kc,
    "*_ex24_etc": _first_stage_etc,
    "*_ex31_*_kr": lambda i: _dry_down(i)[0].reduction[-1],
    "*_ex31_*_de_end": lambda i: _dry_down(i)[0].depletion_mm[-1],
    "*_ex31_*_etc": lambda i: _dry_down(i)[1][-1],
    "*_ex33_kc": _mixed,
    "*_ex34_kc": lambda i: _mixed(i, is_drip=True),
    "*_ex35_kcmax": _most,
    "*_ex35_*_kr": _of_ten(lambda: _ten_days()[0].reduction),
    "*_ex35_*_ke": _of_ten(lambda: _ten_days()[0].ke),
    "*_ex35_*_de_end": _of_ten(lambda: _ten_days()[0].depletion_mm),
    "*_ex35_*_kc": _of_ten(lambda: _ten_days()[1]),
    "*_ex35_*_etc": _of_ten(lambda: _ten_days()[2]),
    "*_ex35_d1_dpe": lambda i: _ten_days()[0].drained_mm[0],
    "*_p_adjust*": lambda i: depletion_part(i["p_tab"], etc_mm_per_day=i["etc_mm_d"]),
    "kl_*": lambda i: landscape_coefficient(
        i["ks"], density_factor=i["kd"], microclimate_factor=i["kmc"]
    ),
}
