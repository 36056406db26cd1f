// Bodies of research/game_rows.hpp.
#pragma once

#include <keysquare/features/findings.hpp>
#include <keysquare/research/game_rows.hpp>

namespace keysquare {

inline void GameRows::begin(const Game& game, std::string_view file, std::uint64_t offset) {
    game_ = &game;
    file_ = file;
    offset_ = offset;
    ++number_;
    steps_.clear();
    positions_.clear();
    steps_.push_back(root_step);
    positions_.push_back(game.start());
    for (StepIndex at = game.step(root_step).first_child; at != root_step; at = game.step(at).first_child) {
        steps_.push_back(at);
        positions_.push_back(after_in_game(positions_.back(), game.step(at).move));
    }
    ratings_ = {rating_in(game.tag("WhiteElo")), rating_in(game.tag("BlackElo"))};
    effects_.reset();
    go_to(0);
}

inline void GameRows::go_to(std::size_t ply) {
    ply_ = ply;
    studies_.view.reset();
    studies_.chances.reset();
    studies_.threats.reset();
    studies_.outlook.reset();
    studies_.locked_pairs.reset();
    studies_.ledger.reset();
}

inline std::optional<double> GameRows::white_score() const noexcept {
    switch (game_->result()) {
    case GameResult::white_wins: return 1.0;
    case GameResult::draw: return 0.5;
    case GameResult::black_wins: return 0.0;
    case GameResult::unknown: break;
    }
    return std::nullopt;
}

inline const BoardView& GameRows::view() const {
    if (!studies_.view) studies_.view.emplace(position(), options_);
    return *studies_.view;
}

inline const Threats& GameRows::chances() const {
    if (!studies_.chances) studies_.chances = threats(position(), position().mover(), options_);
    return *studies_.chances;
}

inline const Threats& GameRows::threats_of_waiter() const {
    if (!studies_.threats) studies_.threats = threats(position(), options_);
    return *studies_.threats;
}

inline const Outlook& GameRows::outlook() const {
    if (!studies_.outlook) studies_.outlook = keysquare::outlook(position(), options_);
    return *studies_.outlook;
}

inline int GameRows::locked_pairs(Side side) const {
    if (!studies_.locked_pairs) {
        found_.clear();
        find_themes(view(), ThemeSet{Theme::mutual_guards}, found_);
        std::array<int, 2> locked{};
        for (const Finding& finding : found_)
            if (finding.theme == Theme::mutual_guards && finding.detail == Detail::locked)
                ++locked[index(finding.side)];
        studies_.locked_pairs = locked;
    }
    return (*studies_.locked_pairs)[index(side)];
}

inline const Position* GameRows::before_the_exchange() const noexcept {
    const auto is_up = [&](std::size_t ply) { return exchange_up(material_signature(positions_[ply])).has_value(); };
    std::size_t ply = ply_;
    while (ply > 0 && is_up(ply)) --ply;
    if (is_up(ply)) return nullptr; // it was there from the start
    while (ply > 0 && captured_by(positions_[ply - 1], game_->step(steps_[ply]).move) != Kind::none) --ply;
    return &positions_[ply];
}

inline const std::optional<ExchangeLedger>& GameRows::ledger() const {
    if (!studies_.ledger) {
        studies_.ledger.emplace();
        if (exchange_up(material_signature(position())))
            *studies_.ledger = exchange_context(view(), before_the_exchange());
    }
    return *studies_.ledger;
}

inline const MoveEffects& GameRows::effects() const {
    static const MoveEffects none;
    if (!effects_) effects_ = game_effects(*game_, options_);
    return ply_ < last_ply() ? (*effects_)[ply_] : none;
}

} // namespace keysquare
