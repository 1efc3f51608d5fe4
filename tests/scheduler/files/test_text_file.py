"""A file is text, or it is said why not; nothing on a disk raises."""

import os
from pathlib import Path
from typing import NoReturn

import pytest

from scheduler.files.text_file import is_there, read_text_file


def why_not(path: Path) -> str:
    file, said = read_text_file(path, "a.csv")
    assert file is None
    return str(said[0])


def test_newlines_of_every_kind_read_alike(tmp_path: Path) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes(b"1\r\n2\r3\n")
    file, said = read_text_file(path, "a.csv")
    assert file is not None
    assert (file.text, said) == ("1\n2\n3\n", ())


def test_a_file_one_may_not_read_is_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # tests may run as a user whom no rights stop, so the refusal is played
    def refuse(self: Path) -> NoReturn:
        raise PermissionError(13, "Permission denied")

    (tmp_path / "a.csv").write_text("1", encoding="utf-8")
    monkeypatch.setattr(Path, "read_bytes", refuse)
    assert "a.csv: cannot be read (Permission denied); check who may" in why_not(
        tmp_path / "a.csv"
    )


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
def test_a_pipe_is_refused_instead_of_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "a.csv")
    assert "is not a plain file" in why_not(tmp_path / "a.csv")


@pytest.mark.parametrize("name", ["x" * 5000, "a\0b"])
def test_a_name_that_no_disk_takes_is_not_there(tmp_path: Path, name: str) -> None:
    assert not is_there(tmp_path / name)
    assert "a.csv: cannot be read" in why_not(tmp_path / name) or "is not there" in (
        why_not(tmp_path / name)
    )


def test_bytes_of_no_alphabet_are_refused(tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_bytes(b"\x81\x8d\x90 text")
    assert "is not a text file" in why_not(tmp_path / "a.csv")
