// Any line as EPD: what is accepted is written and read again as the same record.
#pragma once

#include <keysquare/notation/epd.hpp>

#include "require.hpp"

namespace keysquare::fuzz {

inline void try_epd(std::string_view text) {
    for (const Strictness strictness : {Strictness::strict, Strictness::lenient}) {
        const Result<EpdRecord> record = read_epd(text, strictness);
        if (!record) {
            require(record.error().column <= text.size() + 1, "an error behind the text");
            continue;
        }
        const std::string line = epd(*record);
        const Result<EpdRecord> again = read_epd(line, strictness);
        require(static_cast<bool>(again), "not read again: " + line);
        require(epd(*again) == line, "written in another way the second time: " + line);
        require(again->position == record->position, "another position: " + line);
    }
}

} // namespace keysquare::fuzz
