"""Fasteners of a piece by wind: how many it needs, set with the pattern's, until pull-out and pull-through carry its action."""

from dataclasses import dataclass, field
from typing import Final, Literal, NamedTuple

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
_MINIMUM: Final[Governs] = "minimum"
_PULL_OUT: Final[Governs] = "pull_out"
_PULL_THROUGH: Final[Governs] = "pull_through"


class PieceNeed(NamedTuple):
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


class _Held(NamedTuple):
    """Places of a piece with the heads of them that stand near an edge, and the pull-through that they have, where it is known."""

    places: PiecePlaces
    near: int
    resistance: float | None


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
    _given_of_heads: tuple[float, float, float] | None = None

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
        trace, places = self.trace, shape.places(0)
        minimum, needed = places.total, None
        area = trace.single("A", "m2", shape.area, lambda: f"piece {piece.id}", pointer)
        action = trace.call(action_on_piece, w_d=self._suction(patch), A=area)
        working = origin_of(action)
        if self.resistance is not None:
            asked = needed_for(action, self.resistance, trace)
            needed, working = int(asked), origin_of(asked)
            if needed > minimum:
                places = self._places(shape, needed)
        near = pull_out = pull_out_used = pull_through = pull_through_used = None
        if self.heads is not None:
            held = self._held_at_heads(self.heads, shape, places, action)
            places, near = held.places, held.near if held.resistance is not None else None
        total = places.total
        if self.resistance is not None and total:
            number = trace.single("n", "count", float(total), lambda: "fasteners", pointer)
            pull_out = trace.call(pull_out_of_piece, n=number, N_Rd=self.resistance)
            pull_out_used = trace.call(utilisation, F_d=action, R_d=pull_out)
        if near is not None and self.heads is not None and total:
            pull_through = self._pull_through(self.heads, total - near, near, pointer)
            pull_through_used = trace.call(utilisation, F_d=action, R_d=pull_through)
        by_pull_out = pull_out_used if (needed or 0) > minimum else None
        governed = _MINIMUM if by_pull_out is None else _PULL_OUT
        if (pull_through_used or 0.0) > (by_pull_out or 0.0) and self._heads_ask_for_more(shape, action):
            governed = _PULL_THROUGH
        if governed == _PULL_THROUGH and pull_through_used is not None:
            working = origin_of(pull_through_used)
        met = max(pull_out_used or 0.0, pull_through_used or 0.0) <= 1.0 + _GUARD
        return places, PieceNeed(
            patch,
            area,
            action,
            minimum,
            needed,
            pull_out,
            pull_out_used,
            near,
            pull_through,
            pull_through_used,
            governed,
            met,
            working,
        )

    def _suction(self, patch: WindPatch) -> float:
        """Design suction of a patch in kN/m2, worked out once."""
        if id(patch) not in self._suctions:
            suction = self.trace.given(patch.suction / PASCALS_PER_KILOPASCAL, origin_of(patch.suction))
            self._suctions[id(patch)] = self.trace.call(design_suction, gamma=self.gamma, w_s=suction)
        return self._suctions[id(patch)]

    def _places(self, shape: Shape, needed: int) -> PiecePlaces:
        """Places of so many; where heads near an edge have no value, away from edges as far as there is room."""
        places, heads = shape.places(needed), self.heads
        if heads is None or heads.joint is not None or not shape.near_edge(places, heads.within):
            return places
        return shape.places_clear_of_edges(needed, heads.within) or places

    def _held_at_heads(self, heads: HeadResistance, shape: Shape, places: PiecePlaces, action: float) -> _Held:
        """More fasteners until the board holds them at their heads, or none has room."""
        while True:
            near = shape.near_edge(places, heads.within)
            held = _held(heads, places.total - near, near)
            if held is None or held >= action:
                return _Held(places, near, held)
            more: PiecePlaces | None = shape.places(places.total + 1)
            if more is not None and heads.joint is None and shape.near_edge(more, heads.within):
                more = shape.places_clear_of_edges(places.total + 1, heads.within)  # near one nothing is known
            if more is None or more.total <= places.total:
                return _Held(places, near, held)
            places = more

    def _heads_ask_for_more(self, shape: Shape, action: float) -> bool:
        """Whether the board does not hold an action at the heads of the pattern alone, or it is not known that it does.

        Of two that ask for more than the pattern the one governs whose share used is greater, for it asks for more.
        """
        if self.heads is None:
            return False
        pattern = shape.places(0)
        near = shape.near_edge(pattern, self.heads.within)
        held = _held(self.heads, pattern.total - near, near)
        return held is None or held < action

    def _pull_through(self, heads: HeadResistance, panel: int, near: int, pointer: str) -> float:
        trace, given = self.trace, self._given_of_heads
        if given is None:
            joint = "panel_kn" if heads.joint in (None, heads.panel) else "joint_kn"
            given = self._given_of_heads = (
                trace.given(heads.panel, f"{_HEADS}/panel_kn"),
                trace.given(heads.panel if heads.joint is None else heads.joint, f"{_HEADS}/{joint}"),
                trace.given(heads.gamma, f"{_HEADS}/gamma_m"),
            )
        return trace.call(
            pull_through_of_piece,
            R_panel=given[0],
            n_panel=trace.single("n_panel", "count", float(panel), lambda: "heads away from edges", pointer),
            R_joint=given[1],
            n_joint=trace.single("n_joint", "count", float(near), lambda: "heads near edges", pointer),
            gamma_m=given[2],
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
