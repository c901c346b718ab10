"""Vapour pressure in a section as a taut string below saturation, and what condenses where the string touches.

This is the inner loop of the method: plain floats in lists, no objects for a plane.
"""

from collections.abc import Sequence
from typing import Final, NamedTuple

from storeyrod.moisture.rules import MOISTURE_RULES
from storeyrod.moisture.section import Compartment

_DELTA: Final = MOISTURE_RULES["vapour_permeability_of_air"].value

_TOUCH: Final = 1e-9
"""Relative: a string that would pass a plane by less than this over saturation does not condense there."""


class Strung(NamedTuple):
    """The string in one compartment: its knots, inside first, and the pressure in Pa at each.

    A knot is a plane at saturation, or an end of the compartment; none when nothing is known between two tight layers.
    """

    compartment: Compartment
    knots: list[int]
    pressures: list[float]


def touches(
    compartment: Compartment, depths: Sequence[float], saturations: Sequence[float], ends: tuple[float, float]
) -> bool:
    """Whether vapour between the pressures of the two airs would pass a plane over saturation, all planes being dry.

    Temperatures, and so saturation pressures, rise or fall all the way from one end to the other.
    """
    first, last, open_inside, open_outside = compartment
    inner, outer = saturations[first], saturations[last]
    least = min(inner, outer)
    if open_inside and open_outside:
        inner, outer = min(ends[0], inner), min(ends[1], outer)
        if last - first <= 1 or max(inner, outer) <= least:
            return False
        slope = (outer - inner) / (depths[last] - depths[first])
        origin = inner - slope * depths[first]
        # From the outside, where it is cold in winter and most sections touch first.
        inward = slice(last - 1, first, -1)
        return _passes_over(slope, origin, depths[inward], saturations[inward])
    if open_inside:
        return ends[0] > least
    return open_outside and ends[1] > least


def strung(
    compartment: Compartment,
    depths: Sequence[float],
    saturations: Sequence[float],
    ends: tuple[float, float],
    wet: Sequence[int] = (),
    *,
    slack: bool = False,
) -> Strung:
    """The string between the vapour pressures of the two airs, at saturation where planes are wet already.

    At a vapour-tight end no vapour flows, so the string runs level from the last plane that holds it: the pressure of the
    nearest knot, or the least saturation on the way if that is lower. ``slack`` says that it is known to touch no plane.
    Saturation pressures rise or fall all the way, so that a string under those at both its ends touches none between.
    """
    first, last, open_inside, open_outside = compartment
    anchors = [plane for plane in wet if first <= plane <= last] if wet else wet
    if not (anchors or open_inside or open_outside):
        return Strung(compartment, [], [])
    pressure = list(saturations)
    if open_inside:
        pressure[first] = min(ends[0], saturations[first])
    if open_outside:
        pressure[last] = min(ends[1], saturations[last])
    if not open_inside:
        pressure[first] = min(pressure[first : (anchors[0] if anchors else last) + 1])
    if not open_outside:
        pressure[last] = min(pressure[(anchors[-1] if anchors else first) : last + 1])
    knots = [first]
    for anchor in (*anchors, last):
        before = knots[-1]
        if anchor > before:
            if slack or (pressure[before] <= saturations[anchor] and pressure[anchor] <= saturations[before]):
                knots.append(anchor)
            else:
                _tighten(depths, pressure, before, anchor, knots)
    return Strung(compartment, knots, [pressure[knot] for knot in knots])


def rates(string: Strung, depths: Sequence[float]) -> list[tuple[int, float]]:
    """What condenses at each knot that is a plane at saturation, in kg/(m2.s); negative where it dries."""
    (first, last, open_inside, open_outside), knots, pressures = string
    flows = [
        _DELTA * (pressures[at] - pressures[at + 1]) / (depths[knots[at + 1]] - depths[knots[at]])
        for at in range(len(knots) - 1)
    ]
    made: list[tuple[int, float]] = []
    for at, knot in enumerate(knots):
        if (open_inside and knot == first) or (open_outside and knot == last):
            continue
        arrives = flows[at - 1] if at > 0 else 0.0
        leaves = flows[at] if at < len(flows) else 0.0
        made.append((knot, arrives - leaves))
    return made


def end_flows(strings: Sequence[Strung], depths: Sequence[float]) -> tuple[float, float]:
    """Vapour in kg/(m2.s) from indoors into the section, and from the section to outdoors; none at a vapour-tight end."""
    return _flow(strings[0], depths, 0), _flow(strings[-1], depths, -2)


def pressures_between(string: Strung, depths: Sequence[float]) -> list[float]:
    """Vapour pressure in Pa at every plane of a compartment that has a string, from its first to its last."""
    made: list[float] = []
    knots, pressures = string.knots, string.pressures
    for at in range(len(knots) - 1):
        start, end = knots[at], knots[at + 1]
        made.append(pressures[at])
        for plane in range(start + 1, end):
            share = (depths[plane] - depths[start]) / (depths[end] - depths[start])
            made.append(pressures[at] + (pressures[at + 1] - pressures[at]) * share)
    made.append(pressures[-1])
    return made


def _flow(string: Strung, depths: Sequence[float], at: int) -> float:
    knots, pressures = string.knots, string.pressures
    if len(knots) < 2:
        return 0.0
    start, end = (at, at + 1) if at >= 0 else (at, -1)
    return _DELTA * (pressures[start] - pressures[end]) / (depths[knots[end]] - depths[knots[start]])


def _passes_over(slope: float, origin: float, depths: Sequence[float], most: Sequence[float]) -> bool:
    """Whether a straight string is anywhere over the most that planes take; a loop that stops early, since all planes pass here."""
    for depth, pressure in zip(depths, most, strict=True):  # noqa: SIM110  twice as fast as any()
        if origin + slope * depth > pressure:
            return True
    return False


def _tighten(depths: Sequence[float], pressure: Sequence[float], start: int, end: int, knots: list[int]) -> None:
    """Add the knots after ``start`` up to ``end``: the lower convex hull of the planes between.

    The plane that the straight string passes farthest over is a knot; the two strings beside it are tightened alike.
    """
    if end - start > 1:
        slope = (pressure[end] - pressure[start]) / (depths[end] - depths[start])
        origin = pressure[start] - slope * depths[start]
        between, most = depths[start + 1 : end], pressure[start + 1 : end]
        if _passes_over(slope, origin, between, most):
            over = [origin + slope * depth - limit for depth, limit in zip(between, most, strict=True)]
            farthest = max(over)
            middle = start + 1 + over.index(farthest)
            if farthest > _TOUCH * pressure[middle]:
                _tighten(depths, pressure, start, middle, knots)
                _tighten(depths, pressure, middle, end, knots)
                return
    knots.append(end)
