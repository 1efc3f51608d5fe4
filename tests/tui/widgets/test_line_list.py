"""Lines are picked and typed into; what is picked stays picked."""

from textual.app import App, ComposeResult
from textual.content import Content

from tui.widgets.line_list import Line, LineList


class Shown(App[None]):
    def compose(self) -> ComposeResult:
        yield LineList()

    def on_mount(self) -> None:
        self.query_one(LineList).show(lines("a", "", "b", "c"))
        self.query_one(LineList).focus()
        self.typed = ""

    def on_line_list_typed(self, event: LineList.Typed) -> None:
        self.typed = event.text


def lines(*keys: str) -> list[Line]:
    return [Line(key, Content(f"line {key}")) for key in keys]


async def test_keys_pass_by_what_cannot_be_picked() -> None:
    app = Shown()
    async with app.run_test() as pilot:
        listed = app.query_one(LineList)
        seen = [listed.picked]
        for key in ("down", "down", "down", "home"):
            await pilot.press(key)
            seen.append(listed.picked)
        assert seen == ["a", "b", "c", "c", "a"]


async def test_what_is_picked_stays_picked_or_its_neighbour_is() -> None:
    app = Shown()
    async with app.run_test() as pilot:
        listed = app.query_one(LineList)
        await pilot.press("down")
        listed.show(lines("a", "new", "b", "c"))
        assert listed.picked == "b"
        listed.show(lines("a", "new", "c"))
        assert listed.picked == "c"


async def test_something_is_typed_in_place_and_escape_leaves() -> None:
    app = Shown()
    async with app.run_test() as pilot:
        listed = app.query_one(LineList)
        listed.type_into("old", 6)
        await pilot.pause()
        await pilot.press("n", "e", "w", "enter")
        assert app.typed == "new"  # what stood there was selected
        await pilot.press("escape")
        assert not listed.is_typing
        assert listed.has_focus
