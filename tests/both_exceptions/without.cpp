#include <keysquare/notation/fen.hpp>

int men_on_board(const char* fen) { return keysquare::read_fen(fen).value().occupied().count(); }
