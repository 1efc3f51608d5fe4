"""Templates in, whole printable pages out: one file, no script, no outside request.

Templates stand in `templates/`. Everything a user typed is escaped, and a name that a
template does not know is an error, never an empty place.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from scheduler.reports.language import language_of

if TYPE_CHECKING:
    from jinja2 import Environment

    from scheduler.reports.paper import Paper


@cache
def environment() -> Environment:
    """The one template environment: escapes everything, refuses unknown names."""
    # jinja2 is only wanted when a page is made
    from jinja2 import Environment, PackageLoader, StrictUndefined

    return Environment(
        loader=PackageLoader("scheduler.reports", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def page(template: str, **values: Any) -> str:
    """A template filled in."""
    return environment().get_template(template).render(**values)


def paper_page(paper: Paper) -> str:
    """A paper as one printable page, A4 or letter."""
    say = language_of(paper.language).say
    return page("paper.html", paper=paper, say=say)
