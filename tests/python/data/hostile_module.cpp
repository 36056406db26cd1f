// A pybind11 module for test_exceptions.py: it maps every exception of all modules in its process to LookupError, and keeps
// its own safe from that by our translators.
#include "standard_errors.hpp"

#include <functional>
#include <map>
#include <string>

namespace py = pybind11;

namespace {

struct Plain {};

template <class Error> void throw_text() { throw Error("the sea is wide"); }
template <class Error> void throw_plain() { throw Error(); }

const std::map<std::string, std::function<void()>> throwers{{"bad_alloc", throw_plain<std::bad_alloc>},
                                                            {"domain_error", throw_text<std::domain_error>},
                                                            {"invalid_argument", throw_text<std::invalid_argument>},
                                                            {"length_error", throw_text<std::length_error>},
                                                            {"out_of_range", throw_text<std::out_of_range>},
                                                            {"range_error", throw_text<std::range_error>},
                                                            {"overflow_error", throw_text<std::overflow_error>},
                                                            {"underflow_error", throw_text<std::underflow_error>},
                                                            {"runtime_error", throw_text<std::runtime_error>},
                                                            {"logic_error", throw_text<std::logic_error>},
                                                            {"exception", throw_plain<std::exception>},
                                                            {"unknown", throw_plain<Plain>},
                                                            {"py_stop_iteration", throw_text<py::stop_iteration>},
                                                            {"py_index_error", throw_text<py::index_error>},
                                                            {"py_key_error", throw_text<py::key_error>},
                                                            {"py_value_error", throw_text<py::value_error>},
                                                            {"py_type_error", throw_text<py::type_error>},
                                                            {"py_import_error", throw_text<py::import_error>},
                                                            {"error_already_set", [] {
                                                                 PyErr_SetString(PyExc_ZeroDivisionError,
                                                                                 "the sea is wide");
                                                                 throw py::error_already_set();
                                                             }}};

} // namespace

PYBIND11_MODULE(hostile, module) {
    py::register_exception_translator([](std::exception_ptr pointer) {
        if (pointer) py::set_error(PyExc_LookupError, "taken by another module");
    });
    module.def("throw_guarded", [](const std::string& name) { throwers.at(name)(); });
    module.def("guard", &keysquare::python::register_standard_errors);
}
