"""A catch as roots in soil reach it."""

import dataclasses

from scheduler.errors import Finding
from scheduler.field.at_roots import at_the_roots
from scheduler.field.evidence import zone_catch
from scheduler.field.guess import ZoneCatch
from scheduler.field.uniformity import low_quarter_uniformity
from scheduler.record import CanLayout
from scheduler.site import Soil, Zone
from tests.scheduler.test_plan import PACKAGE, TODAY, can_test


def _at(
    spread_m: float | None, can_spacing_m: float | None
) -> tuple[ZoneCatch, ZoneCatch, tuple[Finding, ...]]:
    soil = Soil(texture="loam", root_spread_m=spread_m)
    zone = Zone(id="Z4", name="bay", area_m2=900.0, grown_in="soil", watered="off",
                soil=soil)  # fmt: skip
    layout = CanLayout(can_spacing_m=can_spacing_m)
    test = dataclasses.replace(can_test(), layout=layout)
    catch, _ = zone_catch(zone, PACKAGE, [test], TODAY)
    assert catch is not None
    return catch, *at_the_roots(zone, catch, [test])


def test_roots_make_the_catch_more_even() -> None:
    caught, at_roots, _ = _at(3.0, 1.5)
    assert low_quarter_uniformity(at_roots.share) > low_quarter_uniformity(caught.share)


def test_the_uniformity_at_the_cans_stays() -> None:
    caught, at_roots, _ = _at(3.0, 1.5)
    assert at_roots.du_lq == caught.du_lq


def test_that_roots_were_spread_is_said() -> None:
    assert "draw alike" in _at(3.0, 1.5)[2][0].what


def test_without_a_spread_nothing_is_done_or_said() -> None:
    caught, at_roots, said = _at(None, 1.5)
    assert (at_roots, said) == (caught, ())


def test_unknown_distances_are_said() -> None:
    caught, at_roots, said = _at(3.0, None)
    assert at_roots is caught
    assert "cannot be spread" in said[0].what
