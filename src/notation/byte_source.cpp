#include <keysquare/notation/byte_source.hpp>

#include <istream>

namespace keysquare {

std::size_t StreamSource::read(char* to, std::size_t size) {
    stream_.read(to, static_cast<std::streamsize>(size));
    if (stream_.bad()) detail::raise({Reason::cannot_read, Field::file, 1, {}});
    return static_cast<std::size_t>(stream_.gcount());
}

} // namespace keysquare
