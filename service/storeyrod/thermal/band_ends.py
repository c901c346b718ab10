"""Least and greatest U-value inside tolerances, wherever in them they lie.

A U-value need not rise or fall all the way with an input: fasteners and gaps count by the insulation they pierce, and shares
of layers in line work on each layer. So corners are tried first, and then every place between them: along a grid for each
input at once, and where one gains, along that input in ever finer grids, round after round until none gains.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Final, NamedTuple

from storeyrod.thermal.combined import paths_count
from storeyrod.thermal.evaluation import Evaluation, component_with
from storeyrod.thermal.tolerance_inputs import Movement
from storeyrod.thermal.u_value import Component
from storeyrod.thermal.variation import Samples
from storeyrod.trace import SILENT

_ROUNDS: Final = 40
_PLACES: Final = 33
"""Places of a grid, ends and middle among them."""

_FINER: Final = 6
"""Times that a grid is laid again between the neighbours of its best place: to 1e-7 of the tolerance."""

_GAIN: Final = 1e-12
"""Share of a U-value under which a gain is rounding."""

_MOST_GRIDS: Final = 400
_MOST_GRID_PATHS: Final = 20_000
"""Grids of one search, and grids times heat paths, after which it stops: some tenths of a second."""


class End(NamedTuple):
    """A U-value in W/(m2.K) and the place of each input at which it was found, from -1 to 1."""

    u_value: float
    places: tuple[float, ...]


@dataclass
class EndSearch:
    """A search for both ends; ``settled`` turns false when it had to stop before nothing gained any more."""

    evaluation: Evaluation
    moving: Sequence[Movement]
    settled: bool = True
    _grids: int = field(default=0, init=False)
    _paths: int = field(default=1, init=False)

    def __post_init__(self) -> None:
        """Count heat paths once: they do not move."""
        self._paths = paths_count(component_with(self.evaluation.request, SILENT).layers)

    def end(self, sign: float, drawn: Sequence[float]) -> End:
        """Least U-value for a sign of -1, greatest for 1; never less far out than the answer's own, or than a draw."""
        corner = self._corner(sign)
        found = self._climbed(corner, sign)
        given, draw = (self._at(places) for places in ([0.0] * len(self.moving), drawn))
        if found.places != corner.places or sign * draw.u_value > sign * found.u_value:
            found = _farther(sign, found, self._climbed(draw, sign))
        return _farther(sign, found, draw, given)

    def components(self, places: Any) -> Component:  # noqa: ANN401  rows of places
        """The component at many places of each input at once."""
        return component_with(self.evaluation.request, Samples(values_at(self.moving, places)))

    def u_values(self, components: Component, count: int) -> Any:  # noqa: ANN401  an array
        """U-values in W/(m2.K) of a component at that many places."""
        import numpy  # noqa: PLC0415  only a band needs it

        return numpy.broadcast_to(components.u_value(Samples({}), applies=self.evaluation.applies), count)

    def _at(self, places: Sequence[float]) -> End:
        return End(self.evaluation.u_value(values_at(self.moving, places)), tuple(places))

    def _corner(self, sign: float) -> End:
        """Best of the corners that turning one input after the other to its other end leads to."""
        best = self._at([sign] * len(self.moving))
        for _ in range(_ROUNDS):
            before = best
            for index, place in enumerate(best.places):
                best = _farther(sign, best, self._at(_moved(best.places, index, -place)))
            if best == before:
                break
        return best

    def _climbed(self, start: End, sign: float) -> End:
        """Where moving one input after the other ends from a start."""
        best = start
        for _ in range(_ROUNDS):
            gaining = self._gaining(best, sign)
            before = best
            for index in gaining:
                if self._spent():
                    return best
                best = _farther(sign, best, self._at(self._along(best.places, index, sign)))
            if sign * (best.u_value - before.u_value) <= _GAIN * best.u_value:
                return best
        self.settled = False
        return best

    def _gaining(self, best: End, sign: float) -> list[int]:
        """Inputs that gain by moving alone, by one grid along each."""
        import numpy  # noqa: PLC0415  only a band needs it

        if not self.moving or self._spent():
            return []
        self._grids += 1
        count = len(best.places)
        places = numpy.repeat(numpy.array(best.places)[:, None], count * _PLACES, axis=1)
        for index in range(count):
            places[index, index * _PLACES : (index + 1) * _PLACES] = numpy.linspace(-1.0, 1.0, _PLACES)
        farthest = (sign * self.u_values(self.components(places), count * _PLACES)).reshape(count, _PLACES).max(axis=1)
        return [int(at) for at in numpy.flatnonzero(farthest > sign * best.u_value + _GAIN * best.u_value)]

    def _along(self, places: Sequence[float], index: int, sign: float) -> list[float]:
        """The best place of one input while the others stay."""
        import numpy  # noqa: PLC0415  only a band needs it

        low, high, place = -1.0, 1.0, places[index]
        for _ in range(1 + _FINER):
            self._grids += 1
            grid = numpy.linspace(low, high, _PLACES)
            rows = numpy.repeat(numpy.array(places)[:, None], _PLACES, axis=1)
            rows[index] = grid
            at = int((sign * self.u_values(self.components(rows), _PLACES)).argmax())
            place = float(grid[at])
            low, high = float(grid[max(at - 1, 0)]), float(grid[min(at + 1, _PLACES - 1)])
            if abs(place) == 1.0:
                break
        return _moved(places, index, place)

    def _spent(self) -> bool:
        """Whether the search has gone on long enough; it is then not settled."""
        if self._grids < _MOST_GRIDS and self._grids * self._paths < _MOST_GRID_PATHS:
            return False
        self.settled = False
        return True


def values_at(moving: Sequence[Movement], places: Any) -> dict[str, Any]:  # noqa: ANN401  numbers, or rows of draws
    """Values by pointer, in SI, with every input at its place."""
    values: dict[str, Any] = {}
    for movement, place in zip(moving, places, strict=True):
        values |= movement.values(place)
    return values


def _moved(places: Sequence[float], index: int, place: float) -> list[float]:
    return [*places[:index], place, *places[index + 1 :]]


def _farther(sign: float, *ends: End) -> End:
    """The end that lies farthest out; of equal ones the first."""
    return max(ends, key=lambda end: sign * end.u_value)
