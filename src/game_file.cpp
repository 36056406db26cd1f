#include <keysquare/notation/game_file.hpp>

#include <fstream>
#include <system_error>

namespace keysquare {

namespace {

class FileSource final : public ByteSource {
  public:
    explicit FileSource(std::ifstream file) : file_(std::move(file)), source_(file_) {}

    std::size_t read(char* to, std::size_t size) override { return source_.read(to, size); }

  private:
    std::ifstream file_;
    StreamSource source_;
};

} // namespace

Result<std::unique_ptr<ByteSource>> open_game_file(const std::filesystem::path& path) {
    std::error_code ignored;
    std::ifstream file;
    // A folder opens like a file on some systems, and only reading it fails.
    if (!std::filesystem::is_directory(path, ignored)) file.open(path, std::ios::binary);
    if (!file.is_open()) return InputError{Reason::cannot_open, Field::file, 1, path.filename().string()};
    return std::unique_ptr<ByteSource>{std::make_unique<FileSource>(std::move(file))};
}

Result<PgnReader> read_games(const std::filesystem::path& path, PgnOptions options) {
    Result<std::unique_ptr<ByteSource>> source = open_game_file(path);
    if (!source) return source.error();
    return PgnReader{*std::move(source), options};
}

} // namespace keysquare
