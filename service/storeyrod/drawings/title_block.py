"""The title block: whose wall, which elevation, at what scale, from which request, and what the drawing is not."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from storeyrod.drawings.display_list import Box, Group, Item, Text, box_polygon
from storeyrod.drawings.lettering import shortened, width_of, wrapped
from storeyrod.drawings.line_styles import FRAME, LETTERING, LETTERS, LETTERS_SMALL, LETTERS_SMALLEST, RULING
from storeyrod.drawings.paper import STRIP_HEIGHT, Paper

WIDTH: Final = 180.0
"""Width of a title block on any sheet (ISO 7200, from memory), mm."""

FOR_INFORMATION: Final = "For information only - not an approval; check on site."
PLANES: Final = "Dimensions to finished face, in mm."
BOARD_PLANES: Final = f"{PLANES} Boards drawn in the board plane."

FINGERPRINT_SHOWN: Final = 12
"""Characters of the fingerprint in the title block; the description holds all."""

_INSET: Final = 1.5

_TWO_LINES: Final = (3.6, 1.0)
"""Heights of lines of small letters in a cell whose words are too long for one, mm."""


@dataclass(frozen=True, slots=True)
class Particulars:
    """What a title block says."""

    project: str
    subject: str
    scale: float
    sheet: int
    sheets: int
    fingerprint: str
    engine_version: str
    data_edition: str
    cautions: str
    looked_at: str = "wall, boards, fasteners, joints"
    planes: str = BOARD_PLANES
    planes_are: str = "planes"
    """What stands in the line of planes, where a sheet has results to tell instead."""
    fingerprint_of: str = "take-off"

    @property
    def scale_words(self) -> str:
        """The scale, 1:10 or enlarging as 2:1; a sheet that shows no wall has none."""
        if not self.scale:
            return "no scale"
        return f"1:{self.scale:g}" if self.scale >= 1 else f"{1.0 / self.scale:g}:1"


@dataclass(frozen=True, slots=True)
class _Cell:
    """A cell of the block: place from its lower left corner, caption and words."""

    x: float
    y: float
    width: float
    height: float
    caption: str
    words: str
    bold: bool = False


def title_block_box(paper: Paper) -> Box:
    """Where the title block stands: the lower right corner of the frame."""
    _, bottom, right, _ = paper.frame
    return right - WIDTH, bottom, right, bottom + STRIP_HEIGHT


def title_block(paper: Paper, said: Particulars) -> tuple[Group, ...]:
    """Ruling and lettering of the block, in paper millimetres."""
    left, bottom, _, _ = box = title_block_box(paper)
    cells = list(_cells(paper, said))
    ruling: tuple[Item, ...] = tuple(
        box_polygon((left + cell.x, bottom + cell.y, left + cell.x + cell.width, bottom + cell.y + cell.height))
        for cell in cells
    )
    texts = tuple(text for cell in cells for text in _texts(cell, left, bottom))
    return (
        Group("title-block", RULING, ruling),
        Group("title-block-frame", FRAME, (box_polygon(box),)),
        Group("title-block-words", LETTERING, texts),
    )


def _cells(paper: Paper, said: Particulars) -> Iterator[_Cell]:
    yield _Cell(0.0, 37.0, 126.0, 9.0, "project", said.project or "-")
    yield _Cell(126.0, 37.0, 54.0, 9.0, "sheet", f"{said.sheet} of {said.sheets}")
    yield _Cell(0.0, 28.0, 126.0, 9.0, "drawing", said.subject, bold=True)
    yield _Cell(126.0, 28.0, 54.0, 9.0, "scale", f"{said.scale_words} on {paper.name}", bold=True)
    yield _Cell(0.0, 19.0, 60.0, 9.0, f"fingerprint of the {said.fingerprint_of}", said.fingerprint[:FINGERPRINT_SHOWN])
    yield _Cell(60.0, 19.0, 66.0, 9.0, "engine, data edition", f"{said.engine_version}, {said.data_edition}")
    yield _Cell(126.0, 19.0, 54.0, 9.0, f"findings: {said.looked_at}", said.cautions)
    yield _Cell(0.0, 10.0, WIDTH, 9.0, said.planes_are, said.planes)
    yield _Cell(0.0, 0.0, WIDTH, 10.0, "status", FOR_INFORMATION, bold=True)


def _texts(cell: _Cell, left: float, bottom: float) -> Iterator[Text]:
    x, y, room = left + cell.x + _INSET, bottom + cell.y, cell.width - 2 * _INSET
    yield Text((x, y + cell.height - _INSET - LETTERS_SMALLEST), cell.caption, LETTERS_SMALLEST)
    if width_of(cell.words, LETTERS) <= room or " " not in cell.words:
        yield Text((x, y + _INSET), shortened(cell.words, LETTERS, room), LETTERS, bold=cell.bold)
        return
    first, *rest = wrapped(cell.words, LETTERS_SMALL, room)
    lines = (first, " ".join(rest)) if rest else (first,)
    for up, line in zip(_TWO_LINES if rest else (_INSET,), lines, strict=True):
        yield Text((x, y + up), shortened(line, LETTERS_SMALL, room), LETTERS_SMALL, bold=cell.bold)
