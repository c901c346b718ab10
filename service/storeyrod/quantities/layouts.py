"""Every layout of a wall, made once for all rooms that stand on them."""

from collections.abc import Sequence
from dataclasses import dataclass

from storeyrod.boards.board_cutting import BoardCutting, StockOffcut
from storeyrod.boards.chosen_layout import chosen_boards
from storeyrod.boards.layout import BoardLayout
from storeyrod.boards.models import StockOffcut as AtHand
from storeyrod.boards.stock_offcuts import stock_of
from storeyrod.fasteners.loads import NO_LOADS, Loads
from storeyrod.fasteners.schedule import FastenerSchedule, set_fasteners
from storeyrod.findings import Finding
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.options import Options
from storeyrod.slips.layout import SlipLayout, lay_slips
from storeyrod.trace import SILENT, Trace
from storeyrod.wall.models import Elevation
from storeyrod.wall.system import System
from storeyrod.wall.wall import Wall, wall_of


@dataclass(frozen=True, slots=True)
class Layouts:
    """A wall with its movement joints, boards and how they are cut, fasteners and slips."""

    wall: Wall
    plans: tuple[JointPlan, ...]
    boards: BoardLayout
    stock: tuple[StockOffcut, ...]
    cutting: BoardCutting
    fasteners: FastenerSchedule
    slips: SlipLayout

    @property
    def findings(self) -> list[Finding]:
        """What every layout found, from the wall outwards."""
        joints = [item for plan in self.plans for item in plan.findings]
        return [
            *self.wall.findings,
            *joints,
            *self.boards.findings,
            *self.cutting.findings,
            *self.fasteners.findings,
            *self.slips.findings,
        ]


def layouts_of(
    elevations: Sequence[Elevation],
    system: System,
    stock_offcuts: Sequence[AtHand],
    options: Options,
    trace: Trace = SILENT,
    loads: Loads = NO_LOADS,
) -> Layouts:
    """Lay everything; raises the refusals of the wall and of each layout."""
    wall = wall_of(elevations, system)
    plans = tuple(joint_plans(wall, trace))
    stock = stock_of(stock_offcuts, system.board)
    boards, cutting = chosen_boards(wall, plans, stock, options.effort, trace)
    fasteners = set_fasteners(wall, boards, loads, trace)
    return Layouts(wall, plans, boards, stock, cutting, fasteners, lay_slips(wall, plans, options, trace))
