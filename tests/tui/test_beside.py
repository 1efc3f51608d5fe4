"""Work beside the screen: never described by what it was given; what stays settled."""

import gc
from collections.abc import Iterator

import pytest
from textual.app import App

from tui.beside import PATIENT, beside, settle


class Secret:
    """Something that must not be written out."""

    written = 0

    def __repr__(self) -> str:
        Secret.written += 1
        return "all of it"


class Working(App[int]):
    done = 0

    @beside("group")
    def work_on(self, secret: Secret) -> None:
        del secret
        self.done += 1


@pytest.fixture
def collector() -> Iterator[None]:
    before = gc.get_threshold()
    yield
    gc.unfreeze()
    gc.set_threshold(*before)


async def test_work_is_done_and_its_argument_is_not_written_out() -> None:
    app = Working()
    async with app.run_test():
        await app.workers.wait_for_complete([app.work_on(Secret())])
    assert (app.done, Secret.written) == (1, 0)


@pytest.mark.usefixtures("collector")
def test_what_was_read_is_not_searched_for_dead_objects() -> None:
    settle()
    assert gc.get_freeze_count() > 0


@pytest.mark.usefixtures("collector")
def test_searches_for_dead_objects_are_rarer() -> None:
    settle()
    assert gc.get_threshold() == PATIENT
