"""Check billed wall areas: read a CSV of walls, have each measured by the service, write a CSV of verdicts.

    python batch_check.py walls.csv verdicts.csv --base-url http://127.0.0.1:8080

One wall a line, in UTF-8. The first line names the columns; these must be there, others are carried through:

    elevation     name of the wall
    width_mm      finished width
    height_mm     finished height
    openings      none, or x y width height in mm for each, separated by semicolons: 900 1050 1135 1050; 2600 0 910 2100
    billed_m2     net area that was billed

Every line comes back as one line, in order. A line that cannot be read or measured says why and spoils no other. The exit
status is 0 when every wall was measured, 1 when some were not, 2 when nothing could be started.
"""

import argparse
import csv
import json
import math
import re
import sys
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from storeyrod_client import Client, ConnectionFailed, ProblemError, StoreyrodError
from storeyrod_client.models import TakeOffAnswer

REQUIRED: Final = ("elevation", "width_mm", "height_mm", "openings", "billed_m2")
ADDED: Final = ("verdict", "measured_m2", "difference_m2", "note", "findings", "request_id")

SYSTEM: Final = {
    "board": {"cover_length_mm": 1200.0, "cover_height_mm": 600.0, "thickness_mm": 100.0, "rib_pitch_mm": 75.0},
    "slip": {"length_mm": 215.0, "height_mm": 65.0, "thickness_mm": 20.0},
}
"""Invented sizes; --system names a JSON file with others. A net area does not depend on them."""

SHORT: Final = {"detail": "summary"}

_NUMBER: Final = re.compile(r"-?[0-9]{1,15}(\.[0-9]{1,15})?")
_FORMULA_STARTS: Final = ("=", "+", "-", "@", "\t", "\r")

Row = dict[str, str]


class Unreadable(Exception):  # noqa: N818  what the line is
    """A line that describes no wall; the text says why."""


@dataclass(frozen=True)
class Wall:
    """One line, read."""

    elevation: dict[str, Any]
    billed_m2: float


def main(arguments: Sequence[str] | None = None) -> int:
    """Check one file."""
    chosen = _parser().parse_args(arguments)
    try:
        header, lines = _file(chosen.walls, chosen.delimiter)
        system = json.loads(chosen.system.read_text(encoding="utf-8")) if chosen.system else SYSTEM
        client = Client(chosen.base_url)
        output = chosen.verdicts.open("x" if not chosen.replace else "w", encoding="utf-8", newline="")
    except (OSError, ValueError, Unreadable) as error:
        print(f"batch_check: {error}", file=sys.stderr)
        return 2
    with client, output:
        verdicts = _written(_checked(client, system, chosen, header, lines), header, output)
    print(", ".join(f"{count} {verdict}" for verdict, count in sorted(verdicts.items())), file=sys.stderr)
    return 1 if verdicts["not_measured"] else 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(description="Check billed wall areas against the service.")
    parser.add_argument("walls", type=Path, help="CSV of walls")
    parser.add_argument("verdicts", type=Path, help="CSV to write")
    parser.add_argument("--base-url", required=True, help="address of the service")
    parser.add_argument("--system", type=Path, help="JSON file with the system of the walls")
    parser.add_argument("--delimiter", default=",", choices=(",", ";"), help="what separates cells")
    parser.add_argument("--tolerance-percent", type=float, default=1.0, help="difference that still agrees")
    parser.add_argument("--replace", action="store_true", help="write over an existing file of verdicts")
    return parser


def _file(path: Path, delimiter: str) -> tuple[list[str], list[bytes]]:
    """Column names and lines. A cell holds no line break, so that an open quotation mark ends with its line."""
    content = path.read_bytes().removeprefix(b"\xef\xbb\xbf")
    first, *lines = content.removesuffix(b"\n").split(b"\n")
    header = _cells(first, delimiter)
    missing = [name for name in REQUIRED if name not in header]
    taken = [name for name in header if name in ADDED or header.count(name) > 1]
    if missing or taken:
        problem = f"no column {', '.join(missing)}" if missing else f"column {taken[0]} cannot stand in the first line"
        raise Unreadable(f"{path}: {problem}")
    return header, lines


def _cells(line: bytes, delimiter: str) -> list[str]:
    try:
        return next(csv.reader([line.removesuffix(b"\r").decode("utf-8")], delimiter=delimiter, strict=True), [])
    except UnicodeDecodeError:
        raise Unreadable("the line is not UTF-8") from None
    except csv.Error as error:
        raise Unreadable(f"the line is no CSV: {error}") from None


def _checked(
    client: Client, system: dict[str, Any], chosen: argparse.Namespace, header: list[str], lines: list[bytes]
) -> Iterator[Row]:
    """One row for each line; once the service is gone, the rest is not asked."""
    reachable = True
    for line in _with_progress(lines):
        row: Row = {}
        try:
            cells = _cells(line, chosen.delimiter)
            row.update(zip(header, cells, strict=False))
            wall = _wall(row, cells, header)
            if not reachable:
                raise Unreadable("not asked: the service cannot be reached")
            answer = client.compute_take_off({"elevations": [wall.elevation], "system": system, "options": SHORT})
            row |= _verdict(wall.billed_m2, answer, chosen.tolerance_percent)
        except (Unreadable, StoreyrodError) as error:
            reachable = reachable and not isinstance(error, ConnectionFailed)
            row |= _not_measured(error)
        yield row


def _wall(row: Row, cells: list[str], header: list[str]) -> Wall:
    if len(cells) != len(header):
        raise Unreadable(f"{len(cells)} cell(s) where the first line has {len(header)}")
    openings = [part for part in row["openings"].split(";") if part.strip()]
    elevation = {
        "id": row["elevation"],
        "width_mm": _number("width_mm", row["width_mm"]),
        "height_mm": _number("height_mm", row["height_mm"]),
        "openings": [_opening(index, text) for index, text in enumerate(openings, start=1)],
    }
    return Wall(elevation, _number("billed_m2", row["billed_m2"]))


def _opening(index: int, text: str) -> dict[str, Any]:
    parts = text.split()
    if len(parts) != 4:
        raise Unreadable(f"opening {index}: {len(parts)} number(s) where x y width height are needed")
    names = ("x_mm", "y_mm", "width_mm", "height_mm")
    sizes = {name: _number(f"opening {index}, {name}", part) for name, part in zip(names, parts, strict=True)}
    return {"id": f"opening-{index}", "kind": "rectangle", **sizes}


def _number(what: str, text: str) -> float:
    if not _NUMBER.fullmatch(text.strip()):
        raise Unreadable(f"{what}: {text[:40]!r} is no plain number such as 1234.5")
    return float(text)


def _verdict(billed_m2: float, answer: TakeOffAnswer, tolerance_percent: float) -> Row:
    net_m2, gross_m2 = answer.result.net_area_m2, answer.result.gross_area_m2

    def agrees(area_m2: float) -> bool:
        return math.fabs(billed_m2 - area_m2) <= area_m2 * tolerance_percent / 100.0

    verdict = "agrees" if agrees(net_m2) else "over_billed" if billed_m2 > net_m2 else "under_billed"
    return {
        "verdict": verdict,
        "measured_m2": f"{net_m2:.3f}",
        "difference_m2": f"{billed_m2 - net_m2:.3f}",
        "note": "openings may not have been deducted" if verdict == "over_billed" and agrees(gross_m2) else "",
        "findings": " ".join(sorted({finding.code for finding in answer.findings})),
        "request_id": answer.request_id,
    }


def _not_measured(error: Exception) -> Row:
    row = {"verdict": "not_measured", "note": " ".join(str(error).split())}
    if isinstance(error, ProblemError):
        places = "; ".join(f"{item.pointer}: {item.detail}" for item in error.errors)
        row |= {"note": f"{error.slug or error.title}: {places or error.detail}", "request_id": error.request_id}
    return row


def _written(rows: Iterable[Row], header: list[str], output: Any) -> Counter[str]:  # noqa: ANN401  a text file
    """Write each row as it comes; how many got which verdict."""
    columns = [*header, *ADDED]
    writer = csv.writer(output)
    writer.writerow([_harmless(column) for column in columns])
    verdicts: Counter[str] = Counter()
    for row in rows:
        writer.writerow(
            [row.get(name, "") if name == "difference_m2" else _harmless(row.get(name, "")) for name in columns]
        )
        verdicts[row["verdict"]] += 1
    return verdicts


def _harmless(text: str) -> str:
    """The text, made plain where a spreadsheet would run it as a formula."""
    return f"'{text}" if text.startswith(_FORMULA_STARTS) else text


def _with_progress(lines: list[bytes]) -> Iterator[bytes]:
    """The lines, with a bar on standard error where the extra ``progress`` is installed."""
    try:
        from rich.console import Console  # noqa: PLC0415  an optional extra
        from rich.progress import track  # noqa: PLC0415
    except ImportError:
        yield from lines
    else:
        yield from track(lines, description="Walls", console=Console(stderr=True))


if __name__ == "__main__":
    sys.exit(main())
