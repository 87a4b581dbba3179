"""The notebook server sends a move's small answers at once, in JupyterLab and as pages."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

channels = pytest.importorskip("jupyter_server.services.kernels.connection.channels")


def test_small_messages_wait_for_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    from jupyter_server.services.kernels.websocket import KernelWebsocketHandler

    from tutorial_lib.workbook.connection import Connection

    told: list[bool] = []
    handler: Any = object.__new__(KernelWebsocketHandler)  # a browser's end without a browser
    monkeypatch.setattr(handler, "set_nodelay", told.append)
    monkeypatch.setattr(channels.ZMQChannelsWebsocketConnection, "connect", lambda self: "connected")
    made: Any = Connection(websocket_handler=handler)
    assert made.connect() == "connected" and told == [True]


def test_both_servers_are_told_of_it() -> None:
    from traitlets.utils.importstring import import_item

    from tutorial_lib.workbook import serving
    from tutorial_lib.workbook.connection import Connection

    option, name = serving.CONNECTION.split("=")
    assert import_item(name) is Connection and option == "kernel_websocket_connection_class"
    served = serving.lab(Path("notebooks"), 8888), serving.view(Path("notebooks"), 8888, "token")
    assert all(any(part.endswith(serving.CONNECTION) for part in command) for command in served)
