// A feature table in the form of the Arrow C data and C stream interfaces (Apache Arrow, "The Arrow C data interface"
// and "The Arrow PyCapsule Interface"): a struct of int16 columns without nulls, whose buffers are the table's own.
#pragma once

#include <cerrno>
#include <cstdint>
#include <memory>
#include <new>
#include <string>
#include <vector>

#include "feature_table.hpp"

namespace keysquare::python::arrow {

// The structs are fixed by the specification, names of members included.

struct Schema {
    const char* format = nullptr;
    const char* name = nullptr;
    const char* metadata = nullptr;
    std::int64_t flags = 0;
    std::int64_t n_children = 0;
    Schema** children = nullptr;
    Schema* dictionary = nullptr;
    void (*release)(Schema*) = nullptr;
    void* private_data = nullptr;
};

struct Array {
    std::int64_t length = 0;
    std::int64_t null_count = 0;
    std::int64_t offset = 0;
    std::int64_t n_buffers = 0;
    std::int64_t n_children = 0;
    const void** buffers = nullptr;
    Array** children = nullptr;
    Array* dictionary = nullptr;
    void (*release)(Array*) = nullptr;
    void* private_data = nullptr;
};

struct Stream {
    int (*get_schema)(Stream*, Schema* out) = nullptr;
    int (*get_next)(Stream*, Array* out) = nullptr;
    const char* (*get_last_error)(Stream*) = nullptr;
    void (*release)(Stream*) = nullptr;
    void* private_data = nullptr;
};

/// What a struct and its children share. Each of them holds it by a pointer of its own, since a consumer may take a
/// child away and keep it for longer than its parent.
template <class Struct> struct Family {
    std::vector<Struct> children = std::vector<Struct>(feature_count);
    std::vector<Struct*> pointers;
    std::vector<std::string> names;
    std::string metadata;
    FeatureTable table;
    std::array<const void*, 1> no_buffers{nullptr};
    std::vector<std::array<const void*, 2>> buffers;
};
template <class Struct> using Shared = std::shared_ptr<Family<Struct>>;

template <class Struct> void release(Struct* held) {
    for (std::int64_t at = 0; at < held->n_children; ++at)
        if (held->children[at]->release) held->children[at]->release(held->children[at]);
    held->release = nullptr;
    delete static_cast<Shared<Struct>*>(held->private_data);
}

template <class Struct> void hold(Struct& in, const Shared<Struct>& family) {
    in.private_data = new Shared<Struct>(family);
    in.release = &release<Struct>;
}

template <class Struct> void adopt_children(Struct& root, const Shared<Struct>& family) {
    for (Struct& child : family->children) {
        family->pointers.push_back(&child);
        hold(child, family);
    }
    root.n_children = static_cast<std::int64_t>(feature_count);
    root.children = family->pointers.data();
    hold(root, family);
}

/// One key with its value, as the specification encodes metadata: counts and lengths as native 32-bit integers.
inline std::string metadata_of(std::string_view key, std::string_view value) {
    std::string bytes;
    const auto add_number = [&](std::size_t number) {
        const auto narrow = static_cast<std::int32_t>(number);
        bytes.append(reinterpret_cast<const char*>(&narrow), sizeof narrow);
    };
    add_number(1);
    for (const std::string_view text : {key, value}) {
        add_number(text.size());
        bytes.append(text);
    }
    return bytes;
}

inline Schema schema() {
    const auto family = std::make_shared<Family<Schema>>();
    for (const FeatureColumn& column : feature_schema()) family->names.emplace_back(column.name);
    family->metadata = metadata_of("keysquare.feature_schema_version", std::to_string(feature_schema_version));
    for (std::size_t at = 0; at < feature_count; ++at) {
        family->children[at].format = "s"; // int16
        family->children[at].name = family->names[at].c_str();
    }
    Schema root;
    root.format = "+s";
    root.name = "";
    root.metadata = family->metadata.c_str();
    adopt_children(root, family);
    return root;
}

inline Array array(const FeatureTable& table) {
    const auto family = std::make_shared<Family<Array>>();
    family->table = table;
    for (std::size_t at = 0; at < feature_count; ++at) family->buffers.push_back({nullptr, table.column(at).data()});
    for (std::size_t at = 0; at < feature_count; ++at) {
        family->children[at].length = static_cast<std::int64_t>(table.rows);
        family->children[at].n_buffers = 2;
        family->children[at].buffers = family->buffers[at].data();
    }
    Array root;
    root.length = static_cast<std::int64_t>(table.rows);
    root.n_buffers = 1;
    root.buffers = family->no_buffers.data();
    adopt_children(root, family);
    return root;
}

/// A stream of one batch.
struct Batches {
    FeatureTable table;
    bool is_given = false;
};

inline int no_memory_or(const auto& work) noexcept {
    try {
        work();
        return 0;
    } catch (const std::bad_alloc&) {
        return ENOMEM;
    }
}

inline Stream stream(const FeatureTable& table) {
    Stream made;
    made.private_data = new Batches{table};
    made.get_schema = [](Stream*, Schema* out) { return no_memory_or([&] { *out = schema(); }); };
    made.get_next = [](Stream* self, Array* out) {
        auto& batches = *static_cast<Batches*>(self->private_data);
        return no_memory_or([&] {
            *out = batches.is_given ? Array{} : array(batches.table);
            batches.is_given = true;
        });
    };
    made.get_last_error = [](Stream*) -> const char* { return nullptr; };
    made.release = [](Stream* self) {
        delete static_cast<Batches*>(self->private_data);
        self->release = nullptr;
    };
    return made;
}

/// A capsule that owns the struct, until a consumer has taken its contents.
template <class Struct> py::capsule capsule(Struct contents, const char* name) {
    auto owned = std::make_unique<Struct>(contents);
    py::capsule made{owned.get(), name, [](PyObject* object) {
                         auto* held = static_cast<Struct*>(PyCapsule_GetPointer(object, PyCapsule_GetName(object)));
                         if (held->release) held->release(held);
                         delete held;
                     }};
    (void)owned.release();
    return made;
}

} // namespace keysquare::python::arrow
