// JsonWriter: JSON text, written from front to back.
//
// A JSON library would be a dependency that everybody who uses this one has to find; what is needed to write is this
// page. There are no numbers but whole ones, so nothing is rounded and NaN can't come up.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>

namespace keysquare {

class JsonWriter {
  public:
    [[nodiscard]] std::string take() && { return std::move(json_); }

    /// An object with the members that `members()` writes: each a `key` and a value.
    template <class Members> void object(const Members& members) {
        open('{');
        members();
        close('}');
    }
    /// An array with what `each(item)` writes of every item, one value each.
    template <class Items, class Each> void list(const Items& items, const Each& each) {
        open('[');
        for (const auto& item : items) each(item);
        close(']');
    }
    /// The name of the next value. Precondition: in an object, where it has not been used yet.
    JsonWriter& key(std::string_view name) {
        text(name);
        json_ += ':';
        follows_value_ = false;
        return *this;
    }

    void text(std::string_view bytes);
    /// Null unless it is there.
    void text_if(bool is_there, std::string_view bytes) { is_there ? text(bytes) : null(); }
    void number(std::int64_t value) {
        separate();
        json_ += std::to_string(value);
    }
    void truth(bool value) {
        separate();
        json_ += value ? "true" : "false";
    }
    void null() {
        separate();
        json_ += "null";
    }

  private:
    void open(char bracket) {
        separate();
        json_ += bracket;
        follows_value_ = false;
    }
    void close(char bracket) {
        json_ += bracket;
        follows_value_ = true;
    }
    void separate() {
        if (follows_value_) json_ += ',';
        follows_value_ = true;
    }
    /// Adds what `rest` begins with, and says how many bytes that were.
    std::size_t add_character(std::string_view rest);

    std::string json_;
    bool follows_value_ = false; ///< so that the next one needs a comma
};

} // namespace keysquare
