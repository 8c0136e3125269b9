"""The client's files, as they were built; every address that is no file is the client's own."""

import hashlib
from pathlib import Path

from litestar import Response, route
from litestar.enums import HttpMethod

from pantry.http.problems import NOTHING_THERE
from pantry.http.served import Asking, served
from pantry.http.who import OPEN
from pantry.refusals import NotThere

BUILT = Path(__file__).parent / "client"
"""Where the build of `web/` puts them."""

HASHED = "assets/"
"""The folder of files whose names change with what is in them."""

LONGEST = 200
"""Letters of an address that may be a file's."""

FOREVER = "public, max-age=31536000, immutable"
ASK_FIRST = "no-cache"

_KINDS = {
    ".css": "text/css",
    ".html": "text/html",
    ".ico": "image/vnd.microsoft.icon",
    ".js": "text/javascript",
    ".json": "application/json",
    ".map": "application/json",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".woff2": "font/woff2",
}
_NOT_BUILT = b"""<!doctype html>
<html lang="en"><meta charset="utf-8"><title>Chooseby</title>
<p>The server works. Its client has not been built here; /openapi.json says what can be asked.</p>
</html>
"""


@route(
    ["/", "/{path:path}"], http_method=[HttpMethod.GET, HttpMethod.HEAD], opt=OPEN, status_code=200
)
async def client(request: Asking) -> Response[bytes]:
    """A file of the client, or its first page for an address of its own.

    Raises:
        NotThere: `nothing_there`, for a file that is not there.
    """
    path = str(request.path_params.get("path", "")).lstrip("/")
    file = _file(served(request).client, path)
    if file is None:
        raise NotThere(
            NOTHING_THERE, f"There is no file /{path}.", "Open the program at /.", value=path
        )
    content = file.read_bytes() if file.is_file() else _NOT_BUILT
    tag = f'"{hashlib.sha256(content).hexdigest()[:32]}"'
    headers = {"cache-control": FOREVER if path.startswith(HASHED) else ASK_FIRST, "etag": tag}
    if request.headers.get("if-none-match") == tag:
        return Response(b"", status_code=304, headers=headers)
    kind = _KINDS.get(file.suffix, "application/octet-stream")
    return Response(content, media_type=kind, headers=headers)


def _file(folder: Path, path: str) -> Path | None:
    """The file of an address: its own, or the first page where the address is no file's."""
    if "." not in path.rpartition("/")[2] and not path.startswith("api/"):
        return folder / "index.html"
    if "\0" in path or len(path) > LONGEST:
        return None
    file = (folder / path).resolve()
    inside = file.is_relative_to(folder.resolve())
    return file if inside and file.is_file() else None
