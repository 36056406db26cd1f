#include <keysquare/research/arrow_interface.hpp>

namespace keysquare {

namespace {

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
std::string arrow_metadata(std::string_view key, std::string_view value) {
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

} // namespace

ArrowSchema arrow_schema(const std::vector<ArrowField>& fields, std::string_view key, std::string_view value) {
    constexpr std::int64_t flag_nullable = 2; // of the specification
    const auto family = std::make_shared<ArrowFamily<ArrowSchema>>();
    family->fields = fields;
    family->metadata = arrow_metadata(key, value);
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
    adopt_children(root, family);
    return root;
}

ArrowArray arrow_array(std::int64_t rows, std::vector<ArrowBuffers> columns, std::shared_ptr<const void> owner) {
    const auto family = std::make_shared<ArrowFamily<ArrowArray>>();
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
    adopt_children(root, family);
    return root;
}

} // namespace keysquare
