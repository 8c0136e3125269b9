"""The client's files: found, kept by the browser for as long as they hold, and nothing beside."""

import pytest

from tests.http.site import code


@pytest.fixture
def site(open_site, tmp_path):
    """A server with a client that was built, and a file beside it."""
    client = tmp_path / "client"
    (client / "assets").mkdir(parents=True)
    (client / "index.html").write_text("<title>the first page</title>", "utf-8")
    (client / "assets" / "index-4f3a.js").write_text("1 + 1", "utf-8")
    (client / "assets" / "reader-9b.wasm").write_bytes(b"\0asm")
    (client / "service.js").write_text("2", "utf-8")
    (client / "app.webmanifest").write_text("{}", "utf-8")
    (tmp_path / "secret.txt").write_text("secret", "utf-8")
    (client / "way.txt").symlink_to(tmp_path / "secret.txt")
    return open_site(client=client)


@pytest.mark.parametrize("path", ["/", "/menus", "/shelf/cold-room", "/index.html"])
def test_an_address_of_the_clients_own_is_its_first_page(site, path):
    answer = site.nobody.get(path)
    assert answer.text == "<title>the first page</title>"
    assert answer.headers["content-type"] == "text/html; charset=utf-8"
    assert answer.headers["cache-control"] == "no-cache"


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/assets/index-4f3a.js", "text/javascript; charset=utf-8"),
        ("/assets/reader-9b.wasm", "application/wasm"),
        ("/service.js", "text/javascript; charset=utf-8"),
        ("/app.webmanifest", "application/manifest+json"),
    ],
)
def test_a_file_has_its_kind_and_is_kept_for_good_where_its_name_is_its_content(site, path, kind):
    answer = site.nobody.get(path)
    assert answer.headers["content-type"] == kind
    forever = "public, max-age=31536000, immutable"
    held = forever if path.startswith("/assets/") else "no-cache"
    assert answer.headers["cache-control"] == held
    again = site.nobody.get(path, headers={"if-none-match": answer.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")
    head = site.nobody.head(path)
    assert (head.status_code, head.content) == (200, b"")
    assert head.headers["etag"] == answer.headers["etag"]


@pytest.mark.parametrize(
    "path",
    [
        "/no.js",
        "/assets/old-1234.js",
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/assets/..%2f..%2fsecret.txt",
        "/way.txt",
        "//etc/passwd.txt",
        "/a%00b.txt",
        f"/{'x' * 5_000}.txt",
    ],
)
def test_what_is_no_file_of_the_client_is_not_there(site, path):
    answer = site.nobody.get(path)
    assert "secret" not in answer.text.replace("secret.txt", "")
    assert code(answer) == (404, "nothing_there")


def test_without_a_client_the_server_says_that_it_works(quiet_site):
    answer = quiet_site.nobody.get("/")
    assert answer.status_code == 200
    assert "openapi.json" in answer.text
