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

/// What a column or a table holds, by the Arrow C data interface. The fields are those of that standard.
struct ArrowSchema {
    const char* format;                   ///< the type, in the letters of the standard
    const char* name;                     ///< of the column; may be null
    const char* metadata;                 ///< may be null
    int64_t flags;                        ///< whether null values are allowed, and the like
    int64_t n_children;                   ///< how many `children` there are
    struct ArrowSchema** children;        ///< the columns of a table
    struct ArrowSchema* dictionary;       ///< null: no column here is encoded by a dictionary
    void (*release)(struct ArrowSchema*); ///< called once by the consumer; null when it was
    void* private_data;                   ///< of the producer alone
};

/// The values of a column or a table, by the Arrow C data interface. The fields are those of that standard.
struct ArrowArray {
    int64_t length;                      ///< rows
    int64_t null_count;                  ///< rows without a value
    int64_t offset;                      ///< rows to pass over at the start of the buffers
    int64_t n_buffers;                   ///< how many `buffers` there are
    int64_t n_children;                  ///< how many `children` there are
    const void** buffers;                ///< bits that say where there is a value, then the values
    struct ArrowArray** children;        ///< the columns of a table
    struct ArrowArray* dictionary;       ///< null: no column here is encoded by a dictionary
    void (*release)(struct ArrowArray*); ///< called once by the consumer; null when it was
    void* private_data;                  ///< of the producer alone
};

#endif

#ifndef ARROW_C_STREAM_INTERFACE
#define ARROW_C_STREAM_INTERFACE

/// Batches of one schema, one after the other, by the Arrow C stream interface. The fields are those of that standard.
struct ArrowArrayStream {
    /// gives the schema of all batches; 0, or an error number of the system
    int (*get_schema)(struct ArrowArrayStream*, struct ArrowSchema* out);
    /// gives the next batch, a released one at the end; 0, or an error number of the system
    int (*get_next)(struct ArrowArrayStream*, struct ArrowArray* out);
    const char* (*get_last_error)(struct ArrowArrayStream*); ///< a text about the last error; may be null
    void (*release)(struct ArrowArrayStream*);               ///< called once by the consumer; null when it was
    void* private_data;                                      ///< of the producer alone
};

#endif
}

namespace keysquare {

/// A column of a table, as its schema has it.
struct ArrowField {
    std::string name;         ///< the name of the column
    const char* format = "s"; ///< of the specification: "s" for int16, "u" for UTF-8 text
    bool nullable = false;    ///< whether rows may be without a value
};

/// The buffers of a column: the bits that say where there is a value (null when there is one everywhere), then those of
/// the values.
struct ArrowBuffers {
    std::int64_t missing = 0;             ///< rows without a value
    std::array<const void*, 3> buffers{}; ///< see above; null where the format has none
    std::int64_t count = 2;               ///< how many of them the format has
};

/// A struct of these fields, with one key and its value as metadata. The caller releases it.
[[nodiscard]] ArrowSchema arrow_schema(const std::vector<ArrowField>& fields, std::string_view key,
                                       std::string_view value);
/// The rows of such a struct; the buffers are not copied, and live as long as `owner`. The caller releases it.
[[nodiscard]] ArrowArray arrow_array(std::int64_t rows, std::vector<ArrowBuffers> columns,
                                     std::shared_ptr<const void> owner);

} // namespace keysquare
