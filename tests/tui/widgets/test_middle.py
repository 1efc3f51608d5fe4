"""A sentence stands in the middle of an empty picture."""

from tui.widgets.canvas import Canvas
from tui.widgets.middle import write_middle


def lines(canvas: Canvas) -> list[str]:
    return [canvas.strip(y).text for y in range(canvas.height)]


def test_a_sentence_stands_half_way_down_and_across() -> None:
    canvas = Canvas(20, 5)
    write_middle(canvas, "no week", "red")
    assert lines(canvas)[2].rstrip() == " " * 6 + "no week"


def test_a_long_sentence_is_wrapped_and_loses_nothing() -> None:
    canvas = Canvas(24, 8)
    said = "no balance is kept for this zone: it is off; g opens what is given"
    write_middle(canvas, said, "red")
    assert " ".join(" ".join(lines(canvas)).split()) == said
