// The questions that are held to open data. Each adds its tables and its bars to the report.
#pragma once

#include "open_data.hpp"
#include "report.hpp"

namespace accuracy {

/// How often the tactical themes are found where a label names them, and how often where no label does.
void ask_themes(const std::vector<Puzzle>& puzzles, Report& report);

} // namespace accuracy
