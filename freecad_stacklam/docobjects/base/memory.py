# SPDX-License-Identifier: LGPL-2.1-or-later

"""Results kept in the process, by what they were made for, so that nothing is worked out twice. Nothing is saved.

Results hold sentences, so each is kept for the language that was spoken when it was made.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from contextlib import suppress
from typing import Generic, TypeVar

from freecad_stacklam.lamination.words import spoken

_T = TypeVar("_T")
_NONE = object()


class Memory(Generic[_T]):
    """The results that were asked for last, at most `most` of them."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._kept: OrderedDict[Hashable, _T] = OrderedDict()

    def get(self, key: Hashable, make: Callable[[], _T]) -> _T:
        """What was made for `key`, or is made now. What `make` raises is raised, and nothing is kept."""
        own = (spoken(), key)
        found = self._kept.get(own, _NONE)
        if found is _NONE:
            made = make()
            self.put(key, made)
            return made
        with suppress(KeyError):  # let go meanwhile by work beside the window
            self._kept.move_to_end(own)
        return found  # type: ignore[return-value]

    def there(self, key: Hashable) -> _T | None:
        """What is kept for `key`, or None."""
        return self._kept.get((spoken(), key))

    def put(self, key: Hashable, value: _T) -> None:
        """Keep a result in place of the one that was kept for `key`."""
        self._kept[spoken(), key] = value
        while len(self._kept) > self._most:
            self._kept.popitem(last=False)

    def clear(self) -> None:
        """Forget everything, for tests that measure."""
        self._kept.clear()
