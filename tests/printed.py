"""Labels as a printer makes them, one pixel a module, by libraries that are not the phone's reader.

EAN, UPC and Code 128: python-barcode. GS1-128, GS1 DataMatrix and ITF-14: zxing-cpp, which writes
with the library zint. QR: segno. Each in black on white, with the quiet zone of its kind.
"""

import barcode
import numpy as np
import segno
import zxingcpp
from PIL import Image, ImageOps

TALL = 0.4
"""How tall bars are beside their width, where the library gives one row of them."""


def ean13(number: str) -> Image.Image:
    """The EAN-13 of 13 digits."""
    return _bars(barcode.get("ean13", number[:-1]).build()[0], quiet=11)


def ean8(number: str) -> Image.Image:
    """The EAN-8 of eight digits."""
    return _bars(barcode.get("ean8", number[:-1]).build()[0], quiet=7)


def upc_a(number: str) -> Image.Image:
    """The UPC-A of twelve digits."""
    return _bars(barcode.get("upca", number[:-1]).build()[0], quiet=9)


def code128(text: str) -> Image.Image:
    """A plain Code 128, as the house prints it on its own labels."""
    return _bars(barcode.get("code128", text).build()[0], quiet=10)


def itf14(number: str) -> Image.Image:
    """The ITF-14 of 14 digits."""
    # its frame stands outside the quiet zone, which the library writes itself
    made = zxingcpp.create_barcode(number, zxingcpp.BarcodeFormat.ITF14)
    plain = np.array(zxingcpp.write_barcode_to_image(made, scale=1, add_quiet_zones=True))
    return ImageOps.expand(Image.fromarray(plain), 4, 255)


def gs1_128(brackets: str) -> Image.Image:
    """A GS1-128 of `(01)...(17)...`."""
    return _written(brackets, zxingcpp.BarcodeFormat.Code128, quiet=10)


def gs1_datamatrix(brackets: str) -> Image.Image:
    """A GS1 DataMatrix of `(01)...(17)...`."""
    return _written(brackets, zxingcpp.BarcodeFormat.DataMatrix, quiet=2)


def qr(text: str) -> Image.Image:
    """A QR code, of a GS1 Digital Link or of the house's own label."""
    matrix = segno.make(text, error="m", micro=False).matrix
    dots = 255 * (1 - np.array([list(row) for row in matrix], dtype=np.uint8))
    return ImageOps.expand(Image.fromarray(dots), 4, 255)


def enlarged(label: Image.Image, width: int) -> Image.Image:
    """A label at so many pixels of width, or a little less: whole pixels a module."""
    times = max(1, width // label.width)
    return label.resize((label.width * times, label.height * times), Image.Resampling.NEAREST)


def _bars(modules: str, quiet: int) -> Image.Image:
    row = np.array([[0 if module == "1" else 255 for module in modules]], dtype=np.uint8)
    rows = np.repeat(row, max(24, round(len(modules) * TALL)), axis=0)
    return ImageOps.expand(Image.fromarray(rows), quiet, 255)


def _written(text: str, of: "zxingcpp.BarcodeFormat", quiet: int) -> Image.Image:
    made = zxingcpp.create_barcode(text, of, gs1=True)
    plain = np.array(zxingcpp.write_barcode_to_image(made, scale=1, add_quiet_zones=False))
    return ImageOps.expand(Image.fromarray(plain), quiet, 255)
