"""A cutting pattern in words: which boards are cut so, what each letter stands for, and where the rests go."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from string import ascii_lowercase
from types import MappingProxyType
from typing import Final

from storeyrod.boards.board_cutting import BoardCutting, CutBlank, Pattern
from storeyrod.drawings.lettering import number, wrapped
from storeyrod.drawings.line_styles import LETTERS_SMALL
from storeyrod.geometry.ticks import millimetres

_KINDS: Final[Mapping[str, str]] = MappingProxyType({"raked": "raked or curved"})


def letter_of(index: int) -> str:
    """A to z, then aa to zz and so on."""
    letters = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, len(ascii_lowercase))
        letters = ascii_lowercase[rest] + letters
    return letters


def size_words(width: float, height: float) -> str:
    """Width and height of ticks, in mm."""
    return f"{number(millimetres(width))} × {number(millimetres(height))}"


def headline(pattern: Pattern) -> str:
    """Its number, and how many boards or stock offcuts are cut so."""
    count = len(pattern.blanks)
    what = "board" if pattern.stock is None else f"of stock {pattern.stock}"
    plural = "s" if pattern.stock is None and count > 1 else ""
    return f"Pattern {pattern.number}: {count} {what}{plural}"


def blanks_of(cutting: BoardCutting, pattern: Pattern) -> list[CutBlank]:
    """Boards or stock offcuts that are cut so."""
    return [cutting.blanks[index] for index in pattern.blanks]


def board_numbers(blanks: Sequence[CutBlank]) -> str:
    """Numbers in order; three and more that follow one another by their first and last."""
    ranked = sorted(blank.number for blank in blanks)
    runs = [[value for _, value in run] for _, run in groupby(enumerate(ranked), lambda one: one[1] - one[0])]
    words = [f"{run[0]}-{run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs]
    prefix = "no. " if len(ranked) == 1 else "nos. "
    return prefix + ", ".join(words)


def ids_at(cutting: BoardCutting, pattern: Pattern, index: int) -> list[str]:
    """Ids of the pieces that come from one place of a pattern."""
    return [cutting.pieces[blank.pieces[index]].id for blank in blanks_of(cutting, pattern)]


def kept_rests(cutting: BoardCutting, pattern: Pattern) -> list[list[str]]:
    """For each rest of a pattern, the ids of the offcuts that are kept for stock; none where it is waste."""
    found: list[list[str]] = [[] for _ in pattern.rests]
    for blank in blanks_of(cutting, pattern):
        kept = {(one.x, one.y, one.width, one.height): one.id for one in blank.offcuts if one.kept}
        for index, rest in enumerate(pattern.rests):
            if rest[:4] in kept:
                found[index].append(kept[rest[:4]])
    return found


def pattern_lines(cutting: BoardCutting, pattern: Pattern, room: float, most: int) -> list[str]:
    """Letters with sizes and ids, then rests for stock, broken to a width in mm of paper; at most so many lines."""
    lines = [line for words in _said(cutting, pattern) for line in wrapped(words, LETTERS_SMALL, room)]
    if len(lines) <= most:
        return lines
    return [*lines[: most - 1], f"… {len(lines) - most + 1} more lines: see the board layout"]


def _said(cutting: BoardCutting, pattern: Pattern) -> Iterator[str]:
    for index, (place, shape) in enumerate(zip(pattern.places, pattern.shapes, strict=True)):
        kind = cutting.pieces[cutting.blanks[pattern.blanks[0]].pieces[index]].kind
        shaped = f", {_KINDS.get(kind, kind)}" if shape else ""
        size = size_words(place.width, place.height)
        yield f"{letter_of(index)} {size}{shaped}: {_listed(ids_at(cutting, pattern, index))}"
    for rest, ids in zip(pattern.rests, kept_rests(cutting, pattern), strict=True):
        if ids:
            yield f"to stock {size_words(rest.width, rest.height)}: {_listed(ids)}"


def _listed(ids: Iterable[str]) -> str:
    return ", ".join(ids)
