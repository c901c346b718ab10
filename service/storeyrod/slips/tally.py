"""Counting straight and header slips: what courses hold, less the pieces that L slips replace.

Straight slips in reveals and over arches are counted with them, since all are cut together.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from storeyrod.setting_out.bond import Kind
from storeyrod.slips.arch_rings import VoussoirRing
from storeyrod.slips.courses import EqualCourses, PieceKind
from storeyrod.slips.cutting import CutSlips, cut_slips
from storeyrod.slips.ends import Claimed, FaceEnds
from storeyrod.slips.rake import CutShape
from storeyrod.slips.returns import JambReturns
from storeyrod.slips.sawing import CutSize, Sawing

MADE_FROM: Final[Mapping[Kind, tuple[PieceKind, ...]]] = MappingProxyType(
    {"stretcher": ("stretcher", "voussoir"), "header": ("header",)}
)
"""Pieces that come out of a kind of slip; soldiers are counted apart."""


@dataclass(frozen=True, slots=True)
class UnitCount:
    """Units of one kind to be bought: whole ones, pieces cut from others by kind, size and number, and what those consume.

    ``net`` counts by area: what is laid, without what cutting wastes.
    """

    full: int
    cuts: tuple[tuple[PieceKind, CutSize, int], ...]
    cutting: CutSlips
    net: float

    @property
    def consumed(self) -> int:
        """Units used up, cut ones paired into whole ones."""
        return self.full + self.cutting.slips

    @property
    def least(self) -> int:
        """No cutting of the same pieces end to end needs fewer."""
        return self.full + self.cutting.least


@dataclass(slots=True)
class Tally:
    """Pieces by kind: whole ones, cut ones by length and height, and the area of the cut ones. Ticks."""

    full: dict[PieceKind, int] = field(default_factory=dict)
    cuts: dict[tuple[PieceKind, CutSize], int] = field(default_factory=dict)
    cut_area: dict[PieceKind, float] = field(default_factory=dict)

    def add_full(self, kind: PieceKind, count: int) -> None:
        """Count whole units."""
        self.full[kind] = self.full.get(kind, 0) + count

    def add_cut(self, kind: PieceKind, size: CutSize, area: float, count: int) -> None:
        """Count cut units; ``area`` is that of one."""
        key = kind, size
        self.cuts[key] = self.cuts.get(key, 0) + count
        self.cut_area[kind] = self.cut_area.get(kind, 0.0) + area * count

    def add(self, other: "Tally") -> None:
        """Count what another tally counted."""
        for kind, count in other.full.items():
            self.add_full(kind, count)
        for key, count in other.cuts.items():
            self.cuts[key] = self.cuts.get(key, 0) + count
        for kind, area in other.cut_area.items():
            self.cut_area[kind] = self.cut_area.get(kind, 0.0) + area

    @property
    def pieces_count(self) -> int:
        """All pieces."""
        return sum(self.full.values()) + sum(self.cuts.values())

    def units(self, kind: Kind, width: float, height: float, kerf: float) -> UnitCount:
        """Units of a kind that the pieces take."""
        kinds = MADE_FROM[kind]
        sizes = [(one, size, count) for (one, size), count in self.cuts.items() if one in kinds and count]
        full = self.full.get(kind, 0)
        if not full and not sizes:
            return UnitCount(0, (), CutSlips(0, 0, 0.0), 0.0)
        cutting = cut_slips([(size.length, count) for _, size, count in sizes], width, kerf)
        area = sum(self.cut_area.get(one, 0.0) for one in kinds)
        return UnitCount(full, tuple(sizes), cutting, full + area / (width * height))


def straight_pieces(ends: FaceEnds, claimed: Sequence[Claimed], sawing: Sawing) -> Tally:
    """Pieces in the courses of a face that no L slip replaces."""
    tally = Tally()
    for courses, times in _times(ends):
        for run in courses.laid.runs:
            tally.add_full(run.kind, run.count * times)
        for cut, size in sawing.sizes(courses.laid, courses.numbers[0]):
            tally.add_cut(cut.kind, size, cut.part.area, times)
    for piece, count, _ in claimed:
        if piece.cut is None:
            tally.add_full(piece.kind, -count)
        else:
            tally.add_cut(piece.kind, sawing.size_of(piece.cut), piece.area, -count)
    return tally


def _times(ends: FaceEnds) -> Iterable[tuple[EqualCourses, int]]:
    """Each laid course once, where it lies lowest, with the number of courses in which it lies."""
    times: dict[int, tuple[EqualCourses, int]] = {}
    for equal in ends.courses:
        lowest, before = times.get(id(equal.laid), (equal, 0))
        times[id(equal.laid)] = lowest, before + len(equal.numbers)
    return times.values()


def add_reveals(tally: Tally, returns: Sequence[JambReturns], height: float) -> None:
    """Count the straight slips behind the legs of return slips; ``height`` is that of a slip."""
    for jamb in returns:
        for courses in jamb.courses:
            count, cut = len(courses.numbers), courses.straight_cut
            tally.add_full("stretcher", courses.straight_full * count)
            if cut:
                tally.add_cut("stretcher", CutSize(cut, height), cut * height, count)


def add_voussoirs(tally: Tally, rings: Sequence[VoussoirRing], length: float, height: float) -> None:
    """Count voussoirs: whole slips, or pieces cut as long as their ring is deep; sizes are those of a slip."""
    for ring in rings:
        if ring.is_cut(length):
            size = CutSize(ring.depth, height, CutShape(wedge=ring.wedge))
            tally.add_cut("voussoir", size, ring.area_of_one, len(ring.whole))
        else:
            tally.add_full("stretcher", len(ring.whole))
        trimmed = CutSize(ring.depth, height, CutShape(wedge=ring.wedge, trimmed=True))
        for _, part in ring.parts:
            tally.add_cut("voussoir", trimmed, part.area, 1)
