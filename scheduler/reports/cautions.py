"""The usual cautions, in one place for every report and for the dashboard's help."""

CAUTIONS = (
    ("Electrics", "Pumps, valves and clocks carry power beside water: isolate first."),
    ("Pressure", "Let pressure off before opening a line, a head or a filter."),
    (
        "Chemigation",
        "Injecting needs a backflow device and the label's own directions.",
    ),
    ("Re-entry", "After spraying keep out until the label's interval has passed."),
    (
        "Recycled water",
        "Not for drinking, washing or misting people; sign the outlets.",
    ),
    ("Slips", "Wet paths, hoses and cans trip people; test where you can see."),
    ("Heat", "Walking a block at noon: shade, water, company."),
    ("Frost", "Ice loads plants and pipes; frost water has its own plan."),
)
DEFER = (
    "Local codes, product labels and licensed practice come before anything shown here."
)


def cautions(*subjects: str) -> tuple[tuple[str, str], ...]:
    """Cautions about these subjects in the order of the list; all when none is named.

    Raises
    ------
    ValueError
        If there is no caution about a subject.

    Examples
    --------
    >>> [subject for subject, _ in cautions("Heat", "Pressure")]
    ['Pressure', 'Heat']
    """
    known = [subject for subject, _ in CAUTIONS]
    for subject in subjects:
        if subject not in known:
            raise ValueError(f"no caution about {subject!r}; there are {known}")
    return tuple(one for one in CAUTIONS if not subjects or one[0] in subjects)
