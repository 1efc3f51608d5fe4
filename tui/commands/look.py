"""How the dashboard looks: its colours, words in place of pictures, plain ASCII."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from typing import Any

import click

THEMES = ("dark", "light", "contrast")


@dataclass(frozen=True, slots=True)
class Look:
    """What was asked for on the command line."""

    theme: str | None = None
    words: bool = False


def options(command: Callable[..., None]) -> Callable[..., None]:
    """Add the options to a command, which gets a `Look` as `seen`."""

    @click.option(
        "--theme",
        type=click.Choice(THEMES),
        help="Colours: dark, light, or black and white with one colour.",
    )
    @click.option(
        "--words",
        is_flag=True,
        help="For a screen reader: every picture in words, nothing moves.",
    )
    @click.option(
        "--ascii", "is_ascii", is_flag=True, help="Plain ASCII in place of lines."
    )
    @wraps(command)
    def run(
        *args: Any, theme: str | None, words: bool, is_ascii: bool, **rest: Any
    ) -> None:
        if is_ascii:
            import os

            os.environ["LOWQUARTER_ASCII"] = "1"  # what a bare console gets
        command(*args, seen=Look(theme, words), **rest)

    return run
