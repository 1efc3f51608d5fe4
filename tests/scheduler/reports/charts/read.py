"""Pictures read back: a drawing's words, boxes and lines, and its tables."""

from xml.etree import ElementTree as ET

from scheduler.reports.paper import Picture

SVG = "{http://www.w3.org/2000/svg}"


def tree(picture: Picture) -> ET.Element:
    return ET.fromstring(picture.svg)


def words(picture: Picture) -> list[str]:
    return [one.text or "" for one in tree(picture).iter(f"{SVG}text")]


def boxes(picture: Picture) -> list[dict[str, float | str]]:
    found = []
    for one in tree(picture).iter(f"{SVG}rect"):
        known: dict[str, float | str] = {"fill": one.get("fill", "")}
        known |= {k: float(one.get(k, "0")) for k in ("x", "y", "width", "height")}
        found.append(known)
    return found


def cells(picture: Picture) -> list[str]:
    return [
        cell for table in picture.tables for row in table.rows for cell in row if cell
    ]


def is_inside(picture: Picture) -> bool:
    """Whether every coordinate lies on the drawing."""
    whole = tree(picture)
    _, _, wide, high = map(float, (whole.get("viewBox") or "").split())
    points: list[tuple[float, float]] = []
    for one in whole.iter():
        for x, y in (("x", "y"), ("x1", "y1"), ("x2", "y2"), ("cx", "cy")):
            if one.get(x) is not None:
                points.append((float(one.get(x, "0")), float(one.get(y, "0"))))
        for pair in (one.get("points") or "").split():
            x_at, y_at = pair.split(",")
            points.append((float(x_at), float(y_at)))
    return all(-0.6 <= x <= wide + 0.6 and -0.6 <= y <= high + 0.6 for x, y in points)
