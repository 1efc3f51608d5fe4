"""A price of water, of energy, interest or life as typed in, its number out."""

import re

from scheduler.errors import QuantityError
from scheduler.noun import MOST_INTEREST, MOST_LIFE_YEARS, MOST_PRICE_MONEY
from scheduler.units import (
    System,
    alternatives,
    converted,
    face_suffix,
    number,
    spelled_unit,
)

# a currency before the number, as people write it: it is the tariff's own anyway
_CURRENCY = re.compile(r"^\s*[^\d\s.+-]{1,3}\s*(?=[\d.])")
# an interest as it stands in the files; nobody lends at half a percent or less
MOST_AS_A_PART = MOST_INTEREST


def parsed_price(text: str) -> float:
    """Read a price of a volume of water.

    Parameters
    ----------
    text : str
        Such as `0.40/kgal`, `$2.60 per kgal`, `0.8/m3` or `350/acre-ft`.

    Returns
    -------
    float
        Money per cubic metre.

    Raises
    ------
    QuantityError
        If there is no number, no volume, or the price is below 0 or above any in use.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> round(parsed_price("$3.785411784/kgal"), 6)
    1.0
    """
    size, rest = number(_CURRENCY.sub("", text))
    unit = spelled_unit(re.sub(r"^(/|per\b)", "", rest).strip())
    if unit not in alternatives("m3"):
        raise QuantityError(
            f"{text.strip()!r} names no volume",
            'write the price of a volume, such as "0.40/kgal" or "0.80/m3"',
        )
    if size < 0:
        raise QuantityError(
            f"{text.strip()!r} is below 0", "write a price of 0 or more"
        )
    return _within("water price", text, size / converted(1.0, unit, to="m3"))


def parsed_assumption(what: str, text: str, *, system: System) -> float:
    """Read a price, an interest or a life.

    Parameters
    ----------
    what : str
        `water price`, `energy price`, `interest` or `life`.
    text : str
        Such as `3.50/kgal`, `0.12`, `6%` or `12 years`; a price of water without a
        volume is one of the system's own.
    system : str
        `us` or `metric`.

    Returns
    -------
    float
        Money per m3, money per kWh, a part of one, or years.

    Raises
    ------
    QuantityError
        If there is no number, it is below 0 or more than its files may say, the words
        after it are of something else, or an interest may be a percentage or a part of
        one.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> parsed_assumption("interest", "6 %", system="us")
    0.06
    >>> parsed_assumption("life", "12 years", system="us")
    12.0
    """
    value, rest = number(_CURRENCY.sub("", text))
    words = rest.strip().casefold()
    if value < 0:
        raise QuantityError(f"{text.strip()!r} is below 0", _HOW[what])
    if what == "water price":
        if words:
            return parsed_price(text)
        face = face_suffix("money_per_m3", system)
        return _within(what, text, converted(value, face, to="money_per_m3"))
    if words not in _WORDS[what]:
        raise QuantityError(f"{text.strip()!r} is no {what}", _HOW[what])
    if what == "interest" and not words and 0 < value <= MOST_AS_A_PART:
        raise QuantityError(
            f"{text.strip()!r} may be {value:.3g} % or {100 * value:.3g} %",
            'write it in percent, with the sign, such as "6 %"',
        )
    return _within(what, text, value / 100.0 if what == "interest" else value)


def _within(what: str, text: str, value: float) -> float:
    """The number, if a file may say it as well."""
    most, why = _MOST[what]
    if value > most:
        raise QuantityError(f"{text.strip()!r} is {why}", _HOW[what])
    if what == "life" and value == 0:
        raise QuantityError(f"{text.strip()!r} is no life", _HOW[what])
    return value


_NO_CURRENCY = "above any price in use: no currency has one over 100,000,000"
_MOST = {
    "water price": (MOST_PRICE_MONEY, f"{_NO_CURRENCY} a cubic metre"),
    "energy price": (MOST_PRICE_MONEY, f"{_NO_CURRENCY} a kWh"),
    "interest": (MOST_INTEREST, "above 50 % a year, the most beyond inflation"),
    "life": (
        MOST_LIFE_YEARS,
        "above 100 years, longer than any hardware is written off",
    ),
}
_WORDS = {
    "energy price": ("", "/kwh", "per kwh", "/ kwh"),
    "interest": ("", "%", "percent", "% a year"),
    "life": ("", "y", "year", "years"),
}
_HOW = {
    "water price": "write the price of a volume, such as 3.50/kgal or 0.90/m3",
    "energy price": "write the price of a kWh, such as 0.12",
    "interest": "write it in percent a year, 0 to 50, such as 6 %",
    "life": "write years above 0 and at most 100, such as 12",
}
