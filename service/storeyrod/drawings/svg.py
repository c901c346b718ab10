"""Writing sheets as SVG: paper millimetres outside, so that it prints true to scale, and millimetres of the subject inside.

Elements of a view carry the true coordinates of the wall under one transformation; lettering is set on the paper. The same
sheets give the same bytes.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from html import escape
from typing import Any, Final

from storeyrod.answer import Answer
from storeyrod.drawings.display_list import (
    Box,
    Drawing,
    Group,
    Item,
    Line,
    Marker,
    Point,
    Polygon,
    Polyline,
    Shapes,
    Sheet,
    Strokes,
    Style,
    Symbol,
    Text,
    View,
    upright_box,
)
from storeyrod.drawings.lettering import EM_PER_CAPITAL

_GAP: Final = 5.0
"""Between sheets that stand one below another, mm."""

_TITLE_ID: Final = "drawing-title"
_DESCRIPTION_ID: Final = "drawing-description"

_MARKUP: Final = re.compile("[&<>\"'\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_OUTSIDE_XML: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
"""Characters that XML 1.0 does not allow."""

_OUTSIDE_ID: Final = re.compile(r"[\s%]")
_SPECIAL_IN_ID: Final = re.compile("[\\s%&<>\"'\x00-\x1f\ud800-\udfff\ufffe\uffff]")


def write(answer: Answer[Drawing]) -> bytes:
    """The sheets of a drawing, one below another, as one SVG document in UTF-8."""
    sheets = answer.result
    width = max(sheet.width for sheet in sheets)
    height = sum(sheet.height for sheet in sheets) + _GAP * (len(sheets) - 1)
    body = [_head(sheets, answer.not_checked, width, height)]
    top = 0.0
    for number, sheet in enumerate(sheets, start=1):
        body += _sheet(sheet, number, top)
        top += sheet.height + _GAP
    body.append("</svg>\n")
    return "\n".join(body).encode("utf-8", "replace")


def text_of(words: str) -> str:
    """Character data of XML, also fit for an attribute in quotes."""
    if _MARKUP.search(words) is None:
        return words
    return escape(_OUTSIDE_XML.sub("\N{REPLACEMENT CHARACTER}", words))


def id_of(name: str) -> str:
    """The name as an id, which may hold no white space: that and the per cent sign are written in per cent form."""
    if _SPECIAL_IN_ID.search(name) is None:
        return name
    return text_of(_OUTSIDE_ID.sub(lambda found: f"%{ord(found[0]):02X}", name))


class _Numbers(dict[float, str]):
    """Numbers as they are written, to ten digits; a wall repeats its coordinates, so each is formatted once."""

    def __missing__(self, value: float) -> str:
        self[value] = text = f"{value + 0.0:.10g}"
        return text


@dataclass(frozen=True, slots=True)
class _Pen:
    """What elements of a view are written with: its scale, the prefix of its ids and the numbers written so far."""

    scale: float
    prefix: str
    numbers: _Numbers = field(default_factory=_Numbers)


def _n(value: float) -> str:
    return f"{value:.10g}"


def _head(sheets: Sequence[Sheet], not_checked: Sequence[str], width: float, height: float) -> str:
    titles = "; ".join(dict.fromkeys(sheet.title for sheet in sheets))
    descriptions = " ".join(dict.fromkeys([*(sheet.description for sheet in sheets), *not_checked]))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(width)}mm" height="{_n(height)}mm" '
        f'viewBox="0 0 {_n(width)} {_n(height)}" role="img" aria-labelledby="{_TITLE_ID} {_DESCRIPTION_ID}" '
        'font-family="sans-serif" fill="none" stroke="none" stroke-linejoin="round">\n'
        f'<title id="{_TITLE_ID}">{text_of(titles)}</title>\n'
        f'<desc id="{_DESCRIPTION_ID}">{text_of(descriptions)}</desc>'
    )


def _sheet(sheet: Sheet, number: int, top: float) -> Iterator[str]:
    yield f'<g class="sheet" id="sheet-{number}" transform="translate(0 {_n(top)})">'
    yield f'<rect class="paper" width="{_n(sheet.width)}" height="{_n(sheet.height)}" fill="#fff"/>'
    for view in sheet.views:
        yield from _view(view, sheet)
    yield "</g>"


def _view(view: View, sheet: Sheet) -> Iterator[str]:
    """Geometry in the coordinates of the subject, then its lettering on the paper."""
    x, y = view.origin
    factor = f"{1.0 / view.scale:.12g}"
    yield f'<g class="view" transform="matrix({factor} 0 0 -{factor} {_n(x)} {_n(sheet.height - y)})">'
    pen = _Pen(view.scale, sheet.id_prefix)
    for group in view.groups:
        yield from _group(group, pen)
    yield "</g>"
    texts = [text for group in view.groups for text in group.items if isinstance(text, Text)]
    if texts:
        yield '<g class="lettering" fill="#000">'
        for text in texts:
            yield _text(text, view.on_paper(text.at), sheet.height)
        yield "</g>"


def _group(group: Group, pen: _Pen) -> Iterator[str]:
    drawn = [item for item in group.items if type(item) is not Text]
    if not drawn:
        return
    name = f' id="{id_of(pen.prefix + group.id)}"' if group.id else ""
    yield f'<g class="{group.role}"{name}{_style(group.style, pen.scale)}>'
    yield from [_ELEMENTS[type(item)](item, pen) for item in drawn]
    yield "</g>"


def _style(style: Style, scale: float) -> str:
    made = ""
    if style.fill is not None:
        made += f' fill="{_grey(style.fill)}"'
    if style.weight:
        made += f' stroke="{_grey(style.grey)}" stroke-width="{_n(style.weight * scale)}"'
    if style.dashes:
        made += f' stroke-dasharray="{" ".join(_n(dash * scale) for dash in style.dashes)}"'
    return made


def _grey(share: float) -> str:
    level = round(share * 255)
    return f"#{level:02x}{level:02x}{level:02x}"


def _polygon(polygon: Polygon, pen: _Pen) -> str:
    name = f' id="{id_of(pen.prefix + polygon.id)}"' if polygon.id else ""
    title = f"<title>{text_of(polygon.title)}</title>" if polygon.title else ""
    box, n = upright_box(polygon.rings), pen.numbers
    if box is None:
        outline = "".join([f"{_path(ring, n)}Z" for ring in polygon.rings])
        return f'<path{name} fill-rule="evenodd" d="{outline}">{title}</path>'
    x, y, right, top = box
    return f'<rect{name} x="{n[x]}" y="{n[y]}" width="{n[right - x]}" height="{n[top - y]}">{title}</rect>'


def _path(points: Sequence[Point], n: _Numbers) -> str:
    return "M" + "L".join([f"{n[x]} {n[y]}" for x, y in points])


def _line(line: Line, pen: _Pen) -> str:
    return f'<path d="{_path((line.start, line.end), pen.numbers)}"/>'


def _polyline(line: Polyline, pen: _Pen) -> str:
    return f'<path d="{_path(line.points, pen.numbers)}"/>'


def _diagonal(x: float, y: float, half: float, n: _Numbers) -> str:
    whole = n[2 * half]
    return f"M{n[x - half]} {n[y - half]}l{whole} {whole}m-{whole} 0l{whole} -{whole}"


def _upright(x: float, y: float, half: float, n: _Numbers) -> str:
    return f"M{n[x - half]} {n[y]}h{n[2 * half]}M{n[x]} {n[y - half]}v{n[2 * half]}"


def _ring(x: float, y: float, half: float, n: _Numbers) -> str:
    arc, whole = f"a{n[half]} {n[half]} 0 1 0", n[2 * half]
    return f"M{n[x - half]} {n[y]}{arc} {whole} 0{arc} -{whole} 0"


def _ringed(x: float, y: float, half: float, n: _Numbers) -> str:
    return _ring(x, y, half, n) + _upright(x, y, half, n)


_SYMBOLS: Final[dict[Symbol, Callable[[float, float, float, _Numbers], str]]] = {
    "diagonal_cross": _diagonal,
    "upright_cross": _upright,
    "ringed_cross": _ringed,
    "ring": _ring,
}


def _marker(marker: Marker, pen: _Pen) -> str:
    name = f' id="{id_of(pen.prefix + marker.id)}"' if marker.id else ""
    x, y = marker.at
    return f'<path{name} d="{_SYMBOLS[marker.symbol](x, y, marker.size * pen.scale / 2.0, pen.numbers)}"/>'


def _shapes(shapes: Shapes, pen: _Pen) -> str:
    """One path for all of them: a slip in a path takes a fifth of the room of an element of its own."""
    name = f' id="{id_of(pen.prefix + shapes.id)}"' if shapes.id else ""
    title = f"<title>{text_of(shapes.title)}</title>" if shapes.title else ""
    others = [f"{_path(ring, pen.numbers)}Z" for rings in shapes.others for ring in rings]
    return f'<path{name} fill-rule="evenodd" d="{"".join(_boxes(shapes.boxes, pen.numbers))}{"".join(others)}">{title}</path>'


def _boxes(boxes: Sequence[Box], n: _Numbers) -> Iterator[str]:
    """Boxes, each from the lower left corner of the one before."""
    start, from_x, from_y = "M", 0.0, 0.0
    for x, y, right, top in boxes:
        yield f"{start}{n[x - from_x]} {n[y - from_y]}h{n[right - x]}v{n[top - y]}h{n[x - right]}z"
        start, from_x, from_y = "m", x, y


def _strokes(strokes: Strokes, pen: _Pen) -> str:
    """Lines, each from the end of the one before."""
    made, start, at, n = "", "M", (0.0, 0.0), pen.numbers
    for (x, y), (end_x, end_y) in strokes.lines:
        made += f"{start}{n[x - at[0]]} {n[y - at[1]]}l{n[end_x - x]} {n[end_y - y]}"
        start, at = "m", (end_x, end_y)
    return f'<path d="{made}"/>'


_ELEMENTS: Final[dict[type[Item], Callable[[Any, _Pen], str]]] = {
    Polygon: _polygon,
    Marker: _marker,
    Line: _line,
    Polyline: _polyline,
    Shapes: _shapes,
    Strokes: _strokes,
}

_ANCHORS: Final = {"start": "", "middle": ' text-anchor="middle"', "end": ' text-anchor="end"'}


def _text(text: Text, at: Point, sheet_height: float) -> str:
    drop = text.height / 2.0 if text.middle else 0.0
    bold = ' font-weight="bold"' if text.bold else ""
    size = f'font-size="{_n(text.height * EM_PER_CAPITAL)}"{bold}{_ANCHORS[text.anchor]}'
    x, y = at[0], sheet_height - at[1]
    if text.turned:
        return f'<text transform="matrix(0 -1 1 0 {_n(x + drop)} {_n(y)})" {size}>{text_of(text.words)}</text>'
    return f'<text x="{_n(x)}" y="{_n(y + drop)}" {size}>{text_of(text.words)}</text>'
