"""The axis upwards where ribs say at which heights a piece may stand: spans reach from one such level to another.

Stretches between levels that hold the same pieces and part into the same stretches are one span.
"""

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence, Set
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
    """Spans between the levels of every blank; none where there are no ribs.

    Of more than ``most`` levels those stay at which most pieces may stand. Pieces between them reach from the level above their foot
    to the one above their head, so that whatever can be cut still fits; kinds that reach no level somewhere are left out.
    """
    if saw.rib_pitch is None:
        return None
    kind_of = [_Kind(shape.height, shape.needs.bottom, shape.needs.top, shape.phase) for shape in shapes]
    counts = Counter(dict.fromkeys(kind_of, 0))
    for kind, shape in zip(kind_of, shapes, strict=True):
        counts[kind] += shape.count
    kinds = sorted(counts, key=lambda kind: (-counts[kind], kind))
    columns = np.array([kinds.index(kind) for kind in kind_of], np.intp)
    ladders = [_ladder(kinds, blank, saw, most) for blank in blanks]
    lost = {kind for ladder in ladders for kind, some in enumerate(ladder.stands) if _collapsed(some)}
    made = _Spans()
    blank_rows = [_blank(kinds, ladder.without(lost), made) for ladder in ladders]
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
        exact=all(ladder.exact for ladder in ladders),
    )


def _feet(kind: _Kind, blank: Blank, saw: Saw) -> list[float]:
    """Heights at which a shape may stand between ribs."""
    assert saw.rib_pitch is not None
    highest = blank.height - kind.height
    if kind.bottom > blank.edges.bottom or kind.top > blank.edges.top or highest < 0.0:
        return []
    high = 0.0 if kind.bottom else highest
    found: list[float] = []
    at = foot(highest if kind.top else 0.0, kind.phase, blank, saw)
    while at <= high:
        found.append(at)
        at = foot(at + saw.rib_pitch, kind.phase, blank, saw)
    return found


def _levels(feet: Sequence[Sequence[float]], top: float, most: int) -> list[float]:
    """Foot and top of a blank, and where pieces stand, kind by kind while there are not too many."""
    levels = {0.0, top}
    for some in feet:
        if len(levels.union(some)) <= most:
            levels.update(some)
    return sorted(levels)


class _Ladder(NamedTuple):
    """How many levels a blank has, and where each kind may stand among them."""

    size: int
    stands: list[list[_Stand]]
    exact: bool

    def without(self, lost: Set[int]) -> "_Ladder":
        """The same without some kinds."""
        return self._replace(stands=[[] if kind in lost else some for kind, some in enumerate(self.stands)])


def _ladder(kinds: Sequence[_Kind], blank: Blank, saw: Saw, most: int) -> _Ladder:
    feet = [_feet(kind, blank, saw) for kind in kinds]
    levels = _levels(feet, blank.height + saw.kerf, most)
    stands = [
        [_Stand(bisect_left(levels, foot), bisect_left(levels, foot + kind.height + saw.kerf)) for foot in some]
        for kind, some in zip(kinds, feet, strict=True)
    ]
    return _Ladder(len(levels), stands, all(set(some) <= set(levels) for some in feet))


def _collapsed(stands: Sequence[_Stand]) -> bool:
    return any(stand.foot == stand.above for stand in stands)


class _Blank(NamedTuple):
    """Spans of one blank: whole, and for each kind what it takes at the edge where it lies and what it leaves."""

    root: int
    own: list[int]
    rest: list[int]


def _blank(kinds: Sequence[_Kind], ladder: _Ladder, made: "_Spans") -> _Blank:
    number, stands = _numbers(ladder, made), ladder.stands
    top = len(number) - 1
    own, rest = [-1] * len(kinds), [0] * len(kinds)
    for column, (kind, some) in enumerate(zip(kinds, stands, strict=True)):
        if some:
            own[column] = int(number[some[0].foot, some[0].above])
            rest[column] = int(number[0, some[0].foot] if kind.top else number[some[0].above, top])
    return _Blank(int(number[0, top]), own, rest)


def _numbers(ladder: _Ladder, made: "_Spans") -> Numbers:
    """The span from each level to each higher one."""
    count, stands = ladder.size, ladder.stands
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
