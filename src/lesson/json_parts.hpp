// What several JSON documents are made of.
#pragma once

#include <string>

#include <keysquare/lesson/json.hpp>

#include "json_writer.hpp"

namespace keysquare {

// The words that go with a thing. Whatever a document says in a sentence comes from here.
[[nodiscard]] std::string said(const Position& position, const Finding& finding, Language language);
[[nodiscard]] std::string said(const Position& position, const Threat& threat, Language language);
[[nodiscard]] std::string said(const Position& position, const Candidate& candidate, Language language);
[[nodiscard]] std::string said(const Position& position, const SideOutlook& side, Language language);
[[nodiscard]] std::string said(const Position& position, const Outlook& outlook, Language language);
[[nodiscard]] std::string said(const Position& position, Move move, const MoveEffect& effect, Language language);

// One value each. `position` is the one that the thing was found in.
void write(JsonWriter& json, const Position& position, const Finding& finding, Language language);
void write(JsonWriter& json, const Position& position, const Threat& threat, Language language);
void write(JsonWriter& json, Squares squares);
void write(JsonWriter& json, const Line& line);
/// In coordinate notation; null for no move.
void write(JsonWriter& json, Move move);

} // namespace keysquare
