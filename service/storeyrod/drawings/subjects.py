"""What the sheets of a request are drawn from: the wall once, and of its layouts those that some sheet shows."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import islice
from typing import Final, Literal

from storeyrod.answer import Assumption, unique
from storeyrod.boards.board_cutting import BoardCutting
from storeyrod.boards.chosen_layout import chosen_layout
from storeyrod.boards.cutting_plan import cut_boards
from storeyrod.boards.layout import BoardLayout
from storeyrod.boards.stock_offcuts import stock_of
from storeyrod.drawings.board_map import BoardMapSubject
from storeyrod.drawings.courses import Rod
from storeyrod.drawings.cut_sheets import CutSheetsSubject
from storeyrod.drawings.elevation import ElevationSubject
from storeyrod.drawings.joints_sheet import JointsSubject
from storeyrod.drawings.sawn_pieces import sawn_pieces
from storeyrod.drawings.setting_out_sheet import SettingOutSubject
from storeyrod.drawings.slips_sheet import SlipsSubject
from storeyrod.fasteners.schedule import set_fasteners
from storeyrod.findings import Finding
from storeyrod.movement_joints.bay_rows import bay_rows, measured_bays
from storeyrod.movement_joints.placement import JointPlan
from storeyrod.movement_joints.plans import joint_plans
from storeyrod.movement_joints.spacing import profile_of
from storeyrod.setting_out.base_steps import elevation_base
from storeyrod.setting_out.course_grid import module_lengths
from storeyrod.setting_out.runs import bay_set_outs
from storeyrod.setting_out.set_out import set_out
from storeyrod.setting_out.ways import meeting_ends
from storeyrod.slips.calculation import bond_assumptions
from storeyrod.slips.layout import lay_slips
from storeyrod.take_off.models import TakeOffRequest
from storeyrod.wall.wall import Wall, wall_of

Kind = Literal["elevation", "setting_out", "slips", "boards", "joints", "cut_sheets"]
Subject = ElevationSubject | SettingOutSubject | SlipsSubject | BoardMapSubject | JointsSubject | CutSheetsSubject

KINDS: Final[tuple[Kind, ...]] = ("elevation", "setting_out", "slips", "boards", "joints", "cut_sheets")

WHOLE_JOB: Final = ""
"""Key of the subject that shows no elevation but the whole take-off."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What one kind of sheet shows: its subjects by elevation, what was found, and what was assumed on the way."""

    subjects: Mapping[str, Subject]
    findings: Sequence[Finding]
    assumptions: Sequence[Assumption] = ()


@dataclass(frozen=True)
class _Laid:
    """A take-off with its wall and joints; boards are laid and cut once, for all kinds that show them."""

    take_off: TakeOffRequest
    wall: Wall
    plans: Sequence[JointPlan]

    @cached_property
    def boards(self) -> BoardLayout:
        """Boards as the take-off lays them."""
        return chosen_layout(self.wall, self.plans, self.take_off.options.effort)

    @cached_property
    def cutting(self) -> BoardCutting:
        """How the take-off cuts them."""
        stock = stock_of(self.take_off.stock_offcuts, self.wall.system.board)
        return cut_boards(self.boards, stock, self.take_off.options.effort)

    @property
    def rod(self) -> Rod:
        """Courses of the wall."""
        return Rod(self.wall.gauge, self.wall.storey_joints)


def shown_by(take_off: TakeOffRequest, kinds: Collection[Kind]) -> Mapping[Kind, Shown]:
    """Subjects of the kinds asked for; raises the refusals of the wall and of what each of them lays."""
    wall = wall_of(take_off.elevations, take_off.system)
    laid = _Laid(take_off, wall, joint_plans(wall))
    found = [*wall.findings, *(item for plan in laid.plans for item in plan.findings)]
    return {
        kind: Shown(one.subjects, unique([*found, *one.findings]), one.assumptions)
        for kind in KINDS
        if kind in kinds
        for one in [_MAKERS[kind](laid)]
    }


def _elevations(laid: _Laid) -> Shown:
    schedule = set_fasteners(laid.wall, laid.boards)
    subjects = {
        face.id: ElevationSubject(face, plan, boards, fastened, laid.rod)
        for face, plan, boards, fastened in zip(
            laid.wall.faces, laid.plans, laid.boards.faces, schedule.faces, strict=True
        )
    }
    return Shown(subjects, [*laid.boards.findings, *schedule.findings])


def _board_maps(laid: _Laid) -> Shown:
    pieces = iter(sawn_pieces(laid.cutting))
    subjects = {
        boards.face.id: BoardMapSubject(plan, boards, list(islice(pieces, len(boards.pieces))), laid.rod)
        for plan, boards in zip(laid.plans, laid.boards.faces, strict=True)
    }
    return Shown(subjects, [*laid.boards.findings, *laid.cutting.findings])


def _cut_sheets(laid: _Laid) -> Shown:
    subject = CutSheetsSubject(laid.cutting, laid.wall.system.board)
    return Shown({WHOLE_JOB: subject}, [*laid.boards.findings, *laid.cutting.findings])


def _joints(laid: _Laid) -> Shown:
    wall = laid.wall
    spacing = profile_of(wall.system).title
    subjects = {
        face.id: JointsSubject(
            face, plan, bay_rows(wall, face, plan, measured_bays(wall, face, plan)), laid.rod, spacing
        )
        for face, plan in zip(wall.faces, laid.plans, strict=True)
    }
    return Shown(subjects, ())


def _set_outs(laid: _Laid) -> Shown:
    wall, plans = laid.wall, laid.plans
    outs = set_out(wall, plans, laid.take_off.options)
    module, meets = module_lengths(wall.system), meeting_ends(wall)
    rows = [(bay_set_outs(out, wall), elevation_base(out.face, wall, out)) for out in outs]
    subjects = {
        out.face.id: SettingOutSubject(
            out, plan, bays, wall.gauge, module, wall.system.bond, meets, base, wall.storey_joints
        )
        for out, plan, ((bays, _), (base, _)) in zip(outs, plans, rows, strict=True)
    }
    found = [
        item
        for out, ((_, of_bays), (_, of_base)) in zip(outs, rows, strict=True)
        for item in (*out.findings, *of_bays, *of_base)
    ]
    return Shown(subjects, found)


def _slips(laid: _Laid) -> Shown:
    layout = lay_slips(laid.wall, laid.plans, laid.take_off.options)
    subjects = {
        face.face.id: SlipsSubject(face, layout, plan) for face, plan in zip(layout.faces, laid.plans, strict=True)
    }
    return Shown(subjects, layout.findings, bond_assumptions(layout))


_MAKERS: Final[Mapping[Kind, Callable[[_Laid], Shown]]] = {
    "elevation": _elevations,
    "setting_out": _set_outs,
    "slips": _slips,
    "boards": _board_maps,
    "joints": _joints,
    "cut_sheets": _cut_sheets,
}
