"""What can be asked, as OpenAPI 3.1."""

from typing import Any

from litestar import get

from pantry import __version__
from pantry.http.who import OPEN


@get("/openapi.json", opt=OPEN)
async def describe() -> dict[str, Any]:
    """What can be asked, as OpenAPI 3.1."""
    return {"openapi": "3.1.0", "info": {"title": "Chooseby", "version": __version__}, "paths": {}}
