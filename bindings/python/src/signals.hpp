// Ctrl-C in loops that run no Python code.
#pragma once

#include <pybind11/pybind11.h>

namespace keysquare::python {

/// Lets Python see to signals. Needs the GIL, and does nothing outside of the main thread. Throws what a handler raised,
/// KeyboardInterrupt as a rule.
inline void heed_signals() {
    if (PyErr_CheckSignals() != 0) throw pybind11::error_already_set();
}

} // namespace keysquare::python
