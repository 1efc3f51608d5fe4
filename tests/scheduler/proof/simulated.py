"""Seasons of a yard with a known Kc and rate, checked every week by pots."""

import datetime as dt
from dataclasses import dataclass, field, replace

import numpy as np

from scheduler.log import LeachingPot
from scheduler.proof.learning import Learned, Observation
from scheduler.proof.zone_learning import ZoneLearned, learned_use
from tests.scheduler.proof.yard import (
    RATE_MM_PER_H,
    START,
    catch,
    lessons,
    station,
    use_of,
    yard,
)

RULE_FACTOR = 1.25  # 1 / 0.8
WEEK = dt.timedelta(days=7)


@dataclass
class Yard:
    """What is true, and what the tool does not know."""

    kc_ratio: float = 1.0
    rate_ratio: float = 1.0
    seed: int = 1
    n_pots: int = 6
    uneven: float = 0.15
    plants: float = 0.12
    is_bad: dict[int, float] = field(default_factory=dict)

    def season(self, n_weeks: int = 12, *, meter: bool = False) -> list[ZoneLearned]:
        """What was learned after each weekly check, the minutes following it."""
        rng = np.random.default_rng(self.seed)
        true_eto = 5.0 * np.exp(rng.normal(0.0, 0.2, 200))
        read = station(true_eto * np.exp(rng.normal(0.0, 0.08, 200)), 200)
        zone, entered = yard(), use_of(yard())
        log: list[LeachingPot] = []
        metered: list[Observation] = []
        factor, found = 1.0, []
        for i in range(n_weeks):
            night = START + (i + 1) * WEEK
            use_mm = float(true_eto[(night - START).days]) * 0.85
            planned = 5.0 * 0.85 * factor * RULE_FACTOR
            minutes = max(1, round(planned / RATE_MM_PER_H * 60))
            log += self._check(rng, i, night, minutes, use_mm)
            if meter:
                seen = np.log(self.rate_ratio) + rng.normal(0.0, 0.05)
                metered.append(Observation(night, float(seen), 0.05, "meter", f"m:{i}"))
            today = night + dt.timedelta(days=2)
            taught = lessons(*log, today=today, zone=zone, eto=read)
            taught = replace(taught, rate_seen={"Z4": tuple(metered)})
            _, learnt = learned_use(zone, entered, catch(), taught)
            assert learnt is not None
            found.append(learnt)
            factor = learnt.factor
        return found

    def _check(
        self,
        rng: np.random.Generator,
        week: int,
        night: dt.date,
        minutes: int,
        use_mm: float,
    ) -> list[LeachingPot]:
        top_cm2, capture = np.pi / 4 * 25.4**2, 1.25
        to_ml = top_cm2 * 0.1 * capture
        share = np.exp(rng.normal(0.0, self.uneven, self.n_pots))
        plant = np.exp(rng.normal(0.0, self.plants, self.n_pots))
        came = RATE_MM_PER_H * self.rate_ratio * minutes / 60 * share * to_ml
        used = use_mm * self.kc_ratio * plant * to_ml * self.is_bad.get(week, 1.0)
        out = np.maximum(0.0, came - used)
        return [
            LeachingPot(
                where=f"log.csv:{100 * week + j}", typed="",
                date=night + dt.timedelta(days=1), time=dt.time(7), zone="Z4",
                place=f"{'AHBG'[j % 4]}{1 + j % 3}", in_ml=float(came[j]),
                out_ml=float(out[j]), minutes=float(minutes),
            )
            for j in range(self.n_pots)
        ]  # fmt: skip


def truth(yard_: Yard, of: str) -> float:
    """What the correction should be."""
    true = {"kc": yard_.kc_ratio, "rate": yard_.rate_ratio}
    return true.get(of, yard_.kc_ratio / yard_.rate_ratio)


def holds(one: Learned, true: float) -> bool:
    """Whether a range holds the truth."""
    return one.low <= true <= one.high
