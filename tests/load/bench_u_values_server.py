"""CPU of a server process per POST /v1/u-values beside a do-nothing FastAPI POST behind the same middleware; goal: at most 2.2 times.

    python tests/load/bench_u_values_server.py [ROUNDS]

One uvicorn worker in its own process, one kept connection, interleaved rounds. CPU is user and system time of the server
process, read from /proc: requests per second on a shared machine say little. Linux only.
"""

import http.client
import multiprocessing
import os
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from bench_u_values import BODY, application

REQUESTS = 3000
PATHS = ("/v1/u-values", "/nothing", "/bare-nothing")


def serve(port):
    import uvicorn

    uvicorn.run(application(), port=port, access_log=False, log_config=None, server_header=False)


def cpu_seconds(pid):
    fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def connection_to(port):
    for _ in range(100):
        try:
            made = http.client.HTTPConnection("127.0.0.1", port)
            made.connect()
        except OSError:
            time.sleep(0.1)
        else:
            return made
    raise TimeoutError("the server did not start")


def seconds_each(connection, pid, path, times):
    started = cpu_seconds(pid)
    for _ in range(times):
        connection.request("POST", path, BODY, {"content-type": "application/json"})
        answer = connection.getresponse()
        answer.read()
        assert answer.status == 200
    return (cpu_seconds(pid) - started) / times


def main(rounds, port=8765):
    process = multiprocessing.get_context("spawn").Process(target=serve, args=(port,), daemon=True)
    process.start()
    connection = connection_to(port)
    for path in PATHS:
        seconds_each(connection, process.pid, path, 500)
    rows = [{path: seconds_each(connection, process.pid, path, REQUESTS) for path in PATHS} for _ in range(rounds)]
    process.terminate()
    for path in PATHS:
        micros = [row[path] * 1e6 for row in rows]
        print(f"{path:15} {statistics.median(micros):7.1f} us server CPU [{min(micros):.1f}-{max(micros):.1f}]")
    for path in PATHS[1:]:
        ratios = [row["/v1/u-values"] / row[path] for row in rows]
        print(f"ratio to {path:15} {statistics.median(ratios):.2f} [{min(ratios):.2f}-{max(ratios):.2f}]")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 7)
