// Exceptions of the standard library as pybind11 maps them by itself. All modules that are built with the same pybind11
// share its translators, and another one (duckdb's, say) may map std::exception to an error of its own. Translators of a
// module alone are asked first, so what leaves this module is the same whatever else has been imported.
#pragma once

#include <exception>
#include <new>
#include <stdexcept>

#include <pybind11/pybind11.h>

namespace keysquare::python {

inline void register_standard_errors() {
    namespace py = pybind11;
    py::register_local_exception_translator([](std::exception_ptr pointer) {
        try {
            if (pointer) std::rethrow_exception(pointer);
        } catch (py::error_already_set& error) {
            error.restore();
        } catch (const py::builtin_exception& error) {
            error.set_error();
        } catch (const std::bad_alloc& error) {
            py::set_error(PyExc_MemoryError, error.what());
        } catch (const std::domain_error& error) {
            py::set_error(PyExc_ValueError, error.what());
        } catch (const std::invalid_argument& error) {
            py::set_error(PyExc_ValueError, error.what());
        } catch (const std::length_error& error) {
            py::set_error(PyExc_ValueError, error.what());
        } catch (const std::out_of_range& error) {
            py::set_error(PyExc_IndexError, error.what());
        } catch (const std::range_error& error) {
            py::set_error(PyExc_ValueError, error.what());
        } catch (const std::overflow_error& error) {
            py::set_error(PyExc_OverflowError, error.what());
        } catch (const std::exception& error) {
            py::set_error(PyExc_RuntimeError, error.what());
        } catch (...) {
            py::set_error(PyExc_RuntimeError, "an exception of unknown type");
        }
    });
}

} // namespace keysquare::python
