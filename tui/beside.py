"""Work beside the screen: a thread of a group, in which the newest may overtake."""

import gc
from collections.abc import Callable
from typing import Any, ParamSpec

from textual import work
from textual.worker import Worker

Given = ParamSpec("Given")


def beside(
    group: str, *, exclusive: bool = True
) -> Callable[[Callable[Given, None]], Callable[Given, Worker[None]]]:
    """Make a method run in a thread; errors come back as the worker's state.

    It says by itself what it is. Else every argument would be written out to describe
    it, and a session holds a whole site with its years of weather.
    """

    def decorate(method: Callable[Given, None]) -> Callable[Given, Worker[None]]:
        threaded: Any = work(
            thread=True,
            exclusive=exclusive,
            group=group,
            exit_on_error=False,
            description=group,
        )
        done: Callable[Given, Worker[None]] = threaded(method)
        return done

    return decorate


# New objects between two searches for dead ones: a page makes some twenty thousand, and
# a search of all of them stops the screen for a fifth of a second. So that one is made
# at the end of a planning, while one waits anyway.
PATIENT = (2000, 5, 5000)


def settle() -> None:
    """Take what was just read out of the search for dead objects.

    A site stays until the folder is read again; the search would stop the screen for a
    fifth of a second each time to find it alive. What an older reading left goes first.
    """
    gc.unfreeze()
    gc.collect()
    gc.freeze()
    gc.set_threshold(*PATIENT)


def tidy() -> None:
    """Search for dead objects among those that came since the site was read."""
    gc.collect()
