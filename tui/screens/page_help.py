"""Keys of the pages of the field test, and the sources of what they draw."""

PAGES = (
    ("tests and wind", (
        ("c", "open it, from the zones, a zone or another page"),
        ("← →", "previous or next run, newest test first"),
        ("1 2 3 v", "box, cans, wind, on a narrow terminal"),
        ("4 5", "packages against wind, spacing"),
        ("↑ ↓ n p", "previous or next zone"),
    )),
    ("packages against wind", (
        ("w", "open it"),
        ("↑ ↓ j k", "another pair"),
        ("← → 1 2 3", "picture, pairs, verdict, on a narrow terminal"),
        ("a", "another wind to compare at; nothing typed: as you water"),
        ("n p", "next or previous zone, for the pages opened from here"),
    )),
    ("spacing", (
        ("s", "open it, for a package with a [package.profile]"),
        ("arrows", "move the heads: along the row, between rows"),
        ("l", "straight or staggered rows"),
        ("o", "back to the spacing as built"),
        ("- +", "another DU for the contour"),
        ("n p", "another package"),
        ("m $", "the cost page, with this spacing tried as what would stand there"),
    )),
    ("need of a zone", (
        ("b", "open it: weather, coefficient, depletion, the week's range"),
        ("← → n p", "previous or next zone"),
        ("v tab", "next picture, on a narrow terminal"),
        ("1 2 3 4 5", "try another run-time rule"),
        ("d k a", "pick what - and + try: DU, a factor of Kc, allowed depletion"),
        ("- +", "try less or more; every page shows it"),
        ("0", "drop what is tried in the zone; ctrl+z takes back one step"),
        ("e", "explain: from the cans to the minutes"),
    )),
    ("season of a zone", (
        ("y", "open it: what each quarter gets, drains and lacks in a year"),
        ("← → n p", "previous or next zone"),
        ("1 2 3 4", "try another run-time rule; the season is run again"),
        ("d k a", "pick what - and + try: DU, a factor of Kc, allowed depletion"),
        ("o", "pick the other DU to hold beside it, the driest quarter no drier"),
        ("- +", "less or more of what is picked"),
        ("0", "drop what is tried in the zone"),
        ("e", "explain: from the cans to the season's water"),
    )),
    ("hours of the week", (
        ("h", "open it: the nights by the clock, the flow against the pump"),
        ("← →", "from cycle to cycle; what is under the cursor is read out"),
        ("↑ ↓", "another night"),
        ("n p", "next or previous zone"),
        ("enter", "take the watering in hand, and drop it where it is allowed"),
        ("← → ↑ ↓", "in hand: a minute, another night; with shift 15 minutes"),
        ("o", "in hand: this cycle alone, or all of them"),
        ("esc", "let it go back; else leave"),
        ("- +", "try a weaker or a stronger pump"),
        ("v", "one night or the week"),
        ("i", "issue the week; with stop findings, from the weekly walk"),
        ("G", "what moving last week's starts gains, and how many shall move"),
        ("page keys", "scroll what changes since the last issued week"),
    )),
    ("moves", (
        ("G", "open it, from the hours of the week"),
        ("↑ ↓ j k", "another line: more moves, more gained"),
        ("enter", "plan the week so; every page shows it"),
    )),
    ("proof of a zone", (
        ("l", "open it (not from the spacing): checks, drift, meter, what is due"),
        ("← → n p", "previous or next zone"),
        ("v tab", "next picture, on a narrow terminal"),
        ("a", "record a leaching check: place, mL in, mL out; how long it ran"),
        ("o k m", "an override, a watering skipped, a meter reading"),
        ("z", "take the last entry out of the log"),
        ("e", "explain the picture in front"),
        ("page keys", "scroll what is due, learned and in conflict"),
    )),
    ("what is given", (
        ("g", "open it, from every page; the zone at hand is shown"),
        ("← → tab", "the things, the fields of one"),
        ("enter", "type into a field, unfold a table not given; a click does so too"),
        ("a", "add a thing like the picked one, or the table itself"),
        ("o", "copy the picked thing"),
        ("r delete", "take out the field, the table, the thing"),
        ("ctrl+z ctrl+y", "undo and redo, also what was saved"),
        ("ctrl+s", "save; a file changed on disk is shown as a difference first"),
        ("page keys", "scroll the things or the fields"),
        ("esc", "from the fields to the things; else leave"),
    )),
    ("what is tried", (
        ("↑ ↓", "another what-if"),
        ("k K", "keep the one in front, or all: written to the site folder"),
        ("d D", "drop the one in front, or all of them"),
    )),
    ("cost", (
        ("m $", "open it; from the proof page $ alone"),
        ("↑ ↓ j k", "another option"),
        ("1 2 3 4", "try another price of water, of energy, interest, life"),
        ("t", "try a tested package as what would stand there"),
        ("n p", "next or previous zone, for the pages opened from here"),
        ("page keys", "scroll: the planned week, the nights with the option"),
    )),
)  # fmt: skip

SOURCES = (
    (
        "Box",
        "whiskers reach the driest and the wettest can; quartiles: Hyndman and Fan, "
        "1996, definition 7. DU is the mean of the driest quarter over the mean.",
    ),
    (
        "Wind bands",
        "calm to 5 mph: audit guidelines 2009, after ASAE S398.1; windy above 4 m/s: "
        "Yacoubi et al., 2012.",
    ),
    (
        "Band of a line",
        "days are what repeats: Bell and McCaffrey, 2002. It shows how well the line "
        "is known, not where the next run will lie.",
    ),
    ("Tie", "where two lines cross; its range is Fieller's, 1954."),
    (
        "Spacing",
        "one head's cans laid over each other, straight between cans; still air, full "
        "circles, heads alike, no edges.",
    ),
    (
        "Need",
        "ETo: ASCE standardized, FAO-56; Kc: FAO-56 chapters 6 and 7; depletion: "
        "FAO-56 chapter 8, each evening before the night's watering. Tried DU: every "
        "place is drawn to or from the mean.",
    ),
    (
        "Before",
        "◇ is where a tried bar ended before, ◦ a former line or flow, ░ former "
        "blocks; tables write was→now. Flags: 2→3 more than before, 2→other as many, "
        "but for something else.",
    ),
    (
        "Season",
        "FAO-56 chapter 8 at every can place, water early in the day (example 38); "
        "each watering draws one of the tested runs.",
    ),
    (
        "Nights",
        "a minute costs what its usual wind asks for; places by insertion, ruin and "
        "recreation. A checker that shares no code with the search judges every place.",
    ),
    (
        "Leaching",
        "all that drained over all that came: Million and Yeager, UF/IFAS ENH1268; "
        "10 to 20 %: common practice, no source.",
    ),
    (
        "Drift",
        "posterior of Gaussian processes: Rasmussen and Williams, 2006, equations "
        "2.25 and 2.26; the band is 90 % sure.",
    ),
    (
        "Given",
        "as typed in site.toml, zones.toml, packages.toml, options.toml; dim: what the "
        "week used, or the default, where nothing is given.",
    ),
    (
        "Cost",
        "the same season against an even catch; capital recovery: Blank and Tarquin, "
        "Engineering Economy (from memory); sure from 80 % on, common practice.",
    ),
)
