"""Pressure, flow and meter in; whether the water of a test adds up out.

Files: `laws` (square root, nozzle, rise), `measured`, `pressure`, `gross` (the best
known gross rate), `flow`, `meter`, `slips` (likely causes), `agreement`, `check`.
"""

from scheduler.field.hydraulics.agreement import Agreement
from scheduler.field.hydraulics.check import Hydraulics, hydraulics
from scheduler.field.hydraulics.flow import FlowCheck
from scheduler.field.hydraulics.gross import GrossRate, best_gross_rate, of_run
from scheduler.field.hydraulics.laws import (
    flow_at_pressure_l_per_min,
    nozzle_flow_l_per_min,
    pressure_of_rise_kpa,
    rate_at_pressure_mm_per_h,
)
from scheduler.field.hydraulics.meter import MeterCheck
from scheduler.field.hydraulics.pressure import PressureCheck

__all__ = [
    "Agreement",
    "FlowCheck",
    "GrossRate",
    "Hydraulics",
    "MeterCheck",
    "PressureCheck",
    "best_gross_rate",
    "flow_at_pressure_l_per_min",
    "hydraulics",
    "nozzle_flow_l_per_min",
    "of_run",
    "pressure_of_rise_kpa",
    "rate_at_pressure_mm_per_h",
]
