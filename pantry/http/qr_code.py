"""Addresses as QR codes, for a phone's camera."""

import io

import segno


def as_svg(address: str) -> bytes:
    """A QR code (ISO/IEC 18004) with the quiet zone that it asks for."""
    written = io.BytesIO()
    segno.make_qr(address, error="m").save(
        written, kind="svg", border=4, dark="#000", light="#fff", omitsize=True
    )
    return written.getvalue()
