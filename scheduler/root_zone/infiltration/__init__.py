"""How ground takes in water: curves, and what a steady rate does to them."""

from scheduler.root_zone.infiltration.curves import (
    Curve,
    GreenAmpt,
    Horton,
    Kostiakov,
    Steady,
    intake_family,
)
from scheduler.root_zone.infiltration.runs import (
    clearing_min,
    past_intake_share,
    ponding_min,
    run_end,
    runoff_min,
)

__all__ = [
    "Curve",
    "GreenAmpt",
    "Horton",
    "Kostiakov",
    "Steady",
    "clearing_min",
    "intake_family",
    "past_intake_share",
    "ponding_min",
    "run_end",
    "runoff_min",
]
