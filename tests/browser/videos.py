"""What a camera sees, for the browser's fake one: a video of printed labels, one by one.

Chromium plays a file in place of the camera and begins anew at its end. The file is YUV4MPEG2,
whose frames are plain bytes: https://wiki.multimedia.cx/index.php/YUV4MPEG2 (from memory).
"""

from collections.abc import Sequence
from pathlib import Path

from PIL import Image

from tests.printed import enlarged

SIZE = (1280, 720)
RATE = 10
"""Frames a second."""

TABLE = 150
"""The grey of what the labels lie on."""

HOLD = 2.0
BETWEEN = 0.5


def labels(
    path: Path, shown: Sequence[Image.Image], *, hold: float = HOLD, between: float = BETWEEN
) -> Path:
    """Write a video in which each label is held so many seconds, an empty table between."""
    nothing = _frame(None)
    with path.open("wb") as file:
        file.write(b"YUV4MPEG2 W%d H%d F%d:1 Ip A1:1 C420jpeg\n" % (*SIZE, RATE))
        for label in shown:
            for frame, seconds in ((_frame(label), hold), (nothing, between)):
                file.write(frame * round(seconds * RATE))
    return path


def flags(video: Path) -> list[str]:
    """What Chromium is started with to take the video for its camera, and to allow it."""
    return [
        "--use-fake-device-for-media-stream",
        "--use-fake-ui-for-media-stream",
        f"--use-file-for-fake-video-capture={video}",
    ]


def _frame(label: Image.Image | None) -> bytes:
    """One frame: brightness, and colour that is none."""
    table = Image.new("L", SIZE, TABLE)
    if label is not None:
        # a square code may be as tall as the picture allows, bars as wide
        isotropic = round(SIZE[1] * 0.7 * label.width / label.height)
        held = enlarged(label, min(round(SIZE[0] * 0.7), isotropic))
        table.paste(held, ((SIZE[0] - held.width) // 2, (SIZE[1] - held.height) // 2))
    colours = bytes([128]) * (SIZE[0] * SIZE[1] // 2)
    return b"FRAME\n" + table.tobytes() + colours
