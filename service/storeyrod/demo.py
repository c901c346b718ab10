"""``python -m storeyrod demo``: the service takes off an invented house, over HTTP, and a person sees the order.

Starts the service on its embedded default on a free port of this machine, posts the worked house, prints the order as a table
and writes drawings: of every elevation boards and fasteners, setting out, slips and wind; of the whole job the load path; and
isotherms of the jamb of its windows.
"""

import json
import socket
import threading
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import resources
from pathlib import Path
from typing import Any, Final

import uvicorn
from rich.console import Console
from rich.table import Table

from storeyrod.api.app import create_app
from storeyrod.api.settings import Settings

_START_SECONDS: Final = 30.0
_ANSWER_SECONDS: Final = 60.0
_SHEETS: Final = {"elevation": "nominal", "setting_out": "equalised", "slips": "equalised", "wind": "nominal"}
"""Sheets of each elevation, and their perps: the order counts the bond as drawn; a gang marks and lays it as it is to be built."""


def worked_house() -> dict[str, Any]:
    """The request of the invented house that ships with the package."""
    text = resources.files("storeyrod.reference").joinpath("worked_house.json").read_text(encoding="utf-8")
    house: dict[str, Any] = json.loads(text)
    return house


def run(folder: Path, console: Console) -> None:
    """Take off the worked house; drawings go into the folder."""
    house = worked_house()
    with served(Settings()) as address:
        console.print(
            f"service started on {address}, asking for the take-off of {house['project']['name']}", soft_wrap=True
        )
        answer = json.loads(_posted(f"{address}/v1/take-offs", house))
        sheets = list(_sheets(house))
        junction = json.loads(_posted(f"{address}/v1/thermal-junctions", _jamb(house)))
        drawings = {name: _posted(f"{address}/v1/drawings", request) for name, request in sheets}
    console.print(_order(answer))
    console.print(_summary(answer, junction))
    folder.mkdir(parents=True, exist_ok=True)
    for name, svg in drawings.items():
        (folder / name).write_bytes(svg)
    (folder / "take-off.json").write_bytes(json.dumps(answer, indent=1, ensure_ascii=False).encode())
    console.print(f"in {folder.resolve()}: take-off.json, the whole answer; {', '.join(drawings)}", soft_wrap=True)


def _sheets(house: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    """Names of files, and the requests that draw them."""
    for kind, perps in _SHEETS.items():
        job = {**house, "options": {"perps": perps}}
        for elevation in house["elevations"]:
            sheet = {"kind": kind, "elevation": elevation["id"]}
            yield f"{kind.replace('_', '-')}-{elevation['id']}.svg", {"take_off": job, "sheets": [sheet]}
    yield "load-path.svg", {"take_off": house, "sheets": [{"kind": "load_path"}]}
    yield "isotherms-jamb.svg", {"thermal_junction": _jamb(house), "sheets": [{"kind": "isotherms"}]}


def _jamb(house: dict[str, Any]) -> dict[str, Any]:
    """A wooden frame at the inner end of the reveals of the house, in its wall; invented, as the house is."""
    reveal = next(opening["reveal"]["left"] for wall in house["elevations"] for opening in wall.get("openings", ()))
    parameters = {"frame": {"width_mm": 70, "depth_mm": 70}, "setback_mm": reveal["depth_mm"]}
    return {"junction": {"detail": {"kind": "jamb", "parameters": parameters}}, "build_up": house["build_up"]}


def _order(answer: dict[str, Any]) -> Table:
    table = Table(title="Order for all elevations", title_justify="left")
    for heading in ("what", "need", "cutting", "spare", "order", "unit", "packs"):
        table.add_column(heading, justify="left" if heading in ("what", "unit", "packs") else "right", no_wrap=True)
    for line in answer["result"]["quantities"]["lines"]:
        amounts = (f"{line[part]:,.1f}" for part in ("net", "cut_waste", "allowance", "order"))
        unit = "each" if line["unit"] == "count" else line["unit"]
        table.add_row(line["role"].replace("_", " "), *amounts, unit, _packs(line))
    return table


def _packs(line: dict[str, Any]) -> str:
    if "packs_count" not in line:
        return "pack not given"
    if line["pack_size"] == 1:
        return f"{line['packs_count']}, singly"
    return f"{line['packs_count']} x {line['pack_size']:g} ({line['pack_unit']})"


def _summary(answer: dict[str, Any], junction: dict[str, Any]) -> str:
    result, findings = answer["result"], answer["findings"]
    u_value = result["u_value"]
    low, high = u_value["u_value_with_fasteners_low_w_per_m2_k"], u_value["u_value_with_fasteners_w_per_m2_k"]
    cautions = [item for item in findings if item["level"] != "info"]
    lines = [
        f"net wall {result['net_area_m2']:.6f} m2; boards {result['boards']['boards_needed_count']}, at least "
        f"{result['boards']['boards_lower_bound_count']} in any layout; fasteners {result['fasteners']['fasteners_count']}",
        f"U-value {u_value['u_value_uncorrected_w_per_m2_k']:.3f} W/(m2.K) without fasteners, {low:.3f} to {high:.3f} with "
        "fasteners whose heat loss is not declared",
        _jamb_heat(junction["result"]),
        _loads(result),
        f"{len(cautions)} cautions, for example: {cautions[0]['advice']}" if cautions else "no cautions",
        "Not checked: " + answer["not_checked"][0],
    ]
    return "\n".join(lines)


def _loads(result: dict[str, Any]) -> str:
    loads = result["dead_loads"]
    worst = max(result["wind"]["envelope"], key=lambda patch: patch["suction_pa"])
    path = loads["load_path"]
    return (
        f"wind suction up to {worst['suction_pa']:.0f} Pa (zone {worst['zone']} of {worst['elevation']}); cladding "
        f"{loads['cladding_kg_per_m2']:.1f} kg/m2; most used link {path['governing_link'].replace('_', ' ')} under "
        f"{path['governing_action']}, {path['utilisation_fraction']:.2f} of its design resistance; {path['not_assessed_count']} links "
        "not assessed"
    )


def _jamb_heat(result: dict[str, Any]) -> str:
    return (
        f"jamb of a window: {result['psi_external_w_per_m_k']:.3f} W/(m.K) by external dimensions; coldest place inside has a temperature "
        f"factor of {result['temperature_factor']:.2f}, {result['temperature_factor_mould']:.2f} where furniture stands"
    )


def _posted(url: str, document: dict[str, Any]) -> bytes:
    request = urllib.request.Request(url, json.dumps(document).encode(), {"Content-Type": "application/json"})  # noqa: S310  our own address
    with urllib.request.urlopen(request, timeout=_ANSWER_SECONDS) as response:  # noqa: S310  its own address
        body: bytes = response.read()
    return body


@contextmanager
def served(settings: Settings) -> Iterator[str]:
    """The service on a free port of this machine, as long as the block lasts; gives its address."""
    listener = socket.create_server(("127.0.0.1", 0))
    config = uvicorn.Config(create_app(settings), log_config=None, access_log=False)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    deadline = time.monotonic() + _START_SECONDS
    while not server.started:
        if time.monotonic() > deadline or not thread.is_alive():
            raise RuntimeError("the service did not start")
        time.sleep(0.02)
    try:
        yield f"http://127.0.0.1:{listener.getsockname()[1]}"
    finally:
        server.should_exit = True
        thread.join()
