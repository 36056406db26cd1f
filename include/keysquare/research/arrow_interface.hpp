// The Arrow C data and C stream interfaces (Apache Arrow, "The Arrow C data interface", "The Arrow C stream interface"):
// plain structs by which tables go from one library to another without a copy.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

// The structs are fixed by the specification, names, members and guards included, so that every library may declare them.
extern "C" {

#ifndef ARROW_C_DATA_INTERFACE
#define ARROW_C_DATA_INTERFACE

struct ArrowSchema {
    const char* format;
    const char* name;
    const char* metadata;
    int64_t flags;
    int64_t n_children;
    struct ArrowSchema** children;
    struct ArrowSchema* dictionary;
    void (*release)(struct ArrowSchema*);
    void* private_data;
};

struct ArrowArray {
    int64_t length;
    int64_t null_count;
    int64_t offset;
    int64_t n_buffers;
    int64_t n_children;
    const void** buffers;
    struct ArrowArray** children;
    struct ArrowArray* dictionary;
    void (*release)(struct ArrowArray*);
    void* private_data;
};

#endif

#ifndef ARROW_C_STREAM_INTERFACE
#define ARROW_C_STREAM_INTERFACE

struct ArrowArrayStream {
    int (*get_schema)(struct ArrowArrayStream*, struct ArrowSchema* out);
    int (*get_next)(struct ArrowArrayStream*, struct ArrowArray* out);
    const char* (*get_last_error)(struct ArrowArrayStream*);
    void (*release)(struct ArrowArrayStream*);
    void* private_data;
};

#endif
}

namespace keysquare {

/// A column of a table, as its schema has it.
struct ArrowField {
    std::string name;
    const char* format = "s"; ///< of the specification: "s" for int16, "u" for UTF-8 text
    bool nullable = false;
};

/// The buffers of a column: the bits that say where there is a value (null when there is one everywhere), then those of
/// the values.
struct ArrowBuffers {
    std::int64_t missing = 0;
    std::array<const void*, 3> buffers{};
    std::int64_t count = 2; ///< how many of them the format has
};

/// A struct of these fields, with one key and its value as metadata. The caller releases it.
[[nodiscard]] ArrowSchema arrow_schema(const std::vector<ArrowField>& fields, std::string_view key,
                                       std::string_view value);
/// The rows of such a struct; the buffers are not copied, and live as long as `owner`. The caller releases it.
[[nodiscard]] ArrowArray arrow_array(std::int64_t rows, std::vector<ArrowBuffers> columns,
                                     std::shared_ptr<const void> owner);

// ---------------------------------------------------------------------------------------------------------------------

namespace detail {

/// What a struct and its children share. Each of them holds it by a pointer of its own, since a consumer may take a
/// child away and keep it for longer than its parent.
template <class Struct> struct ArrowFamily {
    std::vector<Struct> children;
    std::vector<Struct*> pointers;
    std::vector<ArrowField> fields;
    std::string metadata;
    std::vector<ArrowBuffers> columns;
    std::array<const void*, 1> no_buffers{nullptr};
    std::shared_ptr<const void> owner;
};

template <class Struct> void release_family(Struct* held) {
    for (std::int64_t at = 0; at < held->n_children; ++at)
        if (held->children[at]->release) held->children[at]->release(held->children[at]);
    held->release = nullptr;
    delete static_cast<std::shared_ptr<ArrowFamily<Struct>>*>(held->private_data);
}

template <class Struct> void hold_family(Struct& in, const std::shared_ptr<ArrowFamily<Struct>>& family) {
    in.private_data = new std::shared_ptr<ArrowFamily<Struct>>(family);
    in.release = &release_family<Struct>;
}

template <class Struct> void adopt_children(Struct& root, const std::shared_ptr<ArrowFamily<Struct>>& family) {
    for (Struct& child : family->children) {
        family->pointers.push_back(&child);
        hold_family(child, family);
    }
    root.n_children = static_cast<std::int64_t>(family->children.size());
    root.children = family->pointers.data();
    hold_family(root, family);
}

/// One key with its value, as the specification encodes metadata: counts and lengths as native 32-bit integers.
[[nodiscard]] inline std::string arrow_metadata(std::string_view key, std::string_view value) {
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

} // namespace detail

inline ArrowSchema arrow_schema(const std::vector<ArrowField>& fields, std::string_view key, std::string_view value) {
    constexpr std::int64_t flag_nullable = 2; // of the specification
    const auto family = std::make_shared<detail::ArrowFamily<ArrowSchema>>();
    family->fields = fields;
    family->metadata = detail::arrow_metadata(key, value);
    family->children.resize(fields.size());
    for (std::size_t at = 0; at < fields.size(); ++at) {
        family->children[at].format = family->fields[at].format;
        family->children[at].name = family->fields[at].name.c_str();
        family->children[at].flags = fields[at].nullable ? flag_nullable : 0;
    }
    ArrowSchema root{};
    root.format = "+s";
    root.name = "";
    root.metadata = family->metadata.c_str();
    detail::adopt_children(root, family);
    return root;
}

inline ArrowArray arrow_array(std::int64_t rows, std::vector<ArrowBuffers> columns, std::shared_ptr<const void> owner) {
    const auto family = std::make_shared<detail::ArrowFamily<ArrowArray>>();
    family->columns = std::move(columns);
    family->owner = std::move(owner);
    family->children.resize(family->columns.size());
    for (std::size_t at = 0; at < family->columns.size(); ++at) {
        ArrowBuffers& buffers = family->columns[at];
        family->children[at].length = rows;
        family->children[at].null_count = buffers.missing;
        family->children[at].n_buffers = buffers.count;
        family->children[at].buffers = buffers.buffers.data();
    }
    ArrowArray root{};
    root.length = rows;
    root.n_buffers = 1;
    root.buffers = family->no_buffers.data();
    detail::adopt_children(root, family);
    return root;
}

} // namespace keysquare
