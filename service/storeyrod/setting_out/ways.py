"""Ways round a building: which edges meet at corners, and the faces that follow one another."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from storeyrod.wall.face import Face, Side
from storeyrod.wall.wall import Wall

End = tuple[str, Side]


def meeting_ends(wall: Wall) -> Mapping[End, End]:
    """The edge that each edge meets at a corner, where the request holds both."""
    meets: dict[End, End] = {}
    for corner in wall.corners:
        if corner.second is not None:
            first, second = ((end.face.id, end.side) for end in corner.ends)
            meets[first], meets[second] = second, first
    return meets


@dataclass(frozen=True, slots=True)
class Way:
    """Faces joined by corners, in order, each with the side by which it is entered; closed when the last meets the first."""

    steps: tuple[tuple[Face, Side], ...]
    closed: bool


def ways_round(wall: Wall) -> list[Way]:
    """Every loop or chain of faces, by name of the first face; loops start at the least name, chains at an open end."""
    meets = meeting_ends(wall)
    faces = {face.id: face for face in wall.faces}
    ways: list[Way] = []
    seen: set[str] = set()
    for name in sorted(faces):
        if name in seen:
            continue
        back = list(_walk((name, "right"), meets))
        closed = len(back) > 1 and meets.get((back[-1][0], other_side(back[-1][1]))) == (name, "right")
        start: End = (name, "left") if closed else (back[-1][0], other_side(back[-1][1]))
        steps = list(_walk(start, meets))
        seen.update(one for one, _ in steps)
        ways.append(Way(tuple((faces[one], side) for one, side in steps), closed))
    return sorted(ways, key=lambda way: way.steps[0][0].id)


def _walk(entered: End, meets: Mapping[End, End]) -> Iterator[End]:
    """Faces from one entered by a side onwards, until an open end or the first face again."""
    first, here = entered[0], entered
    while True:
        yield here
        onwards = meets.get((here[0], other_side(here[1])))
        if onwards is None or onwards[0] == first:
            return
        here = onwards


def other_side(side: Side) -> Side:
    """The opposite end of a face."""
    return "right" if side == "left" else "left"
