"""Method and sources, on the page of the site; limits, section 8 of an option."""

from __future__ import annotations

from scheduler.reports.cost import METHOD
from scheduler.reports.paper import Section, Words

MONEY = (
    "Yearly cost: outlay times r / (1 - (1 + r)^-n), each part over its own life, "
    "with repairs. Payback without interest; worth now and return over the life. "
    "Break-even: yearly cost less other savings entered, over the water saved; of the "
    "water alone after what pumping saves. Pumping: rho g h over the efficiency, at "
    "the price of the hours in which the zone may run."
)
CHANCE = (
    "Chance: DU now and then drawn from their ranges (Student's t on days), prices "
    "evenly within what was entered. Pays from 80 % on, does not pay up to 20 %, "
    "between them, inside test noise, or under three days of tests: not proven."
)
LIMITS = (
    "Prices are the user's own; growth, losses and labour count only where "
    "entered. A forecast saving is none until it is tested again and the clock follows."
)
ELSEWHERE = "Method and sources stand on the page of the site."
SOURCES = (
    "Sources: FAO-56 (1998) ch. 8; Blank and Tarquin, Engineering Economy (from "
    "memory); Univ. Florida AE194 (DU). The three days and the 80 % are common "
    "practice, no source."
)


def method_section() -> Section:
    """How everything was computed, once for all options of the site."""
    words = tuple(Words(one) for one in (METHOD, MONEY, CHANCE, SOURCES))
    return Section("Method, sources", words, "3")


def limits_section() -> Section:
    """What an option's pages cannot tell."""
    return Section("Limits", (Words(f"{LIMITS} {ELSEWHERE}"),), "8")
