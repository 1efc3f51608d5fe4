"""The three faces of the dashboard, and what makes the stark one stark."""

from rich.color import Color as RichColor
from rich.segment import Segment
from rich.style import Style
from textual.color import Color
from textual.filter import LineFilter
from textual.theme import Theme

STARK = "stark"
# what is asked for, and the theme it is drawn in; the key goes through them in turn
FACES = {"dark": "lowquarter-dark", "light": "lowquarter-light", "contrast": STARK}
BLACK, WHITE = Color(0, 0, 0), Color(255, 255, 255)
GREY = 12  # steps of 255 between the parts of a colour that is called grey
# WCAG 2.2, success criteria 1.4.3 and 1.4.6: text against what lies behind it
READABLE, STARK_READABLE = 4.5, 7.0

# Textual's own faces miss the ratio: blue words on the dark one, and dimmed words on
# the grey ground of the light one
INK = Theme(
    name="lowquarter-dark",
    primary="#58a6e8",
    secondary="#7ab8ee",
    warning="#ffa62b",
    error="#ff7a93",
    success="#4ebf71",
    accent="#ffa62b",
    foreground="#e0e0e0",
    variables={"block-cursor-foreground": "#101010"},
)
PAPER = Theme(
    name="lowquarter-light",
    primary="#004578",
    secondary="#005ea2",
    warning="#8a4b00",
    error="#a3123a",
    success="#1d6b32",
    accent="#8a4b00",
    foreground="#101010",
    background="#ffffff",
    surface="#f2f2f2",
    panel="#e6e6e6",
    dark=False,
    variables={
        "footer-key-foreground": "#004578",
        "text-warning": "#7a4200",
        "text-error": "#a3123a",
        "text-success": "#1d6b32",
    },
)
BLACK_AND_WHITE = Theme(
    name=STARK,
    primary="#ffd700",
    secondary="#ffd700",
    warning="#ffd700",
    error="#ffd700",
    success="#ffd700",
    accent="#ffd700",
    foreground="#ffffff",
    background="#000000",
    surface="#000000",
    panel="#000000",
    boost="#000000",
    dark=True,
    text_alpha=1.0,
    variables={
        "stark": "#000000",  # told to the pictures, which mix no colours then
        "block-cursor-background": "#ffd700",
        "block-cursor-foreground": "#000000",
        "block-cursor-blurred-background": "#ffd700",
        "block-cursor-blurred-foreground": "#000000",
        "input-selection-background": "#ffd700",
        "footer-key-foreground": "#ffd700",
        "footer-background": "#000000",
        "text-muted": "#ffffff",
        "text-disabled": "#ffffff",
        "text-warning": "#ffd700",
        "text-error": "#ffd700",
        "text-success": "#ffd700",
        "text-primary": "#ffd700",
        "scrollbar": "#ffd700",
        "scrollbar-background": "#000000",
        "border": "#ffffff",
        "border-blurred": "#ffffff",
    },
)
OWN = (INK, PAPER, BLACK_AND_WHITE)


def next_face(theme: str) -> str:
    """Name of the face after the one that is drawn in a theme."""
    names = list(FACES)
    drawn = list(FACES.values())
    at = drawn.index(theme) if theme in drawn else -1
    return names[(at + 1) % len(names)]


def contrast(one: Color, other: Color) -> float:
    """Ratio of two colours as WCAG 2.2 defines it, 1 to 21."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour: Color) -> float:
    """Relative luminance as WCAG 2.2 defines it, 0 to 1."""

    def linear(part: float) -> float:
        return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(one / 255) for one in colour.rgb)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def readable_on(behind: Color) -> Color:
    """Black or white, whichever is read more easily on a colour."""
    return max((BLACK, WHITE), key=lambda one: contrast(one, behind))


class StarkFilter(LineFilter):
    """Writes words that are too dim for the stark face in black or in white.

    Pictures and faded words mix colours; here they are made plain, whatever they
    were mixed from. Blocks of a picture are no words and keep their colour.
    """

    def apply(self, segments: list[Segment], background: Color) -> list[Segment]:
        return [self._plain(one, background) for one in segments]

    def _plain(self, segment: Segment, background: Color) -> Segment:
        text, style, control = segment
        if style is None or not any(map(is_word, text)):
            return segment
        behind = _colour(style.bgcolor) or background
        ink = _colour(style.color)
        if style.dim or ink is None or _is_grey(ink) or not _is_read(ink, behind):
            ink = readable_on(behind)
            style = style + Style(color=RichColor.from_rgb(*ink.rgb), dim=False)
        return Segment(text, style, control)


def _is_grey(colour: Color) -> bool:
    """Whether a colour is black mixed with white; in the stark face that is dim."""
    return max(colour.rgb) - min(colour.rgb) <= GREY


def _is_read(ink: Color, behind: Color) -> bool:
    return contrast(ink, behind) >= STARK_READABLE


def is_word(glyph: str) -> bool:
    """Whether a glyph is to be read, and is not a block or a line of a picture."""
    return not glyph.isspace() and not "\u2500" <= glyph <= "\u28ff"


def _colour(colour: RichColor | None) -> Color | None:
    if colour is None or colour.is_default:
        return None
    return Color.from_rich_color(colour)
