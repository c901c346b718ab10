"""How much one request may ask for, counted before anything is calculated."""

from typing import Any, Final

from storeyrod.api.problems import size_problem
from storeyrod.api.settings import Settings

_SHORTEST_ITEM_BYTES: Final = 2
_SHORTEST_VERTEX_BYTES: Final = 19
_VERTEX: Final = frozenset(("x_mm", "y_mm"))


def require_size(document: Any, body_bytes: int, settings: Settings) -> None:  # noqa: ANN401  any JSON value
    """Refuse, with 422, a body with too many list members or vertices; short bodies cannot hold that many."""
    may_hold_items = body_bytes > settings.items_limit * _SHORTEST_ITEM_BYTES
    may_hold_vertices = body_bytes > settings.vertices_limit * _SHORTEST_VERTEX_BYTES
    if not (may_hold_items or may_hold_vertices):
        return
    items, vertices = _counted(document)
    if vertices > settings.vertices_limit:
        raise size_problem("size-limit", f"The request holds {vertices} vertices", settings.vertices_limit, "vertices")
    if items > settings.items_limit:
        raise size_problem(
            "size-limit", f"The request holds {items} list members", settings.items_limit, "list members"
        )


def require_work(units: int, settings: Settings) -> None:
    """Refuse, with 422, a request whose estimated pieces pass the limit."""
    if units > settings.work_limit:
        what = f"About {units} pieces would have to be placed"
        raise size_problem("size-limit", what, settings.work_limit, "pieces")


def _counted(value: Any) -> tuple[int, int]:  # noqa: ANN401  any JSON value
    """List members that are not vertices, and vertices."""
    items = vertices = 0
    inner: list[Any] = []
    if isinstance(value, dict):
        inner = list(value.values())
    elif isinstance(value, list):
        inner = value
        vertices = sum(1 for item in value if isinstance(item, dict) and item.keys() == _VERTEX)
        items = len(value) - vertices
    for item in inner:
        if isinstance(item, dict | list):
            more_items, more_vertices = _counted(item)
            items += more_items
            vertices += more_vertices
    return items, vertices
