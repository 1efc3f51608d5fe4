"""A price of water as typed in, money per cubic metre out."""

import re

from scheduler.errors import QuantityError
from scheduler.units import alternatives, converted, number, spelled_unit

# a currency before the number, as people write it: it is the tariff's own anyway
_CURRENCY = re.compile(r"^\s*[^\d\s.+-]{1,3}\s*(?=[\d.])")


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
        If there is no number, no volume, or the price is below 0.

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
    return size / converted(1.0, unit, to="m3")
