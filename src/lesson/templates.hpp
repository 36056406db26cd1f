// The templates of every language, in the order of `Language`. Those of findings stand in sentences.hpp.
#pragma once

#include "candidate_words.hpp"
#include "difficulty_words.hpp"
#include "german/candidate_words.hpp"
#include "german/difficulty_words.hpp"
#include "german/outlook_words.hpp"
#include "german/plan_words.hpp"
#include "outlook_words.hpp"
#include "plan_words.hpp"

namespace keysquare::detail {

inline constexpr const CandidateWords* candidate_words[language_count]{&english_candidate_words,
                                                                       &german_candidate_words};
inline constexpr const DifficultyTemplates* difficulty_templates[language_count]{&english_difficulty_templates,
                                                                                 &german_difficulty_templates};
inline constexpr TableOf<OutlookWords> outlook_words[language_count]{english_outlook_words, german_outlook_words};
inline constexpr const OutlookTemplates* outlook_templates[language_count]{&english_outlook_templates,
                                                                           &german_outlook_templates};
inline constexpr const PlanTemplates* plan_templates[language_count]{&english_plan_templates, &german_plan_templates};

} // namespace keysquare::detail
