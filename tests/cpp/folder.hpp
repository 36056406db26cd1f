// A folder for the files of a test.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <string_view>

namespace keysquare::test {

/// A new folder that goes away with its contents.
class Folder {
  public:
    Folder() : path_(std::filesystem::temp_directory_path() / ("keysquare_" + std::to_string(std::random_device{}()))) {
        std::filesystem::create_directory(path_);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() { std::filesystem::remove_all(path_); }

    [[nodiscard]] std::filesystem::path operator/(std::string_view name) const { return path_ / name; }
    [[nodiscard]] std::size_t file_count() const {
        return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator{path_}, {}));
    }

  private:
    std::filesystem::path path_;
};

inline std::string bytes_of(const std::filesystem::path& path) {
    std::ifstream in{path, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

inline void write_bytes(const std::filesystem::path& path, std::string_view bytes) {
    std::ofstream{path, std::ios::binary} << bytes;
}

} // namespace keysquare::test
