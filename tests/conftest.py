"""What every test run needs: processes that a test starts import the same package as the test itself."""

import os
import sys
from pathlib import Path

import pytest
from hypothesis import settings

import storeyrod.api  # first of all: it pins linear algebra to one thread, as in the service

# The gate judges a change, so it must not fail by the luck of a draw; anybody else's run still draws anew.
settings.register_profile("gate", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("gate")

_PACKAGE_ROOT = Path(storeyrod.__file__).resolve().parents[1]


def pytest_configure() -> None:
    """Fail at once when a run that should test the installed wheel would test the source tree."""
    if os.environ.get("STOREYROD_INSTALLED") and not _PACKAGE_ROOT.is_relative_to(Path(sys.prefix).resolve()):
        pytest.exit(f"storeyrod is imported from {_PACKAGE_ROOT}, not from the installed wheel", returncode=4)
    client = Path(__file__).parents[1] / "clients" / "python" / "src"
    os.environ["PYTHONPATH"] = os.pathsep.join((str(_PACKAGE_ROOT), str(client)))
