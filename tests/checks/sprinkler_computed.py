"""How our code computes each row of `sprinkler_checks.csv`, by the pattern of its id.

Rooms are imported inside the functions: a row then fails by itself, not all at once.
"""

import csv
from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

import numpy as np

from scheduler.arrays import FloatArray
from scheduler.field.bell import cv_from_low_quarter
from scheduler.field.catch import caught_depth_mm, gross_rate_mm_per_h
from scheduler.field.hydraulics import laws
from scheduler.field.uniformity import (
    low_quarter_rounded,
    low_quarter_uniformity,
    uniformity,
)
from scheduler.need import leaching
from scheduler.record import CanRun, CanUnit, Code
from scheduler.units import L_PER_US_GALLON, MM_PER_INCH, converted
from tests.checks.intake_computed import INTAKE
from tests.checks.patterns_computed import PATTERNS

Inputs = dict[str, Any]
Computed = Callable[[Inputs], float]

CM2_PER_IN2 = converted(1.0, "in2", to="cm2")
M2_PER_FT2 = converted(1.0, "ft2", to="m2")
M_PER_FOOT = converted(1.0, "ft", to="m")

_FILE = Path(__file__).parent / "sprinkler_checks.csv"
with _FILE.open(encoding="utf-8", newline="") as f:
    ROWS = {row["id"]: row for row in csv.DictReader(f)}

# --- cans and rates -----------------------------------------------------------


def _net_mm_per_h(
    readings: list[float], unit: CanUnit, minutes: float, mouth_cm2: float | None = None
) -> float:
    """Net rate as the whole way from readings gives it."""
    from scheduler.field.catch import catch

    names = tuple(f"A{i}" for i in range(1, len(readings) + 1))
    none: tuple[Code, ...] = ("",)
    run = CanRun(
        "run1", "run1.csv", np.array([readings]), (none * len(readings),), (names,),
        unit, minutes,
    )  # fmt: skip
    rate = catch(run, mouth_area_cm2=mouth_cm2).net_rate_mm_per_h
    assert rate is not None
    return rate


def _rate_in_per_h(i: Inputs) -> float:
    mouth = i["throat_in2"] * CM2_PER_IN2
    return _net_mm_per_h([i["V_mL"]] * 4, "ml", i["minutes"], mouth) / MM_PER_INCH


def _one_ml_on_one_square_inch(_: Inputs) -> float:
    return _net_mm_per_h([1.0] * 4, "ml", 1.0, CM2_PER_IN2) / MM_PER_INCH


def _gallons(depth_mm: float, area_m2: float) -> float:
    return depth_mm * area_m2 / L_PER_US_GALLON


def _cup_depth_in(i: Inputs) -> float:
    mouth = _cup_mouth_in2(i) * CM2_PER_IN2
    return float(caught_depth_mm(i["V_mL"], mouth_area_cm2=mouth)) / MM_PER_INCH


def _cup_mouth_in2(i: Inputs) -> float:
    # the volume of one inch stands as many inches deep on one square inch
    deep = float(caught_depth_mm(i["mL_per_inch"], mouth_area_cm2=CM2_PER_IN2))
    return deep / MM_PER_INCH


def _pans_mm_per_h(i: Inputs) -> float:
    each = i["sum_mm"] / i["n"]
    return _net_mm_per_h([each] * i["n"], "mm", 60 * i["hours"])


def _four_cans_in_per_h(i: Inputs) -> float:
    return _net_mm_per_h(i["depths_in"], "in", i["minutes"]) / MM_PER_INCH


# --- uniformity -----------------------------------------------------------------


def _cans(i: Inputs) -> FloatArray:
    return np.array(i["catches_mL"], dtype=np.float64)


def _population_cv(i: Inputs) -> float:
    n = _cans(i).size
    return uniformity(_cans(i)).cv * float(np.sqrt((n - 1) / n))


def _rounded(how: Literal["floor", "ceil"]) -> Computed:
    return lambda i: low_quarter_rounded(_cans(i), how)


def _low_quarter(i: Inputs) -> float:
    return float(low_quarter_uniformity(_cans(i)))


# The CV at which a bell-shaped catch has a DU of 0; in between DU = 1 - CV / CV_AT_0.
CV_AT_0 = cv_from_low_quarter(0.0)


def _normal_du(cv: float) -> float:
    return 1.0 - cv / CV_AT_0


def _normal_deviation(cv: float) -> float:
    """Mean absolute deviation of a bell-shaped catch: below the mean and above it."""
    from scheduler.watering.bell_shaped import normal_deficit, normal_excess

    return normal_deficit(1.0, cv=cv) + normal_excess(1.0, cv=cv)


N_TRIALS = 40_000  # moves the spread by about 0.0002, a seventh of the tolerance


def _simulated(i: Inputs) -> FloatArray:
    """DU of many tests of independent, bell-shaped cans."""
    rng = np.random.default_rng((17, i["N"]))
    depth = rng.normal(1.0, i["CV"], (N_TRIALS, i["N"]))
    return low_quarter_uniformity(np.maximum(depth, 0.0))


def _bias(i: Inputs) -> float:
    return float(_simulated(i).mean()) - _normal_du(i["CV"])


# --- run time -------------------------------------------------------------------


def _low_quarter_factor(i: Inputs) -> float:
    from scheduler.watering.run_time import rule_factor

    return rule_factor("low quarter", du_lq=i["DUlq"])


def _low_half_factor(i: Inputs) -> float:
    """From the measured low half where the row has one, else by the formula."""
    from scheduler.watering.run_time import rule_factor

    return rule_factor("low half", du_lq=i.get("DUlq"), du_lh=i.get("DUlh"))


def _minutes_per_day(i: Inputs) -> float:
    """The example divides the need by an efficiency and uses the gross rate."""
    from scheduler.watering.run_time import rule_outcomes

    width, length = i["spacing_ft"]
    gross = gross_rate_mm_per_h(
        i["gpm_full_circle"] * L_PER_US_GALLON,
        area_per_head_m2=width * length * M_PER_FOOT**2,
    )
    even = rule_outcomes(
        need_mm=i["ETo_in_per_day"] * MM_PER_INCH / i["efficiency"],
        share=np.ones(4),
        net_rate_mm_per_h=gross,
        n_events=1,
        share_served=0.9,
        du_lq=1.0,
        du_lh=1.0,
    )
    return even[0].minutes_per_day


def _adequacy(i: Inputs) -> float:
    from scheduler.watering.bell_shaped import normal_factor

    return normal_factor(i["CV"], share_served=i["adequacy"])


def _served_by_low_quarter(i: Inputs) -> float:
    from scheduler.watering.bell_shaped import normal_served
    from scheduler.watering.run_time import rule_factor

    factor = rule_factor("low quarter", du_lq=_normal_du(i["CV"]))
    return normal_served(factor, cv=i["CV"])


def _normal_loss(name: str) -> Computed:
    def computed(i: Inputs) -> float:
        from scheduler.watering import bell_shaped

        loss: float = getattr(bell_shaped, name)(i["M"], cv=i["CV"])
        return loss

    return computed


def _extra_gallons(rule: Any) -> Computed:
    def computed(i: Inputs) -> float:
        from scheduler.watering.run_time import rule_factor

        poor, good = (rule_factor(rule, du_lq=du) for du in i["DU"])
        depth_mm = i["need_in"] * MM_PER_INCH * (poor - good)
        return _gallons(depth_mm, i["area_ft2"] * M2_PER_FT2)

    return computed


def _interval_days(i: Inputs) -> float:
    from scheduler.root_zone.storage import zone_storage
    from scheduler.site import Plant, Soil, Zone

    plant = Plant(name="turf", kc=i["Kc"], kc_area="bed")
    wilting = 0.1  # only the difference to field capacity matters
    soil = Soil(
        field_capacity=wilting + i["AWHC_in_per_ft"] / 12,
        wilting_point=wilting,
        root_depth_m=i["root_ft"] * M_PER_FOOT,
        allowed_depletion=i["MAD"],
    )
    zone = Zone(
        id="1", name="turf", area_m2=1.0, grown_in="soil", plant=plant, soil=soil
    )
    storage, _ = zone_storage(zone)
    assert storage is not None
    use_mm: float = i["ETo_in_day"] * MM_PER_INCH * i["Kc"]
    return storage.allowed_mm / use_mm


# --- pots -------------------------------------------------------------------------


def _interception(
    diameter_mm: float, spacing_m: float, row_m: float | None, pattern: Any = "square"
) -> float:
    from scheduler.need.pot_layout import interception_share
    from scheduler.site import Pots

    pots = Pots(
        top_diameter_mm=diameter_mm,
        spacing_m=spacing_m,
        row_spacing_m=row_m,
        pattern=pattern,
    )
    share = interception_share(pots)
    assert share is not None
    return share


def _pots_on_feet(i: Inputs) -> float:
    along, across = (one * M_PER_FOOT for one in i["spacing_ft"])
    return _interception(i["container_top_in"] * MM_PER_INCH, along, across)


# --- pressure and flow --------------------------------------------------------


def _nozzle_gpm(i: Inputs) -> float:
    flow = laws.nozzle_flow_l_per_min(
        i["d_in"] * MM_PER_INCH, pressure_kpa=converted(i["P_psi"], "psi", to="kpa")
    )
    return flow / L_PER_US_GALLON


def _pressure_change_pct(i: Inputs) -> float:
    return 100 * (laws.pressure_ratio(1 + i["flow_change_pct"] / 100) - 1)


COMPUTED: dict[str, Computed] = {
    **PATTERNS,
    **INTAKE,
    "QP-*": lambda i: laws.flow_ratio(i["P_ratio"]),
    "PUB-QP": _pressure_change_pct,
    "PUB-NOZ-1": _nozzle_gpm,
    "PR-INX-*": _rate_in_per_h,
    "PR-SI-*": lambda i: _net_mm_per_h(
        [i["V_mL"]] * 4, "ml", i["minutes"], i["throat_cm2"]
    ),
    "CONST-2": _one_ml_on_one_square_inch,
    "CONST-3": lambda _: _gallons(MM_PER_INCH, M2_PER_FT2),
    "CONST-5": lambda _: gross_rate_mm_per_h(60.0, area_per_head_m2=1.0),
    "PUB-CAN-1": _cup_depth_in,
    "PUB-CAN-1b": _cup_mouth_in2,
    "PUB-CAN-2": _pans_mm_per_h,
    "PUB-CAN-3": _four_cans_in_per_h,
    "PUB-NURS-3": lambda i: converted(i["in_per_h"], "in_per_h", to="mm_per_h") / 10,
    "SYN16-mean": lambda i: float(
        # a mouth of 10 cm2 turns each millilitre into a millimetre
        _net_mm_per_h(i["catches_mL"], "ml", 60.0, 10.0)
    ),
    "SYN16-DUlh": lambda i: uniformity(_cans(i)).du_lh,
    "SYN16-CU": lambda i: uniformity(_cans(i)).cu,
    "SYN16-CV": lambda i: uniformity(_cans(i)).cv,
    "SYN16-CVp": _population_cv,
    "SYN16-statisticalU": lambda i: 1.0 - uniformity(_cans(i)).cv,
    "SYN18-floor": _rounded("floor"),
    "SYN18-ceil": _rounded("ceil"),
    "SYN18-fractional": _low_quarter,
    "SYN-EQ": _low_quarter,
    "REL-1": lambda _: _normal_deviation(0.2) / (1.0 - _normal_du(0.2)),
    "REL-2": lambda _: 1.0 / CV_AT_0,
    "REL-3": lambda _: _normal_deviation(0.2) / 0.2,
    "REL-4": lambda i: 1.0 - _normal_deviation(cv_from_low_quarter(i["DUlq"])),
    "UNC-*-sd": lambda i: float(_simulated(i).std(ddof=1)),
    "UNC-*-bias": _bias,
    "PUB-RUN-*": _minutes_per_day,
    "RTM-[0-9]*": _low_half_factor,
    "RTMLQ-*": _low_quarter_factor,
    "RTM-WARN": _low_half_factor,
    "ADEQ-[0-9]*": _adequacy,
    "ADEQ-LQ": _served_by_low_quarter,
    "ADEQ-DEF": _normal_loss("normal_deficit"),
    "ADEQ-DP": _normal_loss("normal_excess"),
    "COST-1": _extra_gallons("low half"),
    "COST-2": _extra_gallons("low quarter"),
    "LF-1": lambda i: leaching.leaching_fraction(i["leachate_mL"], i["retained_mL"]),
    "LF-2": lambda i: leaching.minutes_for_target(
        i["old_min"], leaching=i["LF"], target=i["LF_target"]
    ),
    "CF-1": lambda i: leaching.measured_capture_factor(
        i["with_plant_mL"], i["empty_mL"]
    ),
    "PUB-INT-1": _interval_days,
    "PUB-IE-1x": _pots_on_feet,
    "IE-SQ": lambda i: _interception(1000 * i["d"], i["Sx"], i["Sy"]),
    "IE-TRI": lambda i: _interception(1000 * i["d"], i["S"], None, "offset"),
    "IE-TRI2": lambda i: _interception(
        10 * i["d_cm"], i["S_cm"] / 100, None, "offset"
    ),
}  # fmt: skip
