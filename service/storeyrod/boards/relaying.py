"""Faces laid anew, one after the other, from what the cutting of all others leaves.

The search goes on from a face laid anew if the wall then takes no more boards; only where it takes fewer is the layout one to be built.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from storeyrod.boards.cutting_items import board_size
from storeyrod.boards.cutting_job import CutPiece, boards_for
from storeyrod.boards.cutting_plan import Freed, cut_pieces
from storeyrod.boards.layout import BoardLayout, FaceBoards, lay_face
from storeyrod.boards.offcut_pool import Need, OffcutPool
from storeyrod.boards.rows import Ground, grounds_of, runs_through
from storeyrod.findings import Finding
from storeyrod.geometry.ticks import ticks
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall

WORTHS: Final = (0.9, 0.7)
"""Shares of its area at which an offcut is counted, one round over all faces with each; found by trial."""

Pool = Callable[[float, int], OffcutPool]
"""An empty pool with a worth and the number of its small changes of cost."""


@dataclass(slots=True)
class _Laid:
    """The boards of one face, what was found on it, and its pieces as they are cut."""

    boards: FaceBoards
    findings: Sequence[Finding]
    pieces: Sequence[CutPiece]


@dataclass(slots=True)
class Relaying:
    """A layout that changes face by face, and the boards that it takes in a quick search."""

    wall: Wall
    laid: list[_Laid]
    grounds: Sequence[tuple[Ground, Ground]]
    freed: Freed
    count: int

    @property
    def layout(self) -> BoardLayout:
        """The layout as it stands."""
        findings = tuple(item for one in self.laid for item in one.findings)
        return BoardLayout(tuple(one.boards for one in self.laid), self.wall.system, findings)

    def run(self, turns: int, least: int, pool: Pool) -> tuple[BoardLayout, int]:
        """Lay so many faces anew, by their ids and over again, until no layout can take fewer boards: the first of the best
        layouts and the boards that it takes.
        """
        order = sorted(range(len(self.laid)), key=lambda index: self.laid[index].boards.face.id)
        best, fewest = self.layout, self.count
        for turn in range(turns):
            if fewest <= least:
                break
            number, index = divmod(turn, len(order))
            self._lay(order[index], pool(WORTHS[number % len(WORTHS)], turn), least)
            if self.count < fewest:
                best, fewest = self.layout, self.count
        return best, fewest

    def _lay(self, index: int, pool: OffcutPool, least: int) -> None:
        for need in _others(self.laid, index, self.wall.system):
            pool.take(need)
        before = self.laid[index]
        boards, findings = lay_face(self.wall, self.grounds[index], before.boards.face, pool)
        if boards.seam_lines == before.boards.seam_lines or lacks(findings) > lacks(before.findings):
            return
        self.laid[index] = _Laid(boards, findings, cut_pieces(boards, self.wall.system, self.freed))
        count = self.counted(least)
        if count > self.count:
            self.laid[index] = before
        else:
            self.count = count

    def counted(self, least: int) -> int:
        """Boards in a quick search; with no more than ``least`` it stops."""
        pieces = [piece for one in self.laid for piece in one.pieces]
        return boards_for(board_size(self.wall.system.board), pieces, "quick", least)


def relaying_of(wall: Wall, plans: Sequence[JointPlan], layout: BoardLayout, least: int) -> Relaying:
    """A layout, ready to be changed."""
    through, freed = runs_through(wall), Freed()
    laid = [
        _Laid(face, [one for one in layout.findings if one["where"].get("elevation") == face.face.id], pieces)
        for face in layout.faces
        for pieces in [cut_pieces(face, wall.system, freed)]
    ]
    grounds = [grounds_of(face, plan.slots, through) for face, plan in zip(wall.faces, plans, strict=True)]
    found = Relaying(wall, laid, grounds, freed, 0)
    found.count = found.counted(least)
    return found


def lacks(findings: Sequence[Finding]) -> int:
    """Pieces that some rule of the layout is not kept for."""
    return sum(len(item["where"].get("pieces", [])) for item in findings)


def _others(laid: Sequence[_Laid], index: int, system: System) -> Iterator[Need]:
    """Cut pieces as high as a board on all faces but one, from the widest."""
    length, height = ticks(system.board.cover_length_mm), ticks(system.board.cover_height_mm)
    found = [
        Need(piece.width, piece.meets_left, piece.meets_right)
        for number, one in enumerate(laid)
        if number != index
        for piece in one.boards.pieces
        if piece.width < length and piece.row.top - piece.row.bottom == height
    ]
    yield from sorted(found, reverse=True)
