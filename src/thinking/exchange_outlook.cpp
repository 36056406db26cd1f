#include <keysquare/thinking/exchange_outlook.hpp>

namespace keysquare {

std::optional<ExchangeOutlook> exchange_outlook(const Position& position, const Options& options,
                                                const Position* earlier) {
    const auto ledger = exchange_context(position, options, earlier);
    if (!ledger) return std::nullopt;
    return ExchangeOutlook{*ledger, outlook(position, options)};
}

} // namespace keysquare
