"""What more moves gain, a bar a week; cursor and plan are marked."""

from collections.abc import Sequence
from dataclasses import dataclass

from tui.widgets.canvas import Canvas, Chart, Ink

HERE, STANDS = "►", "●"


@dataclass(frozen=True, slots=True)
class MoveBar:
    """One week: how many waterings move, what that gains, and the worth it asks for."""

    moved: str
    gained: float
    gained_text: str
    worth: str


class MoveBars(Chart):
    """Bars of what is gained, from few moves to many."""

    bars: tuple[MoveBar, ...] = ()
    here = 0
    stands = 0
    nothing = "no moves to compare"

    def show(self, bars: tuple[MoveBar, ...], here: int, stands: int) -> None:
        """Take other weeks, with the cursor on one and the plan on another."""
        self.bars, self.here, self.stands = bars, here, stands
        self._repaint()

    def say(self, why: str) -> None:
        """Show why there is nothing to compare."""
        self.bars, self.nothing = (), why
        self._repaint()

    def words(self) -> Sequence[str]:
        if not self.bars:
            return [self.nothing]
        return [
            f"{_mark(self, i)} {one.moved} moved gain {one.gained_text} "
            f"(move_worth {one.worth})"
            for i, one in enumerate(self.bars)
        ]

    def draw(self, canvas: Canvas, ink: Ink) -> None:
        if not self.bars:
            canvas.write(0, 0, self.nothing, ink.muted)
            return
        rows = [(one.moved, one.worth, one.gained_text) for one in self.bars]
        wide = [max(len(text) for text in column) for column in zip(*rows, strict=True)]
        wide = [max(wide[0], 5), max(wide[1], 10), wide[2]]
        head = f"   {'moved'.rjust(wide[0])}  {'move_worth'.rjust(wide[1])}  gained"
        canvas.write(0, 0, head, ink.muted)
        left = 7 + wide[0] + wide[1]
        room = max(canvas.width - left - wide[2] - 2, 1)
        full = max(one.gained for one in self.bars) or 1.0
        pitch = 2 if canvas.height >= 2 * len(self.bars) + 1 else 1
        for i, one in enumerate(self.bars):
            y = 1 + pitch * i
            colour = ink.text if i != self.here else ink.accent
            name = f"{_mark(self, i)} {one.moved.rjust(wide[0])}"
            canvas.write(0, y, f"{name}  {one.worth.rjust(wide[1])}", colour)
            cells = 0
            if one.gained > 0:
                cells = canvas.bar_right(left, y, room * one.gained / full, colour)
            canvas.write(left + cells + 1, y, one.gained_text, colour)


def _mark(chart: MoveBars, i: int) -> str:
    return (HERE if i == chart.here else " ") + (STANDS if i == chart.stands else " ")
