"""How our code computes each row of `et_checks.csv`, by the pattern of its id."""

import csv
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

from scheduler.need import air, sun
from scheduler.need.capture import pot_volume_ml
from scheduler.need.forecast import negligible_rain_mm
from scheduler.need.penman_monteith import penman_monteith_eto_mm_per_day
from scheduler.need.reference_et import (
    hargreaves_eto_mm_per_day,
    reference_et,
)
from scheduler.need.weather import Weather, filled
from scheduler.record import DailySeries
from scheduler.root_zone import balance, rain
from scheduler.root_zone.storage import Storage, zone_storage
from scheduler.site import Place, Plant, Pots, Soil, Zone
from scheduler.trace import Trace
from scheduler.units import MM_PER_INCH
from tests.checks.plant_computed import PLANT
from tests.checks.salt_computed import SALT

Inputs = dict[str, Any]
Computed = Callable[[Inputs], Any]

with (Path(__file__).parent / "et_checks.csv").open(encoding="utf-8", newline="") as f:
    ROWS = {row["id"]: row for row in csv.DictReader(f)}

# --- chapter 3 --------------------------------------------------------------


def _ra(i: Inputs) -> Any:
    return sun.extraterrestrial_radiation_mj_per_m2_day(i["lat_deg"], i["doy"])


def _rso(i: Inputs) -> Any:
    return sun.clear_sky_radiation_mj_per_m2_day(
        _ra(i), elevation_m=i.get("elev_m", 0.0)
    )


def _pressure(i: Inputs) -> Any:
    return air.atmospheric_pressure_kpa(i["elev_m"])


def _gamma(i: Inputs) -> Any:
    return air.psychrometric_constant(_pressure(i))


def _es(i: Inputs) -> Any:
    return air.mean_saturation_vapour_pressure_kpa(i["tmax_c"], i["tmin_c"])


def _ea(i: Inputs) -> Any:
    if "ea_kpa" in i:
        return i["ea_kpa"]
    return air.vapour_pressure_from_extremes_kpa(
        i["tmax_c"],
        i["tmin_c"],
        rh_max=i["rhmax_pct"] / 100,
        rh_min=i["rhmin_pct"] / 100,
    )


def _daylight(i: Inputs) -> Any:
    return sun.daylight_h(i["lat_deg"], i["doy"])


def _rs(i: Inputs) -> Any:
    """Radiation by whatever the example gives."""
    if "rs_mj" in i:
        return i["rs_mj"]
    if "krs" in i:
        return sun.temperature_radiation_mj_per_m2_day(
            i["tmax_c"],
            i["tmin_c"],
            extraterrestrial_mj_per_m2_day=_ra(i),
            krs=i["krs"],
        )
    hours = i["n_h"] if "n_h" in i else i["n_h_per_month"] / i["days"]
    return sun.sunshine_radiation_mj_per_m2_day(
        hours, daylight_h=_daylight(i), extraterrestrial_mj_per_m2_day=_ra(i)
    )


def _rns(i: Inputs) -> Any:
    return sun.net_shortwave_mj_per_m2_day(_rs(i))


def _rnl(i: Inputs) -> Any:
    return sun.net_longwave_mj_per_m2_day(
        i["tmax_c"],
        i["tmin_c"],
        vapour_pressure_kpa=_ea(i),
        radiation_mj_per_m2_day=_rs(i),
        clear_sky_mj_per_m2_day=i.get("rso_mj") or _rso(i),
    )


def _rn(i: Inputs) -> Any:
    return _rns(i) - _rnl(i)


def _u2(i: Inputs) -> Any:
    speed = i["uz_ms"] if "uz_ms" in i else i["uz_kmh"] / 3.6
    return air.wind_at_2m_m_per_s(speed, height_m=i.get("z_m") or i["zw_m"])


def _mean_slope(i: Inputs) -> Any:
    return air.vapour_pressure_slope((i["tmax_c"] + i["tmin_c"]) / 2)


# --- chapter 4 --------------------------------------------------------------


def _eto(i: Inputs, *, is_tall: bool = False) -> Any:
    return penman_monteith_eto_mm_per_day(
        tmax_degc=i["tmax_c"],
        tmin_degc=i["tmin_c"],
        vapour_pressure_kpa=_ea(i),
        radiation_mj_per_m2_day=_rs(i),
        wind_2m_m_per_s=i["u2_ms"] if "u2_ms" in i else _u2(i),
        latitude_deg=i["lat_deg"],
        elevation_m=i["elev_m"],
        day_of_year=i["doy"],
        is_tall=is_tall,
    )


def _eto_of_the_month(i: Inputs) -> Any:
    # The adapter is for days, whose soil heat flux is 0. The example is a month with
    # G 0.14 MJ/m2/day as printed; its share of equation 6 comes off here.
    slope = _mean_slope(i)
    below = slope + _gamma(i) * (1 + 0.34 * i["u2_ms"])
    return _eto(i) - sun.evaporation_equivalent_mm_per_day(0.14) * slope / below


def _only_temperatures(i: Inputs) -> Weather:
    """Weather as the rules for missing data leave it, through the product's door."""
    day = np.array(["2025-01-01"], dtype="datetime64[D]") + i["doy"] - 1
    none = np.array([np.nan])
    series = DailySeries(
        name="example",
        where="example.csv",
        is_typical_year=False,
        wind_height_m=2.0,
        latitude_deg=i["lat_deg"],
        elevation_m=i["elev_m"],
        date=day,
        tmax_degc=np.array([i["tmax_c"]]),
        tmin_degc=np.array([i["tmin_c"]]),
        rh_max=none,
        rh_min=none,
        rh_mean=none,
        dew_point_degc=none,
        vapour_pressure_kpa=none,
        radiation_mj_per_m2_day=none,
        sunshine_h=none,
        wind_m_per_s=np.array([i.get("u2_ms", np.nan)]),
        rain_mm=none,
        eto_mm_per_day=none,
    )
    place = Place(
        latitude_deg=i["lat_deg"],
        longitude_deg=4.8,
        elevation_m=i["elev_m"],
        time_zone="UTC",
    )
    return filled(series, place)[0]


def _filled_eto(i: Inputs) -> Any:
    return reference_et(_only_temperatures(i))[0].eto_mm_per_day


def _with_filled_ea(i: Inputs) -> Inputs:
    return {**i, "ea_kpa": _only_temperatures(i).vapour_pressure_kpa}


def _hargreaves(i: Inputs) -> Any:
    return hargreaves_eto_mm_per_day(
        tmax_degc=i["tmax_c"],
        tmin_degc=i["tmin_c"],
        latitude_deg=i["lat_deg"],
        day_of_year=i["doy"],
    )


# --- pots -------------------------------------------------------------------


def _litres_as_depth_m(i: Inputs) -> Any:
    pots = Pots(top_diameter_mm=1000 * (4 * i["area_m2"] / np.pi) ** 0.5)
    return i["litres"] * 1000 / pot_volume_ml(1.0, pots) / 1000


# --- chapter 8 --------------------------------------------------------------


def _storage(i: Inputs) -> Storage:
    soil = Soil(
        field_capacity=i["theta_fc"],
        wilting_point=i["theta_wp"],
        root_depth_m=i["zr_m"],
        allowed_depletion=i["p"],
    )
    zone = Zone(
        id="Z1",
        name="example",
        area_m2=100.0,
        grown_in="soil",
        plant=Plant(name="crop", kc=1.0, kc_area="bed"),
        soil=soil,
    )
    storage, _ = zone_storage(zone)
    assert storage is not None
    return storage


def _ks(i: Inputs) -> Any:
    return balance.stress_ks(i["dr"], total_mm=i["taw"], allowed_mm=i["raw"])


def _dry_down(i: Inputs) -> list[tuple[float, float, float]]:
    """Ks, adjusted ETc and depletion at the end of each day up to the asked one."""
    storage, days = _storage(i), []
    depletion = np.array([float(i["dr_initial_mm"])])
    for _ in range(i["day"]):
        ks = balance.stress_ks(
            depletion, total_mm=storage.total_mm, allowed_mm=storage.allowed_mm
        )
        day = balance.balance_day(
            depletion,
            etc_mm=i["eto_mm_d"] * i["kc"],
            rain_mm=0.0,
            watering_mm=np.zeros(1),
            storage=storage,
        )
        depletion = day.depletion_mm
        days.append((float(ks[0]), float(day.etc_mm[0]), float(depletion[0])))
    return days


def _wet_down(i: Inputs, n_days: int) -> balance.BalanceDay:
    """Last day of example 38; the root zone deepens from day to day."""
    case = json.loads(ROWS["fao56_ex38_d1_dr_end"]["inputs_json"])
    depletion = np.array([23.0])
    for d in range(n_days):
        storage = _storage({**case, "zr_m": case["zr_m"][d]})
        day = balance.balance_day(
            depletion,
            etc_mm=case["etc_mm_d"][d],
            rain_mm=case["rain_mm"][d],
            watering_mm=np.array([float(case["irrigation_mm"][d])]),
            storage=storage,
        )
        depletion = day.depletion_mm
    return day


def _refill(i: Inputs) -> Any:
    """Largest depth that still stays in the root zone."""
    much = 100.0
    day = balance.balance_day(
        np.array([float(i["dr_start_mm"])]),
        etc_mm=0.0,
        rain_mm=0.0,
        watering_mm=np.array([much]),
        storage=Storage(45.0, float(i["raw_mm"]), Trace("total_mm", 45.0, "", "test")),
    )
    return much - day.percolation_mm


def _scs_month(i: Inputs) -> Any:
    unit, per = ("in", MM_PER_INCH) if "p_in" in i else ("mm", 1.0)
    month = rain.scs_month_rain_mm(
        i[f"p_{unit}"] * per,
        month_etc_mm=i[f"etc_{unit}"] * per,
        storage_mm=i[f"d_{unit}"] * per,
    )
    return month / per


COMPUTED: dict[str, Computed] = {
    "*_ex02_P": _pressure,
    "*_ex02_gamma": _gamma,
    "*_ex03_e0min": lambda i: air.saturation_vapour_pressure_kpa(i["t_c"]),
    "*_ex03_es": _es,
    "*_ex05_ea_rhmaxmin": _ea,
    "*_ex05_ea_rhmean": lambda i: air.vapour_pressure_from_rh_mean_kpa(
        i["tmax_c"], i["tmin_c"], rh_mean=i["rhmean_pct"] / 100
    ),
    "*_ex06_vpd": lambda i: _es(i) - _ea(i),
    "*_ex08_dr": lambda i: sun.inverse_relative_distance(i["doy"]),
    "*_ex08_ws": lambda i: sun.sunset_hour_angle(i["lat_deg"], i["doy"]),
    "*_ex08_Ra": _ra,
    "*_ex08_Ra_mm": lambda i: sun.evaporation_equivalent_mm_per_day(_ra(i)),
    "*_ex09_N": _daylight,
    "*_ex10_N": _daylight,
    "*_ex10_Rs": _rs,
    "*_ex10_Rs_mm": lambda i: sun.evaporation_equivalent_mm_per_day(i["rs_mj"]),
    "*_ex11_Rnl": _rnl,
    "*_ex12_Rns": _rns,
    "*_ex14_factor": lambda i: air.wind_height_factor(i["z_m"]),
    "*_ex14_u2": _u2,
    "*_ex16_Rs": _rs,
    "*_ex16_Rn": _rn,
    "*_ex1[78]_gamma": _gamma,
    "*_ex1[78]_es": _es,
    "*_ex1[78]_Ra": _ra,
    "*_ex1[78]_N": _daylight,
    "*_ex1[78]_Rs": _rs,
    "*_ex1[78]_Rns": _rns,
    "*_ex1[78]_Rnl": _rnl,
    "*_ex1[78]_Rn": _rn,
    "*_ex17_ETo": _eto_of_the_month,
    "*_ex18_u2": _u2,
    "*_ex18_P": _pressure,
    "*_ex18_delta": _mean_slope,
    "*_ex18_e0max": lambda i: air.saturation_vapour_pressure_kpa(i["tmax_c"]),
    "*_ex18_ea": _ea,
    "*_ex18_vpd": lambda i: _es(i) - _ea(i),
    "*_ex20_ea": lambda i: _only_temperatures(i).vapour_pressure_kpa,
    "*_ex20_es": _es,
    "*_ex20_Ra": _ra,
    "*_ex20_Rs": lambda i: _only_temperatures(i).radiation_mj_per_m2_day,
    "*_ex20_Rso": _rso,
    "*_ex20_Rnl": lambda i: _rnl(_with_filled_ea(i)),
    "*_ex20_Rn": lambda i: _rn(_with_filled_ea(i)),
    "*_ex20_ETo": _filled_eto,
    "*_ex20_ETo_u3": _filled_eto,
    "*_ex20_hargreaves": _hargreaves,
    "*_ex36_*_TAW": lambda i: _storage(i).total_mm,
    "*_ex36_*_RAW": lambda i: _storage(i).allowed_mm,
    "*_ex37_TAW": lambda i: _storage(i).total_mm,
    "*_ex37_RAW": lambda i: _storage(i).allowed_mm,
    "*_ex37_*_ks": lambda i: _dry_down(i)[-1][0],
    "*_ex37_*_etcadj": lambda i: _dry_down(i)[-1][1],
    "*_ex37_*_dr_end": lambda i: _dry_down(i)[-1][2],
    "*_ex38_RAW_d1": lambda i: _storage(i).allowed_mm,
    "*_ex38_*_dr_end": lambda i: _wet_down(i, i["day"]).depletion_mm,
    "*_ex38_d1_DP": lambda i: _wet_down(i, 1).percolation_mm,
    "*_ex38_d10_irrigation": _refill,
    "*_ex39_*_nosalt": _ks,
    **SALT,
    **PLANT,
    "fao56_ignore_rain": lambda i: negligible_rain_mm(i["eto_mm_d"]),
    "scs_sf_*": lambda i: rain.scs_storage_factor(i["d_in"] * MM_PER_INCH),
    "scs_pe_*": _scs_month,
    "scs_simple_*": lambda i: rain.scs_simplified_month_rain_mm(i["p_mm"]),
    "fao_tm3_*": lambda i: rain.fao_manual_3_month_rain_mm(i["p_mm_month"]),
    "dependable_*": lambda i: rain.dependable_month_rain_mm(i["p_mm_month"]),
    "tx_daily_*": lambda i: (
        rain.agrilife_event_rain_mm(i["p_in"] * MM_PER_INCH) / MM_PER_INCH
    ),
    "beeson_depth_*": _litres_as_depth_m,
    "asce_daily_*_Rso": _rso,
    "asce_daily_*_Rn": _rn,
    "asce_daily_*_ETos": _eto,
    "asce_daily_*_ETrs": lambda i: _eto(i, is_tall=True),
    "asce_greeley_P": _pressure,
    "asce_greeley_gamma": _gamma,
    "fallon_daily_u2": _u2,
}
