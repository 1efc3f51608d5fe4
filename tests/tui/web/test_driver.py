"""A process ends when its input does, even one that would run on."""

import os
import subprocess
import sys

import pytest

from tests.tui.web.served import SMALL_APP
from tui.web.child import DRIVER


@pytest.mark.parametrize("mode", ["app", "stubborn"])
def test_a_process_ends_with_its_input(mode: str) -> None:
    with subprocess.Popen(
        [sys.executable, SMALL_APP, mode],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={**os.environ, "TEXTUAL_DRIVER": DRIVER},
    ) as one:
        assert one.stdin is not None and one.stdout is not None  # noqa: PT018
        assert one.stdout.readline() == b"__GANGLION__\n"
        one.stdin.close()
        one.stdout.close()  # nobody reads what it draws either
        assert one.wait(20) in (0, 1)
