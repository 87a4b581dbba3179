"""The QR code: dark modules where the standard puts its finders, quiet zone left free."""

from __future__ import annotations

from tutorial_lib.drawing.qr import qr_code


def test_the_code_has_its_finders_and_its_quiet_zone():
    paper, *dark = qr_code("https://saltmarsh.example/beds/spare-room-twin").shapes
    high = paper.height
    top = [(r.x, r.width) for r in dark if r.y == high - 1 - 4]
    assert (4, 7) in top and (high - 4 - 7, 7) in top  # the upper two finders, seven modules wide
    assert all(r.x >= 4 and r.x + r.width <= high - 4 and 4 <= r.y < high - 4 for r in dark)


def test_another_address_is_another_code():
    assert qr_code("https://a.example").shapes != qr_code("https://b.example").shapes
