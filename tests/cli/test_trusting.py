"""`chooseby trust`, and `chooseby serve` over HTTPS, as people start them."""

import os
import re
import signal
import ssl
import subprocess
import sys
from pathlib import Path

import httpx
from cryptography import x509

from tests.cli.conftest import VARIABLES

NAMES = "localhost, pantry.home.arpa"


def test_SY12_the_authority_is_shown_for_comparing_and_stays_the_same(lodge):
    told = lodge.json("trust", CHOOSEBY_HTTPS_NAMES=NAMES)
    assert told["names"] == ["localhost", "pantry.home.arpa"]
    assert Path(told["certificate"]).is_relative_to(lodge.data)
    words = lodge.run("trust", CHOOSEBY_HTTPS_NAMES=NAMES).stdout
    assert told["fingerprint"] in re.sub(r"\s", ":", words)
    assert "in no backup" in words
    assert "PRIVATE" not in words
    anew = lodge.json("trust", "--anew", CHOOSEBY_HTTPS_NAMES=NAMES)
    assert anew["fingerprint"] != told["fingerprint"]


def test_SY12_without_a_name_there_is_nothing_to_vouch_for(lodge):
    said = lodge.run("trust", code=1).output
    assert "[names_missing]" in said
    assert not (lodge.data / "trust").exists()


def test_SY12_what_cannot_be_served_over_https_is_said_at_once(lodge):
    lodge.run("trust", CHOOSEBY_HTTPS_NAMES=NAMES)
    for names, refusal in (
        ("http://x", "name_unreadable"),
        ("pantry.example.org", "names_outside_authority"),
    ):
        said = lodge.run("serve", code=1, CHOOSEBY_HTTPS_NAMES=names, CHOOSEBY_PORT="0").output
        assert f"[{refusal}]" in said
    said = lodge.run("serve", code=1, CHOOSEBY_PROXIES="*", CHOOSEBY_PORT="0").output
    assert "[proxy_unreadable]" in said
    https = {"CHOOSEBY_HTTPS_NAMES": NAMES, "CHOOSEBY_PORT": "0"}
    said = lodge.run("serve", code=1, CHOOSEBY_TRUST_PORT="x", **https).output
    assert "CHOOSEBY_TRUST_PORT is 'x'" in said


def test_SY12_serve_says_where_the_house_is_and_where_it_comes_to_be_trusted(tmp_path):
    inherited = {name: value for name, value in os.environ.items() if name not in VARIABLES}
    environment = {
        "CHOOSEBY_DATA": str(tmp_path),
        "CHOOSEBY_PORT": "0",
        "CHOOSEBY_TRUST_PORT": "0",
        "CHOOSEBY_HTTPS_NAMES": NAMES,
    }
    process = subprocess.Popen(
        [Path(sys.executable).with_name("chooseby"), "serve"],
        env=inherited | environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
    )
    try:
        said = [process.stdout.readline() for _ in range(2)]
        house = re.fullmatch(r"Chooseby is at (https://localhost:\d+/)\n", said[0])[1]
        page = re.fullmatch(r"A phone comes to trust it at (http://localhost:\d+/)\n", said[1])[1]
        root = httpx.get(f"{page}authority.crt", trust_env=False).content
        assert x509.load_der_x509_certificate(root)
        trusting = ssl.create_default_context(cadata=root)
        health = httpx.get(f"{house}api/health", verify=trusting, trust_env=False).json()
        assert health["status"] == "ok"
    finally:
        process.send_signal(signal.SIGTERM)
        rest, _ = process.communicate(timeout=60)
    assert process.returncode == 0, rest
    assert rest.endswith("Stopped; everything that was answered is on the disk.\n")
