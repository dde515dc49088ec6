#!/usr/bin/env python3
"""Makes the two test photos: real JPEG files with EXIF camera and GPS data, all of it invented.

Run by hand when they have to change (needs the PyPI package pillow); the results are committed.
"""
import math
import pathlib

from PIL import Image, ImageDraw

HERE = pathlib.Path(__file__).parent / "photos"


def exif():
    data = Image.Exif()
    data[0x010F] = "Invented Camera"  # Make
    data[0x0110] = "Test"  # Model
    gps = data.get_ifd(0x8825)
    gps[1], gps[2] = "N", (12.0, 34.0, 56.0)
    gps[3], gps[4] = "E", (65.0, 43.0, 21.0)
    return data


def rust(width, height, name, orientation=1):
    image = Image.new("RGB", (width, height), (120, 124, 128))
    draw = ImageDraw.Draw(image)
    for i in range(60):
        x = (i * 7919) % width
        y = (i * 104729) % height
        r = 8 + (i * 31) % (min(width, height) // 8)
        shade = 90 + int(60 * abs(math.sin(i)))
        draw.ellipse((x - r, y - r, x + r, y + r), fill=(shade + 60, shade, shade // 2))
    draw.rectangle((0, 0, width // 5, height // 12), fill=(20, 60, 90))
    data = exif()
    data[0x0112] = orientation
    image.save(HERE / name, quality=60, exif=data)


HERE.mkdir(exist_ok=True)
rust(3000, 2000, "frame.jpg")
rust(800, 600, "bag.jpg", orientation=6)
