"""A bay in the direction in which it is set out: the mirror of the face where that starts at the right end."""

from dataclasses import dataclass
from fractions import Fraction

from storeyrod.geometry.intervals import Interval
from storeyrod.setting_out.arrangements import Patterns, PerpLimits, RunBond
from storeyrod.setting_out.bays import FaceSetOut, perp_limits
from storeyrod.setting_out.bond import BONDS, CoursePattern
from storeyrod.setting_out.course_grid import HAIRLINE, BayPerps, Module, Stretch, half_modules, module_lengths
from storeyrod.setting_out.perps import nominal_grids
from storeyrod.wall.system import System


@dataclass(frozen=True, slots=True)
class BayFrame:
    """A bay, its bond and limits; coordinates run from the end where the bond starts. Ticks."""

    bay: BayPerps
    courses: tuple[CoursePattern, ...]
    module: Module
    limits: PerpLimits
    origin: float
    mirrored: bool

    def turned(self, run: Interval) -> Interval:
        """An interval of the face in this frame, or one of this frame on the face."""
        return (-run[1], -run[0]) if self.mirrored else run

    @property
    def bond(self) -> RunBond:
        """The whole bay, to be made to come out."""
        phase = half_modules(self.bay.left - self.origin, self.module)
        return RunBond(self.courses, self.module, (self.bay.left, self.bay.right), phase, self.limits)

    @property
    def drawn(self) -> Patterns:
        """The bay with nominal perps."""
        grids = nominal_grids(self.courses, self.module, self.origin)
        return tuple((Stretch(self.bay.left, self.bay.right, grid),) for grid in grids)

    def bond_of(self, run: Interval) -> RunBond:
        """A part of the bay by itself, begun as the bond of the bay stands at its start."""
        return RunBond(self.courses, self.module, run, self._phase(run[0]), self.limits)

    def carried(self, run: Interval) -> Patterns:
        """What the perps of the bay leave in a part of it."""
        return tuple(
            tuple(
                Stretch(max(one.left, run[0]), min(one.right, run[1]), one.grid)
                for one in pattern
                if min(one.right, run[1]) > max(one.left, run[0])
            )
            for pattern in self.bay.patterns
        )

    def _phase(self, x: float) -> Fraction:
        """Nearest whole half module of a place on the bond of the bay, by its course 0."""
        first = self.courses[0]
        stretch = next((one for one in self.bay.patterns[0] if x < one.right - HAIRLINE), self.bay.patterns[0][-1])
        modules = (x - stretch.grid.origin) / stretch.grid.period * float(first.modules) - float(first.shift)
        return Fraction(round(2.0 * modules), 2)


def bay_frames(out: FaceSetOut, system: System) -> list[BayFrame]:
    """The bays of a face from left to right, each in the direction in which it is set out."""
    courses = BONDS[system.bond].started(half=out.start.half)
    mirrored = out.start.side == "right"
    origin = -out.start.origin if mirrored else out.start.origin
    module, limits = module_lengths(system), perp_limits(system)
    return [
        BayFrame(bay.mirrored() if mirrored else bay, courses, module, limits, origin, mirrored) for bay in out.bays
    ]
