"""Bays in words: perps, how the bay comes out, and the pieces at its ends."""

from collections.abc import Iterator, Sequence
from typing import Final

from storeyrod.drawings.lettering import number
from storeyrod.geometry.ticks import millimetres
from storeyrod.setting_out.bays import FaceSetOut
from storeyrod.setting_out.course_grid import HAIRLINE, Arrangement, BayPerps, Module, Stretch, end_piece

_ARRANGEMENTS: Final[dict[Arrangement, str]] = {
    "nominal": "as drawn",
    "equalised": "equalised",
    "closers_at_ends": "closers at both ends",
    "broken_bond_at_centre": "broken bond in the middle",
}


def perps_of(pattern: Sequence[Stretch]) -> list[float]:
    """Widths of the perps between the units of a course in a bay, from left to right. Ticks.

    What is left of one at an end of the bay stands between no units; parts that meet where stretches do are one.
    """
    found: list[tuple[float, float]] = []
    for stretch in pattern:
        for left, right, kind in stretch.grid.columns(stretch.left, stretch.right):
            low, high = max(left, stretch.left), min(right, stretch.right)
            if kind is not None or high - low <= HAIRLINE:
                continue
            if found and low - found[-1][1] <= HAIRLINE:
                low = found.pop()[0]
            found.append((low, high))
    first, last = pattern[0].left + HAIRLINE, pattern[-1].right - HAIRLINE
    return [high - low for low, high in found if low > first and high < last]


def perps_words(bay: BayPerps) -> str:
    """Numbers and widths of the perps: once where all courses of the repeat have the same, else course by course."""
    counts, spans = [len(perps_of(pattern)) for pattern in bay.patterns], [_span(pattern) for pattern in bay.patterns]
    if len(set(spans)) == 1 and any(counts):
        numbers = " and ".join(map(str, dict.fromkeys(counts)))
        return f"{numbers} perp{'' if set(counts) == {1} else 's'} of {spans[0]}"
    return ", ".join(_course_words(pattern) for pattern in bay.patterns)


def _course_words(pattern: Sequence[Stretch]) -> str:
    count = len(perps_of(pattern))
    return f"{count} perp{'' if count == 1 else 's'} of {_span(pattern)}" if count else "no perps"


def _span(pattern: Sequence[Stretch]) -> str:
    """Width of the perps of a course to the hundredth, or from the narrowest to the widest."""
    widths = sorted({f"{millimetres(width):.2f}" for width in perps_of(pattern)}, key=float)
    return " to ".join(dict.fromkeys((widths[0], widths[-1]))) if widths else ""


def bay_labels(index: int, bay: BayPerps) -> tuple[str, ...]:
    """What may stand on the dimension of a bay, longest first."""
    name = f"bay {index}: {number(millimetres(bay.right - bay.left))}"
    return f"{name}, {perps_words(bay)}", name


def bay_notes(out: FaceSetOut, module: Module) -> Iterator[str]:
    """A sentence for each bay, in the order of their first; bays that come out alike share one."""
    alike: dict[str, list[int]] = {}
    for index, bay in enumerate(out.bays, start=1):
        alike.setdefault(_bay_words(bay, module), []).append(index)
    for words, numbers in alike.items():
        yield f"Bay{'s' if len(numbers) > 1 else ''} {', '.join(map(str, numbers))}: {words}."


def _bay_words(bay: BayPerps, module: Module) -> str:
    long = number(millimetres(bay.right - bay.left))
    courses = "; ".join(f"course {course}: {_pieces(pattern, module)}" for course, pattern in enumerate(bay.patterns))
    return f"{long} {_ARRANGEMENTS[bay.arrangement]}; {courses}"


def _pieces(pattern: Sequence[Stretch], module: Module) -> str:
    """First and last piece of a course, and its perps."""
    first, last = end_piece(pattern[0], "left", module), end_piece(pattern[-1], "right", module)
    return f"{number(millimetres(first))} … {number(millimetres(last))}, {_course_words(pattern)}"


def bond_words(out: FaceSetOut, bond: str, module: Module) -> str:
    """Where the bond starts, with what in each of its courses, and where it was carried from."""
    start = out.start
    bay = out.bays[0 if start.side == "left" else -1]
    carried = f", carried from {start.carried_from}" if start.carried_from else ""
    first, *others = (_first_words(pattern, out, module) for pattern in bay.patterns)
    begins = f"course 0 begins with {first}" + "".join(
        f", course {n} with {words}" for n, words in enumerate(others, 1)
    )
    name = bond.replace("_", " ").capitalize()
    return f"{name} bond from {_start_words(out)}{carried}: {begins}."


def _start_words(out: FaceSetOut) -> str:
    """Where the bond starts, from the end of the face: places on the sheet are measured from there, not from the survey's x = 0."""
    end = out.face.left if out.start.side == "left" else out.face.right
    beside = out.start.origin - end
    if abs(beside) <= HAIRLINE:
        return f"the {out.start.side} end"
    way = "right" if beside > 0 else "left"
    return f"{number(millimetres(abs(beside)))} {way} of the {out.start.side} end"


def _first_words(pattern: Sequence[Stretch], out: FaceSetOut, module: Module) -> str:
    side = out.start.side
    first = end_piece(pattern[0] if side == "left" else pattern[-1], side, module)
    words = number(millimetres(first))
    return f"a full slip ({words})" if abs(first - module.stretcher) <= HAIRLINE else words
