"""The least boards for a handful of pieces, by trying every way to part them: an independent and exact method."""

from itertools import combinations


def least_boards(items, board, kerf):
    """Least boards from which the pieces can be cut by straight cuts from edge to edge, all pieces told apart."""
    sizes = [(item.width + kerf, item.height + kerf) for item in items for _ in range(item.count)]
    everything = frozenset(range(len(sizes)))
    boxes = {}
    for count in range(1, len(sizes) + 1):
        for chosen in map(frozenset, combinations(sorted(everything), count)):
            boxes[chosen] = _boxes(chosen, sizes, boxes)
    fits = {
        chosen
        for chosen, some in boxes.items()
        if any(width <= board.width + kerf and height <= board.height + kerf for width, height in some)
    }
    return _least(everything, fits, {frozenset(): 0})


def _boxes(chosen, sizes, boxes):
    """Smallest rectangles that part into the chosen pieces: none is wider and higher than another."""
    if len(chosen) == 1:
        return {sizes[next(iter(chosen))]}
    first = min(chosen)
    found = set()
    for one, other in _parted(chosen, first):
        for (w1, h1), (w2, h2) in ((a, b) for a in boxes[one] for b in boxes[other]):
            found |= {(w1 + w2, max(h1, h2)), (max(w1, w2), h1 + h2)}
    return {
        (width, height)
        for width, height in found
        if not any(w <= width and h <= height and (w, h) != (width, height) for w, h in found)
    }


def _parted(chosen, first):
    others = sorted(chosen - {first})
    for count in range(len(others)):
        for beside in combinations(others, count):
            one = frozenset((first, *beside))
            yield one, chosen - one


def _least(wanted, fits, known):
    if wanted not in known:
        first = min(wanted)
        known[wanted] = 1 + min(_least(wanted - some, fits, known) for some in fits if first in some and some <= wanted)
    return known[wanted]
