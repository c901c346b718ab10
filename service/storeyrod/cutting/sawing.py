"""From places to cuts: the order in which straight cuts free every piece of a blank, so chosen that what is left stays in one."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from storeyrod.cutting.lie import Part, whole
from storeyrod.cutting.plan import Cut, Rest
from storeyrod.cutting.stock import Blank, Edges


class _Way(NamedTuple):
    """A cut through a part, with the pieces on each side of it."""

    upright: bool
    at: float
    near: list[Part]
    far: list[Part]


@dataclass(slots=True)
class Sawing:
    """Cuts in the order of sawing, and the rectangles left."""

    cuts: list[Cut]
    rests: list[Rest]


def sawing_of(blank: Blank, pieces: Sequence[Part], kerf: float) -> Sawing:
    """How a blank is sawn into pieces.

    Raises ``ValueError`` where no cut from edge to edge parts them.
    """
    done = Sawing([], [])
    waiting = [(whole(blank), list(pieces))]
    while waiting:
        part, inside = waiting.pop()
        if not inside:
            done.rests.append(_rest(part, blank))
        elif len(inside) > 1 or inside[0] != part:
            way = _best(part, inside, kerf)
            done.cuts.append(_cut(way, part))
            sides = _sides(part, way, kerf)
            waiting += [(side, pieces) for side, pieces in reversed(sides) if side.width > 0.0 and side.height > 0.0]
    return done


def _rest(part: Part, blank: Blank) -> Rest:
    edges = Edges(
        part.x == 0.0 and blank.edges.left,
        part.x + part.width == blank.width and blank.edges.right,
        part.y == 0.0 and blank.edges.bottom,
        part.y + part.height == blank.height and blank.edges.top,
    )
    return Rest(*part, edges)


def _cut(way: _Way, part: Part) -> Cut:
    if way.upright:
        return Cut(True, way.at, part.y, part.y + part.height)
    return Cut(False, way.at, part.x, part.x + part.width)


def _sides(part: Part, way: _Way, kerf: float) -> list[tuple[Part, list[Part]]]:
    """Both sides of a cut with their pieces; one that the saw leaves nothing of has no size."""
    far = way.at + kerf
    if way.upright:
        near_part = Part(part.x, part.y, way.at - part.x, part.height)
        far_part = Part(far, part.y, part.x + part.width - far, part.height)
    else:
        near_part = Part(part.x, part.y, part.width, way.at - part.y)
        far_part = Part(part.x, far, part.width, part.y + part.height - far)
    return [(near_part, way.near), (far_part, way.far)]


def _best(part: Part, inside: Sequence[Part], kerf: float) -> _Way:
    """The cut behind which the largest rectangle comes free, at once or by the next cut."""
    ways = [*_ways(part, inside, kerf, upright=False), *_ways(part, inside, kerf, upright=True)]
    if not ways:
        raise ValueError(f"no cut from edge to edge parts {inside}")
    return max(ways, key=lambda way: _freed(part, way, kerf))


def _freed(part: Part, way: _Way, kerf: float) -> float:
    sides = _sides(part, way, kerf)
    empty = max((side.width * side.height for side, pieces in sides if not pieces), default=0.0)
    if not (way.near and way.far):
        return empty
    return max(_trimmed(side, pieces, kerf) for side, pieces in sides)


def _trimmed(part: Part, inside: Sequence[Part], kerf: float) -> float:
    """Largest rectangle that one more cut takes off a part."""
    left = min(piece.x for piece in inside) - part.x
    right = part.x + part.width - max(piece.x + piece.width for piece in inside)
    below = min(piece.y for piece in inside) - part.y
    above = part.y + part.height - max(piece.y + piece.height for piece in inside)
    return max((max(left, right) - kerf) * part.height, (max(below, above) - kerf) * part.width, 0.0)


def _ways(part: Part, inside: Sequence[Part], kerf: float, *, upright: bool) -> Iterator[_Way]:
    """Every cut in one direction that runs past all pieces: before the first, behind any, none where there is nothing to take off.

    Trimming less than a kerf off the near edge leaves that part of the blade outside.
    """
    spans = [(p.x, p.x + p.width, p) if upright else (p.y, p.y + p.height, p) for p in inside]
    spans.sort(key=lambda span: (span[0], span[1], span[2]))
    pieces = [piece for _, _, piece in spans]
    start, end = (part.x, part.x + part.width) if upright else (part.y, part.y + part.height)
    if spans[0][0] > start:
        yield _Way(upright, spans[0][0] - kerf, [], pieces)
    reach = start
    for index, (low, high, _) in enumerate(spans):
        if index and low >= reach + kerf:
            yield _Way(upright, reach, pieces[:index], pieces[index:])
        reach = max(reach, high)
    if reach < end:
        yield _Way(upright, reach, pieces, [])
