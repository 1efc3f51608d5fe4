"""What one zone draws from the pump."""

import pytest

from scheduler.site import Package, Zone
from scheduler.watering.zone_flow import zone_flow

# a worked first visit: heads 30 x 30 ft, 4.6 gpm
FT = 0.3048
ROTOR = Package(id="r", nozzle_flow_l_per_min=4.6 * 3.785411784, spacing_m=30 * FT)
BLOCK = 9600 * 0.09290304


def zone(heads: float | None = None) -> Zone:
    return Zone(
        id="Z4", name="yard", area_m2=BLOCK, grown_in="pots", watered="off", heads=heads
    )


def gpm(heads: float | None, package: Package | None, rate: float | None) -> float:
    found = zone_flow(zone(heads), package, rate)
    assert found is not None
    assert isinstance(found.value, float)
    return found.value / 3.785411784


def test_counted_heads_times_their_nozzles() -> None:
    assert gpm(11, ROTOR, None) == pytest.approx(50.6)


def test_without_a_count_the_spacing_gives_the_heads() -> None:
    # 9600 ft2 / 900 ft2 = 10.67 heads of 4.6 gpm
    assert gpm(None, ROTOR, None) == pytest.approx(49.07, abs=0.01)


def test_without_a_package_the_rate_on_the_area_gives_at_least() -> None:
    # 96.25 x gpm / ft2 = in/h: 0.49 in/h on 9600 ft2 is 48.9 gpm
    assert gpm(None, None, 0.49 * 25.4) == pytest.approx(48.87, abs=0.02)


def test_nothing_known_is_no_flow() -> None:
    assert zone_flow(zone(), None, None) is None
    assert zone_flow(zone(), Package(id="x"), 0.0) is None
