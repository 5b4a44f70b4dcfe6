"""Objects over a pipe, one after the other. Both ends are ours."""

from __future__ import annotations

import pickle
import struct
from typing import Any, BinaryIO

__all__ = ["receive", "send"]

_LENGTH = struct.Struct("<Q")


def send(pipe: BinaryIO, thing: object) -> None:
    """Write one object."""
    data = pickle.dumps(thing, pickle.HIGHEST_PROTOCOL)
    pipe.write(_LENGTH.pack(len(data)) + data)
    pipe.flush()


def receive(pipe: BinaryIO) -> Any:
    """Read one object.

    Raises
    ------
    EOFError
        If the other end is gone.

    Examples
    --------
    >>> import io
    >>> pipe = io.BytesIO()
    >>> send(pipe, ("r1c1", 3))
    >>> _ = pipe.seek(0)
    >>> receive(pipe)
    ('r1c1', 3)
    """
    head = pipe.read(_LENGTH.size)
    if len(head) < _LENGTH.size:
        raise EOFError
    (length,) = _LENGTH.unpack(head)
    data = pipe.read(length)
    if len(data) < length:
        raise EOFError
    return pickle.loads(data)
