"""What is typed on the first page: checked, made, remembered."""

from pathlib import Path

import pytest

from scheduler.errors import QuantityError
from scheduler.files.site_folder import read_site_folder
from tui import first_run


def texts(where: Path, **changes: str) -> dict[str, str]:
    filled = {
        "name": 'Nine "Oaks" $1',
        "units": "metric",
        "latitude": "-33,5",
        "longitude": "18.5",
        "elevation": "300 ft",
        "time zone": "Africa/Johannesburg",
        "folder": str(where),
    }
    return {**filled, **changes}


def test_a_site_is_made_as_it_was_typed(tmp_path: Path) -> None:
    new, wrong = first_run.read_site(texts(tmp_path / "oaks"))
    assert wrong == {}
    assert new is not None
    found = read_site_folder(first_run.make_site(new))
    site = found.site
    assert site is not None
    assert (site.name, site.units) == ('Nine "Oaks" $1', "metric")
    place = site.place
    assert (place.latitude_deg, place.longitude_deg) == (-33.5, 18.5)
    assert place.elevation_m == pytest.approx(91.44)  # 300 ft of 0.3048 m
    assert place.time_zone == "Africa/Johannesburg"
    assert [one for one in found.findings if one.level == "stop"] == []


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("name", " ", "name is missing"),
        ("units", "imperial", "type us or metric"),
        ("latitude", "91", "-90 to 90"),
        ("longitude", "west", "'west' is no longitude"),
        ("elevation", "3 psi", "no elevation"),
        ("time zone", "Mars/Base", "'Mars/Base' is no time zone"),
        ("time zone", "", "no time zone"),
        ("folder", "", "folder is missing"),
        ("folder", "~nobody-of-that-name/oaks", "no user's folder here"),
        ("folder", "x" * 300, "name another folder"),
    ],
)
def test_a_slip_is_named_with_what_to_type(
    tmp_path: Path, field: str, typed: str, said: str
) -> None:
    new, wrong = first_run.read_site(texts(tmp_path / "oaks", **{field: typed}))
    assert new is None
    assert list(wrong) == [field]
    assert said in wrong[field]


def test_a_folder_with_something_in_it_is_refused(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine", "utf-8")
    with pytest.raises(QuantityError, match="something stands"):
        first_run.free_folder(str(tmp_path))


def test_the_folder_we_are_in_is_refused_even_when_it_is_empty(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(QuantityError, match="the folder you are in"):
        first_run.free_folder(".")


def test_a_folder_that_cannot_be_looked_at_is_no_site() -> None:
    assert not first_run.is_site(Path("x" * 300))


def test_without_an_elevation_the_example_stands(tmp_path: Path) -> None:
    new, _ = first_run.read_site(texts(tmp_path / "oaks", elevation=""))
    assert new is not None
    text = (first_run.make_site(new) / "site.toml").read_text("utf-8")
    assert "elevation_m = 90" in text


def test_folders_opened_lately_are_listed_once_the_last_first(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(first_run, "recent_file", lambda: tmp_path / "s" / "recent.txt")
    for name in ("a", "b", "gone"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "site.toml").write_text("", "utf-8")
    for name in ("a", "b", "gone", "a"):
        first_run.remember(tmp_path / name)
    (tmp_path / "gone" / "site.toml").unlink()
    assert [one.name for one in first_run.recent_sites()] == ["a", "b"]


def test_a_disk_that_refuses_the_list_is_no_trouble(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    monkeypatch.setattr(first_run, "recent_file", lambda: tmp_path / "file" / "x.txt")
    first_run.remember(tmp_path)
    assert first_run.recent_sites() == ()
