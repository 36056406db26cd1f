// The Arrow C data and C stream interfaces (Apache Arrow, "The Arrow C data interface", "The Arrow C stream interface"):
// plain structs by which tables go from one library to another without a copy. In `keysquare::keysquare`, as scans are.
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

} // namespace keysquare
