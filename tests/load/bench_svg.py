"""Writing 5 000 boards as SVG by the service's writer, beside one f-string a board with the same content.

    python tests/load/bench_svg.py [ROUNDS]

Goal: at most twice the f-strings. CPU time, interleaved rounds, medians; the ratio is the median over rounds.
"""

import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))

from storeyrod.answer import Answer
from storeyrod.drawings.display_list import Group, Sheet, Style, View, box_polygon
from storeyrod.drawings.svg import write


def boards(count=5000):
    """Boxes with ids and titles, a hundred in a row."""
    for number in range(count):
        row, place = divmod(number, 100)
        x, y = 1200.0 * place + 0.5 * (number % 7), 600.0 * row
        name = f"rear-{row:02d}-{place + 1:02d}"
        yield (x, y, x + 1200.0, y + 600.0), name, f"{name}: full board 1200 × 600 mm"


def f_strings(rows):
    return "\n".join(
        f'<rect id="{name}" x="{x:g}" y="{y:g}" width="{right - x:g}" height="{top - y:g}"><title>{title}</title></rect>'
        for (x, y, right, top), name, title in rows
    ).encode()


def seconds(work, content):
    started = time.process_time()
    body = work(content)
    return time.process_time() - started, len(body)


def main(rounds):
    rows = list(boards())
    view = View((20.0, 60.0), 200.0, (Group("board-full", Style(0.13), tuple(box_polygon(*row) for row in rows)),))
    answer = Answer((Sheet(841.0, 594.0, "Bench", "Bench", (view,)),))
    cases = {"f-strings": (f_strings, rows), "service": (write, answer)}
    taken = [{name: seconds(*case) for name, case in cases.items()} for _ in range(rounds)]
    for name in cases:
        millis = [row[name][0] * 1e3 for row in taken]
        ratio = statistics.median(row[name][0] / row["f-strings"][0] for row in taken)
        print(
            f"{name:10} {statistics.median(millis):6.2f} ms [{min(millis):.2f}-{max(millis):.2f}]  {ratio:.2f} x  {taken[0][name][1]} bytes"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15)
