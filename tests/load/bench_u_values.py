"""CPU per request of POST /v1/u-values beside a do-nothing POST behind the same middleware; goal: at most 2.2 times.

    python tests/load/bench_u_values.py [ROUNDS]

The application is called as ASGI, without sockets, in interleaved rounds; the ratio is the median over rounds. Two
do-nothing operations are measured: an ordinary FastAPI operation that reads its body and answers a constant (the goal is
stated against this one), and the same on a bare route. With a server around it, both sides of a ratio get the same 30 or
so microseconds more, so that the figure here is the stricter one.
"""

import asyncio
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / "service"))

from fastapi import Request, Response
from starlette.routing import Route

from storeyrod.api.app import create_app
from storeyrod.api.memory import settle
from storeyrod.api.reply import JSON, Reply
from storeyrod.api.request_body import RequestBody
from storeyrod.api.settings import Settings
from storeyrod.api.watch import send_reply

LAYERS = [
    ("plaster", 13, 0.57),
    ("block", 190, 1.13),
    ("levelling", 5, 0.8),
    ("insulation board", 100, 0.034),
    ("adhesive", 3, 0.25),
    ("slip", 20, 0.84),
]
BODY = (
    '{"build_up": {"element": "wall", "layers": ['
    + ", ".join(
        f'{{"kind": "solid", "name": "{name}", "thickness_mm": {thickness}, "conductivity_w_per_m_k": {conductivity}}}'
        for name, thickness, conductivity in LAYERS
    )
    + ', {"kind": "air", "thickness_mm": 25, "ventilation": "none"}'
    + ', {"kind": "bridged", "name": "studs", "thickness_mm": 50, "parts": [{"name": "a", "fraction": 0.1, '
    + '"conductivity_w_per_m_k": 0.13}, {"name": "b", "fraction": 0.9, "conductivity_w_per_m_k": 0.035}]}'
    + ']}, "corrections": {"insulation_layer": 3, "fasteners": {"kind": "declared", "chi_w_per_k": 0.002, "count_per_m2": 5.6}}}'
).encode()
NOTHING = b"{}"


async def nothing(request: Request) -> Response:
    await request.body()
    return Response(NOTHING, media_type=JSON)


async def bare_nothing(scope, receive, send):
    await RequestBody(scope, receive).whole(2_000_000)
    await send_reply(Reply(200, JSON, NOTHING), send)


class BareNothing:
    async def __call__(self, scope, receive, send):
        await bare_nothing(scope, receive, send)


def application():
    app = create_app(Settings(workers=0, log_requests=False))
    app.post("/nothing")(nothing)
    settle()
    app.router.routes.insert(0, Route("/bare-nothing", BareNothing(), methods=["POST"]))
    return app


def scope_of(path):
    headers = {
        "host": "localhost",
        "accept": "*/*",
        "content-type": JSON,
        "content-length": str(len(BODY)),
        "user-agent": "bench",
    }
    return {
        "type": "http",
        "asgi": {"version": "3.0", "spec_version": "2.3"},
        "http_version": "1.1",
        "method": "POST",
        "scheme": "http",
        "path": path,
        "raw_path": path.encode(),
        "query_string": b"",
        "root_path": "",
        "headers": [(name.encode(), value.encode()) for name, value in headers.items()],
        "client": ("127.0.0.1", 1),
        "server": ("127.0.0.1", 8000),
        "state": {},
    }


async def seconds_each(app, path, times):
    statuses = []

    async def receive():
        return {"type": "http.request", "body": BODY, "more_body": False}

    async def send(message):
        if message["type"] == "http.response.start":
            statuses.append(message["status"])

    scope = scope_of(path)
    started = time.process_time()
    for _ in range(times):
        await app({**scope, "state": {}}, receive, send)
    elapsed = time.process_time() - started
    assert set(statuses) == {200}, (path, set(statuses))
    return elapsed / times


async def main(rounds):
    app = application()
    paths = ("/v1/u-values", "/nothing", "/bare-nothing")
    for path in paths:
        await seconds_each(app, path, 300)
    rows = [{path: await seconds_each(app, path, 300) for path in paths} for _ in range(rounds)]
    for path in paths:
        micros = [row[path] * 1e6 for row in rows]
        print(f"{path:15} {statistics.median(micros):7.1f} us CPU [{min(micros):.1f}-{max(micros):.1f}]")
    for path in paths[1:]:
        ratios = [row["/v1/u-values"] / row[path] for row in rows]
        print(f"ratio to {path:15} {statistics.median(ratios):.2f} [{min(ratios):.2f}-{max(ratios):.2f}]")


if __name__ == "__main__":
    asyncio.run(main(int(sys.argv[1]) if len(sys.argv) > 1 else 21))
