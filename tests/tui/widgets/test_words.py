"""Text that is laid out anew only where it takes other room."""

import pytest
from textual.app import App, ComposeResult
from textual.content import Content

from tui.widgets.words import Words


class One(App[None]):
    """A text of its own height above one of a fixed height."""

    CSS = "#fixed { height: 2; }"

    def compose(self) -> ComposeResult:
        yield Words("one", id="free")
        yield Words("one", id="fixed")


async def is_laid_out(of: str, *texts: str | Content) -> bool:
    """Whether the text asked for a layout; and it says the last one."""
    app = One()
    async with app.run_test(size=(40, 10)) as pilot:
        words = app.query_one(f"#{of}", Words)
        before = words._layout_updates
        for text in texts:
            words.update(text)
            await pilot.pause()
        assert str(words.visual) == str(texts[-1])
        return words._layout_updates > before


@pytest.mark.parametrize(
    ("of", "texts", "expected"),
    [
        ("free", ("one",), False),
        ("free", ("two",), False),
        ("free", ("two\nlines",), True),
        ("free", ("two\nlines", "and\nagain"), True),
        ("free", ("word " * 20,), True),
        ("free", (Content.styled("one", "bold"),), False),
        ("fixed", ("two\nlines\nor three",), False),
    ],
)
async def test_a_text_asks_for_a_layout_only_where_it_takes_other_room(
    of: str, texts: tuple[str | Content, ...], expected: bool
) -> None:
    assert await is_laid_out(of, *texts) is expected


async def test_a_text_that_is_not_displayed_asks_for_none_and_is_there_when_it_is() -> (
    None
):
    app = One()
    async with app.run_test(size=(40, 10)) as pilot:
        words = app.query_one("#free", Words)
        words.display = False
        await pilot.pause()
        before = words._layout_updates
        words.update("two\nlines")
        assert words._layout_updates == before
        words.display = True
        await pilot.pause()
        assert words.size.height == 2


async def test_a_text_grows_with_its_lines() -> None:
    app = One()
    async with app.run_test(size=(40, 10)) as pilot:
        words = app.query_one("#free", Words)
        words.update("two\nlines")
        await pilot.pause()
        assert words.size.height == 2


async def test_other_colours_are_another_text() -> None:
    app = One()
    async with app.run_test(size=(40, 10)):
        words = app.query_one("#free", Words)
        words.update(Content.styled("one", "bold"))
        assert isinstance(words.visual, Content)
        assert words.visual.spans
