"""Dates and signed numbers as people read them, on every page and paper alike.

Machine files keep ISO dates and the hyphen.
"""

import datetime as dt

MINUS = "\N{MINUS SIGN}"


def day_text(day: dt.date, form: str = "%d %b") -> str:
    """Write a date without a leading zero: `8 Jun`, and `18 Jun` below it.

    Parameters
    ----------
    day : date or datetime
        The day.
    form : str
        As for `strftime`; `%d` has no leading zero. In a column the texts go to the
        right, so that months stand below each other.

    Returns
    -------
    str
        The text.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> day_text(dt.date(2026, 6, 8), "%a %d %b %Y")
    'Mon 8 Jun 2026'
    """
    return day.strftime(form.replace("%d", str(day.day)))


def date_text(day: dt.date) -> str:
    """Write a date with its year.

    Parameters
    ----------
    day : date or datetime
        The day.

    Returns
    -------
    str
        The text.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> date_text(dt.date(2026, 6, 8))
    '8 Jun 2026'
    """
    return day_text(day, "%d %b %Y")


def true_minus(text: str) -> str:
    """Write the sign of a number as a minus, not as a hyphen.

    Parameters
    ----------
    text : str
        A formatted number.

    Returns
    -------
    str
        The text.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> true_minus("-0.53")
    '−0.53'
    """
    return text.replace("-", MINUS)


def signed(value: float, form: str = ".2f") -> str:
    """Write a change with its sign; one that rounds to nothing has none.

    Parameters
    ----------
    value : float
        The change.
    form : str
        How the number behind the sign is formatted.

    Returns
    -------
    str
        The text.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> signed(0.09), signed(-0.531), signed(-0.004, ".0%")
    ('+0.09', '−0.53', '0%')
    """
    text = f"{value:+{form}}"
    is_nothing = text[1:].strip("0.%") == ""
    return text[1:] if is_nothing else true_minus(text)
