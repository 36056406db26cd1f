// explain_threats: sentences for threats, parries and answers, and a threat as a finding that a diagram can show.
#pragma once

#include <string>

#include <keysquare/features/finding.hpp>
#include <keysquare/lesson/language.hpp>
#include <keysquare/thinking/answers.hpp>
#include <keysquare/thinking/parries.hpp>

namespace keysquare {

/// The threat with the members of a finding, for diagrams (`add_finding_marks`) and sentences. It has no theme
/// (`Theme::end_`); pieces = the man that it is aimed at, where a man stands there; squares = the others that are taken
/// on the line, and the king that is mated. `position` is the one that the threat was found in.
[[nodiscard]] Finding as_finding(const Position& position, const Threat& threat);

/// One sentence for the threat; it says nothing that the threat does not hold.
[[nodiscard]] std::string sentence(const Position& position, const Threat& threat,
                                   Language language = Language::english);

/// What parries the threat, in a few sentences.
[[nodiscard]] std::string sentence(const Position& position, const Threat& threat, const Parries& parries,
                                   Language language = Language::english);

/// What the other side has after the move, in one sentence. `position` is the one before the move.
[[nodiscard]] std::string sentence(const Position& position, const Answer& answer,
                                   Language language = Language::english);

} // namespace keysquare
