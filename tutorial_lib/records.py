"""The standard library's ``dataclass``, made quickly and no sooner than its first object.

A command loads some 270 record classes and makes objects of half of them. The standard decorator compiles up to six
methods a class (0.45 ms with Python 3.11), which took a quarter of the time of a short command. Here a class waits
until it is called or unpickled; then ``dataclasses.dataclass`` finds its fields, base classes first, one method is
compiled and the rest is shared. Until then a class has no ``__dataclass_fields__``: ask an object for its fields.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

__all__ = ["dataclass"]

if TYPE_CHECKING:
    from dataclasses import dataclass
else:
    import dataclasses
    from operator import attrgetter
    from reprlib import recursive_repr
    from threading import RLock

    _LOCK = RLock()  # two threads may call a class at once
    _WAITING = "_made_when_called"

    def dataclass(cls: type | None = None, /, **chosen: bool) -> Any:
        """As ``dataclasses.dataclass`` for ``frozen``, ``eq``, ``kw_only``, ``slots`` (which is made at once)."""
        if cls is None:
            return lambda cls: dataclass(cls, **chosen)
        if chosen.get("slots"):
            return dataclasses.dataclass(cls, **chosen)

        def first(self, *values, **named):
            _make(cls)
            cls.__init__(self, *values, **named)

        def unpickled(self, state):
            _make(cls)
            self.__dict__.update(state)

        cls.__init__, cls.__setstate__ = first, unpickled
        setattr(cls, _WAITING, chosen)
        return cls

    def _make(made: type) -> None:
        with _LOCK:
            for cls in reversed(made.__mro__):
                if _WAITING in cls.__dict__:
                    _share(cls, **cls.__dict__[_WAITING])
                    delattr(cls, _WAITING)
                    del cls.__setstate__

    def _share(cls: type, *, frozen: bool = False, eq: bool = True, kw_only: bool = False) -> None:
        """The methods of a class; those that it defines itself stay, and none is missing meanwhile."""
        dataclasses.dataclass(cls, init=False, repr=False, eq=False, kw_only=kw_only)
        shared = {"__repr__": _shown}
        if eq:
            names = [field.name for field in dataclasses.fields(cls) if field.compare]
            cls._compared = staticmethod(attrgetter(*names) if names else lambda self: ())
            shared |= {"__eq__": _equal, "__hash__": _hashed if frozen else None}
        if frozen:
            shared |= {"__setattr__": _kept, "__delattr__": _kept}
        for name, method in shared.items():
            if name not in cls.__dict__:
                setattr(cls, name, method)
        cls.__init__ = _init(cls, frozen)

    def _init(cls: type, frozen: bool) -> Any:
        """``__init__`` with a parameter a field, compiled: as quick to call as one that is written by hand."""
        known, first, last, body = {"_set": object.__setattr__, "_none": object()}, [], [], []
        for field in dataclasses.fields(cls):
            name, made, default = field.name, f"_made_{field.name}", f"_default_{field.name}"
            known |= {made: field.default_factory, default: field.default}
            if field.default_factory is not dataclasses.MISSING:
                value, given = (f"{made}() if {name} is _none else {name}" if field.init else f"{made}()"), "=_none"
            else:
                given = "" if field.default is dataclasses.MISSING else f"={default}"
                value = name if field.init else default
            if field.init:
                (last if field.kw_only else first).append(name + given)
            body.append(f"_set(self, {name!r}, {value})" if frozen else f"self.{name} = {value}")
        if hasattr(cls, "__post_init__"):
            body.append("self.__post_init__()")
        named = ", ".join(["self", *first, *(["*", *last] if last else [])])
        exec(f"def __init__({named}):\n " + "\n ".join(body or ["pass"]), known)
        known["__init__"].__qualname__ = f"{cls.__qualname__}.__init__"
        return known["__init__"]

    @recursive_repr()
    def _shown(self) -> str:
        shown = (f"{field.name}={getattr(self, field.name)!r}" for field in dataclasses.fields(self) if field.repr)
        return f"{type(self).__qualname__}({', '.join(shown)})"

    def _equal(self, other: object) -> bool:
        return self._compared(self) == other._compared(other) if other.__class__ is self.__class__ else NotImplemented

    def _hashed(self) -> int:
        return hash(self._compared(self))

    def _kept(self, name: str, *_: object) -> None:
        """A field of a frozen record, or anything but a field of one that isn't derived from it further."""
        if "__dataclass_fields__" in type(self).__dict__ or name in self.__dataclass_fields__:
            raise dataclasses.FrozenInstanceError(f"cannot change field {name!r}")
        object.__setattr__(self, name, *_) if _ else object.__delattr__(self, name)
