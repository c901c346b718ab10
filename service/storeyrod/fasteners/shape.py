"""Pieces alike in shape: where their fasteners go, for any number that is needed."""

from dataclasses import dataclass, field

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.heads import heads_near_edge
from storeyrod.fasteners.places import PiecePlaces, places_in
from storeyrod.fasteners.room import Room


@dataclass
class Shape:
    """Pieces alike in shape, course and support: places for so many fasteners, and heads near edges, worked out once."""

    room: Room
    _places: dict[int, PiecePlaces] = field(default_factory=dict)
    _near: dict[tuple[int, float], int] = field(default_factory=dict)

    @property
    def piece(self) -> Piece:
        """The first of them."""
        return self.room.piece

    def places(self, needed: int) -> PiecePlaces:
        """Places of at least so many fasteners where they have room."""
        if needed not in self._places:
            self._places[needed] = places_in(self.room, needed)
        return self._places[needed]

    def near_edge(self, places: PiecePlaces, within: float) -> int:
        """Heads of these places that stand closer to an edge."""
        asked = places.total, within
        if asked not in self._near:
            self._near[asked] = heads_near_edge(self.room, places.rows, within)
        return self._near[asked]
