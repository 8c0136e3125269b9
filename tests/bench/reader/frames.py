"""What a phone sees of a label: so large, so tilted, so far out of focus, in so much light.

A model, not a phone: a flat label on grey, turned, blurred by a Gaussian, darkened, with Gaussian
noise on every pixel. No glare, no curved bottle, no shake. Seeded: the same run sees the same.
"""

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from itertools import product

import numpy as np
from PIL import Image, ImageFilter

from pantry.rules.codes.element_strings import SEPARATOR
from tests import printed

SIZE = (1920, 1080)
TABLE = 150
OVERSIZE = 8
SEED = 20270310

LINK = "https://id.gs1.org/01/09521234543213/10/LOT42A?17=270331"
LONG = "(01)09521234543213(17)270331(10)LOT42A(21)1234567890"


@dataclass(frozen=True)
class Kind:
    """One kind of label.

    Attributes:
        name: as the table says it.
        label: as printed, one pixel a module.
        text: what a scanner sends of it.
        modules: pixels a module from far to near; a matrix is printed with larger modules.
        is_own: whether the house prints it.
    """

    name: str
    label: Image.Image
    text: str
    modules: tuple[float, ...]
    is_own: bool = False


LINES = (2.5, 3.0, 4.0)
DOTS = (4.0, 6.0, 8.0)


def kinds() -> list[Kind]:
    """Every kind that the phone reads."""
    return [
        Kind("EAN-13", printed.ean13("6291041500213"), "]E06291041500213", LINES),
        Kind("EAN-8", printed.ean8("96385074"), "]E496385074", LINES),
        Kind("UPC-A", printed.upc_a("614141000036"), "]E00614141000036", LINES),
        Kind("ITF-14", printed.itf14("10614141000415"), "]I110614141000415", LINES),
        Kind(
            "GS1-128, long",
            printed.gs1_128(LONG),
            f"]C101095212345432131727033110LOT42A{SEPARATOR}211234567890",
            LINES,
        ),
        Kind(
            "GS1 DataMatrix",
            printed.gs1_datamatrix(LONG),
            f"]d201095212345432131727033110LOT42A{SEPARATOR}211234567890",
            DOTS,
        ),
        Kind("QR, GS1 Digital Link", printed.qr(LINK), f"]Q1{LINK}", DOTS),
        Kind("own label, Code 128", printed.code128("B-0241"), "]C0B-0241", LINES, is_own=True),
        Kind("own label, QR", printed.qr("B-0241"), "]Q1B-0241", DOTS, is_own=True),
    ]


@dataclass(frozen=True)
class Sight:
    """How a label is seen.

    Attributes:
        module: pixels a module.
        tilt: degrees.
        blur: radius of the Gaussian in pixels.
        gain: how much of the light is left.
        noise: standard deviation of the noise, of 256 steps.
    """

    module: float
    tilt: float
    blur: float
    gain: float
    noise: float

    @property
    def is_dim(self) -> bool:
        """Whether it is of the dim set."""
        return self.gain < 1

    def as_data(self) -> Mapping[str, float]:
        """For the results."""
        return asdict(self)


GOOD = (1.0, 2.0)
DIM = (0.45, 8.0)
"""Gain and noise; the dim ones are those at which long codes were found to fail."""


def sights(modules: tuple[float, ...], *, quick: bool) -> Iterator[Sight]:
    """Every sight of a kind; two of them where it is to be quick."""
    if quick:
        yield from (Sight(modules[1], 7, 0.6, *light) for light in (GOOD, DIM))
        return
    for module, tilt, blur, light in product(modules, (0, 7, 15), (0.6, 1.2), (GOOD, DIM)):
        yield Sight(module, tilt, blur, *light)


def seen(label: Image.Image, sight: Sight, drawn: np.random.Generator) -> bytes:
    """One frame, grey."""
    large = label.resize(
        (label.width * OVERSIZE, label.height * OVERSIZE), Image.Resampling.NEAREST
    )
    turned = large.rotate(sight.tilt, Image.Resampling.BICUBIC, expand=True, fillcolor=TABLE)
    size = tuple(round(side * sight.module / OVERSIZE) for side in turned.size)
    held = turned.resize((size[0], size[1]), Image.Resampling.BOX)
    table = Image.new("L", SIZE, TABLE)
    table.paste(held, ((SIZE[0] - held.width) // 2, (SIZE[1] - held.height) // 2))
    blurred = np.asarray(table.filter(ImageFilter.GaussianBlur(sight.blur)), dtype=np.float32)
    noise = drawn.normal(0, sight.noise, blurred.shape).astype(np.float32)
    return np.clip(blurred * sight.gain + noise, 0, 255).astype(np.uint8).tobytes()
