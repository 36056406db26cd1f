#include <keysquare/notation/game_file.hpp>

#include <array>
#include <cerrno>
#include <cstdio>
#include <random>
#include <system_error>

#include "compression.hpp"

namespace keysquare {

namespace {

[[noreturn]] void fail_to_write(const std::filesystem::path& path, std::string_view what_the_system_says) {
    throw InputError{Reason::cannot_write, Field::file, 1, what_the_system_says}.in_file(path.string());
}

std::string last_fault_of_system() { return std::generic_category().message(errno); }

/// Where a link leads to, so that the file is replaced and not the link; only files can be replaced.
std::filesystem::path place_to_write(const std::filesystem::path& path) {
    std::error_code fault;
    std::filesystem::path place = std::filesystem::weakly_canonical(path, fault);
    if (fault) fail_to_write(path, fault.message());
    if (!place.has_filename()) fail_to_write(path, "this names no file");
    const std::filesystem::file_status status = std::filesystem::status(place, fault);
    if (std::filesystem::exists(status) && !std::filesystem::is_regular_file(status))
        fail_to_write(path, "there is something else of that name");
    return place;
}

} // namespace

/// The file that grows beside the place where it will go.
class GameFileWriter::File {
  public:
    explicit File(const std::filesystem::path& path)
        : path_(path), place_(place_to_write(path)), transform_(packing_promised_by(path)) {
        constexpr int most_tries = 100;
        std::random_device random;
        for (int tries = 1; !file_; ++tries) {
            temporary_ = place_;
            temporary_ += "." + std::to_string(random()) + ".part";
            file_ = std::fopen(temporary_.string().c_str(), "wbx"); // "x": the file must be new (C11, 7.21.5.3)
            if (!file_ && (errno != EEXIST || tries == most_tries)) fail_to_write(path_, last_fault_of_system());
        }
    }
    File(const File&) = delete;
    File& operator=(const File&) = delete;
    ~File() {
        if (file_) (void)std::fclose(file_); // it was not closed, so nobody wants what is in it
        std::error_code ignored;
        if (!temporary_.empty()) std::filesystem::remove(temporary_, ignored);
    }

    void add(std::string_view bytes) {
        if (transform_)
            pack(bytes, false);
        else
            put(bytes);
    }

    void close() {
        if (transform_) pack({}, true);
        if (std::fclose(std::exchange(file_, nullptr)) != 0) fail_to_write(path_, last_fault_of_system());
        std::error_code fault;
        const std::filesystem::file_status replaced = std::filesystem::status(place_, fault);
        if (std::filesystem::exists(replaced)) // who may read and write it stays as it was
            std::filesystem::permissions(temporary_, replaced.permissions(), fault);
        std::filesystem::rename(temporary_, place_, fault);
        if (fault) fail_to_write(path_, fault.message());
        temporary_.clear();
    }

  private:
    static std::unique_ptr<ByteTransform> packing_promised_by(const std::filesystem::path& path) {
        const Compression format = compression_promised_by(path);
        if (format == Compression::none) return nullptr;
        std::unique_ptr<ByteTransform> transform = packing(format);
        if (!transform) throw InputError{Reason::compression_left_out, Field::file, 1, {}}.in_file(path.string());
        return transform;
    }

    void put(std::string_view bytes) {
        if (std::fwrite(bytes.data(), 1, bytes.size(), file_) != bytes.size())
            fail_to_write(path_, last_fault_of_system());
    }

    void pack(std::string_view bytes, bool last) {
        for (bool ended = false; !bytes.empty() || (last && !ended);) {
            const ByteTransform::Progress progress = transform_->go_on(bytes, packed_, last);
            bytes.remove_prefix(progress.taken);
            ended = progress.ended;
            put({packed_.data(), progress.given});
        }
    }

    std::filesystem::path path_;  // as it was named
    std::filesystem::path place_; // where the file goes
    std::filesystem::path temporary_;
    std::unique_ptr<ByteTransform> transform_;
    std::array<char, std::size_t{1} << 16U> packed_{};
    std::FILE* file_ = nullptr;
};

GameFileWriter::GameFileWriter(const std::filesystem::path& path) : file_(std::make_unique<File>(path)) {}
GameFileWriter::GameFileWriter(GameFileWriter&&) noexcept = default;
GameFileWriter& GameFileWriter::operator=(GameFileWriter&&) noexcept = default;
GameFileWriter::~GameFileWriter() = default;

void GameFileWriter::write(const Game& game) {
    text_.clear();
    write_pgn(game, text_);
    write_text(text_);
}

void GameFileWriter::write_text(std::string_view pgn) {
    file_->add(pgn);
    ++count_;
}

void GameFileWriter::close() {
    file_->close();
    file_.reset();
}

} // namespace keysquare
