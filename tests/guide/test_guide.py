"""The guide says everything: every command, sheet, refusal and setting, as the code has it."""

from pathlib import Path

import pytest

from tests.guide.pages import GUIDE, PAGES


@pytest.mark.parametrize("name", sorted(PAGES))
def test_the_guide_says_what_the_code_does(name):
    written = (GUIDE / name).read_text("utf-8")
    assert written == PAGES[name](), "run `make guide`"


def test_every_setting_is_named_in_the_guide():
    settings = (GUIDE / "settings.md").read_text("utf-8")
    for name in (
        "CHOOSEBY_DATABASE_URL",
        "CHOOSEBY_DATA",
        "CHOOSEBY_HOUSE",
        "CHOOSEBY_HOST",
        "CHOOSEBY_PORT",
        "CHOOSEBY_FIRST_MANAGER",
        "CHOOSEBY_HTTPS_NAMES",
        "CHOOSEBY_TRUST_PORT",
        "CHOOSEBY_PROXIES",
        "CHOOSEBY_ADDRESS",
        "CHOOSEBY_SMTP_HOST",
        "CHOOSEBY_SMTP_ENCRYPTION",
        "CHOOSEBY_SMTP_PORT",
        "CHOOSEBY_SMTP_USER",
        "CHOOSEBY_SMTP_PASSWORD",
        "CHOOSEBY_SMTP_SENDER",
        "CHOOSEBY_NOW",
        "CHOOSEBY_ENV",
    ):
        assert name in settings


def test_every_page_the_documents_point_to_is_there():
    for document in (Path("README.md"), *GUIDE.glob("*.md")):
        for part in document.read_text("utf-8").split("](")[1:]:
            target = part.split(")")[0].split("#")[0]
            if target and not target.startswith("http"):
                assert (document.parent / target).exists(), f"{document} points to {target}"
