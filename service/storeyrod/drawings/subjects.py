"""What the sheets of a take-off are drawn from: the wall once, and of its layouts those that some sheet shows."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice
from typing import Final, Literal, get_args

from storeyrod.answer import Assumption, unique
from storeyrod.boards import calculation as boards
from storeyrod.boards.board_cutting import BoardCutting
from storeyrod.boards.chosen_layout import chosen_layout
from storeyrod.boards.cutting_plan import cut_boards
from storeyrod.boards.layout import BoardLayout
from storeyrod.boards.stock_offcuts import stock_of
from storeyrod.drawings.board_map import BoardMapSubject
from storeyrod.drawings.courses import Rod
from storeyrod.drawings.cut_sheets import CutSheetsSubject
from storeyrod.drawings.elevation import ElevationSubject
from storeyrod.drawings.fastener_map import FastenerMapSubject
from storeyrod.drawings.joints_sheet import JointsSubject
from storeyrod.drawings.load_path_sheet import LoadPathSubject
from storeyrod.drawings.sawn_pieces import sawn_pieces
from storeyrod.drawings.section_subject import SectionSubject
from storeyrod.drawings.setting_out_sheet import SettingOutSubject
from storeyrod.drawings.slips_sheet import SlipsSubject
from storeyrod.drawings.vapour_subject import VapourSubject
from storeyrod.drawings.wind_sheet import WindSubject
from storeyrod.fasteners import calculation as fasteners
from storeyrod.fasteners.loads import Loads
from storeyrod.fasteners.schedule import FastenerSchedule, set_fasteners
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
from storeyrod.slips import calculation as slips
from storeyrod.slips.layout import SlipLayout, lay_slips
from storeyrod.take_off.models import TakeOffRequest
from storeyrod.wall.wall import Wall, wall_of
from storeyrod.weights import calculation as weights
from storeyrod.wind import calculation as wind_loads
from storeyrod.wind.plan import wind_working

Kind = Literal["elevation", "setting_out", "slips", "boards", "joints", "fasteners", "wind", "cut_sheets", "load_path"]
HeatKind = Literal["isotherms", "vapour_pressure"]
SheetKind = Kind | HeatKind
Subject = (
    ElevationSubject
    | SettingOutSubject
    | SlipsSubject
    | BoardMapSubject
    | JointsSubject
    | FastenerMapSubject
    | WindSubject
    | CutSheetsSubject
    | LoadPathSubject
    | SectionSubject
    | VapourSubject
)

KINDS: Final[tuple[Kind, ...]] = get_args(Kind)

WHOLE_JOB: Final = ""
"""Key of the subject that shows no elevation but the whole of what the request holds."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What one kind of sheet shows: its subjects by elevation, what was found, assumed on the way, and not checked."""

    subjects: Mapping[str, Subject]
    findings: Sequence[Finding]
    assumptions: Sequence[Assumption] = ()
    not_checked: Sequence[str] = ()


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

    @cached_property
    def fasteners(self) -> FastenerSchedule:
        """Fasteners as the take-off sets them."""
        take_off = self.take_off
        return set_fasteners(self.wall, self.boards, Loads(take_off.wind, take_off.substrate, take_off.partial_factors))

    @cached_property
    def slips(self) -> SlipLayout:
        """Slips as the take-off lays them."""
        return lay_slips(self.wall, self.plans, self.take_off.options)

    @property
    def rod(self) -> Rod:
        """Courses of the wall."""
        return Rod(self.wall.gauge, self.wall.storey_joints)


def shown_by(take_off: TakeOffRequest, kinds: Collection[SheetKind]) -> Mapping[SheetKind, Shown]:
    """Subjects of the kinds asked for; raises the refusals of the wall and of what each of them lays."""
    wall = wall_of(take_off.elevations, take_off.system)
    laid = _Laid(take_off, wall, joint_plans(wall))
    found = [*wall.findings, *(item for plan in laid.plans for item in plan.findings)]
    return {
        kind: replace(one, findings=unique([*found, *one.findings]))
        for kind in KINDS
        if kind in kinds
        for one in [_MAKERS[kind](laid)]
    }


def _elevations(laid: _Laid) -> Shown:
    schedule = laid.fasteners
    subjects = {
        face.id: ElevationSubject(face, plan, laid_out, fastened, laid.rod)
        for face, plan, laid_out, fastened in zip(
            laid.wall.faces, laid.plans, laid.boards.faces, schedule.faces, strict=True
        )
    }
    return _fastened(laid, subjects)


def _fastened(laid: _Laid, subjects: Mapping[str, Subject]) -> Shown:
    findings = [*laid.boards.findings, *laid.fasteners.findings]
    return Shown(subjects, findings, not_checked=fasteners.not_checked(laid.fasteners))


def _fastener_maps(laid: _Laid) -> Shown:
    schedule = laid.fasteners
    winds = schedule.wind.plan.faces if schedule.wind is not None else [None] * len(schedule.faces)
    return _fastened(
        laid,
        {
            made.face.id: FastenerMapSubject(plan, made, laid.rod, wind)
            for plan, made, wind in zip(laid.plans, schedule.faces, winds, strict=True)
        },
    )


def _winds(laid: _Laid) -> Shown:
    """Wind on every elevation; none where the take-off has none."""
    asked = laid.take_off.wind
    if asked is None:
        return Shown({}, ())
    working = wind_working(laid.wall.faces, asked)
    subjects = {
        wind.face.id: WindSubject(plan, wind, zones, laid.rod, asked.directions)
        for plan, wind, zones in zip(laid.plans, working.plan.faces, working.zones, strict=True)
    }
    return Shown(subjects, working.plan.findings, not_checked=wind_loads.NOT_CHECKED)


def _board_maps(laid: _Laid) -> Shown:
    pieces = iter(sawn_pieces(laid.cutting))
    subjects = {
        laid_out.face.id: BoardMapSubject(plan, laid_out, list(islice(pieces, len(laid_out.pieces))), laid.rod)
        for plan, laid_out in zip(laid.plans, laid.boards.faces, strict=True)
    }
    return _boarded(laid, subjects)


def _boarded(laid: _Laid, subjects: Mapping[str, Subject]) -> Shown:
    return Shown(subjects, [*laid.boards.findings, *laid.cutting.findings], not_checked=boards.NOT_CHECKED)


def _cut_sheets(laid: _Laid) -> Shown:
    subject = CutSheetsSubject(laid.cutting, laid.wall.system.board)
    return _boarded(laid, {WHOLE_JOB: subject})


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
    layout = laid.slips
    subjects = {
        face.face.id: SlipsSubject(face, layout, plan) for face, plan in zip(layout.faces, laid.plans, strict=True)
    }
    return Shown(subjects, layout.findings, slips.bond_assumptions(layout), slips.NOT_CHECKED)


def _load_path(laid: _Laid) -> Shown:
    """The load path of the whole job; none where the take-off has no dead loads."""
    asked = laid.take_off
    if not asked.asks_for_dead_loads:
        return Shown({}, ())
    made = weights.dead_loads(laid.boards, laid.fasteners, laid.slips, asked, asked.partial_factors, asked.options)
    found = [*laid.fasteners.findings, *made.findings]
    said = [*fasteners.not_checked(laid.fasteners), *made.not_checked]
    return Shown({WHOLE_JOB: LoadPathSubject(made.result["load_path"])}, found, not_checked=said)


_MAKERS: Final[Mapping[Kind, Callable[[_Laid], Shown]]] = {
    "elevation": _elevations,
    "setting_out": _set_outs,
    "slips": _slips,
    "boards": _board_maps,
    "joints": _joints,
    "fasteners": _fastener_maps,
    "wind": _winds,
    "cut_sheets": _cut_sheets,
    "load_path": _load_path,
}
