"""What the pages of the field test share: their keys, and work beside the screen."""

from collections.abc import Callable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.message import Message
from textual.worker import Worker, WorkerState

from scheduler.errors import SchedulerError
from tui.beside import beside
from tui.pages import DOORS, page_of
from tui.screens.base import Result, SessionScreen
from tui.widgets.canvas import Chart
from tui.widgets.path_line import PathLine
from tui.widgets.work_line import WorkLine


class Doors(SessionScreen[Result]):
    """A screen from which the pages of the field test open."""

    BINDINGS: ClassVar[list[BindingType]] = [
        *(
            Binding(one.key, f"door('{one.page}')", one.word, key_display=one.face)
            for one in DOORS
        ),
        Binding("left_square_bracket", "path(-1)", "Page", key_display="[ ]"),
        Binding("right_square_bracket", "path(1)", show=False),
    ]
    _in_words = False
    _asked_in_words = False  # by the dashboard, when it was looked at last

    def on_screen_resume(self) -> None:
        if self.dashboard.in_words != self._asked_in_words:
            self.say_in_words(self.dashboard.in_words)

    def say_in_words(self, is_asked: bool) -> None:
        """Say every picture in words, or draw them again."""
        self._asked_in_words = is_asked
        if is_asked != self._in_words:
            self.action_words()

    def action_words(self) -> None:
        """Say every picture in words, or draw them again."""
        self._in_words = not self._in_words
        for chart in self.query(Chart):
            chart.say_in_words(self._in_words)

    @property
    def zone_here(self) -> str:
        """Id of the zone that the screen is about; empty where there is none."""
        return ""

    def zone_beside(self, by: int) -> str:
        """Id of the next zone of the site, or of the one before, round and round."""
        session = self.dashboard.session
        site = session.site if session is not None else None
        ids = [one.id for one in site.zones] if site is not None else []
        folded, here = [one.casefold() for one in ids], self.zone_here.casefold()
        if here not in folded:
            return ids[0] if ids else self.zone_here
        return ids[(folded.index(here) + by) % len(ids)]

    def carry(self, zone_id: str) -> None:
        """Take another zone, to be shown when the page is next seen.

        What does not hang on the zone stays as it was left.
        """
        if zone_id != self.zone_here:
            self.forget()
            self.other_zone(zone_id)

    def other_zone(self, zone_id: str) -> None:
        """Take another zone, and let go what belonged to the one before."""

    def action_door(self, page: str) -> None:
        self.dashboard.open_page(page, self.zone_here)

    def action_path(self, by: int) -> None:
        self.dashboard.step_page(by)

    def on_path_line_chosen(self, message: PathLine.Chosen) -> None:
        self.dashboard.open_page(message.page, self.zone_here)

    def say_path(self) -> None:
        """Write the path: where we are, and with which zone."""
        line = self.query_one(PathLine)
        line.show(page_of(type(self)), self.zone_here, self.app.size)

    def follow(self) -> None:
        super().follow()
        self.say_path()


LEFT = "Left, so there is nothing to show; ctrl+r works it out again."


class Page(Doors[None]):
    """A page whose pictures may take work; the last good picture stays meanwhile.

    Work is numbered: an answer that is not to the last question is dropped, since a
    thread that was overtaken still finishes. Where no answer comes, a picture of the
    same thing stays, and one of another thing goes: it would be read as this one's.
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "app.pop_screen", "Back"),
        Binding("x", "words", "Words"),
    ]

    is_at_once: ClassVar[bool] = False  # what is worked out only adds to what is shown
    _shown_about: str | None = None  # nothing is shown yet

    class Answered(Message):
        """Some work was done, or refused."""

        def __init__(self, answer: object, number: int) -> None:
            super().__init__()
            self.answer, self.number = answer, number

    def __init__(self, zone_id: str) -> None:
        super().__init__()
        self._zone_id = zone_id
        self._number = 0

    def on_mount(self) -> None:
        for chart in self.query(Chart):
            chart.nothing = ""  # what is awaited is said on top, not that there is none

    @property
    def zone_here(self) -> str:
        return self._zone_id

    @property
    def about(self) -> str:
        """What the pictures are about; empty where they are of the whole site."""
        return ""

    def empty(self, why: str) -> None:
        """Take the pictures off the page, and say why there are none."""

    def take_off(self, why: str) -> None:
        """Take the pictures off for good: no answer is awaited that would be drawn."""
        self.ask_no_more()
        self._shown_about = None
        self.empty(why)

    def _is_emptied(self, why: str) -> bool:
        """Take off pictures of another thing than the page is about, if they are."""
        if self.about == self._shown_about:
            return False
        self._shown_about = None
        self.empty(why)
        return True

    def other_zone(self, zone_id: str) -> None:
        self._zone_id = zone_id
        self.ask_no_more()

    def ask_no_more(self) -> None:
        """Await no answer: what was asked is about something else."""
        self._number += 1
        for line in self.query(WorkLine):
            line.end("page")

    def ask(
        self, question: Callable[[], object], what: str = "working it out …"
    ) -> None:
        """Work something out beside the screen; `answered` gets it."""
        self._number += 1
        is_of_before = self._shown_about is not None and not self.is_at_once
        line = self.query_one(WorkLine)
        line.begin("page", what, self._leave_asking, is_of_before=is_of_before)
        self._work(question, self._number)

    def _leave_asking(self) -> None:
        """Drop the answer that is awaited; the last good picture stays."""
        self._number += 1
        self.left_off()

    def left_off(self) -> None:
        """Say that what is shown is of before; heads that say otherwise are mended."""
        said = "Left. What is shown is of before; ctrl+r works it out again."
        if self.is_at_once:
            said = "Left; ctrl+r works it out again."
        elif self._is_emptied(LEFT):
            said = LEFT
        self.notify(said, severity="warning")

    @beside("page")
    def _work(self, question: Callable[[], object], number: int) -> None:
        try:
            answer = question()
        except SchedulerError as refused:
            answer = refused
        self.post_message(self.Answered(answer, number))

    def on_page_answered(self, message: Answered) -> None:
        if message.number != self._number:
            return
        self.query_one(WorkLine).end("page")
        if not self.is_seen:
            self.forget()  # it asks again when it comes back, and is answered at once
            return
        if isinstance(message.answer, SchedulerError):
            self._is_emptied(str(message.answer))
        else:
            self._shown_about = self.about
        self.answered(message.answer)

    def answered(self, answer: object) -> None:
        """Take what was worked out, or the SchedulerError that says why not."""

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        if event.state is WorkerState.ERROR:
            event.stop()
            self.query_one(WorkLine).end("page")
            said = f"Not worked out: {event.worker.error!r}."
            kept = "" if self._is_emptied(said) else " What is shown is as before."
            self.notify(
                f"{said}{kept}",
                severity="error",
                markup=False,
                timeout=30,
            )

    def action_zone(self, by: int) -> None:
        """Carry the next zone, or the one before; after the last comes the first."""
        session = self.dashboard.session
        if session is not None:
            self._zone_id = self.zone_beside(by)
            self.show(session)
            self.say_path()
