// The questions that are held to open data. Each adds its tables and its bars to the report.
#pragma once

#include "open_data.hpp"
#include "report.hpp"

namespace accuracy {

/// How often the tactical themes are found where a label names them, and how often where no label does.
void ask_themes(const std::vector<Puzzle>& puzzles, Report& report);

/// Whether the moves that others call best are among the candidates, and the first of them.
void ask_candidates(const std::vector<Puzzle>& puzzles, Report& report);

/// Whether the solution goes on with what the solver threatened, or leaves the other side no choice.
void ask_threats(const std::vector<Puzzle>& puzzles, Report& report);

} // namespace accuracy
