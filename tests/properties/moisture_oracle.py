"""Moisture through a year by another method: linear systems with planes switched on and off, in place of a taut string.

Written from the balance of vapour at every plane, without the service's code: at each plane either nothing condenses and
inflow equals outflow, or the plane is at saturation. Which planes are, is found by switching them until no pressure passes
saturation and no plane that holds no moisture gives any off.
"""

import math

import numpy as np

DELTA = 2e-10
TOO_SMALL = 1e-7


def saturation(theta):
    """ISO 13788, annex E, from memory."""
    if theta >= 0:
        return 610.5 * math.exp(17.269 * theta / (237.3 + theta))
    return 610.5 * math.exp(21.875 * theta / (265.5 + theta))


def planes(layers, internal, external):
    """Resistance and still air inside every plane, with insulating layers in equal parts of at most 0.25."""
    rows = [(internal, 0.0)]
    for resistance, sd in layers:
        parts = max(1, math.ceil(resistance / 0.25 - 1e-9))
        for _ in range(parts):
            rows.append((rows[-1][0] + resistance / parts, rows[-1][1] + sd / parts))
    total = rows[-1][0] + external
    return [row[0] / total for row in rows], [row[1] for row in rows]


def balanced(depths, most, inner, outer, wet):
    """Pressures and condensation rates of one period with some planes wet from the start."""
    count = len(depths)
    conductance = DELTA / np.diff(depths)
    touching = np.zeros(count, dtype=bool)
    touching[sorted(wet)] = True
    for _ in range(20 * count):
        matrix, right = np.zeros((count, count)), np.zeros(count)
        for at in range(count):
            if at in (0, count - 1):
                matrix[at, at], right[at] = 1.0, inner if at == 0 else outer
            elif touching[at]:
                matrix[at, at], right[at] = 1.0, most[at]
            else:
                left, to_right = conductance[at - 1], conductance[at]
                scale = left + to_right
                matrix[at, at - 1 : at + 2] = -left / scale, 1.0, -to_right / scale
        pressure = np.linalg.solve(matrix, right)
        flow = conductance * -np.diff(pressure)
        rate = np.zeros(count)
        rate[1:-1] = flow[:-1] - flow[1:]
        over = (pressure > most * (1 + 1e-10)) & ~touching
        over[[0, -1]] = False
        gives = touching & (rate < -1e-18)
        gives[sorted(wet)] = False
        if over.any():
            touching |= over
        elif gives.any():
            touching[np.flatnonzero(gives)[np.argmin(rate[gives])]] = False
        else:
            return pressure, np.where(touching, rate, 0.0)
    raise AssertionError("planes go on and off without end")


YEARS = 12


def years(layers, months, internal=0.13, external=0.04, start=0):
    """Moisture of every plane at the end of each month of many equal years, the first from a dry start with the month ``start``.

    ``months`` are (indoor temperature, outdoor temperature, indoor pressure, outdoor pressure, seconds). One row for each month,
    in the order in which they went.
    """
    shares, depths = planes(layers, internal, external)
    held = np.zeros(len(depths))
    made = []
    for step in range(YEARS * len(months)):
        inside, outside, inner, outer, seconds = months[(start + step) % len(months)]
        most = np.array([saturation(inside - (inside - outside) * share) for share in shares])
        ends = min(inner, most[0]), min(outer, most[-1])
        _, rate = balanced(depths, most, *ends, set(np.flatnonzero(held > TOO_SMALL * 1e-6)))
        held = np.maximum(held + rate * seconds, 0.0)
        made.append(held.copy())
    return np.array(made)


def places(layers):
    """Planes that count as one: each face by itself, those between the sub-layers of a layer together."""
    made, at = [], 0
    for resistance, _ in layers:
        parts = max(1, math.ceil(resistance / 0.25 - 1e-9))
        made += [list(range(at + 1, at + parts)), [at + parts]]
        at += parts
    return made


def settled(rows, layers):
    """Of many equal years the last: greatest moisture of every plane, and what of all moisture never leaves.

    A plane that never dries holds no end of moisture: counted is what it comes to hold in the twelve months after any one month,
    whichever month gives most; and its gain in a year never leaves. Of others that is what a place holds in its driest month.
    """
    last, before = rows[-12:], rows[-24:-12]
    dries = last.min(axis=0) <= TOO_SMALL
    gains = np.where(dries, 0.0, last[-1] - before[-1])
    stays = [np.where(dries, last, 0.0)[:, planes].sum(axis=1).min() for planes in places(layers) if planes]
    reached = [rows[at + 1 : at + 13].max(axis=0) - rows[at] for at in range(len(rows) - 25, len(rows) - 13)]
    return np.where(dries, last.max(axis=0), np.max(reached, axis=0)), gains.sum() + sum(stays)
