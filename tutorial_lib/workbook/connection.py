"""The server's end of a notebook's connection; loaded by the notebook server alone."""

from __future__ import annotations

from typing import Any

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection


class Connection(ZMQChannelsWebsocketConnection):
    """As the server's own, with small messages sent at once.

    A move of a control is answered by several small messages. TCP holds the second back until the first is
    acknowledged, and the other end may take 40 ms for that (Nagle's algorithm against delayed acknowledgement).
    """

    def connect(self) -> Any:
        """Connects browser and kernel."""
        self.websocket_handler.set_nodelay(True)
        return super().connect()
