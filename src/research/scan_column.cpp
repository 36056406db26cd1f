// The tables of the columns that scans give.
#include <keysquare/research/scan_column.hpp>

#include <keysquare/notation/comment_commands.hpp>

namespace keysquare {

namespace {

using Rows = GameRows;

template <class Number> constexpr CellValue cell(Number number) noexcept {
    return CellValue{static_cast<std::int64_t>(number)};
}
template <class Number> constexpr CellValue cell(std::optional<Number> value) noexcept {
    return value ? cell(*value) : CellValue{};
}
constexpr CellValue real_cell(std::optional<double> value) noexcept { return value ? CellValue{*value} : CellValue{}; }
constexpr CellValue text_cell(std::string_view text) noexcept { return CellValue{text}; }

CellValue rating_band(const Rows& rows, Side side) {
    const std::optional<int> rating = rows.rating(side);
    if (!rating) return {};
    const int low = *rating - *rating % rating_band_width;
    std::string& text = rows.scratch();
    text.assign(std::to_string(low)).append("-").append(std::to_string(low + rating_band_width - 1));
    return text_cell(text);
}

std::optional<double> score_of(const Rows& rows, Side side) noexcept {
    const std::optional<double> white = rows.white_score();
    return white && side == Side::black ? std::optional{1.0 - *white} : white;
}

std::optional<double> expectation_of(const Rows& rows, Side side) noexcept {
    const std::optional<int> own = rows.rating(side);
    const std::optional<int> other_rating = rows.rating(other(side));
    if (!own || !other_rating) return std::nullopt;
    return expected_score(*own, *other_rating);
}

/// The comment of the step that led to a ply. A comment before the first move is not asked: it may belong to the file.
std::string_view comment_at(const Rows& rows, std::size_t ply) noexcept {
    return ply == 0 ? std::string_view{} : rows.game().comment(rows.step(ply));
}

std::optional<double> clock_of_mover(const Rows& rows) noexcept {
    if (rows.ply() < 2) return std::nullopt;
    const auto text = command(comment_at(rows, rows.ply() - 1), "clk");
    return text ? seconds_in(*text) : std::nullopt;
}

std::optional<Evaluation> evaluation_at(const Rows& rows) noexcept {
    const auto text = command(comment_at(rows, rows.ply()), "eval");
    return text ? evaluation_in(*text) : std::nullopt;
}

std::optional<int> year_of(const Rows& rows) noexcept {
    std::string_view date = rows.game().tag("Date");
    if (date.size() < 4) date = rows.game().tag("UTCDate");
    return date.size() >= 4 ? rating_in(date.substr(0, 4)) : std::nullopt;
}

/// The phases of the profiles (common practice, no source).
std::string_view phase_of(const Position& position) noexcept {
    constexpr int last_opening_move = 10;
    constexpr int most_in_endgame = 13;
    constexpr Values values{};
    const auto pieces = [&](Side side) {
        int sum = 0;
        for (const Kind kind : {Kind::knight, Kind::bishop, Kind::rook, Kind::queen})
            sum += values[kind] * position.men(side, kind).count();
        return sum;
    };
    if (position.move_number() <= last_opening_move) return "opening";
    const bool few = pieces(Side::white) <= most_in_endgame && pieces(Side::black) <= most_in_endgame;
    return few || position.men(Kind::queen).empty() ? "endgame" : "middlegame";
}

CellValue bounded_gain(const Threats& threats) noexcept {
    int most = 0;
    for (const Threat& threat : threats) most = (std::max)(most, threat.gain);
    return cell(most);
}

bool mates(const Threats& threats) noexcept { return !threats.empty() && threats.front().mate; }

/// What the taker wins by the best capture of a man that hangs; nothing when it has no turn.
std::optional<int> hanging_gain(const Rows& rows, Side taker) {
    const BoardView& view = rows.view();
    if (!view.turn(taker).exists) return std::nullopt;
    int most = 0;
    for (const Square square : rows.position().men(other(taker)) & ~rows.position().men(Kind::king))
        if (const SafetyOfMan safety = view.safety(square); safety.safety == Safety::hanging)
            most = (std::max)(most, safety.capture.gain);
    return most;
}

int safe_moves(const JudgedMoves& judged) noexcept {
    int count = 0;
    for (std::size_t at = 0; at < judged.moves().size(); ++at) count += judged.is_safe(at) ? 1 : 0;
    return count;
}

CellValue of_outlook(const Rows& rows, Side side, int (*count)(const SideOutlook& own)) {
    const SideOutlook& own = rows.outlook().of(side);
    return own.exists ? cell(count(own)) : CellValue{};
}
int useful_moves(const SideOutlook& own) noexcept { return static_cast<int>(own.useful.size()); }
int lacks_plan(const SideOutlook& own) noexcept { return own.no_plan ? 1 : 0; }

int rook_scope(const LedgerPage& page) noexcept {
    int count = 0;
    for (const RookScope& rook : page.rooks) count += rook.safe.count();
    return count;
}

/// Squares of the complex that slipped from the hands of the side that has the rooks.
std::optional<int> guardian_loss(const ExchangeLedger& ledger) noexcept {
    if (!ledger.guardian) return std::nullopt;
    return slipped(ledger.guardian->before, ledger.guardian->now, ledger.up.side).count();
}

CellValue theme_of_effect(const Rows& rows, EffectKind kind) {
    for (const MoveEffect& effect : rows.effects())
        if (effect.kind == kind) return text_cell(effect.theme == Theme::end_ ? "other" : name(effect.theme));
    return {};
}

/// What the move gave away by all its mistakes at most, in pawns.
std::optional<int> mistake_of(const Rows& rows) {
    if (rows.ply() >= rows.last_ply()) return std::nullopt;
    int most = 0;
    for (const MoveEffect& effect : rows.effects())
        if (effect.kind != EffectKind::exploited && !effect.win.mate) most = (std::max)(most, effect.difference());
    return most;
}

std::optional<int> mate_mistake_of(const Rows& rows) {
    if (rows.ply() >= rows.last_ply()) return std::nullopt;
    for (const MoveEffect& effect : rows.effects())
        if (effect.kind != EffectKind::exploited && effect.win.mate) return 1;
    return 0;
}

constexpr Grain whole{};
constexpr Grain points{.scale = 1, .bin = 50}; // of ratings
constexpr Grain pawns_in_hundredths{.scale = 100, .bin = 50};
constexpr Grain seconds_in_hundredths{.scale = 100, .bin = 1000};
constexpr Grain score_in_hundredths{.scale = 100, .bin = 50};
constexpr Grain expectation{.scale = 10'000, .bin = 500};

constexpr std::array game_column_table{
    ScanColumn{"file", ColumnType::utf8, false, whole, "The file, as it was named.",
               [](const Rows& at) { return text_cell(at.file()); }},
    ScanColumn{"game_offset", ColumnType::int64, false, whole,
               "Bytes of the file's text before the game's first tag; with the file it names the game.",
               [](const Rows& at) { return cell(at.offset()); }},
    ScanColumn{"ply", ColumnType::int32, false, whole, "Plies of the game played before the position.",
               [](const Rows& at) { return cell(at.ply()); }},
    ScanColumn{"plies", ColumnType::int32, false, whole, "Plies of the whole game.",
               [](const Rows& at) { return cell(at.last_ply()); }},
    ScanColumn{"mover", ColumnType::utf8, false, whole, "The side to move: white or black.",
               [](const Rows& at) { return text_cell(name(at.position().mover())); }},
    ScanColumn{
        "phase", ColumnType::utf8, false, whole,
        "opening up to move 10; then endgame when both sides are without queens, or each has pieces worth at most "
        "13 pawns; otherwise middlegame.",
        [](const Rows& at) { return text_cell(phase_of(at.position())); }},
    ScanColumn{"fen", ColumnType::utf8, false, whole, "The position.",
               [](const Rows& at) { return text_cell(at.scratch() = fen(at.position())); }},
    ScanColumn{"key", ColumnType::uint64, false, whole,
               "A hash of the position: equal for what counts as the same position by the Laws (9.2).",
               [](const Rows& at) { return cell(at.position().key()); }},
    ScanColumn{"move_played", ColumnType::utf8, true, whole,
               "The move played in the position, in SAN; none at the end of the game.",
               [](const Rows& at) {
                   if (!at.played()) return CellValue{};
                   return text_cell(at.scratch() = san(at.position(), at.played()));
               }},
    ScanColumn{"result", ColumnType::utf8, false, whole, "1-0, 0-1, 1/2-1/2 or *.",
               [](const Rows& at) { return text_cell(name(at.game().result())); }},
    ScanColumn{"white_score", ColumnType::float64, true, score_in_hundredths,
               "What the game brought White: 1, 0.5 or 0.",
               [](const Rows& at) { return real_cell(score_of(at, Side::white)); }},
    ScanColumn{"mover_score", ColumnType::float64, true, score_in_hundredths,
               "What the game brought the mover: 1, 0.5 or 0.",
               [](const Rows& at) { return real_cell(score_of(at, at.position().mover())); }},
    ScanColumn{"white_expected_score", ColumnType::float64, true, expectation,
               "What White's rating lets it expect against Black's, by the logistic curve.",
               [](const Rows& at) { return real_cell(expectation_of(at, Side::white)); }},
    ScanColumn{"mover_expected_score", ColumnType::float64, true, expectation,
               "What the mover's rating lets it expect against the waiter's, by the logistic curve.",
               [](const Rows& at) { return real_cell(expectation_of(at, at.position().mover())); }},
    ScanColumn{"white_rating", ColumnType::int32, true, points,
               "The tag WhiteElo, when it is a number above 0 of at most five digits.",
               [](const Rows& at) { return cell(at.rating(Side::white)); }},
    ScanColumn{"black_rating", ColumnType::int32, true, points,
               "The tag BlackElo, when it is a number above 0 of at most five digits.",
               [](const Rows& at) { return cell(at.rating(Side::black)); }},
    ScanColumn{"mover_rating", ColumnType::int32, true, points, "The rating of the mover.",
               [](const Rows& at) { return cell(at.rating(at.position().mover())); }},
    ScanColumn{"waiter_rating", ColumnType::int32, true, points, "The rating of the waiter.",
               [](const Rows& at) { return cell(at.rating(at.position().waiter())); }},
    ScanColumn{"white_rating_band", ColumnType::utf8, true, whole,
               "The band of 200 points of White's rating: 1200-1399.",
               [](const Rows& at) { return rating_band(at, Side::white); }},
    ScanColumn{"black_rating_band", ColumnType::utf8, true, whole,
               "The band of 200 points of Black's rating: 1200-1399.",
               [](const Rows& at) { return rating_band(at, Side::black); }},
    ScanColumn{"mover_rating_band", ColumnType::utf8, true, whole,
               "The band of 200 points of the mover's rating: 1200-1399.",
               [](const Rows& at) { return rating_band(at, at.position().mover()); }},
    ScanColumn{"waiter_rating_band", ColumnType::utf8, true, whole,
               "The band of 200 points of the waiter's rating: 1200-1399.",
               [](const Rows& at) { return rating_band(at, at.position().waiter()); }},
    ScanColumn{"year", ColumnType::int32, true, whole,
               "The year that the tag Date begins with or, without that tag, UTCDate.",
               [](const Rows& at) { return cell(year_of(at)); }},
    ScanColumn{"clock", ColumnType::float64, true, seconds_in_hundredths,
               "Seconds that the mover has left: the command clk after its last move.",
               [](const Rows& at) { return real_cell(clock_of_mover(at)); }},
    ScanColumn{"evaluation", ColumnType::float64, true, pawns_in_hundredths,
               "Pawns for White by the command eval after the move that led to the position; none where it has a mate.",
               [](const Rows& at) {
                   const auto found = evaluation_at(at);
                   return real_cell(found ? found->pawns : std::nullopt);
               }},
    ScanColumn{"evaluation_mate_in", ColumnType::int32, true, whole,
               "Moves to mate by the same command, negative when Black mates; none where it has pawns.",
               [](const Rows& at) {
                   const auto found = evaluation_at(at);
                   return cell(found ? found->mate_in : std::nullopt);
               }},
};

constexpr std::array search_column_table{
    ScanColumn{"hanging_gain", ColumnType::int32, false, whole,
               "Pawns that the mover wins by the best capture of a hanging man; 0 when none hangs.",
               [](const Rows& at) { return cell(hanging_gain(at, at.position().mover())); }},
    ScanColumn{"waiter_hanging_gain", ColumnType::int32, true, whole,
               "The same for the waiter after a pass; none while the mover is in check.",
               [](const Rows& at) { return cell(hanging_gain(at, at.position().waiter())); }},
    ScanColumn{"safe_moves", ColumnType::int32, false, whole,
               "Legal moves that keep as much material as any move does.",
               [](const Rows& at) { return cell(safe_moves(at.view().judged(at.position().mover()))); }},
    ScanColumn{
        "only_move", ColumnType::int32, false, whole,
        "1 when just one of several legal moves keeps the material, and of the others it is known that they do not.",
        [](const Rows& at) { return cell(only_move(at.view().judged(at.position().mover())) ? 1 : 0); }},
    ScanColumn{"chances", ColumnType::int32, false, whole, "Different things that the mover can win at once.",
               [](const Rows& at) { return cell(at.chances().size()); }},
    ScanColumn{"chance_gain", ColumnType::int32, false, whole, "Pawns that the largest of them wins.",
               [](const Rows& at) { return bounded_gain(at.chances()); }},
    ScanColumn{"chance_mates", ColumnType::int32, false, whole, "1 when one of them is a mate.",
               [](const Rows& at) { return cell(mates(at.chances()) ? 1 : 0); }},
    ScanColumn{"threats", ColumnType::int32, false, whole,
               "Different things that the waiter would win after a pass; 0 while the mover is in check.",
               [](const Rows& at) { return cell(at.threats_of_waiter().size()); }},
    ScanColumn{"threat_gain", ColumnType::int32, false, whole, "Pawns that the largest of them wins.",
               [](const Rows& at) { return bounded_gain(at.threats_of_waiter()); }},
    ScanColumn{"threat_mates", ColumnType::int32, false, whole, "1 when one of them is a mate.",
               [](const Rows& at) { return cell(mates(at.threats_of_waiter()) ? 1 : 0); }},
    ScanColumn{"useful_moves", ColumnType::int32, false, whole, "Useful moves of the mover (outlook).",
               [](const Rows& at) { return of_outlook(at, at.position().mover(), &useful_moves); }},
    ScanColumn{"waiter_useful_moves", ColumnType::int32, true, whole,
               "Useful moves of the waiter after a pass; none while the mover is in check.",
               [](const Rows& at) { return of_outlook(at, at.position().waiter(), &useful_moves); }},
    ScanColumn{"no_plan", ColumnType::int32, false, whole,
               "1 when the mover has neither a useful move nor a better square.",
               [](const Rows& at) { return of_outlook(at, at.position().mover(), &lacks_plan); }},
    ScanColumn{"waiter_no_plan", ColumnType::int32, true, whole,
               "The same for the waiter after a pass; none while the mover is in check.",
               [](const Rows& at) { return of_outlook(at, at.position().waiter(), &lacks_plan); }},
    ScanColumn{"white_locked_pairs", ColumnType::int32, false, whole,
               "Pairs of White's men that only guard each other, and lose something when either moves.",
               [](const Rows& at) { return cell(at.locked_pairs(Side::white)); }},
    ScanColumn{"black_locked_pairs", ColumnType::int32, false, whole,
               "Pairs of Black's men that only guard each other, and lose something when either moves.",
               [](const Rows& at) { return cell(at.locked_pairs(Side::black)); }},
    ScanColumn{"exchanges_up", ColumnType::int32, false, whole,
               "How often White is the exchange up (rook for minor piece); negative for Black.",
               [](const Rows& at) {
                   const auto up = exchange_up(material_signature(at.position()));
                   return cell(!up ? 0 : up->side == Side::white ? up->times : -up->times);
               }},
    ScanColumn{
        "rook_scope_of_up", ColumnType::int32, true, whole,
        "Squares to which the rooks of the side that is the exchange up can safely go; none without such a side, "
        "and when it is the waiter and the mover is in check.",
        [](const Rows& at) {
            const auto& ledger = at.ledger();
            if (!ledger || !ledger->of(ledger->up.side).scope_known) return CellValue{};
            return cell(rook_scope(ledger->of(ledger->up.side)));
        }},
    ScanColumn{"guardian_loss_of_up", ColumnType::int32, true, whole,
               "Squares of its colour complex that slipped from the hands of the side that is the exchange up, since "
               "before the captures that took its minor piece; none where it is not clear which piece that was.",
               [](const Rows& at) {
                   const auto& ledger = at.ledger();
                   return ledger ? cell(guardian_loss(*ledger)) : CellValue{};
               }},
    ScanColumn{"compensation", ColumnType::utf8, true, whole,
               "What the side that gave the exchange has for it: none, some, enough or more_than_enough.",
               [](const Rows& at) {
                   const auto& ledger = at.ledger();
                   return ledger ? text_cell(name(ledger->compensation.level)) : CellValue{};
               }},
    ScanColumn{"exploits", ColumnType::utf8, true, whole,
               "The theme of what the move played wins of what the other side gave; other for a theme without a name.",
               [](const Rows& at) { return theme_of_effect(at, EffectKind::exploited); }},
    ScanColumn{"misses", ColumnType::utf8, true, whole, "The theme of the chance that the move played misses.",
               [](const Rows& at) { return theme_of_effect(at, EffectKind::missed); }},
    ScanColumn{"allows", ColumnType::utf8, true, whole, "The theme of what the move played newly gives the other side.",
               [](const Rows& at) { return theme_of_effect(at, EffectKind::allowed); }},
    ScanColumn{"overlooks", ColumnType::utf8, true, whole,
               "The theme of the threat that the move played does not meet, and that is carried out.",
               [](const Rows& at) { return theme_of_effect(at, EffectKind::overlooked); }},
    ScanColumn{
        "mistake", ColumnType::int32, true, whole,
        "Pawns by which the move played comes out worse than a better one, for its largest mistake, mates apart; 0 "
        "for none; none at the end of the game.",
        [](const Rows& at) { return cell(mistake_of(at)); }},
    ScanColumn{"mate_mistake", ColumnType::int32, true, whole,
               "1 when the move played misses, allows or overlooks a mate; none at the end of the game.",
               [](const Rows& at) { return cell(mate_mistake_of(at)); }},
};

} // namespace

std::span<const ScanColumn> game_columns() noexcept { return game_column_table; }
std::span<const ScanColumn> search_columns() noexcept { return search_column_table; }

CellValue ChosenColumn::value(const GameRows& rows) const {
    switch (group) {
    case ColumnGroup::game: return game_columns()[place].value(rows);
    case ColumnGroup::search: return search_columns()[place].value(rows);
    case ColumnGroup::tag: return rows.game().has_tag(name) ? CellValue{rows.game().tag(name)} : CellValue{};
    case ColumnGroup::vector: break;
    }
    std::array<std::int16_t, feature_count> row;
    feature_vector(rows.position(), row);
    return CellValue{std::int64_t{row[place]}};
}

bool reads_comments(const ChosenColumn& column) noexcept {
    constexpr std::array<std::string_view, 3> readers{"clock", "evaluation", "evaluation_mate_in"};
    return column.group == ColumnGroup::game && detail::contains(readers, column.name);
}

std::optional<ChosenColumn> scan_column(std::string_view name) {
    const auto chosen_from = [&](std::span<const ScanColumn> table, ColumnGroup group) -> std::optional<ChosenColumn> {
        const std::size_t place =
            detail::place_of(table, [&](const ScanColumn& column) { return column.name == name; });
        if (place == table.size()) return std::nullopt;
        const ScanColumn& found = table[place];
        return ChosenColumn{std::string{name}, group, found.type, found.may_be_missing, found.grain, place};
    };
    if (const std::size_t place = feature_column(name); place < feature_count)
        return ChosenColumn{std::string{name}, ColumnGroup::vector, ColumnType::int16, false, {}, place};
    if (auto found = chosen_from(game_columns(), ColumnGroup::game)) return found;
    if (auto found = chosen_from(search_columns(), ColumnGroup::search)) return found;
    if (!name.empty() && name.front() >= 'A' && name.front() <= 'Z')
        return ChosenColumn{std::string{name}, ColumnGroup::tag, ColumnType::utf8, true, {}, 0};
    return std::nullopt;
}

} // namespace keysquare
