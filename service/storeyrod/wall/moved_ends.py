"""Outlines whose left and right ends are moved from one plane of the wall to another."""

from storeyrod.geometry.plane import Region, Ring, bounds, is_simple, tidy


def moved_ends(ring: Ring, left_out: float, right_out: float) -> Region:
    """The ring with its left and right ends moved outwards, or cut back where the distance is negative.

    What meets an end keeps its slope. Cutting back may leave nothing, or several parts.
    """
    stretched = _stretched(ring, max(0.0, left_out), max(0.0, right_out))
    if left_out >= 0.0 and right_out >= 0.0:
        return Region((stretched,))
    left, bottom, right, top = bounds(stretched)
    inner_left, inner_right = left - min(0.0, left_out), right + min(0.0, right_out)
    return Region((stretched,)).within((inner_left, bottom, max(inner_left, inner_right), top))


def _stretched(ring: Ring, left_out: float, right_out: float) -> Ring:
    if left_out == right_out == 0.0:
        return ring
    sloped = _shifted(ring, left_out, right_out, keep_slopes=True)
    # A rake so steep that it would run below the foot within the build-up is moved out level instead.
    return sloped if is_simple(sloped) else _shifted(ring, left_out, right_out, keep_slopes=False)


def _shifted(ring: Ring, left_out: float, right_out: float, *, keep_slopes: bool) -> Ring:
    left, _, right, _ = bounds(ring)
    moved = []
    for index, (x, y) in enumerate(ring):
        target = x - left_out if x == left else x + right_out if x == right else x
        moved.append((target, y + _rise(ring, index, target - x) if keep_slopes and target != x else y))
    return tidy(moved)


def _rise(ring: Ring, index: int, run: float) -> float:
    """Rise over a run along the edge that leaves an end sideways; level edges and upright ends give none."""
    x, y = ring[index]
    for neighbour_x, neighbour_y in (ring[index - 1], ring[(index + 1) % len(ring)]):
        if neighbour_x != x and neighbour_y != y:
            return (neighbour_y - y) / (neighbour_x - x) * run
    return 0.0
