"""Fasteners of a piece by wind: how many it needs, set with the pattern's, until pull-out and pull-through carry its action."""

import math
from dataclasses import dataclass, field
from typing import Final, Literal

from storeyrod.boards.pieces import Piece
from storeyrod.fasteners.need import (
    PASCALS_PER_KILOPASCAL,
    HeadResistance,
    action_on_piece,
    design_suction,
    needed_for,
    pull_out_of_piece,
    pull_through_of_piece,
    utilisation,
)
from storeyrod.fasteners.places import PiecePlaces
from storeyrod.fasteners.shape import Shape
from storeyrod.geometry.ticks import ticks
from storeyrod.trace import CALLER, Trace, origin_of
from storeyrod.wall.system import System
from storeyrod.wind.face_wind import WindPatch

Governs = Literal["minimum", "pull_out", "pull_through"]

_HEADS: Final = "/system/fastener/pull_through"


@dataclass(frozen=True, slots=True)
class PieceNeed:
    """What wind asks of a piece and what its fasteners give: action and resistances in kN, the number that pull-out needs.

    A resistance is absent where it was not assessed; ``met`` is false where one of them is under the action.
    """

    patch: WindPatch
    area: float
    action: float
    minimum: int
    needed: int | None = None
    pull_out: float | None = None
    pull_out_used: float | None = None
    near_edge: int | None = None
    pull_through: float | None = None
    pull_through_used: float | None = None
    governed_by: Governs = "minimum"
    met: bool = True
    working: str = CALLER
    """Step of the trace that gave what governs."""

    @property
    def used(self) -> float | None:
        """The greater of the shares used; none where nothing was assessed."""
        return max((used for used in (self.pull_out_used, self.pull_through_used) if used is not None), default=None)


@dataclass
class Demand:
    """Wind on the pieces of a wall: partial factor, resistances, and the trace that the working goes to."""

    gamma: float
    resistance: float | None
    heads: HeadResistance | None
    trace: Trace
    _suctions: dict[int, float] = field(default_factory=dict)
    _known: dict[tuple[int, int], tuple[PiecePlaces, PieceNeed]] = field(default_factory=dict)
    _alike: dict[tuple[str, float, str], WindPatch] = field(default_factory=dict)

    def like(self, patch: WindPatch) -> WindPatch:
        """The first patch with this zone, suction and working: what it asks of a piece is worked out for all of them."""
        return self._alike.setdefault((patch.zone, patch.suction, origin_of(patch.suction)), patch)

    def placed(self, piece: Piece, shape: Shape, patch: WindPatch, pointer: str) -> tuple[PiecePlaces, PieceNeed]:
        """Places of pieces of a shape under a patch, worked out for the first of them."""
        asked = id(shape), id(patch)
        if asked not in self._known:
            self._known[asked] = self._worked_out(piece, shape, patch, pointer)
        return self._known[asked]

    def _worked_out(self, piece: Piece, shape: Shape, patch: WindPatch, pointer: str) -> tuple[PiecePlaces, PieceNeed]:
        plain = shape.places(0)
        area = self.trace.measure("A", "m2", [(f"piece {piece.id}", shape.area, pointer)])
        action = self.trace.call(action_on_piece, w_d=self._suction(patch), A=area)
        if self.resistance is None:
            return self._with_heads(
                shape, plain, PieceNeed(patch, area, action, plain.total, working=origin_of(action)), pointer
            )
        asked = needed_for(action, self.resistance, self.trace)
        needed = int(asked)
        places = shape.places(needed) if needed > plain.total else plain
        governed: Governs = "pull_out" if needed > plain.total else "minimum"
        need = PieceNeed(patch, area, action, plain.total, needed, governed_by=governed, working=origin_of(asked))
        return self._with_heads(shape, places, need, pointer)

    def _suction(self, patch: WindPatch) -> float:
        """Design suction of a patch in kN/m2, worked out once."""
        if id(patch) not in self._suctions:
            suction = self.trace.given(patch.suction / PASCALS_PER_KILOPASCAL, origin_of(patch.suction))
            self._suctions[id(patch)] = self.trace.call(design_suction, gamma=self.gamma, w_s=suction)
        return self._suctions[id(patch)]

    def _with_heads(
        self, shape: Shape, places: PiecePlaces, need: PieceNeed, pointer: str
    ) -> tuple[PiecePlaces, PieceNeed]:
        """More fasteners until the board holds them at their heads, or none has room."""
        heads, governed = self.heads, need.governed_by
        near: int | None = None
        held: float | None = None
        while heads is not None:
            near = shape.near_edge(places, heads.within)
            held = _held(heads, places.total - near, near)
            if held is None or held >= need.action:
                break
            more = shape.places(places.total + 1)
            if more.total <= places.total or (heads.joint is None and shape.near_edge(more, heads.within)):
                break  # none has room, or only near an edge, where nothing is known
            places, governed = more, "pull_through"
        if held is not None and held < need.action and held < self._pulled_out(places.total):
            governed = "pull_through"
        return places, self._assessed(need, places.total, near if held is not None else None, governed, pointer)

    def _pulled_out(self, total: int) -> float:
        """Pull-out in kN of so many fasteners; without end where it is not known."""
        return math.inf if self.resistance is None else total * self.resistance

    def _assessed(self, need: PieceNeed, total: int, near: int | None, governed: Governs, pointer: str) -> PieceNeed:
        """The need with the resistances of the fasteners as placed."""
        pull_out = pull_out_used = pull_through = pull_through_used = None
        trace = self.trace
        if self.resistance is not None and total:
            pull_out = trace.call(
                pull_out_of_piece, n=trace.count("n", [("fasteners", total, pointer)]), N_Rd=self.resistance
            )
            pull_out_used = trace.call(utilisation, F_d=need.action, R_d=pull_out)
        if near is not None and self.heads is not None and total:
            pull_through = self._pull_through(self.heads, total - near, near, pointer)
            pull_through_used = trace.call(utilisation, F_d=need.action, R_d=pull_through)
        short = (used is not None and used > 1.0 + _GUARD for used in (pull_out_used, pull_through_used))
        return PieceNeed(
            need.patch,
            need.area,
            need.action,
            need.minimum,
            need.needed,
            pull_out,
            pull_out_used,
            near,
            pull_through,
            pull_through_used,
            governed,
            not any(short),
            origin_of(pull_through_used) if governed == "pull_through" else need.working,
        )

    def _pull_through(self, heads: HeadResistance, panel: int, near: int, pointer: str) -> float:
        trace = self.trace
        joint = "panel_kn" if heads.joint in (None, heads.panel) else "joint_kn"
        return trace.call(
            pull_through_of_piece,
            R_panel=trace.given(heads.panel, f"{_HEADS}/panel_kn"),
            n_panel=trace.count("n_panel", [("heads away from edges", panel, pointer)]),
            R_joint=trace.given(heads.panel if heads.joint is None else heads.joint, f"{_HEADS}/{joint}"),
            n_joint=trace.count("n_joint", [("heads near edges", near, pointer)]),
            gamma_m=trace.given(heads.gamma, f"{_HEADS}/gamma_m"),
        )


_GUARD: Final = 1e-9
"""Share by which rounding may overstep a resistance."""


def _held(heads: HeadResistance, panel: int, near: int) -> float | None:
    """Pull-through in kN; none where heads near edges have no value."""
    if near and heads.joint is None:
        return None
    return (heads.panel * panel + (heads.joint or 0.0) * near) / heads.gamma * (1.0 + _GUARD)


def heads_of(system: System) -> HeadResistance | None:
    """Pull-through of a system, where it is given; no more near an edge than away from it, since nearness is judged by a square."""
    given = system.fastener.pull_through
    if given is None:
        return None
    joint = None if given.joint_kn is None else min(given.joint_kn, given.panel_kn)
    return HeadResistance(given.panel_kn, joint, ticks(given.joint_within_mm), given.gamma_m)
