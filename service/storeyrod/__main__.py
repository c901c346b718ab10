"""``python -m storeyrod serve`` starts the service, ``demo`` shows it at work, ``openapi`` prints its OpenAPI document."""

import argparse
import sys
from collections.abc import Sequence


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the exit status comes back."""
    parser = argparse.ArgumentParser(prog="storeyrod", description="Setting out, quantities and checks for clad walls.")
    commands = parser.add_subparsers(dest="command", required=True)
    serve = commands.add_parser("serve", help="start the service; settings come from STOREYROD_... variables")
    serve.add_argument("--host", help="address to listen on")
    serve.add_argument("--port", type=int, help="port to listen on")
    serve.set_defaults(run=_serve)
    openapi = commands.add_parser("openapi", help="print the OpenAPI document")
    openapi.set_defaults(run=_openapi)
    demo = commands.add_parser("demo", help="take off an invented house, print its order and write its drawings")
    demo.add_argument("--folder", default="storeyrod-demo", help="where drawings and the answer are written")
    demo.set_defaults(run=_demo)
    chosen = parser.parse_args(arguments)
    run = chosen.run
    return int(run(chosen))


def _serve(chosen: argparse.Namespace) -> int:
    import uvicorn  # noqa: PLC0415  only this command needs a server

    from storeyrod.api.settings import Settings  # noqa: PLC0415  only when asked

    settings = Settings()
    uvicorn.run(
        "storeyrod.api.app:app_from_environment",
        factory=True,
        host=settings.host if chosen.host is None else chosen.host,
        port=settings.port if chosen.port is None else chosen.port,
        access_log=False,
        log_config=None,
        server_header=False,
        ws="none",
    )
    return 0


def _openapi(_chosen: argparse.Namespace) -> int:
    from storeyrod.api.openapi import document_bytes  # noqa: PLC0415  only when asked

    sys.stdout.buffer.write(document_bytes())
    return 0


def _demo(chosen: argparse.Namespace) -> int:
    from pathlib import Path  # noqa: PLC0415  only when asked

    from rich.console import Console  # noqa: PLC0415  only when asked

    from storeyrod.demo import run  # noqa: PLC0415  only this command prints tables

    run(Path(chosen.folder), Console())
    return 0


if __name__ == "__main__":
    sys.exit(main())
