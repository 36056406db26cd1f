"""Refuses interpreters beside the first one in a process, in which the compiled module can't be.

From Python 3.12 on, Python itself raises ImportError when the module is loaded there. Before, the loading would wait for a
lock that its own thread holds, for ever.
"""

import sys


def _is_main() -> bool:
    try:
        import _xxsubinterpreters as interpreters  # type: ignore[import-not-found]
    except ImportError:  # built without them
        return True
    return bool(interpreters.get_current() == interpreters.get_main())


if sys.version_info < (3, 12) and sys.implementation.name == "cpython" and not _is_main():
    raise ImportError("module keysquare._core does not support loading in subinterpreters")
