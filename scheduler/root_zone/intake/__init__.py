"""Soil or substrate in, how long water can run before it runs off out."""

from scheduler.root_zone.intake.limits import clearing_min, longest_cycle_min
from scheduler.root_zone.intake.model import IntakeModel, intake_model
from scheduler.root_zone.intake.usda import usda_max_rate_mm_per_h, usda_rate_limit

__all__ = [
    "IntakeModel",
    "clearing_min",
    "intake_model",
    "longest_cycle_min",
    "usda_max_rate_mm_per_h",
    "usda_rate_limit",
]
