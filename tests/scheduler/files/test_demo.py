"""The demo sites by their names."""

from pathlib import Path

import pytest

from scheduler.errors import QuantityError, SaveError
from scheduler.files.demo import DEMO, DEMOS, copy_demo, demo_source, known_demo


def test_every_demo_site_that_ships_is_named_and_every_name_ships() -> None:
    shipped = {path.parent.name for path in demo_source().glob("*/site.toml")}
    assert shipped == set(DEMOS)


def test_the_demo_without_a_name_is_the_first() -> None:
    assert DEMO == "tern_hollow"


@pytest.mark.parametrize("typed", ["alder_flat", "Alder Flat", " alder-flat "])
def test_a_demo_site_is_known_however_its_words_are_joined(typed: str) -> None:
    assert known_demo(typed) == "alder_flat"


def test_an_unknown_demo_site_is_refused_with_the_known_ones() -> None:
    with pytest.raises(QuantityError, match="are tern_hollow, alder_flat"):
        known_demo("../alder_flat")


def test_the_folder_we_are_in_is_refused(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SaveError, match="the folder you are in"):
        copy_demo(Path())
    assert not list(tmp_path.iterdir())
