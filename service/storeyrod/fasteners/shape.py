"""Pieces alike in shape: where their fasteners go, for any number that is needed."""

from collections.abc import Callable
from dataclasses import dataclass, field

from storeyrod.fasteners.heads import heads_near_edge
from storeyrod.fasteners.places import Filling, PiecePlaces
from storeyrod.fasteners.room import Room
from storeyrod.fasteners.stages import Stage, stages_of
from storeyrod.geometry.parts import Part
from storeyrod.geometry.ticks import square_metres


@dataclass
class Shape:
    """Pieces alike in shape, course and support: places for so many fasteners, and heads near edges, worked out once."""

    room: Room
    part: Part = field(init=False)
    """Of the first of them."""
    area: float = field(init=False)
    """In m2."""
    held: float = field(init=False)
    """Width that has substrate behind it; under zero past its end."""
    places: Callable[[int], PiecePlaces] = field(init=False)
    """Places of at least so many fasteners where they have room."""
    _clear: dict[float, Filling] = field(default_factory=dict)
    _near: dict[tuple[int, float], int] = field(default_factory=dict)
    _stages: dict[tuple[int, bool], tuple[Stage, ...]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        """All pieces of a shape have one area."""
        self.part = self.room.piece.part
        self.area = square_metres(self.part.area)
        low, high = self.room.substrate
        self.held = min(self.part.right, high) - max(self.part.left, low)
        self.places = Filling(self.room).places

    def places_clear_of_edges(self, needed: int, within: float) -> PiecePlaces | None:
        """Places of at least so many fasteners, none closer to an edge of its piece; none where they have no room."""
        filling = self._clear.get(within)
        if filling is None:
            filling = self._clear[within] = Filling(self.room.inside(within))
        places = filling.places(needed) if filling.has_room else None
        return places if places is not None and places.total >= needed else None

    def near_edge(self, places: PiecePlaces, within: float) -> int:
        """Heads of these places that stand closer to an edge."""
        asked = id(places), within
        if asked not in self._near:
            self._near[asked] = heads_near_edge(self.room, places.rows, within)
        return self._near[asked]

    def stages(self, places: PiecePlaces, *, on_base: bool) -> tuple[Stage, ...]:
        """Stage of each of these places."""
        asked = id(places), on_base
        if asked not in self._stages:
            self._stages[asked] = tuple(stages_of(places, on_base=on_base))
        return self._stages[asked]
