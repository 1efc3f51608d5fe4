"""A tab's process begins with the keys, and ends when its input does."""

import contextlib
import os
import subprocess
import sys
from collections.abc import Iterator

import pytest

from tests.tui.web.served import SMALL_APP
from tui.web.child import DRIVER


@contextlib.contextmanager
def process(mode: str) -> Iterator["subprocess.Popen[bytes]"]:
    """The small app, as a server starts it."""
    with subprocess.Popen(
        [sys.executable, SMALL_APP, mode],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "TEXTUAL_DRIVER": DRIVER},
    ) as one:
        try:
            yield one
        finally:
            one.kill()


# what it draws is not read, so that the end of its input alone can end it
@pytest.mark.parametrize(("mode", "code"), [("app", 0), ("stubborn", 1)])
def test_a_process_ends_with_its_input(mode: str, code: int) -> None:
    with process(mode) as one:
        assert one.stdin is not None
        assert one.stdout is not None
        assert one.stdout.readline() == b"__GANGLION__\n"
        one.stdin.close()
        assert one.wait(20) == code


def test_it_begins_as_one_that_has_the_keys() -> None:
    with process("app") as one:
        assert one.stdout is not None
        drawn = b""
        while b"has the keys" not in drawn:
            part = os.read(one.stdout.fileno(), 4096)
            assert part, drawn
            drawn += part
