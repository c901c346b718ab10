"""What an isotherm sheet draws: a section with its temperatures, what bounds it, and what was worked out of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import count, islice
from string import ascii_uppercase

import numpy as np
from numpy.typing import NDArray

from storeyrod.drawings.contours import Field
from storeyrod.drawings.display_list import Point
from storeyrod.drawings.material_hatching import Material, materials_of
from storeyrod.drawings.material_regions import NOTHING, Regions, regions_of


@dataclass(frozen=True, slots=True)
class Environment:
    """An environment as one or more stretches of the outline meet it: °C, m2.K/W, and the heat that enters from it there.

    No heat where it has no bound.
    """

    name: str
    temperature: float
    resistance: float
    heat_flow: float | None


@dataclass(frozen=True, slots=True)
class Stretch:
    """A straight stretch of the outline in mm, and the index of its environment; none where no heat passes."""

    start: Point
    end: Point
    environment: int | None


@dataclass(frozen=True, slots=True)
class MarkedPoint:
    """A point of the section with its temperature in °C; ``factor`` is its share of the way from outside to inside."""

    id: str
    at: Point
    temperature: float
    factor: float | None = None


@dataclass(frozen=True)
class SectionSubject:
    """A section in mm: temperatures in °C at the nodes of its mesh, and by cell the index of its material in ``named``.

    ``named`` holds names and conductivities in W/(m.K). ``coldest`` is the coldest point of the inside surface. ``results`` are
    rows of caption and figure; ``summary`` is what the title block says of them. ``turned``: x is the distance from an axis.
    ``even``: the whole inside surface is as warm as its coldest point, which then is no more than a place of it.
    """

    temperatures: Field
    cells: NDArray[np.int32]
    named: Sequence[tuple[str, float]]
    environments: Sequence[Environment]
    stretches: Sequence[Stretch]
    points: Sequence[MarkedPoint]
    coldest: MarkedPoint | None
    results: Sequence[tuple[str, str]]
    summary: str
    turned: bool = False
    even: bool = False

    @cached_property
    def regions(self) -> Regions:
        """Where each material lies."""
        return regions_of(self.temperatures.xs, self.temperatures.ys, self.cells)

    @cached_property
    def materials(self) -> Sequence[Material]:
        """Materials with their hatching."""
        return materials_of(self.named)

    @cached_property
    def letters(self) -> Sequence[str]:
        """Letters of the environments: A to Z, then AA and on, without those that are ids of points."""
        taken = {point.id.upper() for point in self.points}
        free = (letter for letter in map(_letters_of, count()) if letter not in taken)
        return list(islice(free, len(self.environments)))

    @property
    def at_coldest(self) -> Sequence[MarkedPoint]:
        """Points that are the coldest one themselves."""
        if self.coldest is None or self.even:
            return []
        return [point for point in self.points if point.at == self.coldest.at]

    @property
    def coldest_words(self) -> str:
        """What the coldest place of the inside surface is called."""
        return "along the whole inside surface" if self.even else "coldest"


def _letters_of(index: int) -> str:
    more, last = divmod(index, len(ascii_uppercase))
    return (_letters_of(more - 1) if more else "") + ascii_uppercase[last]


def filled(cells: NDArray[np.int32]) -> NDArray[np.bool_]:
    """Cells that some material fills."""
    return np.asarray(cells != NOTHING)
