"""What was tried, written where a person would, and read again."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from scheduler.errors import SaveError
from scheduler.files import kept_values as kept
from scheduler.files.demo import demo_source
from scheduler.files.folder_edits import FolderEdits, read_texts
from scheduler.files.site_folder import read_site_folder
from scheduler.money.assumed import Then
from scheduler.site import Site, Tariff, Zone


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's TOML files alone: quick to read."""
    here = tmp_path_factory.mktemp("kept")
    for name in ("site.toml", "zones.toml", "packages.toml", "options.toml"):
        shutil.copy(demo_source() / "tern_hollow" / name, here / name)
    return here


@pytest.fixture(scope="module")
def edits(folder: Path) -> FolderEdits:
    return read_texts(folder)


def site(edits: FolderEdits) -> Site:
    found = read_site_folder(edits.folder, edits.texts).site
    assert found is not None
    return found


def zone(edits: FolderEdits, zone_id: str) -> Zone:
    found = site(edits).zone(zone_id)
    assert found is not None
    return found


def tariff(edits: FolderEdits) -> Tariff:
    found = site(edits).tariff
    assert found is not None
    return found


def test_a_rule_and_days_stand_in_the_zone(edits: FolderEdits) -> None:
    done = kept.with_zone_value(edits, "Z4", "rule", "average")
    done = kept.with_zone_value(done, "Z4", "days", "mon thu")
    assert (zone(done, "Z4").rule, zone(done, "Z4").days) == ("average", ("mon", "thu"))


def test_a_coefficient_takes_the_place_of_every_other_source(
    edits: FolderEdits,
) -> None:
    plant = zone(kept.with_kc(edits, "Z4", 0.9), "Z4").plant
    assert plant is not None
    assert (plant.kc, plant.kc_from, plant.kc_factor) == (0.9, kept.KEPT_FROM, 1.0)


def test_a_table_that_told_the_coefficient_goes(edits: FolderEdits) -> None:
    staged = edits.with_text("zones.toml", STAGED)
    done = kept.with_kc(staged, "Z4", 0.9)
    assert "stages" not in done.now["zones.toml"]
    assert "# by the creek" in done.now["zones.toml"]
    plant = zone(done, "Z4").plant
    assert plant is not None
    assert (plant.kc, plant.source) == (0.9, "kc")


def test_a_factor_comes_on_top_of_the_entered_one(edits: FolderEdits) -> None:
    once = kept.with_kc_factor(edits, "Z4", 1.2)
    plant = zone(kept.with_kc_factor(once, "Z4", 0.5), "Z4").plant
    assert plant is not None
    assert plant.kc_factor == pytest.approx(0.6)


def test_an_allowed_part_goes_to_what_holds_the_water(edits: FolderEdits) -> None:
    pots, soil = (
        zone(kept.with_allowed(edits, name, 0.35), name) for name in ("Z4", "Z6")
    )
    assert pots.pots is not None
    assert soil.soil is not None
    assert (pots.pots.allowed_depletion, soil.soil.allowed_depletion) == (0.35, 0.35)


def test_a_flow_is_written_in_the_unit_of_its_key(edits: FolderEdits) -> None:
    done = kept.with_pump(edits, 681.374)  # 180 gpm
    assert "flow_gpm = 180 " in done.now["site.toml"].replace("\n", " ")
    supply = site(done).supply
    assert supply is not None
    assert supply.flow_l_per_min == pytest.approx(681.374, rel=1e-5)


def test_a_worth_of_a_move_stands_with_the_clock(edits: FolderEdits) -> None:
    done = kept.with_move_worth(edits, 0.25)
    assert "move_worth = 0.25" in done.now["site.toml"]
    assert site(done).controller.move_worth == 0.25


def test_a_price_of_energy_holds_at_every_hour(edits: FolderEdits) -> None:
    found = tariff(kept.with_price(edits, "energy price", 0.2))
    assert (found.energy_price_money_per_kwh, found.period) == (0.2, ())


def test_interest_and_life_hold_for_every_option(edits: FolderEdits) -> None:
    done = kept.with_price(edits, "interest", 0.09)
    done = kept.with_price(done, "life", 8.0)
    assert tariff(done).interest == 0.09
    assert {one.life_years for one in site(done).options} == {8.0}
    assert {i.life_years for o in site(done).options for i in o.items} == {None}


def test_prices_may_be_the_first_of_a_site(edits: FolderEdits) -> None:
    text = edits.now["site.toml"]
    bare = edits.with_text("site.toml", text[: text.index("[tariff]")])
    done = kept.with_price(bare, "water price", 0.9)
    assert tariff(done).water_price_money_per_m3 == pytest.approx(0.9, rel=1e-5)


def test_a_tested_package_stands_in_the_option(edits: FolderEdits) -> None:
    done = kept.with_then(edits, "R4", "Z4", Then("liner-25"))
    option = next(one for one in site(done).options if one.id == "R4")
    assert (option.package, option.du_lq, option.tested_days) == (
        "liner-25", None, None,
    )  # fmt: skip


def test_a_spacing_of_a_map_becomes_a_package_and_a_new_option(
    edits: FolderEdits,
) -> None:
    then = Then("yard-30", 0.9, 6.0, 5.0, "rectangular", "at 6.0 x 5.0 m")
    found = site(kept.with_then(edits, "what-if", "Z4", then))
    option = next(one for one in found.options if one.id == "what-if")
    package = found.package(option.package or "")
    assert (option.zones, option.du_lq) == (("Z4",), 0.9)
    assert package is not None
    assert package.row_spacing_m == pytest.approx(5.0, rel=1e-5)


@pytest.mark.parametrize(
    ("size", "text"),
    [
        (0.85, "0.85"),
        (0.95 * 1.05, "0.9975"),
        (0.8512345, "0.8512345"),  # as typed
        (1234567.0, "1234567"),
        (0.00001, "0.00001"),
        (0.0, "0"),
        (681.3740999, "681.374"),
        (2 / 3, "0.666667"),
        (12345678.987, "12345679"),
    ],
)
def test_a_number_is_written_as_typed_or_in_few_digits(size: float, text: str) -> None:
    assert kept.as_written(size) == text


@pytest.mark.parametrize(
    ("keep", "line"),
    [
        (lambda edits: kept.with_kc(edits, "Z4", 0.87), "kc = 0.87"),
        (lambda edits: kept.with_kc_factor(edits, "Z4", 1.05), "kc_factor = 1.05"),
        (lambda now: kept.with_allowed(now, "Z4", 0.45), "allowed_depletion = 0.45"),
        (lambda now: kept.with_price(now, "interest", 6.25 / 100), "interest = 0.0625"),
        (lambda edits: kept.with_price(edits, "energy price", 0.1 + 0.2),
         "energy_price_money_per_kwh = 0.3"),
        (lambda edits: kept.with_price(edits, "life", 12.5), "life_years = 12.5"),
        (lambda edits: kept.with_move_worth(edits, 0.005), "move_worth = 0.005"),
    ],
)  # fmt: skip
def test_no_tail_of_a_float_reaches_a_file(
    edits: FolderEdits, keep: Callable[[FolderEdits], FolderEdits], line: str
) -> None:
    done = keep(edits)
    (file,) = done.changed
    fresh = set(done.now[file].splitlines()) - set(edits.now[file].splitlines())
    assert line in {" ".join(one.split("#")[0].split()) for one in fresh}


def test_factors_kept_on_each_other_stay_short(edits: FolderEdits) -> None:
    for _ in range(3):
        edits = kept.with_kc_factor(edits, "Z4", 1.05)
    plant = zone(edits, "Z4").plant
    assert plant is not None
    assert plant.kc_factor == 1.1576  # 1.05 to the third is 1.157625


@pytest.mark.parametrize(
    "keep",
    [
        lambda edits: kept.with_zone_value(edits, "Z4", "rule", "average"),
        lambda edits: kept.with_kc(edits, "Z4", 0.9),
        lambda edits: kept.with_pump(edits, 600.0),
        lambda edits: kept.with_price(edits, "water price", 0.9),
    ],
)
def test_every_remark_of_the_file_stays(
    edits: FolderEdits, keep: Callable[[FolderEdits], FolderEdits]
) -> None:
    done = keep(edits)
    (file,) = done.changed
    remarks = [one for one in edits.now[file].splitlines() if one.startswith("#")]
    assert [o for o in done.now[file].splitlines() if o.startswith("#")] == remarks


def test_a_zone_that_is_not_there_is_refused(edits: FolderEdits) -> None:
    with pytest.raises(SaveError, match="there is no zone Z77"):
        kept.with_zone_value(edits, "Z77", "rule", "average")


STAGED = """\
format = 1
[[zone]]
id = "Z4"
name = "bay"   # by the creek
area_m2 = 100
grown_in = "pots"
[zone.plant]
name = "box"
kc_area = "bed"
[zone.plant.stages]
start = 2026-03-01
days = [20, 30, 40, 30]
kc = [0.4, 0.9, 0.6]
"""
