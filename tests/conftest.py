"""Fixtures every test may use: a demo message by name, a played season, an option to rewrite the expected answers."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from hypothesis import settings

# The same examples in every run, so that a change is judged by what it changes and not by luck;
# `pytest --hypothesis-profile=search` looks at new ones each time.
settings.register_profile("steady", derandomize=True)
settings.register_profile("search", settings.get_profile("default"), derandomize=False)
settings.load_profile("steady")

DEMO = Path(__file__).parents[1] / "demo_messages"
REPLIES = Path(__file__).parent / "replies"


def pytest_addoption(parser):
    parser.addoption("--write-replies", action="store_true", help="rewrite tests/replies from what is answered now")


@pytest.fixture
def demo():
    """Gives the raw bytes of a demo message by its stem."""
    return lambda stem: (DEMO / f"{stem}.eml").read_bytes()


@pytest.fixture(scope="session")
def certificate(tmp_path_factory):
    """A self-signed certificate for localhost and its key, as files."""
    folder = tmp_path_factory.mktemp("tls")
    key, made = folder / "key.pem", folder / "cert.pem"
    command = ["openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "2", "-subj", "/CN=localhost"]
    command += ["-addext", "subjectAltName=DNS:localhost,IP:127.0.0.1", "-keyout", str(key), "-out", str(made)]
    try:
        subprocess.run(command, check=True, capture_output=True)
    except FileNotFoundError:
        pytest.skip("openssl is not installed")
    return made, key
