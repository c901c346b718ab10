"""Length of the fasteners: all that lies between head and anchorage, up to the next length held, and the hole for it."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.answer import Assumed, Assumption, stated
from storeyrod.fasteners.resistance_models import FastenerLength
from storeyrod.findings import Finding, Where, finding, refuse
from storeyrod.reference.documents import HOUSE, Clause
from storeyrod.trace import SILENT, Trace, formula
from storeyrod.wall.fastener_models import Fastener
from storeyrod.wall.substrate_models import Substrate
from storeyrod.wall.system import System

NOT_ASSESSED: Final = "Lengths of fasteners and depths of their holes were not worked out: the depth of anchorage, or the substrate, was not given."

_LENGTH: Final = Clause("ETAG 014", "length of a fastener: insulation, layers that do not carry, embedment", "memory")
_HOLE: Final = Clause("ETAG 014", "hole deeper than the fastener: 10 mm, 15 mm in hollow masonry", "memory")
_COVER: Final = HOUSE

HOLE_BEYOND: Final = 10.0
HOLE_BEYOND_HOLLOW: Final = 15.0
"""Lengths in mm by which a hole goes beyond the fastener (``_HOLE``)."""

HOLLOW: Final = "C"

_GUARD: Final = 1e-6
"""Millimetres by which rounding may overstep a length."""

WITHOUT_HAMMER: Final = "Drill without hammer action: it breaks the webs of hollow units and widens holes in aerated concrete (ETAG 014, from memory)."
_BY_ASSESSMENT: Final = (
    "Drill as the fastener's own assessment says; hammer action is usual in solid substrates (common practice)."
)
_UNKNOWN: Final = "Drill without hammer action until it is known what the wall is made of."
_DRILLING: Final = {
    "A": _BY_ASSESSMENT,
    "B": _BY_ASSESSMENT,
    "C": WITHOUT_HAMMER,
    "D": _BY_ASSESSMENT,
    "E": WITHOUT_HAMMER,
}


@formula(
    symbol="L",
    expression="h + t_render + t_level + h_ef",
    unit="mm",
    inputs={"h": "mm", "t_render": "mm", "t_level": "mm", "h_ef": "mm"},
    clause=_LENGTH,
)
def required_length(*, h: float, t_render: float, t_level: float, h_ef: float) -> float:
    """Length through board, levelling and old render to the depth of anchorage."""
    return h + t_render + t_level + h_ef


@formula(
    symbol="h_e",
    expression="L - h - t_render - t_level",
    unit="mm",
    inputs={"L": "mm", "h": "mm", "t_render": "mm", "t_level": "mm"},
    clause=_LENGTH,
)
def embedment(*, L: float, h: float, t_render: float, t_level: float) -> float:  # noqa: N803  symbol of the formula
    """Depth in the substrate that a fastener of length L reaches."""
    return L - h - t_render - t_level


@formula(symbol="d_hole", expression="h_e + t_beyond", unit="mm", inputs={"h_e": "mm", "t_beyond": "mm"}, clause=_HOLE)
def hole_depth(*, h_e: float, t_beyond: float) -> float:
    """Depth of the hole in the substrate."""
    return h_e + t_beyond


@formula(symbol="d_drill", expression="L + t_beyond", unit="mm", inputs={"L": "mm", "t_beyond": "mm"}, clause=_HOLE)
def drilling_depth(*, L: float, t_beyond: float) -> float:  # noqa: N803  symbol of the formula
    """Depth to drill from the face of the board."""
    return L + t_beyond


@formula(
    symbol="d_max", expression="t_wall - t_cover", unit="mm", inputs={"t_wall": "mm", "t_cover": "mm"}, clause=_COVER
)
def deepest_hole(*, t_wall: float, t_cover: float) -> float:
    """Depth of hole that leaves a cover behind it."""
    return t_wall - t_cover


@formula(
    symbol="d_high", expression="d_hole + t_level", unit="mm", inputs={"d_hole": "mm", "t_level": "mm"}, clause=_HOLE
)
def hole_at_high_spot(*, d_hole: float, t_level: float) -> float:
    """Depth of the hole where the wall stands forward: one fastener, one drilling depth, and no levelling to go through."""
    return d_hole + t_level


def length_of(system: System, substrate: Substrate | None, trace: Trace = SILENT) -> FastenerLength | None:
    """Length of the fasteners of a system; none where the embedment or the substrate is not given.

    Raises ``fastener-too-short`` where no length held is enough, and ``hole-through-wall``.
    """
    fastener = system.fastener
    if substrate is None or fastener.embedment_mm is None:
        return None
    thickness = trace.given(system.board.thickness_mm, "/system/board/thickness_mm")
    render = trace.given(substrate.render_mm, "/substrate/render_mm")
    level = trace.given(substrate.levelling_mm, "/substrate/levelling_mm")
    anchored = trace.given(fastener.embedment_mm, "/system/fastener/embedment_mm")
    required = trace.call(required_length, h=thickness, t_render=render, t_level=level, h_ef=anchored)
    made: FastenerLength = {
        "required_mm": required,
        "embedment_mm": anchored,
        "hole_depth_mm": 0.0,
        "drilling_depth_mm": 0.0,
        "drilling": _DRILLING[substrate.category] if substrate.category is not None else _UNKNOWN,
    }
    length = required
    if fastener.lengths_mm:
        made["chosen_mm"] = length = _next_held(fastener.lengths_mm, required, trace)
        made["embedment_mm"] = trace.call(embedment, L=length, h=thickness, t_render=render, t_level=level)
    beyond = _beyond(fastener, substrate, trace)
    made["hole_depth_mm"] = trace.call(hole_depth, h_e=made["embedment_mm"], t_beyond=beyond)
    made["drilling_depth_mm"] = trace.call(drilling_depth, L=length, t_beyond=beyond)
    _stay_in_wall(made["hole_depth_mm"], level, substrate, trace)
    return made


def length_assumptions(system: System, substrate: Substrate | None) -> list[Assumption]:
    """What was assumed of holes."""
    fastener = system.fastener
    if substrate is None or fastener.embedment_mm is None or fastener.hole_beyond_mm is not None:
        return []
    return [stated("/system/fastener/hole_beyond_mm", _usual_beyond(substrate), Assumed("mm", _HOLE))]


def hollow_findings(system: System, substrate: Substrate | None) -> Iterator[Finding]:
    """Levelling that is less than the hollow that was surveyed, unless the fasteners reach as deep there as they should."""
    if substrate is None or substrate.flatness is None or substrate.levelling_mm >= substrate.flatness.gap_mm:
        return
    level, gap, asked = substrate.levelling_mm, substrate.flatness.gap_mm, system.fastener.embedment_mm
    where: Where = {"pointer": "/substrate/levelling_mm"}
    if asked is None:
        yield finding("levelling-short", where, value=level, limit=gap, unit="mm")
        return
    length = _length_taken(system, substrate, asked)
    left = length - system.board.thickness_mm - substrate.render_mm - gap
    if left < asked - _GUARD:
        advice = f"{_in_the_hollow(gap, length, left, asked)} Give levelling_mm the depth of the deepest hollow, or level the wall first."
        yield finding("levelling-short", where, value=level, limit=gap, unit="mm", advice=advice)


def _length_taken(system: System, substrate: Substrate, anchored: float) -> float:
    """The length held that is taken, or the one required."""
    required = system.board.thickness_mm + substrate.render_mm + substrate.levelling_mm + anchored
    return min(_long_enough(system.fastener.lengths_mm, required), default=(required, 0))[0]


def _in_the_hollow(gap: float, length: float, left: float, asked: float) -> str:
    if left < _GUARD:
        return f"In a hollow of {gap:g} mm a fastener of {length:g} mm does not reach into the substrate{_before(left)} and holds nothing."
    return f"In a hollow of {gap:g} mm a fastener of {length:g} mm is anchored {left:g} mm deep, where {asked:g} mm are asked for."


def _before(left: float) -> str:
    return f": it ends {-left:g} mm before it" if left < -_GUARD else ""


def _long_enough(held: Sequence[float], required: float) -> list[tuple[float, int]]:
    """Lengths held that are long enough, with their place in the request."""
    return [(length, index) for index, length in enumerate(held) if length >= required - _GUARD]


def _next_held(held: Sequence[float], required: float, trace: Trace) -> float:
    """The shortest length held that is long enough."""
    enough = _long_enough(held, required)
    if not enough:
        raise refuse(
            "fastener-too-short",
            "/system/fastener/lengths_mm",
            f"{required:g} mm are needed from the head to the depth of anchorage, and the longest fastener held has {max(held):g} mm; "
            "hold a longer one, or check board, levelling, render and embedment.",
        )
    length, index = min(enough)
    return trace.given(length, f"/system/fastener/lengths_mm/{index}")


def _beyond(fastener: Fastener, substrate: Substrate, trace: Trace) -> float:
    if fastener.hole_beyond_mm is not None:
        return trace.given(fastener.hole_beyond_mm, "/system/fastener/hole_beyond_mm")
    return trace.lookup("t_beyond", _usual_beyond(substrate), "mm", _HOLE)


def _usual_beyond(substrate: Substrate) -> float:
    return HOLE_BEYOND_HOLLOW if substrate.category == HOLLOW else HOLE_BEYOND


def _stay_in_wall(hole: float, level: float, substrate: Substrate, trace: Trace) -> None:
    """Held against the wall where it stands forward: there the same drilling goes deepest."""
    if substrate.thickness_mm is None:
        return
    wall = trace.given(substrate.thickness_mm, "/substrate/thickness_mm")
    cover = trace.given(substrate.cover_mm, "/substrate/cover_mm")
    deepest = trace.call(deepest_hole, t_wall=wall, t_cover=cover)
    most = trace.call(hole_at_high_spot, d_hole=hole, t_level=level)
    if not trace.check("d_high", most, deepest, "mm", _COVER, holds=most <= deepest + _GUARD):
        raise refuse(
            "hole-through-wall",
            "/substrate/thickness_mm",
            f"A hole of {most:g} mm, where the wall stands forward and takes no levelling, is deeper than the {deepest:g} mm that "
            f"{cover:g} mm of cover leave in {wall:g} mm of wall; hold a length nearer to the one required, take a fastener that needs "
            "less depth, or level the wall first.",
        )
