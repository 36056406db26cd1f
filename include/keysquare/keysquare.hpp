// One include for all that is said of a position, and for games in memory. From a FEN to findings it needs no more than
// headers; the numeric vector, the teacher's questions (threats, candidates, plans), sentences and games are in the
// compiled library. What else that holds (game files, diagrams, JSON, scans) has headers of its own.
#pragma once

#include <keysquare/board/perft.hpp>
#include <keysquare/features/feature_vector.hpp>
#include <keysquare/features/findings.hpp>
#include <keysquare/features/same_claim.hpp>
#include <keysquare/lesson/candidate_sentences.hpp>
#include <keysquare/lesson/difficulty_sentences.hpp>
#include <keysquare/lesson/effect_sentences.hpp>
#include <keysquare/lesson/explain.hpp>
#include <keysquare/lesson/explain_threats.hpp>
#include <keysquare/lesson/game_report.hpp>
#include <keysquare/lesson/outlook_sentences.hpp>
#include <keysquare/lesson/plan_sentences.hpp>
#include <keysquare/lesson/theme_words.hpp>
#include <keysquare/notation/comment_commands.hpp>
#include <keysquare/notation/coordinate.hpp>
#include <keysquare/notation/epd.hpp>
#include <keysquare/notation/fen.hpp>
#include <keysquare/notation/game_border.hpp>
#include <keysquare/notation/game_state.hpp>
#include <keysquare/notation/pgn.hpp>
#include <keysquare/notation/san.hpp>
#include <keysquare/tactics/exchange.hpp>
#include <keysquare/tactics/resolve.hpp>
#include <keysquare/thinking/answers.hpp>
#include <keysquare/thinking/candidates.hpp>
#include <keysquare/thinking/difficulty.hpp>
#include <keysquare/thinking/exchange_outlook.hpp>
#include <keysquare/thinking/fact_weights.hpp>
#include <keysquare/thinking/game_effects.hpp>
#include <keysquare/thinking/outlook.hpp>
#include <keysquare/thinking/parries.hpp>
#include <keysquare/thinking/plan.hpp>
#include <keysquare/thinking/route.hpp>
#include <keysquare/thinking/threats.hpp>
#include <keysquare/version.hpp>
