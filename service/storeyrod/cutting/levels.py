"""The axis upwards where ribs say at which heights a piece may stand: spans reach from one such level to another.

Stretches between levels that hold the same pieces and part into the same stretches are one span.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from storeyrod.cutting.lie import foot
from storeyrod.cutting.spans import Axis, Batch, Numbers, listed
from storeyrod.cutting.stock import Blank, Item, Saw


class _Kind(NamedTuple):
    """What tells shapes apart upwards."""

    height: float
    bottom: bool
    top: bool
    phase: float


class _Stand(NamedTuple):
    """Where a shape may stand in a blank: the level of its foot, and the first level above it that is free again."""

    foot: int
    above: int


def level_axis(shapes: Sequence[Item], blanks: Sequence[Blank], saw: Saw, most: int) -> Axis | None:
    """Spans between the levels of every blank; none where there are no ribs, or a blank has more than ``most`` levels."""
    if saw.rib_pitch is None:
        return None
    kind_of = [_Kind(shape.height, shape.needs.bottom, shape.needs.top, shape.phase) for shape in shapes]
    kinds = sorted(set(kind_of))
    columns = np.array([kinds.index(kind) for kind in kind_of], np.intp)
    made = _Spans()
    blank_rows: list[_Blank] = []
    for blank in blanks:
        feet = [_feet(kind, blank, saw, saw.rib_pitch) for kind in kinds]
        levels = sorted({0.0, blank.height + saw.kerf, *(foot for some in feet for foot in some)})
        if len(levels) > most:
            return None
        heights = [kind.height + saw.kerf for kind in kinds]
        stands = [_stands(some, height, levels) for some, height in zip(feet, heights, strict=True)]
        blank_rows.append(_blank(kinds, stands, _numbers(stands, len(levels), made)))
    entries = made.entries(len(kinds))
    return Axis(
        size=len(made.parts),
        batches=made.batches(),
        runs=(),
        entries=tuple(entries[column] for column in columns),
        roots=tuple(blank.root for blank in blank_rows),
        own=np.array([blank.own for blank in blank_rows], np.intp)[:, columns],
        rest=np.array([blank.rest for blank in blank_rows], np.intp)[:, columns],
        at_end=tuple(kind.top for kind in kind_of),
        exact=True,
    )


def _feet(kind: _Kind, blank: Blank, saw: Saw, pitch: float) -> list[float]:
    """Heights at which a shape may stand."""
    highest = blank.height - kind.height
    if kind.bottom > blank.edges.bottom or kind.top > blank.edges.top or highest < 0.0:
        return []
    high = 0.0 if kind.bottom else highest
    found: list[float] = []
    at = foot(highest if kind.top else 0.0, kind.phase, blank, saw)
    while at <= high:
        found.append(at)
        at = foot(at + pitch, kind.phase, blank, saw)
    return found


def _stands(feet: Sequence[float], height: float, levels: Sequence[float]) -> list[_Stand]:
    return [_Stand(bisect_left(levels, foot), bisect_left(levels, foot + height)) for foot in feet]


class _Blank(NamedTuple):
    """Spans of one blank: whole, and for each kind what it takes at the edge where it lies and what it leaves."""

    root: int
    own: list[int]
    rest: list[int]


def _blank(kinds: Sequence[_Kind], stands: Sequence[Sequence[_Stand]], number: Numbers) -> _Blank:
    top = len(number) - 1
    own, rest = [-1] * len(kinds), [0] * len(kinds)
    for column, (kind, some) in enumerate(zip(kinds, stands, strict=True)):
        if some:
            own[column] = int(number[some[0].foot, some[0].above])
            rest[column] = int(number[0, some[0].foot] if kind.top else number[some[0].above, top])
    return _Blank(int(number[0, top]), own, rest)


def _numbers(stands: Sequence[Sequence[_Stand]], count: int, made: "_Spans") -> Numbers:
    """The span from each level to each higher one."""
    number = np.zeros((count, count), np.intp)
    for length in range(1, count):
        for low in range(count - length):
            high = low + length
            held = frozenset(
                kind for kind, some in enumerate(stands) if any(low <= one.foot and one.above <= high for one in some)
            )
            parts = {(int(number[low, cut]), int(number[cut, high])) for cut in range(low + 1, high)}
            number[low, high] = made.numbered(held, frozenset(pair for pair in parts if all(pair)))
    return number


_Signature = tuple[frozenset[int], frozenset[tuple[int, int]]]


@dataclass(slots=True)
class _Spans:
    """Spans told apart by what they hold and how they part; 0 holds nothing."""

    known: dict[_Signature, int] = field(default_factory=lambda: {(frozenset(), frozenset()): 0})
    parts: list[list[tuple[int, int]]] = field(default_factory=lambda: [[]])
    ranks: list[int] = field(default_factory=lambda: [0])

    def numbered(self, held: frozenset[int], parts: frozenset[tuple[int, int]]) -> int:
        """The span with that content, new or known."""
        if (held, parts) not in self.known:
            self.known[held, parts] = len(self.parts)
            self.parts.append(sorted(parts))
            self.ranks.append(1 + max((self.ranks[span] for pair in parts for span in pair), default=0))
        return self.known[held, parts]

    def entries(self, kinds: int) -> tuple[tuple[int, ...], ...]:
        """Spans that hold each kind."""
        found: list[list[int]] = [[] for _ in range(kinds)]
        for (held, _), span in self.known.items():
            for kind in held:
                found[kind].append(span)
        return tuple(tuple(some) for some in found)

    def batches(self) -> tuple[Batch, ...]:
        """Spans by rank: each parts into spans of lower rank only."""
        made: list[Batch] = []
        for rank in range(1, max(self.ranks) + 1):
            spans = [span for span, other in enumerate(self.ranks) if other == rank]
            pairs = [np.array(self.parts[span], np.intp).reshape(-1, 2).T for span in spans]
            made.append(listed(spans, [(pair[0], pair[1]) for pair in pairs]))
        return tuple(made)
