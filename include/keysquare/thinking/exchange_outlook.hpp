// exchange_outlook: the exchange-imbalance ledger, and what both sides can do with what it lists.
#pragma once

#include <optional>

#include <keysquare/features/exchange_imbalance.hpp>
#include <keysquare/thinking/outlook.hpp>

namespace keysquare {

/// The ledger with the two entries that need more than counting: who has threats now, and who has useful moves. The
/// compensation stays what the published formula makes of the counts: threats and useful moves come and go with every
/// move, the items of the formula do not, so they stand beside it and carry no points.
struct ExchangeOutlook {
    ExchangeLedger ledger; ///< the counts and what the formula makes of them
    Outlook outlook;       ///< who has threats and useful moves
};

/// Nothing where `exchange_context` gives nothing. Costs both, some milliseconds.
[[nodiscard]] std::optional<ExchangeOutlook> exchange_outlook(const Position& position, const Options& options = {},
                                                              const Position* earlier = nullptr);

} // namespace keysquare
