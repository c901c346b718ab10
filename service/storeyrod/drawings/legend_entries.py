"""What a legend may show: one function for each entry, shared by the kinds of sheet."""

from collections.abc import Iterator

from storeyrod.drawings.display_list import Box, Item, Line, Marker, Style, box_polygon
from storeyrod.drawings.fastener_marks import SYMBOLS
from storeyrod.drawings.feature_marks import FEATURE
from storeyrod.drawings.legend import SYMBOL, Entry
from storeyrod.drawings.lettering import number
from storeyrod.drawings.line_styles import (
    COURSE,
    CUT_MARK,
    CUT_PIECE,
    FACE_OUTLINE,
    FASTENER,
    FULL_PIECE,
    GROUND,
    JOINT,
    OPENING,
    OPENING_CROSS,
)

PIECE: Box = (0.0, -2.2, SYMBOL, 2.2)
"""A piece as the legend shows it."""


def line_entry(role: str, style: Style, words: str) -> Entry:
    """A level line."""
    return Entry(((role, style, Line((0.0, 0.0), (SYMBOL, 0.0))),), words)


def board_entries() -> Iterator[Entry]:
    """Boards, whole and cut."""
    yield Entry((("board-full", FULL_PIECE, box_polygon(PIECE)),), "full board: row-position")
    mark = Line((SYMBOL - 2.0, 2.2), (SYMBOL, 0.2))
    cut: tuple[tuple[str, Style, Item], ...] = (
        ("board-cut", CUT_PIECE, box_polygon(PIECE)),
        ("cut-mark", CUT_MARK, mark),
    )
    yield Entry(cut, "cut board: id, size of cut")


def opening_entry(words: str = "opening: clear size") -> Entry:
    """An opening with its diagonals."""
    crosses = (Line((0.0, -2.2), (SYMBOL, 2.2)), Line((0.0, 2.2), (SYMBOL, -2.2)))
    opening = ("opening", OPENING, box_polygon(PIECE))
    return Entry((opening, *(("opening-cross", OPENING_CROSS, line) for line in crosses)), words)


def feature_entry() -> Entry:
    """An area without slips."""
    return Entry((("feature", FEATURE, box_polygon(PIECE)),), "feature: no slips on it")


def outline_entry() -> Entry:
    """The outline of the wall."""
    return line_entry("face", FACE_OUTLINE, "outline of finished face")


def fastener_entries() -> Iterator[Entry]:
    """Fasteners by stage."""
    for symbol, words in SYMBOLS.values():
        yield Entry((("fastener", FASTENER, Marker((SYMBOL / 2.0, 0.0), symbol, 2.0)),), words)


def joint_entry(words: str = "MJ movement joint") -> Entry:
    """A movement joint."""
    return line_entry("movement-joint", JOINT, words)


def joints_entry(*, level: bool) -> Entry:
    """Movement joints, with level ones among them or without."""
    return joint_entry("movement joint: MJ, level LJ") if level else joint_entry()


def courses_entry(pitch: float) -> Entry:
    """The rod beside the wall; ``pitch`` is the height of a course in mm."""
    rod = (Line((3.0, -2.0), (3.0, 2.0)), Line((3.0, -1.0), (4.2, -1.0)), Line((3.0, 1.0), (5.4, 1.0)))
    return Entry(tuple(("courses", COURSE, line) for line in rod), f"courses of {number(pitch)} mm from datum")


def ground_entry() -> Entry:
    """The ground."""
    return line_entry("ground", GROUND, "ground")
