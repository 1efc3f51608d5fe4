"""How our code computes the rows of patterns, and of drift and evaporation."""

from collections.abc import Callable
from typing import Any

import numpy as np

Inputs = dict[str, Any]


def _shape(i: Inputs) -> Any:
    from scheduler.field.profile import radial_profile

    part = np.sin(np.linspace(0.0, np.pi / 2, 500))
    is_ell = i.get("profile") == "ell"
    distance = part if is_ell else [0.0, 1.0]
    peak = i.get("peak", 1.0)
    rate = np.sqrt(1 - part**2).round(12) if is_ell else [peak, 0.0]
    return radial_profile(distance, rate, minutes=60)[0]


def _overlap(measure: str) -> Callable[[Inputs], float]:
    def computed(i: Any) -> float:
        from scheduler.field.overlap import pattern

        pct = i.get("spacing_pct_of_wetted_diameter", 60)
        x = i.get("Sx_pct", i.get("Sx_pct_of_wetted_diameter", pct)) / 50
        y = float(i.get("Sy_pct", i.get("Sy_pct_of_wetted_diameter", 0)))
        equal: Any = "triangular" if i.get("layout") == "equilateral" else "square"
        found = pattern(
            _shape(i),
            spacing_m=i.get("Sx", x),
            row_spacing_m=i.get("Sy", y / 50 if y else None),
            layout="rectangular" if y else equal,
            window_share=i.get("window_fraction", 0.05),
            steps=i["grid"] if isinstance(i.get("grid"), int) else None,
        )
        return float(getattr(found, measure))

    return computed


def _scheduling(i: Inputs) -> float:
    from scheduler.field.driest_window import driest_window

    wet = (4 * i["mean_mm_h"] - i["driest_mm_h"]) / 3
    grid = np.array([[i["driest_mm_h"], wet], [wet, wet]])
    found = driest_window(grid, window_rows=1, window_columns=1)
    return found.scheduling_coefficient if found else float("nan")


WDEL = {
    "E4": "Playan 4",
    "E5": "Playan 5",
    "E12": "Playan 12",
    "E13": "Playan 13",
    "E14": "Playan 14",
    "E15": "Playan 15",
    "TRIM": "Trimmer",
    "FACI91": "Faci and Bercero",
    "TARJ": "Tarjuelo",
    "FACI01": "Faci",
    "DECH": "Dechmi",
}


def _drift_pct(name: str) -> Callable[[Inputs], float]:
    def computed(i: Inputs) -> float:
        from scheduler.field.drift import Spraying, drift_range

        given = Spraying(
            wind_m_per_s=i.get("U_m_s", 3.0),
            rh=i["RH_pct"] / 100 if "RH_pct" in i else None,
            temperature_degc=i.get("T_C"),
            vapour_pressure_deficit_kpa=i.get("VPD_kPa"),
            pressure_kpa=i.get("P_kPa"),
            nozzle_mm=i.get("Dn_mm"),
        )
        found = drift_range(given, time_of_day="day")
        return 100 * next(one.loss for one in found.losses if one.name == name)

    return computed


def _portion(i: Inputs) -> float:
    from scheduler.field.drift import effective_portion

    return effective_portion(
        et_mm_per_day=i["ET_mm_d"],
        wind_m_per_s=i["wind_km_h"] / 3.6,
        coarseness=i["CI"],
    )


PATTERNS: dict[str, Callable[[Inputs], float]] = {
    "PUB-DENS-1": _overlap("mean_rate_mm_per_h"),
    "PUB-DENS-2": _overlap("cu"),
    "PUB-DENS-3": _overlap("du_lh"),
    "PUB-DENS-5": _overlap("lowest_rate_mm_per_h"),
    "DENS-*-CU": _overlap("cu"),
    "DENS-*-DU": _overlap("du_lq"),
    "DENS-5070-mean": _overlap("mean_rate_mm_per_h"),
    "DENS-5070-DUlh": _overlap("du_lh"),
    "DENS-5070-DUlq": _overlap("du_lq"),
    "DENS-MASS": lambda i: (  # mean of the grid itself
        _overlap("mean_rate_mm_per_h")(i) * (1 + _overlap("mass_balance_error")(i))
    ),
    "SC-*": _overlap("scheduling_coefficient"),
    "PUB-SC-1": _scheduling,
    # PUB-SC-2 is need / mean * SC: no code of ours
    **{f"WDEL-{key}": _drift_pct(name) for key, name in WDEL.items()},
    "KB-RE-*": _portion,
}
