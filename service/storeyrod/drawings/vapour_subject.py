"""What a vapour pressure sheet draws: the layers of a build-up, and month by month what was found at its planes."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import accumulate
from typing import Final

THINNEST: Final = 10.0
"""Layers of which only the resistance is known are drawn so thick, mm."""

SATURATED: Final = 1.0 + 1e-9
"""From this share of saturation on, air condenses on a surface: air at saturation that meets one of its own temperature does not."""

_TIGHT_SHARE: Final = 0.06
"""A vapour-tight layer is drawn over this share of the equivalent air layers of all others."""


_YEAR: Final = 12


@dataclass(frozen=True, slots=True)
class PassedBand:
    """A layer from inside to outside: mm, m2.K/W and m of still air; no thickness where none is known, none of air where tight."""

    name: str
    thickness: float | None
    resistance: float
    sd: float | None


@dataclass(frozen=True, slots=True)
class ShownPlane:
    """A plane at a share of the thickness of a layer; ``share`` 1 is its outer face, layer 0 at share 0 the internal surface."""

    layer: int
    share: float


@dataclass(frozen=True, slots=True)
class AirShown:
    """Air on one side: °C, relative humidity and Pa."""

    temperature: float
    humidity: float
    pressure: float


@dataclass(frozen=True, slots=True)
class ShownMonth:
    """A month or a block of days: air, and °C and Pa at every plane; no vapour pressure where none is known.

    ``condensed`` and ``held`` are kg/m2 by plane; what is negative could dry.
    """

    name: str
    indoor: AirShown
    outdoor: AirShown
    temperatures: Sequence[float]
    saturations: Sequence[float]
    pressures: Sequence[float | None]
    condensed: Mapping[int, float] = field(default_factory=dict)
    held: Mapping[int, float] = field(default_factory=dict)

    @property
    def airs(self) -> tuple[AirShown, AirShown]:
        """Inside and outside."""
        return self.indoor, self.outdoor

    @property
    def surface_humidities(self) -> tuple[float, float]:
        """Vapour pressure of the air over saturation at the surface, inside and outside; over 1 where water condenses on it."""
        return self.indoor.pressure / self.saturations[0], self.outdoor.pressure / self.saturations[-1]

    @property
    def most(self) -> float:
        """What condenses at all planes together, kg/m2."""
        return sum(value for value in self.condensed.values() if value > 0.0)


@dataclass(frozen=True)
class VapourSubject:
    """Layers, planes and months of a moisture check; ``results`` for the title block, ``cautions`` for the heading.

    ``shown`` is the index of the month that is drawn: the one asked for, else the one in which most condenses between layers, else the
    one in which a surface is furthest over saturation, else the coldest.
    """

    layers: Sequence[PassedBand]
    planes: Sequence[ShownPlane]
    months: Sequence[ShownMonth]
    results: str
    asked: int | None = None
    cautions: Sequence[str] = ()

    @cached_property
    def shown(self) -> int:
        """Index of the month that is drawn."""
        if self.asked is not None:
            return self.asked
        every = range(len(self.months))
        wettest = max(every, key=lambda index: self.months[index].most)
        if self.months[wettest].most > 0.0:
            return wettest
        dewiest = max(every, key=lambda index: max(self.months[index].surface_humidities))
        if max(self.months[dewiest].surface_humidities) > SATURATED:
            return dewiest
        return min(every, key=lambda index: self.months[index].outdoor.temperature)

    @property
    def month(self) -> ShownMonth:
        """The month that is drawn."""
        return self.months[self.shown]

    @property
    def monthly(self) -> bool:
        """Whether the months are those of a year, and no blocks of days."""
        return len(self.months) == _YEAR

    @cached_property
    def thicknesses(self) -> list[float]:
        """Thickness of each layer as drawn, mm."""
        return [THINNEST if layer.thickness is None else layer.thickness for layer in self.layers]

    @cached_property
    def air_layers(self) -> list[float]:
        """Equivalent air layer of each layer as drawn, m."""
        known = sum(layer.sd or 0.0 for layer in self.layers)
        tight = _TIGHT_SHARE * known or 1.0
        return [tight if layer.sd is None else layer.sd for layer in self.layers]

    def places(self, sizes: Sequence[float]) -> list[float]:
        """Where planes stand, when layers are drawn in sizes."""
        starts = list(accumulate(sizes, initial=0.0))
        return [starts[plane.layer] + plane.share * sizes[plane.layer] for plane in self.planes]

    @cached_property
    def wet(self) -> list[int]:
        """Planes that hold moisture in some month or gain some, from inside to outside."""
        found = {
            plane
            for month in self.months
            for values in (month.held, month.condensed)
            for plane, value in values.items()
            if value > 0.0
        }
        return sorted(found)

    def name_of(self, plane: int) -> str:
        """A plane by the numbers of the layers that it lies between, or in."""
        at = self.planes[plane]
        number = at.layer + 1
        if 0.0 < at.share < 1.0:
            return f"in {number}"
        if at.share == 0.0:
            return "at the inside"
        return f"{number}|{number + 1}" if number < len(self.layers) else "at the outside"
