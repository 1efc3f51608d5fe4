"""Factors over the weeks: panels, bands, marks, and the words."""

from dataclasses import replace

from textual.color import Color

from tui.widgets.canvas import Ink
from tui.widgets.drift_bands import DriftBands, Drifting, DriftPanels

INK = Ink.of_theme({}, Color(0, 0, 0))
KC = Drifting("Kc × 0.85", (0.0, 7.0, 14.0), (0.95, 0.9, 0.85), (0.7,) * 3, (1.1,) * 3)
RATE = Drifting("rate × 1.02", (0.0, 7.0, 14.0), (1.0, 1.01, 1.02), (0.95,) * 3,
                (1.05,) * 3)  # fmt: skip
BOTH = DriftPanels(
    panels=(KC, RATE),
    line=1.0,
    marks=(10.0,),
    labels=((0.0, "1 Jun"), (14.0, "15 Jun")),
    words=("Kc went to 0.85",),
)


def chart_of(found: DriftPanels | None) -> DriftBands:
    chart = DriftBands()
    chart.found = found
    return chart


def painted(found: DriftPanels | None, width: int = 80, height: int = 16) -> str:
    return chart_of(found).painted(width, height, INK).text()


def test_each_panel_has_its_title() -> None:
    first = painted(BOTH).splitlines()[0]
    assert first.index("Kc") < first.index("rate")


def test_a_look_is_marked_on_every_foot() -> None:
    assert painted(BOTH).count("▴") == 2


def test_without_looks_nothing_is_marked() -> None:
    assert "▴" not in painted(replace(BOTH, marks=()))


def test_the_wider_range_has_the_taller_band() -> None:
    canvas = chart_of(BOTH).painted(80, 16, INK)
    shaded = [sum(canvas.back(x, y) == INK.pale for y in range(16)) for x in (20, 60)]
    assert shaded[0] > 2 * shaded[1] > 0


def test_one_week_alone_is_drawn() -> None:
    alone = Drifting("Kc × 0.9", (0.0,), (0.9,), (0.7,), (1.1,))
    assert "Kc × 0.9" in painted(replace(BOTH, panels=(alone,)))


def test_weeks_stand_below() -> None:
    assert painted(BOTH).splitlines()[-1].count("1 Jun") == 2


def test_nothing_learned_is_said() -> None:
    assert "nothing was learned" in painted(None)


def test_a_small_picture_is_told_in_words() -> None:
    assert "Kc went to 0.85" in painted(BOTH, 28, 4)
