"""Cutting slips: pieces laid end to end in whole slips, longest first, each into the first slip that still has room."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

_ROUNDING: Final = 1.0e-3
"""Ticks: what summing lengths may lose."""


@dataclass(frozen=True, slots=True)
class CutSlips:
    """Whole slips that a list of cuts consumes, and the fewest that their lengths allow. Length of all cuts in ticks."""

    slips: int
    least: int
    length: float


class _FirstFit:
    """Room left in each slip, with the greatest room of every half, quarter, ... of the row, so that the first slip with
    enough room is found in as many steps as the row has halvings.
    """

    def __init__(self, slips: int, room: float) -> None:
        self._size = 1 << max(0, slips - 1).bit_length()
        self._most = [room] * (2 * self._size)
        self.used = 0

    def place(self, length: float) -> None:
        """Put one length into the first slip with room for it."""
        most, node = self._most, 1
        while node < self._size:
            node = 2 * node if most[2 * node] >= length else 2 * node + 1
        most[node] -= length
        self.used = max(self.used, node - self._size + 1)
        while node > 1:
            node //= 2
            most[node] = max(most[2 * node], most[2 * node + 1])


def cut_slips(lengths: Sequence[float], slip_length: float, kerf: float) -> CutSlips:
    """First-fit decreasing: every piece takes its length and, but for the last of a slip, a kerf.

    A piece takes its greatest length whatever its height, so a ripped or raked piece never shares its length with another.
    The least is the length of all cuts over the length of a slip, rounded up: no cutting of these pieces end to end needs
    fewer.
    """
    if not lengths:
        return CutSlips(0, 0, 0.0)
    row = _FirstFit(len(lengths), slip_length + kerf + _ROUNDING)
    for length in sorted(lengths, reverse=True):
        row.place(length + kerf)
    total = math.fsum(lengths)
    return CutSlips(row.used, math.ceil((total - _ROUNDING) / slip_length), total)
