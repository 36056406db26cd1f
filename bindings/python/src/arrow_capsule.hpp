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

/// A struct that a producer has handed over: released once, when we are done with it.
template <class Struct> class Imported {
  public:
    Imported() = default;
    /// Takes the contents of a capsule, which keeps an empty struct. Raises ValueError where there are none.
    Imported(py::handle capsule, const char* name) {
        auto* held = static_cast<Struct*>(PyCapsule_GetPointer(capsule.ptr(), name));
        if (!held) throw py::error_already_set();
        if (!held->release) throw py::value_error("an Arrow capsule whose contents have been taken already");
        contents_ = *held;
        held->release = nullptr;
    }
    Imported(const Imported&) = delete;
    Imported& operator=(const Imported&) = delete;
    ~Imported() {
        if (contents_.release) contents_.release(&contents_);
    }

    [[nodiscard]] Struct* get() noexcept { return &contents_; }
    [[nodiscard]] Struct& operator*() noexcept { return contents_; }
    [[nodiscard]] Struct* operator->() noexcept { return &contents_; }

  private:
    Struct contents_{};
};

} // namespace keysquare::python
