"""What an elevation meets at its ends, written along them."""

from collections.abc import Iterator, Mapping
from typing import Final

from storeyrod.drawings.display_list import Group, Text
from storeyrod.drawings.lettering import number, shortened, width_of
from storeyrod.drawings.line_styles import LETTERING, LETTERS_SMALL
from storeyrod.geometry.ticks import millimetres
from storeyrod.setting_out.ways import End
from storeyrod.wall.face import SIDES, Face, Side

_AWAY: Final = 2.1
"""Middle of the lettering from the wall on paper, between the wall and the rod, mm."""

_WORDS: Final = {
    "external_corner": "external corner",
    "internal_corner": "internal corner",
    "abutment": "abutment",
    "free_end": "free end",
    "movement_joint": "movement joint",
}


def edge_words(face: Face, side: Side, meets: Mapping[End, End]) -> str:
    """Kind of an end, and what it meets or how wide its joint is."""
    edge = face.edge(side)
    words = _WORDS[edge.kind]
    if edge.kind in ("abutment", "movement_joint"):
        words += f", joint {number(edge.joint_mm)}"
    partner = meets.get((face.id, side))
    other = edge.to if partner is None else ":".join(partner)
    return f"{words}, meets {other}" if other else words


def edge_labels(face: Face, meets: Mapping[End, End], scale: float) -> tuple[Group, ...]:
    """Labels at both ends."""
    return (Group("edge-names", LETTERING, tuple(_labels(face, meets, scale))),)


def _labels(face: Face, meets: Mapping[End, End], scale: float) -> Iterator[Text]:
    """Upright beside the longest plumb part of an end, or the whole height where that is too short."""
    whole = (face.foot, face.top)
    for side in SIDES:
        words = edge_words(face, side, meets)
        long = width_of(words, LETTERS_SMALL) * scale
        plumb = max(face.edge_heights(side), key=lambda part: part[1] - part[0], default=whole)
        low, high = (millimetres(y) for y in (plumb if millimetres(plumb[1] - plumb[0]) >= long else whole))
        room = (high - low) / scale
        x = millimetres(face.left) - _AWAY * scale if side == "left" else millimetres(face.right) + _AWAY * scale
        yield Text(
            (x, (low + high) / 2.0),
            shortened(words, LETTERS_SMALL, room),
            LETTERS_SMALL,
            "middle",
            middle=True,
            turned=True,
        )
