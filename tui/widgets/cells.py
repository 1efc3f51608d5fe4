"""A text in, the same by the cells of a terminal that it takes, out."""

from functools import lru_cache

from rich.cells import cell_len, set_cell_size

BEHIND = "\u200b"  # stands in the second cell of a sign, and takes none itself


@lru_cache(maxsize=1024)  # names of zones, heads of pictures
def by_cell(text: str) -> str:
    """As many signs as the text takes cells."""
    return "".join(one + BEHIND * (cell_len(one) - 1) for one in text)


def fitted(text: str, room: int) -> str:
    """A text in so many cells; what is cut ends with an ellipsis."""
    if cell_len(text) <= room:
        return text
    return f"{set_cell_size(text, max(0, room - 1))}…"
