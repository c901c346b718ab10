"""Cutting slips: pieces laid end to end in whole slips, longest first, each into the first slip that still has room."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

_ROUNDING: Final = 1.0e-3
"""Ticks: what summing lengths may lose."""


_DRAWER: Final = 32
"""Groups that a drawer takes before another one is started."""


@dataclass(frozen=True, slots=True)
class CutSlips:
    """Whole slips that a list of cuts consumes, and the fewest that their lengths allow. Length of all cuts in ticks."""

    slips: int
    least: int
    length: float


class _FirstFit:
    """Slips in the order in which they were started, neighbours with the same room together as (room, how many).

    Groups lie in drawers that know their greatest room, so that the first slip with enough room is found without looking at
    every one.
    """

    def __init__(self, room: float) -> None:
        self._whole = room
        self._drawers: list[_Drawer] = []
        self.used = 0

    def place(self, length: float, count: int) -> None:
        """Put equal lengths, one after the other, each into the first slip with room for it."""
        for drawer in self._drawers:
            if drawer.most >= length:
                count = drawer.place(length, count)
                if not count:
                    return
        self._start(length, count)

    def _start(self, length: float, count: int) -> None:
        """Start as many slips as the lengths need that fit into no other."""
        rooms = _rooms(self._whole, length)
        slips = -(-count // len(rooms))
        self.used += slips
        last = count - (slips - 1) * len(rooms)
        if not self._drawers or len(self._drawers[-1].groups) >= _DRAWER:
            self._drawers.append(_Drawer([]))
        self._drawers[-1].groups += [group for group in ((rooms[-1], slips - 1), (rooms[last - 1], 1)) if group[1]]
        self._drawers[-1].look()


@dataclass(slots=True)
class _Drawer:
    groups: list[tuple[float, int]]
    most: float = 0.0

    def look(self) -> None:
        """Find the greatest room again."""
        self.most = max(room for room, _ in self.groups)

    def place(self, length: float, count: int) -> int:
        """Put lengths into the slips of the drawer, and return how many are left."""
        made: list[tuple[float, int]] = []
        for room, slips in self.groups:
            if room < length or not count:
                made.append((room, slips))
                continue
            rooms = _rooms(room, length)
            full = min(slips, count // len(rooms))
            count -= full * len(rooms)
            made += [(rooms[-1], full)] if full else []
            if full < slips and count:
                made.append((rooms[count - 1], 1))
                full, count = full + 1, 0
            if full < slips:
                made.append((room, slips - full))
        self.groups = made
        self.look()
        return count


def _rooms(room: float, length: float) -> list[float]:
    """Room of a slip after one, two, ... equal lengths were put into it; one that is longer than a slip takes all of it."""
    left: list[float] = []
    while room >= length:
        room -= length
        left.append(room)
    return left or [0.0]


def cut_slips(sizes: Iterable[tuple[float, int]], slip_length: float, kerf: float) -> CutSlips:
    """First-fit decreasing on lengths with their numbers: every piece takes its length and, but for the last of a slip, a kerf.

    A piece takes its greatest length whatever its height, so a ripped or raked piece never shares its length with another.
    The least is the length of all cuts over the length of a slip, rounded up: no cutting of these pieces end to end needs
    fewer.
    """
    numbers: dict[float, int] = {}
    for length, count in sizes:
        numbers[length] = numbers.get(length, 0) + count
    if not numbers:
        return CutSlips(0, 0, 0.0)
    row = _FirstFit(slip_length + kerf + _ROUNDING)
    for length in sorted(numbers, reverse=True):
        row.place(length + kerf, numbers[length])
    total = math.fsum(length * count for length, count in numbers.items())
    return CutSlips(row.used, math.ceil((total - _ROUNDING) / slip_length), total)
