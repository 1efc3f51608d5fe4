"""A text from the head or edge of a table in; what it names, and its unit, out.

The words are those of people who measure: English, German, French, Spanish,
Portuguese, Italian, Dutch. Common practice, no source.
"""

import re
from typing import Literal

from scheduler.units import spelled_unit

Role = Literal["can", "row", "column", "reading", "note", "other", ""]


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split(";")) - {""}


_TOTALS = _words(
    "total;totals;sum;sums;grand total;subtotal;mean;average;avg;means;averages;median;"
    "minimum;maximum;min;max;std;stdev;sd;std dev;standard deviation;count;cv;du;cu;"
    "dulq;du lq;du lh;dulh;pr;lowest quarter;low quarter;low quarter mean;lq;lq mean;"
    "lowest quarter mean;low half;low half mean;average of low quarter;mean of low "
    "quarter;uniformity;sum total;overall;overall mean;overall average;"
    "summe;gesamt;gesamtsumme;mittel;mittelwert;durchschnitt;schnitt;anzahl;"
    "standardabweichung;summe gesamt;zwischensumme;"
    "somme;totaux;moyenne;moy;médiane;mediane;ecart type;écart type;nombre;"
    "suma;media;promedio;mediana;mínimo;minimo;máximo;maximo;totales;"
    "soma;média;somma;totale;minima;massimo;mediana;"
    "totaal;som;gemiddelde;gemiddeld;aantal;"
    "i alt;gennemsnitt;medel;summa;medelvärde;snitt;razem;średnia;celkem;průměr"
)  # fmt: skip
_ROLES: dict[Role, frozenset[str]] = {
    "can": _words(
        "can;cans;can id;can no;can nr;can number;can name;id;no;nr;num;number;#;"
        "catch can;collector;cup;pot;point;position;pos;place;place no;label;name;"
        "station;becher;topf;nummer;messbecher;messpunkt;punkt;bezeichnung;gefäß;"
        "gefäss;auffangbehälter;platz;"
        "gobelet;pluviomètre;numéro;n°;nº;place n°;pot n°;"
        "vaso;bote;lata;número;numero;recipiente;pluviómetro;copo;coletor;lattina;"
        "beker;plaats;can name id"
    ),
    "row": _words(
        "row;rows;row no;row number;reihe;zeile;rang;rangée;ligne;fila;linha;riga;rij;y"
    ),
    "column": _words(
        "col;column;col no;column no;column number;spalte;colonne;columna;coluna;"
        "colonna;kolom;x"
    ),
    "reading": _words(
        "reading;readings;catch;catches;caught;volume;vol;depth;water;catch volume;"
        "catch depth;value;values;measured;amount;collected;wert;werte;messwert;"
        "messwerte;ablesung;auffang;auffangmenge;menge;volumen;höhe;niederschlag;"
        "fang;valeur;valeurs;lecture;lectures;hauteur;quantité;captage;"
        "lectura;lecturas;medida;medidas;captación;valor;valores;leitura;leituras;"
        "lettura;letture;valore;meting;metingen;waarde;vangst;hoeveelheid"
    ),
    "note": _words(
        "note;notes;remark;remarks;comment;comments;reason;code;codes;flag;status;"
        "bemerkung;bemerkungen;anmerkung;notiz;kommentar;grund;"
        "remarque;remarques;observation;observations;commentaire;nota;notas;"
        "observación;observaciones;comentario;observações;opmerking;opmerkingen"
    ),
    "other": _words(
        "date;time;day;start;end;stop;minutes;duration;run time;runtime;wind;"
        "wind speed;pressure;flow;mouth;area;diameter;zone;block;site;operator;"
        "reader;weather;temperature;datum;zeit;uhrzeit;dauer;laufzeit;druck;"
        "durchfluss;fläche;durchmesser;ablesezeit;fecha;hora;duración;presión;"
        "viento;heure;durée;pression;vent;data;durata;tijd;duur;spacing;head;heads;"
        "nozzle;nozzles"
    ),
}
_RUN = re.compile(
    r"(run|test|rep|repeat|replicate|trial|lauf|versuch|messung|wiederholung|"
    r"durchgang|essai|répétition|prueba|ensayo|repetición|teste|prova|proef|reader)"
    r"[ .#-]*\w{1,10}$"
)
_UNIT = re.compile(r"[(\[]\s*([^)\]]{1,12})\s*[)\]]|(?:,|/| in | en )\s*([\w. ]{1,8})$")
_IMPERIAL = {"impfloz", "ukfloz", "imperialfloz", "impoz", "ukoz"}
# the lone letters that units share with codes and with names of columns
_LONE = {"m", "l", "c", "f", "h", "g"}


def plain(text: str) -> str:
    """A text without case, unit and the marks around words."""
    text = _UNIT.sub("", text.casefold())
    return " ".join(re.sub(r"[:;=_*.?!()\[\]]", " ", text).split())


def role_of(text: str) -> Role:
    """What a header names.

    Examples
    --------
    >>> role_of("Catch, mm "), role_of("Can no."), role_of("Lauf 2")
    ('reading', 'can', '')
    """
    for role, words in _ROLES.items():
        if plain(text) in words:
            return role
    parts = [one for one in re.split(r"[\s/\\|]+", plain(text)) if one]
    named = {role for role in _ROLES for one in parts if one in _ROLES[role]}
    if named == {"row", "column"}:
        return "row"  # the corner of a grid
    return "reading" if named == {"reading"} else ""


def is_total(text: str) -> bool:
    """Whether a text names a sum, a mean or another figure made from readings.

    Examples
    --------
    >>> is_total("Summe:"), is_total("Mean (mL)"), is_total("A1")
    (True, True, False)
    """
    bare = re.sub(r"\s*-?\d[\d.,]*\s*\w{0,2}$", "", plain(text)).strip()
    return plain(text) in _TOTALS or bare in _TOTALS


def is_run(text: str) -> bool:
    """Whether a header names a run, such as `run 2`."""
    return _RUN.match(plain(text)) is not None


def unit_in(text: str) -> str | None:
    """Unit named in a header: a suffix, `imp_fl_oz`, or None.

    Examples
    --------
    >>> unit_in("Catch, mm "), unit_in("Catch (ml)"), unit_in("[fl oz]"), unit_in("A")
    ('mm', 'ml', 'fl_oz', None)
    """
    found = _UNIT.search(text)
    named = (found[1] or found[2]) if found else ""
    for typed in (named, text.strip(" ,;:")):
        spelled = re.sub(r"[\s.]", "", typed.casefold())
        if spelled in _IMPERIAL:
            return "imp_fl_oz"
        is_bare = typed != named or not (found and found[1])
        unit = None if is_bare and spelled in _LONE else spelled_unit(typed)
        if unit is not None:
            return unit
    last = text.split()[-1:]
    if last and len(text.split()) > 1 and last[0].casefold() not in _LONE | {"in"}:
        return spelled_unit(last[0])
    return None


def is_header_word(text: str) -> bool:
    """Whether a text can only stand at the head of readings, not name a can."""
    return bool(role_of(text) or is_run(text) or unit_in(text))


_SUMS = {"total", "totals", "sum", "sums", "grand total", "summe", "gesamt",
         "gesamtsumme", "somme", "suma", "soma", "somma", "totale", "totaal", "som",
         "summa"}  # fmt: skip
_MEANS = {"mean", "means", "average", "avg", "averages", "mittel", "mittelwert",
          "durchschnitt", "moyenne", "media", "média", "promedio", "gemiddelde",
          "gemiddeld"}  # fmt: skip


def figure_named(text: str) -> str:
    """Which figure a word names: `sum`, `mean`, or none that can be checked.

    Examples
    --------
    >>> figure_named("Summe:"), figure_named("Mean (mL)"), figure_named("max")
    ('sum', 'mean', '')
    """
    if plain(text) in _SUMS:
        return "sum"
    return "mean" if plain(text) in _MEANS else ""
