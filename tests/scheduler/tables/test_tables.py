"""Packaged tables: rows as texts, and marks on what nobody has checked."""

import pytest

from scheduler.errors import SchedulerError
from scheduler.site import Soil
from scheduler.tables import is_from_memory, read_table, soil_row

TEXTURES = [row["texture"] for row in read_table("soils.csv")]


def test_comment_lines_are_no_rows() -> None:
    assert not any(
        str(value).startswith("#")
        for name in ("soils.csv", "range_level.csv")
        for row in read_table(name)
        for value in row.values()
    )


@pytest.mark.parametrize("texture", TEXTURES)
def test_every_texture_of_the_table_is_one_of_the_site(texture: str) -> None:
    assert Soil.model_validate({"texture": texture}).texture == texture


def test_every_texture_of_the_site_has_its_row() -> None:
    from typing import get_args

    from scheduler.site import Texture

    assert sorted(get_args(Texture)) == sorted(TEXTURES)


@pytest.mark.parametrize("texture", TEXTURES)
def test_soil_holds_more_at_field_capacity_than_at_wilting(texture: str) -> None:
    row = soil_row(texture)
    assert 0 < float(row["wp"]) < float(row["fc"]) < 0.5


@pytest.mark.parametrize("texture", TEXTURES)
def test_steeper_or_barer_ground_never_takes_a_higher_rate(texture: str) -> None:
    row = soil_row(texture)
    bands = ("0_5", "5_8", "8_12", "12plus")
    cover = [float(row[f"max_rate_{band}_cover_mm_per_h"]) for band in bands]
    bare = [float(row[f"max_rate_{band}_bare_mm_per_h"]) for band in bands]
    assert cover == sorted(cover, reverse=True)
    assert bare == sorted(bare, reverse=True)
    assert all(b <= c for b, c in zip(bare, cover, strict=True))


@pytest.mark.parametrize("texture", TEXTURES)
def test_the_marks_agree_with_the_status_in_words(texture: str) -> None:
    row = soil_row(texture)
    in_words = "fc: from memory" in row["status"]
    assert is_from_memory(row, "fc") == in_words
    assert is_from_memory(row, "max_rate_12plus_bare_mm_per_h")
    assert not is_from_memory(row, "max_rate_0_5_bare_mm_per_h")
    assert not is_from_memory(row, "wp")


@pytest.mark.parametrize("texture", TEXTURES)
def test_every_row_names_its_source(texture: str) -> None:
    assert "1982" in soil_row(texture)["source"]


def test_rows_can_be_changed_without_changing_the_table() -> None:
    read_table("soils.csv")[0]["fc"] = "9"
    assert read_table("soils.csv")[0]["fc"] != "9"


def test_a_table_that_does_not_exist_is_refused_by_name() -> None:
    with pytest.raises(SchedulerError, match=r"no packaged table 'moon\.csv'"):
        read_table("moon.csv")


def test_an_unknown_texture_lists_the_known_ones() -> None:
    with pytest.raises(SchedulerError, match=r"no soil texture 'mud'.*sandy loam"):
        soil_row("mud")
