"""A number in, the number that a face shows of it out: to be tried and kept."""

from scheduler.units import UNITS, System, converted, face_suffix


def seen(value: float, suffix: str, system: System) -> float:
    """Round a number to what a face shows.

    Parameters
    ----------
    value : float
        Value in the inside unit.
    suffix : str
        Suffix of the inside unit; empty for a fraction or count.
    system : {'us', 'metric'}
        The face.

    Returns
    -------
    float
        In the inside unit.

    References
    ----------
    Source: definition.

    Examples
    --------
    >>> seen(0.860438, "", "us")
    0.86
    >>> seen(12.1312, "m", "us") / 0.3048
    39.8
    """
    face = face_suffix(suffix, system)
    unit = UNITS.get(face)
    if unit is None:
        return round(value, 2)
    size = round(converted(value, suffix, to=face), unit.digits)
    return converted(size, face, to=suffix)
