"""One line that says what is being worked out, for how long, and how to leave it."""

import time
from collections.abc import Callable
from dataclasses import dataclass

from rich.cells import cell_len
from textual.content import Content
from textual.timer import Timer

from tui.widgets.cells import fitted
from tui.widgets.words import Words

PATIENCE_S = 0.5  # what takes less is not worth a line
SIDES = 2  # free columns at both ends
LEAVES = "   esc leaves it"


@dataclass(frozen=True, slots=True)
class Work:
    """Something that is being worked out: what, how far, since when, how to leave."""

    what: str
    leave: Callable[[], None]
    since: float
    far: str = ""
    is_of_before: bool = True


class WorkLine(Words):
    """Stands over the top line from when something takes longer than half a second.

    Over it, not below it: a page that has to give a line away and takes it back draws
    its pictures twice more for each answer.
    """

    DEFAULT_CSS = """
    WorkLine {
        layer: over; dock: top; height: 1; display: none; padding: 0 1;
        background: $surface; text-wrap: nowrap; text-overflow: ellipsis;
    }
    WorkLine.some { display: block; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._works: dict[str, Work] = {}
        self._timer: Timer | None = None
        self.is_still = False  # written once a work, for those who hear it read out

    def begin(
        self,
        name: str,
        what: str,
        leave: Callable[[], None],
        *,
        is_of_before: bool = True,
    ) -> None:
        """Say what is being worked out; a work of the same name gives way to it."""
        now = time.monotonic()
        self._works[name] = Work(what, leave, now, is_of_before=is_of_before)
        if self._timer is None:
            self._timer = self.set_interval(PATIENCE_S, self._tick)

    def end(self, name: str) -> None:
        """Say no more of it."""
        self._works.pop(name, None)
        if not self._works:
            self._rest()

    def leave(self) -> None:
        """Leave the work that is named; the last one first."""
        if self._works:
            _, work = self._works.popitem()
            self._rest() if not self._works else self._tick()
            work.leave()

    @property
    def is_shown(self) -> bool:
        """Whether a work is named that can be left."""
        return self.has_class("some")

    def _rest(self) -> None:
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        self.remove_class("some")

    def _tick(self) -> None:
        if not self._works or not self.screen.is_current:
            return  # it ended while the clock's word was on its way, or nobody sees it
        work = list(self._works.values())[-1]
        passed = time.monotonic() - work.since
        since = "" if self.is_still else f"  {passed:.0f} s"
        before = "   what is shown is of before" if work.is_of_before else ""
        room = self.screen.size.width - SIDES - cell_len(since + LEAVES)
        if cell_len(work.what + before) > room:
            before = ""  # how to leave it is told at any width
        what = (fitted(work.what, room), "bold $text-warning")
        said = Content.assemble(what, since, before, (LEAVES, "$text-muted"))
        self.update(said)
        self.add_class("some")
