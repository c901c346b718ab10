"""The parts into which cuts saw a blank, one out of another, with the factory edges that each of them keeps."""

from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.cutting.plan import Cut
from storeyrod.cutting.stock import Edges


@dataclass(frozen=True, slots=True)
class SawnPart:
    """A rectangle at some stage of sawing: index of the part it is cut out of (none for the blank), and whether it is cut further."""

    parent: int | None
    x: float
    y: float
    width: float
    height: float
    edges: Edges
    is_cut: bool = False

    def split(self, index: int, cut: Cut, kerf: float) -> "list[SawnPart]":
        """Both sides of a cut; the far one is missing where the kerf takes all of it."""
        if cut.upright:
            far = cut.at + kerf
            near_edges, far_edges = self.edges._replace(right=False), self.edges._replace(left=False)
            near = SawnPart(index, self.x, self.y, cut.at - self.x, self.height, near_edges)
            rest = SawnPart(index, far, self.y, self.x + self.width - far, self.height, far_edges)
        else:
            far = cut.at + kerf
            near_edges, far_edges = self.edges._replace(top=False), self.edges._replace(bottom=False)
            near = SawnPart(index, self.x, self.y, self.width, cut.at - self.y, near_edges)
            rest = SawnPart(index, self.x, far, self.width, self.y + self.height - far, far_edges)
        return [part for part in (near, rest) if part.width > 0.0 and part.height > 0.0]

    def holds(self, x: float, y: float) -> bool:
        """Whether a lower left corner lies in the part."""
        return self.x <= x < self.x + self.width and self.y <= y < self.y + self.height

    def is_sawn_by(self, cut: Cut, kerf: float) -> bool:
        """Whether a cut runs through the part from edge to edge; trimming less than a kerf, the blade reaches over its near edge."""
        if self.is_cut:
            return False
        if cut.upright:
            across = self.y == cut.start and self.y + self.height == cut.end
            return across and self.x - kerf < cut.at < self.x + self.width
        across = self.x == cut.start and self.x + self.width == cut.end
        return across and self.y - kerf < cut.at < self.y + self.height


def sawn_parts(blank: SawnPart, cuts: Sequence[Cut], kerf: float) -> list[SawnPart]:
    """The blank, and behind it every part in the order of sawing.

    Raises ``ValueError`` for a cut that runs through no part from edge to edge: such a plan cannot be sawn.
    """
    parts = [blank]
    for cut in cuts:
        index = next((index for index, part in enumerate(parts) if part.is_sawn_by(cut, kerf)), None)
        if index is None:
            raise ValueError(f"{cut} runs through no part of the blank from edge to edge")
        whole = parts[index]
        parts[index] = SawnPart(whole.parent, whole.x, whole.y, whole.width, whole.height, whole.edges, is_cut=True)
        parts += whole.split(index, cut, kerf)
    return parts
