// Structs of the Arrow C interfaces in Python's capsules (Apache Arrow, "The Arrow PyCapsule Interface").
#pragma once

#include <memory>

#include "bindings.hpp"

#include <keysquare/research/arrow_interface.hpp>

namespace keysquare::python {

/// A capsule that owns the struct, until a consumer has taken its contents.
template <class Struct> py::capsule arrow_capsule(Struct contents, const char* name) {
    auto owned = std::make_unique<Struct>(contents);
    py::capsule made{owned.get(), name, [](PyObject* object) {
                         auto* held = static_cast<Struct*>(PyCapsule_GetPointer(object, PyCapsule_GetName(object)));
                         if (held->release) held->release(held);
                         delete held;
                     }};
    (void)owned.release();
    return made;
}

} // namespace keysquare::python
