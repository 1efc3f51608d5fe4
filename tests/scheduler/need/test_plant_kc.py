"""One door for every way in which a plant's use can be given."""

from typing import Any

import numpy as np
import pytest

from scheduler.need.climate import Climate, site_climate
from scheduler.need.plant_kc import plant_kc
from scheduler.site import Plant
from tests.scheduler.need.made import day, days, plain

WINDY = site_climate(
    [plain(365, date=days("2026-01-01", 365), wind_m_per_s=5.0, rh_min=0.2)]
)
CURVE = {
    "start": day("2026-05-01"),
    "initial_days": 25,
    "development_days": 25,
    "mid_days": 30,
    "late_days": 20,
    "kc_initial": 0.5,
    "kc_mid": 1.1,
    "kc_end": 0.6,
}


def _june(**given: Any) -> float:
    plant = Plant.model_validate({"name": "bed", "height_m": 2.0} | given)
    kc, _ = plant_kc(plant, WINDY, "zone Z1")
    return float(kc.on(np.array(["2026-06-25"], "datetime64[D]"))[0])


@pytest.mark.parametrize(
    ("given", "kc"),
    [
        ({"kc": 0.9, "kc_area": "bed"}, 0.9),
        ({"kc_by_month": (0.6,) * 5 + (0.8,) + (0.6,) * 6, "kc_area": "bed"}, 0.8),
        ({"stages": CURVE, "kc_area": "bed"}, 1.1),
    ],
)
def test_entered_numbers_never_follow_the_air(given: dict[str, Any], kc: float) -> None:
    assert _june(**given) == pytest.approx(kc)


# equation 62 by hand: 0.95 + [0.04 x 3 + 0.004 x 25] (2/3)^0.3 = 0.95 + 0.22 x 0.885
def test_a_crop_of_the_table_follows_the_air() -> None:
    assert _june(crop="turf cool season") == pytest.approx(1.145, abs=0.001)


@pytest.mark.parametrize(
    ("given", "kc"),
    [
        ({"landscape": {"species": "moderate"}}, 0.5),
        ({"plant_factor": "high"}, 0.8),
        ({"canopy_closed": 1.0}, 1.2),
        ({"closure": "closed"}, 1.2),
        # Meyer et al. (1985): June of cool season turf in California
        ({"turf": "cool season, California"}, 0.88),
    ],
)
def test_classes_and_canopies_give_their_value(
    given: dict[str, Any], kc: float
) -> None:
    assert _june(**given) == pytest.approx(kc)


def test_the_origin_that_somebody_wrote_is_the_source() -> None:
    plant = Plant(name="bed", kc=0.9, kc_area="bed", kc_from="weighed pots")
    assert plant_kc(plant, Climate(()), "zone Z1")[0].source == "weighed pots"


def test_a_class_is_traced_to_its_publication() -> None:
    plant = Plant.model_validate({"name": "a", "landscape": {"species": "low"}})
    kc, _ = plant_kc(plant, Climate(()), "zone Z1")
    assert "Costello" in kc.source
    assert kc.inputs[0].name == "landscape_coefficient"
