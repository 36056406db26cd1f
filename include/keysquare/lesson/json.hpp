// json: what the library says as JSON text, the same in every binding.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include <keysquare/lesson/game_report.hpp>
#include <keysquare/lesson/language.hpp>
#include <keysquare/thinking/candidates.hpp>
#include <keysquare/thinking/outlook.hpp>

namespace keysquare {

// Every document is one JSON object (RFC 8259, UTF-8, no line breaks). Its member "schema" is the name below; the JSON
// Schema of that name is in bindings/schema/. The number at the end is raised when a member gets another name or meaning
// or goes away. New members, themes, details, counts and facts come without that: a reader leaves alone what it does not
// know.
//
// Squares and coordinate moves are texts ("e4", "e7e8q"), sides "white" and "black", gains whole pawns, numbers whole
// numbers; what is not there is null. Text that is no UTF-8 has U+FFFD for every byte that does not fit.
//
// The member "language" is the code of the language that the sentences are in, and nothing else depends on it: what is
// named "san", "numbered" and the like keeps the letters of SAN, names of themes, sides and pieces stay as they are.
inline constexpr std::string_view findings_schema = "keysquare findings 1";       ///< of findings
inline constexpr std::string_view threats_schema = "keysquare threats 1";         ///< of threats
inline constexpr std::string_view candidates_schema = "keysquare candidates 1";   ///< of candidates
inline constexpr std::string_view outlook_schema = "keysquare outlook 1";         ///< of an outlook
inline constexpr std::string_view game_report_schema = "keysquare game report 1"; ///< of a game report

/// {schema, language, fen, findings}: in the order given. `position` is the one that they were found in.
[[nodiscard]] std::string findings_json(const Position& position, std::span<const Finding> findings,
                                        Language language = Language::english);

/// {schema, language, fen, side, known, threats}: the threats of `side`. `known` is false when it has no turn, because the other
/// side is to move and stands in check.
[[nodiscard]] std::string threats_json(const Position& position, Side side, std::span<const Threat> threats,
                                       Language language = Language::english);

/// {schema, language, fen, candidates}.
[[nodiscard]] std::string candidates_json(const Position& position, std::span<const Candidate> candidates,
                                          Language language = Language::english);

/// {schema, language, fen, white, black, equilibrium, paragraph}.
[[nodiscard]] std::string outlook_json(const Position& position, const Outlook& outlook,
                                       Language language = Language::english);

/// {schema, language, tags, result, plies, turning_points, moments}: the report of that game, whatever the language that
/// it was made in. A finding that a move created is named by its place in `findings` of its ply.
[[nodiscard]] std::string game_report_json(const Game& game, const GameReport& report,
                                           Language language = Language::english);

} // namespace keysquare
